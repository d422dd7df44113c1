package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SafeFilesTest {
  @TempDir Path folder = Path.of("unset");

  @Test
  void makesFoldersAndReplaces() throws IOException {
    Path file = folder.resolve("a/b/c.txt");
    SafeFiles.write(file, "old");
    SafeFiles.write(
        file, SafeFiles.Sync.FORCED, out -> out.write("nøw".getBytes(StandardCharsets.UTF_8)));
    assertArrayEquals("nøw".getBytes(StandardCharsets.UTF_8), SafeFiles.read(file));
    assertEquals(1, filesIn(file.resolveSibling("")));
  }

  @Test
  void aFailedWriteLeavesThePreviousFileWholeAndNothingElse() throws IOException {
    Path file = folder.resolve("c.txt");
    SafeFiles.write(file, "old");
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () ->
                SafeFiles.write(
                    file,
                    SafeFiles.Sync.LAZY,
                    out -> {
                      out.write('n');
                      throw new IOException("disk full");
                    }));
    assertEquals(file + ": cannot be written: disk full", e.getMessage());
    assertEquals("old", Files.readString(file));
    assertEquals(1, filesIn(folder));
  }

  @Test
  void saysWhatStandsInTheWay() {
    SafeFiles.write(folder.resolve("file"), "x");
    assertTrue(
        message(() -> SafeFiles.write(folder.resolve("file/below"), "x"))
            .endsWith("a file stands where a folder belongs"));
    assertTrue(message(() -> SafeFiles.write(folder, "x")).endsWith("a folder, not a file"));
    assertTrue(message(() -> SafeFiles.read(folder)).endsWith("a folder, not a file"));
    assertTrue(message(() -> SafeFiles.read(folder.resolve("no"))).endsWith("no such file"));
  }

  private static String message(Runnable action) {
    return String.valueOf(assertThrows(BadInputException.class, action::run).getMessage());
  }

  private static long filesIn(Path where) throws IOException {
    try (Stream<Path> files = Files.list(where)) {
      return files.count();
    }
  }
}
