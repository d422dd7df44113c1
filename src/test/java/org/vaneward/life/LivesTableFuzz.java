package org.vaneward.life;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;

/** A lives table that somebody brings. */
public final class LivesTableFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Path file = folder.write("lives.csv", input);
    return Reading.ends(
        () -> {
          LivesTable lives = LivesTable.read(file);
          long rows =
              RowCount.csv(input, StandardCharsets.UTF_8, Optional.empty(), 1).orElse(lives.rows());
          must(lives.rows() == rows, lives.rows() + " lives where there are " + rows + " rows");
        });
  }
}
