package org.vaneward.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.adopt.Adopter;
import org.vaneward.adopt.Proposal;
import org.vaneward.io.BadInputException;
import org.vaneward.io.SafeFiles;
import org.vaneward.report.AdoptView;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Proposes a mapping for a folder of exports. */
@Command(
    name = "adopt",
    description =
        "Looks at a folder of exports and proposes what their columns, words, days and units mean,"
            + " for you to correct.")
final class AdoptCommand implements Callable<Integer> {
  private static final int NEEDS_ATTENTION = 1;

  @Parameters(index = "0", paramLabel = "FOLDER", description = "folder of the exports")
  private Path folder = Path.of("");

  @Option(
      names = "--draft",
      paramLabel = "FILE",
      description =
          "write the fleet.json proposed there, such as FOLDER/fleet.json; never over a file that"
              + " exists")
  private @Nullable Path draft;

  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    Optional<Path> target = Optional.ofNullable(draft);
    target.ifPresent(AdoptCommand::requireNew);
    Proposal proposal = Adopter.propose(folder, LocalDate.now(ZoneId.systemDefault()), common::say);
    AdoptView view = new AdoptView(proposal);
    common.deliver(view);
    if (target.isPresent()) {
      SafeFiles.write(target.get(), view.draft());
      common.say("wrote the draft to " + target.get());
    }
    return proposal.unsettled().isEmpty() ? 0 : NEEDS_ATTENTION;
  }

  private static void requireNew(Path file) {
    if (Files.exists(file)) {
      throw new BadInputException(
          file + ": exists already, and a draft replaces nothing; give another name");
    }
  }
}
