package org.vaneward.adopt;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.ScratchFolder;
import org.vaneward.fuzz.Sections;
import org.vaneward.ingest.FleetJson;
import org.vaneward.io.Json;

/**
 * A folder of exports. The input holds them, each after a line {@code === name}. Every file is
 * either found to hold a table or named as one that was not read, and the draft is a document that
 * can be read again.
 */
public final class AdopterFuzz implements FuzzTarget {
  private static final LocalDate TODAY = LocalDate.of(2026, 7, 1);
  private static final List<String> NAMES =
      List.of("a.csv", "b.csv", "c.txt", "d.jsonl", "rebuilds.csv", "fleet.json");

  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    empty();
    Map<String, byte[]> files = Sections.of(input);
    for (String name : NAMES) {
      if (files.containsKey(name)) {
        folder.write(name, files.getOrDefault(name, new byte[0]));
      }
    }
    return Reading.ends(() -> check(files));
  }

  private void check(Map<String, byte[]> files) {
    Proposal proposal = Adopter.propose(folder.path(), TODAY, remark -> {});
    for (String name : NAMES) {
      boolean found = proposal.sources().stream().anyMatch(s -> s.name().startsWith(name));
      must(
          !files.containsKey(name)
              || name.equals("fleet.json")
              || found
              || proposal.unread().containsKey(name),
          name + " is neither read nor named");
    }
    FleetJson again = Json.read("draft", Json.write(proposal.draft()), FleetJson.class);
    must(again.equals(proposal.draft()), "the draft reads as another");
  }

  private void empty() throws IOException {
    try (Stream<Path> files = Files.list(folder.path())) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
  }
}
