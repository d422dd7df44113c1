package org.vaneward.ingest;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;

/** Rebuilds promised before. */
public final class CommittedFileFuzz implements FuzzTarget {
  private static final LocalDate AS_OF = LocalDate.of(2026, 6, 30);
  private static final Set<String> PUMPS = Set.of("P1", "P2", "P3");

  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Path file = folder.write("committed.csv", input);
    return Reading.ends(
        () -> {
          long read = CommittedFile.read(file, AS_OF, PUMPS).size();
          long rows = RowCount.csv(input, StandardCharsets.UTF_8, Optional.empty(), 1).orElse(read);
          must(read == rows, read + " commitments where there are " + rows + " rows");
        });
  }
}
