package org.vaneward.io;

import java.io.BufferedInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipException;

/** Files as they stand, or packed by gzip (RFC 1952) where their name ends so. */
final class PackedFile {
  /** Ending of a packed file. */
  static final String ENDING = ".gz";

  private static final int BUFFER = 1 << 16;

  private PackedFile() {}

  /** The content of {@code file}, unpacked. */
  static InputStream open(Path file) throws IOException {
    if (!file.toString().toLowerCase(Locale.ROOT).endsWith(ENDING)) {
      return Files.newInputStream(file);
    }
    InputStream packed = new BufferedInputStream(Files.newInputStream(file), BUFFER);
    try {
      return new GZIPInputStream(packed, BUFFER);
    } catch (IOException e) {
      packed.close();
      throw e;
    }
  }

  /** What to say of a file that cannot be read. */
  static BadInputException unreadable(String name, Exception e) {
    String why = ": cannot be read; is it a file you may read?";
    Throwable cause = e instanceof UncheckedIOException ? e.getCause() : e;
    if (cause instanceof NoSuchFileException) {
      why = ": no such file";
    } else if (cause instanceof EOFException || cause instanceof ZipException) {
      why = ": cannot be unpacked; it ends too early or is damaged, so pack or copy it again";
    }
    return new BadInputException(name + why, e);
  }
}
