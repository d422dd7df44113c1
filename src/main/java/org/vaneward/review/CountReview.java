package org.vaneward.review;

import java.nio.file.Path;
import java.util.List;
import org.vaneward.review.CountTable.UnitCount;
import org.vaneward.stats.comparison.GammaPoisson;

/**
 * Counts of failures with the time each unit was watched, and how much of their spread is more than
 * chance.
 *
 * @param units names of the units, in the order of the table
 * @param fit rates of the units drawn towards the fleet's
 */
public record CountReview(List<String> units, GammaPoisson fit) {
  public CountReview {
    units = List.copyOf(units);
  }

  /**
   * Reviews a table of counts.
   *
   * @param confidence of two-sided limits
   * @throws org.vaneward.io.BadInputException when the file cannot be used
   */
  public static CountReview of(Path file, double confidence) {
    List<UnitCount> counts = CountTable.read(file);
    double[] count = counts.stream().mapToDouble(UnitCount::count).toArray();
    double[] exposure = counts.stream().mapToDouble(UnitCount::exposure).toArray();
    return new CountReview(
        counts.stream().map(UnitCount::unit).toList(),
        GammaPoisson.fit(count, exposure, confidence));
  }
}
