package org.vaneward.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ThreadLocalRandom;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A folder that a run writes many files into, held until they are all written: a second run into it
 * is refused, since what both leave would be of one run here and of the other there. The system
 * lets go of it when the run is killed; the next run then clears away what it left half-written.
 */
public final class FolderInUse {
  /** Name of the file that is locked meanwhile. */
  static final String NAME = ".being-written";

  private static final int LARGEST = 1 << 14;
  private static final int TRIES = 10;
  private static final int DEEPEST = 3;
  private static final Pattern HALF_WRITTEN = Pattern.compile("\\..+\\.(\\d{1,18})-\\d+\\.tmp");

  private final Path file;
  private final FileChannel channel;

  private FolderInUse(Path file, FileChannel channel) {
    this.file = file;
    this.channel = channel;
  }

  /**
   * What {@code writing} gives, {@code folder} held while it writes.
   *
   * @throws BadInputException when another run holds the folder, or it cannot be written to
   */
  public static <T> T during(Path folder, Supplier<T> writing) {
    List<Path> made = missing(folder);
    FolderInUse held = take(folder);
    try {
      return writing.get();
    } finally {
      held.close();
      made.forEach(FolderInUse::removeEmpty);
    }
  }

  /** The folder and those above it that are not there yet, the innermost first. */
  private static List<Path> missing(Path folder) {
    List<Path> missing = new ArrayList<>();
    @Nullable Path at = folder.toAbsolutePath();
    while (at != null && Files.notExists(at)) {
      missing.add(at);
      at = at.getParent();
    }
    return missing;
  }

  /** A run that wrote nothing leaves no folder behind. */
  private static void removeEmpty(Path folder) {
    try {
      Files.deleteIfExists(folder);
    } catch (IOException e) {
      return; // it holds something, or somebody works in it
    }
  }

  /**
   * Takes {@code folder}, which is made when there is none.
   *
   * @throws BadInputException when another run holds it, or it cannot be written to
   */
  static FolderInUse take(Path folder) {
    try {
      Files.createDirectories(folder);
      for (int i = 0; i < TRIES; i++) {
        @Nullable FolderInUse held = tryTo(folder);
        if (held != null) {
          held.clear(folder);
          return held;
        }
      }
    } catch (IOException e) {
      throw SafeFiles.unwritable(folder, e);
    }
    throw inUse(folder);
  }

  private static BadInputException inUse(Path folder) {
    return new BadInputException(
        folder
            + ": another run is writing into this folder; wait until it has ended, or give another"
            + " folder");
  }

  /** Null when the run that held it took the file away in the same moment. */
  private static @Nullable FolderInUse tryTo(Path folder) throws IOException {
    Path file = folder.resolve(NAME);
    FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    boolean held = false;
    try {
      if (!locks(channel)) {
        throw inUse(folder);
      }
      // The file may have been taken away between opening and locking it; another would then lock
      // another. Told by its size, since to read it would let go of the lock (POSIX, fcntl).
      int size = 1 + ThreadLocalRandom.current().nextInt(LARGEST);
      channel.truncate(0);
      channel.write(ByteBuffer.allocate(size));
      held = sizeOf(file) == size;
      return held ? new FolderInUse(file, channel) : null;
    } finally {
      if (!held) {
        channel.close();
      }
    }
  }

  /** Of a file that others may take away at any moment; none has -1. */
  private static long sizeOf(Path file) throws IOException {
    try {
      return Files.size(file);
    } catch (NoSuchFileException e) {
      return -1;
    }
  }

  private static boolean locks(FileChannel channel) throws IOException {
    try {
      return channel.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      return false; // held within this very process
    }
  }

  /** Takes away what runs that are no more left half-written. */
  private void clear(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder, DEEPEST)) {
      for (Path left : files.filter(FolderInUse::isLeft).toList()) {
        Files.deleteIfExists(left);
      }
    }
  }

  private static boolean isLeft(Path file) {
    Matcher name = HALF_WRITTEN.matcher(String.valueOf(file.getFileName()));
    return name.matches()
        && Files.isRegularFile(file)
        && ProcessHandle.of(Long.parseLong(name.group(1))).isEmpty();
  }

  /** Lets go of the folder. */
  void close() {
    try (channel) {
      remove();
    } catch (IOException e) {
      throw SafeFiles.unwritable(file, e);
    }
  }

  /** While it is still held, lest the file of the next run goes. */
  private void remove() throws IOException {
    try {
      Files.deleteIfExists(file);
    } catch (FileSystemException e) {
      return; // some systems let no open file go; the next run takes it over as it is
    }
  }
}
