package org.vaneward.fuzz;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A folder for temporary files that one target writes to over and over. */
public final class ScratchFolder {
  private final Path folder;

  /** A new one; it goes when the JVM ends, if that ends well. */
  public ScratchFolder() {
    try {
      folder = Files.createTempDirectory("fuzz");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Runtime.getRuntime().addShutdownHook(new Thread(this::remove));
  }

  private void remove() {
    try (var files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
      Files.delete(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Where it is. */
  public Path path() {
    return folder;
  }

  /** Writes a file, over the one of that name if there is one. */
  public Path write(String name, byte[] content) throws IOException {
    return Files.write(folder.resolve(name), content);
  }
}
