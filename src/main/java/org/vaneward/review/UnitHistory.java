package org.vaneward.review;

import java.util.List;

/**
 * What happened to one unit while it was watched.
 *
 * @param unit its name
 * @param group the group it belongs to; blank when units are not grouped
 * @param start age from which it was watched
 * @param ages ages at which something happened, rising, after {@code start}
 * @param end age at which watching ended, at or after the last event
 */
public record UnitHistory(String unit, String group, double start, List<Double> ages, double end) {
  public UnitHistory {
    ages = List.copyOf(ages);
  }
}
