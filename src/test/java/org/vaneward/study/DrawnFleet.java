package org.vaneward.study;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.OptionalLong;
import java.util.function.BiFunction;
import java.util.stream.Stream;
import org.vaneward.sample.Sample;
import org.vaneward.sample.Truth;

/** Fleets drawn from a scenario into a folder that is there only as long as it is looked at. */
final class DrawnFleet {
  private DrawnFleet() {}

  /** What {@code look} makes of the folder of a fleet and of what is true of it. */
  static <T> T look(Path scenario, long seed, BiFunction<Path, Truth, T> look) {
    Path folder = temporary();
    try {
      return look.apply(folder, Sample.write(scenario, folder, OptionalLong.of(seed)).truth());
    } finally {
      delete(folder);
    }
  }

  private static Path temporary() {
    try {
      return Files.createTempDirectory("fleet");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void delete(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      files.sorted(Comparator.reverseOrder()).forEach(DrawnFleet::deleteOne);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void deleteOne(Path path) {
    try {
      Files.delete(path);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
