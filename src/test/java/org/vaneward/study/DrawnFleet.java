package org.vaneward.study;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.OptionalLong;
import java.util.function.BiFunction;
import java.util.stream.Stream;
import org.vaneward.sample.FleetSampler;
import org.vaneward.sample.FleetWriter;
import org.vaneward.sample.Sample;
import org.vaneward.sample.SampledFleet;
import org.vaneward.sample.Scenario;
import org.vaneward.sample.Truth;

/** Fleets drawn from a scenario into a folder that is there only as long as it is looked at. */
final class DrawnFleet {
  private DrawnFleet() {}

  /** What {@code look} makes of the folder of a fleet and of what is true of it. */
  static <T> T look(Path scenario, long seed, BiFunction<Path, Truth, T> look) {
    return look(Sample.draw(scenario, OptionalLong.of(seed)), look);
  }

  /** The same, of a scenario that is in no file. */
  static <T> T look(Scenario scenario, BiFunction<Path, Truth, T> look) {
    return look(FleetSampler.draw(scenario), look);
  }

  private static <T> T look(SampledFleet fleet, BiFunction<Path, Truth, T> look) {
    Path folder = temporary();
    try {
      FleetWriter.write(fleet, folder);
      return look.apply(folder, fleet.truth());
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
