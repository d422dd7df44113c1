package org.vaneward.chart;

/**
 * What an axis shows.
 *
 * @param min left or lower end
 * @param max right or upper end, above {@code min}
 */
record Range(double min, double max) {
  Range {
    Guard.finite("the start of an axis", min);
    Guard.finite("the end of an axis", max);
    if (!(min < max)) {
      throw new IllegalArgumentException("an axis runs upwards, not from " + min + " to " + max);
    }
  }

  boolean holds(double value) {
    return value >= min && value <= max;
  }

  double clamp(double value) {
    return Math.max(min, Math.min(max, value));
  }

  double length() {
    return max - min;
  }
}
