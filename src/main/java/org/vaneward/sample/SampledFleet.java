package org.vaneward.sample;

import java.util.List;

/**
 * A fleet drawn from a scenario.
 *
 * @param fleet its {@code fleet.json}
 * @param tables its five tables
 * @param truth what is true of it
 * @param drawnLives the life drawn for each part when it was fitted, observed in full or not
 */
public record SampledFleet(
    FleetFile fleet, List<SampleTable> tables, Truth truth, List<DrawnLife> drawnLives) {
  public SampledFleet {
    tables = List.copyOf(tables);
    drawnLives = List.copyOf(drawnLives);
  }

  /**
   * The table in {@code file}.
   *
   * @throws IllegalArgumentException when there is none
   */
  public SampleTable table(String file) {
    return tables.stream()
        .filter(t -> t.file().equals(file))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no table " + file));
  }

  /**
   * The life a part would have had, had its pump kept the service it was fitted in.
   *
   * @param pump asset tag
   * @param component which part
   * @param product product when it was fitted
   * @param duty duty when it was fitted
   * @param lifeFactor factor on the scale from a bad lot or a worsening pump; 1 for most
   * @param lifeHours running hours to failure
   */
  public record DrawnLife(
      String pump,
      String component,
      String product,
      String duty,
      double lifeFactor,
      double lifeHours) {}
}
