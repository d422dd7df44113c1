package org.vaneward.sample;

import java.nio.file.Path;
import org.vaneward.io.Json;
import org.vaneward.io.SafeFiles;

/** Writes a sampled fleet as a fleet folder. */
public final class FleetWriter {
  private FleetWriter() {}

  /**
   * Writes {@code fleet.json} and the five tables into {@code folder} and touches nothing else
   * there.
   *
   * @throws org.vaneward.io.BadInputException when a file cannot be written
   */
  public static void write(SampledFleet fleet, Path folder) {
    SafeFiles.write(folder.resolve("fleet.json"), Json.write(fleet.fleet()));
    for (SampleTable table : fleet.tables()) {
      SafeFiles.write(folder.resolve(table.file()), table.csv());
    }
  }

  /**
   * Writes what is true of the fleet as JSON.
   *
   * @throws org.vaneward.io.BadInputException when the file cannot be written
   */
  public static void writeTruth(Truth truth, Path file) {
    SafeFiles.write(file, Json.write(truth));
  }
}
