package org.vaneward.io;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Whole files in and out. A file is written under a temporary name in its own folder and then moved
 * into place, so an interrupted run leaves the previous file whole; missing folders are made.
 */
public final class SafeFiles {
  private static final AtomicLong SERIAL = new AtomicLong();

  private SafeFiles() {}

  /** What writes the body of a file. */
  @FunctionalInterface
  public interface Body {
    /** Writes everything to {@code out}, which the caller closes. */
    void writeTo(OutputStream out) throws IOException;
  }

  /** Whether a file must have reached the disk before it is moved into place. */
  public enum Sync {
    /** The system writes it when it likes. */
    LAZY,
    /** Forced to the disk first. */
    FORCED
  }

  /**
   * All bytes of {@code file}.
   *
   * @throws BadInputException when it cannot be read
   */
  public static byte[] read(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      String why = Files.isDirectory(file) ? "a folder, not a file" : reason(e);
      throw new BadInputException(file + ": cannot be read: " + why, e);
    }
  }

  /**
   * Writes {@code text} in UTF-8.
   *
   * @throws BadInputException when it cannot be written
   */
  public static void write(Path file, String text) {
    write(file, text.getBytes(StandardCharsets.UTF_8));
  }

  /**
   * Writes {@code bytes}.
   *
   * @throws BadInputException when they cannot be written
   */
  public static void write(Path file, byte[] bytes) {
    write(file, Sync.LAZY, out -> out.write(bytes));
  }

  /**
   * Writes what {@code body} writes; nothing is left behind when it fails.
   *
   * @throws BadInputException when it cannot be written
   */
  public static void write(Path file, Sync sync, Body body) {
    Path target = file.toAbsolutePath();
    Path folder = target.getParent();
    Path name = target.getFileName();
    if (folder == null || name == null || Files.isDirectory(target)) {
      throw new BadInputException(file + ": cannot be written: a folder, not a file");
    }
    Path temporary = folder.resolve("." + name + "." + uniqueSuffix() + ".tmp");
    try {
      Files.createDirectories(folder);
      try {
        fill(temporary, sync, body);
        moveInto(target, temporary);
      } finally {
        Files.deleteIfExists(temporary);
      }
    } catch (IOException | UncheckedIOException e) {
      throw unwritable(file, e);
    }
  }

  /** What to say of a file that cannot be written. */
  static BadInputException unwritable(Path file, Exception e) {
    return new BadInputException(file + ": cannot be written: " + reason(e), e);
  }

  private static String uniqueSuffix() {
    return ProcessHandle.current().pid() + "-" + SERIAL.incrementAndGet();
  }

  private static void fill(Path temporary, Sync sync, Body body) throws IOException {
    try (FileChannel channel =
            FileChannel.open(temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel))) {
      body.writeTo(out);
      out.flush();
      if (sync == Sync.FORCED) {
        channel.force(true);
      }
    }
  }

  private static void moveInto(Path target, Path temporary) throws IOException {
    try {
      Files.move(temporary, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static String reason(Exception e) {
    if (e instanceof UncheckedIOException && e.getCause() instanceof IOException cause) {
      return reason(cause);
    }
    if (e instanceof NoSuchFileException) {
      return "no such file";
    }
    if (e instanceof AccessDeniedException) {
      return "access denied";
    }
    if (e instanceof FileAlreadyExistsException || e instanceof NotDirectoryException) {
      return "a file stands where a folder belongs";
    }
    String message = e.getMessage();
    return message == null || message.isBlank() ? e.getClass().getSimpleName() : message;
  }
}
