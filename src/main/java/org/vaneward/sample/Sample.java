package org.vaneward.sample;

import java.nio.file.Path;
import java.util.OptionalLong;
import org.vaneward.io.BadInputException;

/** From a scenario file to a fleet folder. */
public final class Sample {
  private Sample() {}

  /**
   * Draws the fleet of the scenario in {@code scenarioFile}.
   *
   * @param seedOverride random seed to use in place of the scenario's
   * @throws BadInputException when the scenario cannot be read or contradicts itself
   */
  public static SampledFleet draw(Path scenarioFile, OptionalLong seedOverride) {
    Scenario scenario = Scenario.read(scenarioFile);
    try {
      return FleetSampler.draw(
          seedOverride.isPresent() ? scenario.withSeed(seedOverride.getAsLong()) : scenario);
    } catch (IllegalArgumentException e) {
      throw new BadInputException(scenarioFile + ": " + e.getMessage(), e);
    }
  }

  /**
   * Draws the fleet and writes its six files into {@code outFolder}.
   *
   * @throws BadInputException as {@link #draw}, or when a file cannot be written
   */
  public static SampledFleet write(Path scenarioFile, Path outFolder, OptionalLong seedOverride) {
    SampledFleet fleet = draw(scenarioFile, seedOverride);
    FleetWriter.write(fleet, outFolder);
    return fleet;
  }
}
