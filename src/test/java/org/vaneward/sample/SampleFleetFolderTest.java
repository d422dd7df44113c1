package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The committed sample fleet is what its scenario draws, byte for byte. */
class SampleFleetFolderTest {
  private static final Path COMMITTED = Path.of("sample-fleet");
  private static final List<String> FILES =
      List.of(
          "fleet.json",
          "pumps.csv",
          "services.csv",
          "readings.csv",
          "rebuilds.csv",
          "findings.csv");

  @TempDir Path folder = Path.of("unset");

  @Test
  void committedFilesAreWhatTheScenarioDraws() throws IOException {
    Sample.write(Samples.SIX, folder, OptionalLong.empty());
    for (String file : FILES) {
      assertArrayEquals(
          Files.readAllBytes(COMMITTED.resolve(file)),
          Files.readAllBytes(folder.resolve(file)),
          file);
    }
    try (Stream<Path> written = Files.list(folder)) {
      assertEquals(FILES.size(), written.count());
    }
  }

  @Test
  void linesEndInLineFeedsAndTheFolderStaysSmall() throws IOException {
    long total = 0;
    for (String file : FILES) {
      String text = Files.readString(COMMITTED.resolve(file));
      assertFalse(text.contains("\r"), file);
      assertTrue(text.endsWith("\n"), file);
      total += Files.size(COMMITTED.resolve(file));
    }
    assertTrue(total < 3_000_000, "bytes: " + total);
  }

  @Test
  void drawingLeavesOtherFilesAlone() throws IOException {
    Files.writeString(folder.resolve("README.md"), "mine");
    Sample.write(Samples.SMALL, folder, OptionalLong.empty());
    assertEquals("mine", Files.readString(folder.resolve("README.md")));
  }

  @Test
  void anotherSeedDrawsAnotherFleet() throws IOException {
    Path one = folder.resolve("one");
    Path two = folder.resolve("two");
    Sample.write(Samples.SMALL, one, OptionalLong.empty());
    SampledFleet other = Sample.write(Samples.SMALL, two, OptionalLong.of(99));
    assertEquals(99, other.truth().seed());
    assertFalse(
        Arrays.equals(
            Files.readAllBytes(one.resolve("rebuilds.csv")),
            Files.readAllBytes(two.resolve("rebuilds.csv"))));
  }
}
