package org.vaneward.review;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;

/** A table of counts. */
public final class CountTableFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Path file = folder.write("counts.csv", input);
    return Reading.ends(
        () -> {
          long read = CountTable.read(file).size();
          long rows = RowCount.csv(input, StandardCharsets.UTF_8, Optional.empty(), 1).orElse(read);
          must(read == rows, read + " counts where there are " + rows + " rows");
        });
  }
}
