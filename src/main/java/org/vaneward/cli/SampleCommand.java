package org.vaneward.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.FolderInUse;
import org.vaneward.sample.FleetWriter;
import org.vaneward.sample.Sample;
import org.vaneward.sample.SampledFleet;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Draws a fleet of known truth. */
@Command(
    name = "sample",
    description =
        "Draws a fleet of known truth from a scenario and writes its records; the same seed gives the same bytes.")
final class SampleCommand implements Callable<Integer> {
  @Parameters(
      index = "0",
      paramLabel = "SCENARIO",
      description = "scenario, such as seeds/depots-six.json")
  private Path scenario = Path.of("");

  @Option(
      names = "--truth",
      paramLabel = "FILE",
      description = "also write the true lives and every planted flaw and cause there, as JSON")
  private @Nullable Path truth;

  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    Path folder = common.folder("sample", "fleet.json and five CSV tables");
    Long seed = common.seed;
    OptionalLong stated = seed == null ? OptionalLong.empty() : OptionalLong.of(seed);
    SampledFleet fleet = FolderInUse.during(folder, () -> Sample.write(scenario, folder, stated));
    Optional.ofNullable(truth).ifPresent(file -> FleetWriter.writeTruth(fleet.truth(), file));
    common.say("wrote fleet.json and five tables to " + folder);
    return 0;
  }
}
