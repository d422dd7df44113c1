package org.vaneward.review;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;

/** A table of recurring events, its units in groups where the first character is {@code g}. */
public final class EventTableFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Optional<String> by =
        input.length > 0 && input[0] == 'g' ? Optional.of("group") : Optional.empty();
    Path file = folder.write("events.csv", input);
    return Reading.ends(
        () -> {
          List<UnitHistory> units = EventTable.read(file, by);
          long read = units.stream().mapToLong(unit -> unit.ages().size() + 1L).sum();
          long rows = RowCount.csv(input, StandardCharsets.UTF_8, Optional.empty(), 1).orElse(read);
          must(read == rows, read + " events and ends where there are " + rows + " rows");
        });
  }
}
