package org.vaneward.stats.recurrence;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.vaneward.stats.numeric.Quantiles;

/**
 * The difference between the mean cumulative functions of two groups with no unit in common, at
 * chosen ages: the robust variances add, the limits are symmetric about the difference (W. Nelson,
 * Recurrent Events Data Analysis, 2003, ch. 4, from memory).
 *
 * @param points the ages at which both groups were watched, as given
 * @param unwatched ages beyond the end of observation of one of the groups, at which nothing can be
 *     said
 */
public record MeanCumulativeDifference(List<Point> points, List<Double> unwatched) {
  /**
   * The difference at one age.
   *
   * @param age the age
   * @param first mean number of events of a unit of the first group
   * @param second mean number of events of a unit of the second group
   * @param difference first less second
   * @param stdError its robust standard error; 0 when no unit differs from its group
   * @param lower lower limit; minus infinity when no unit differs from its group
   * @param upper upper limit; infinity when no unit differs from its group
   * @param p two-sided, that the difference is 0; 1 when nothing can be said
   */
  public record Point(
      double age,
      double first,
      double second,
      double difference,
      double stdError,
      double lower,
      double upper,
      double p) {}

  /**
   * The difference between two groups of several.
   *
   * @param first name of the first
   * @param second name of the second
   * @param difference first less second
   */
  public record Pair(String first, String second, MeanCumulativeDifference difference) {}

  /** Copies. */
  public MeanCumulativeDifference {
    points = List.copyOf(points);
    unwatched = List.copyOf(unwatched);
  }

  /**
   * First less second.
   *
   * @param confidence of two-sided limits, between 0 and 1
   * @param ages at which to compare, each 0 or more
   * @throws IllegalArgumentException when a number is out of its range
   */
  public static MeanCumulativeDifference of(
      EventHistories first, EventHistories second, double confidence, double... ages) {
    return of(
        MeanCumulativeFunction.of(first, confidence),
        MeanCumulativeFunction.of(second, confidence),
        confidence,
        ages);
  }

  private static MeanCumulativeDifference of(
      MeanCumulativeFunction first,
      MeanCumulativeFunction second,
      double confidence,
      double... ages) {
    double z = Quantiles.twoSidedNormal(confidence);
    List<Point> points = new ArrayList<>();
    List<Double> unwatched = new ArrayList<>();
    for (double age : ages) {
      if (first.watched(age) && second.watched(age)) {
        points.add(point(first, second, z, age));
      } else {
        unwatched.add(age);
      }
    }
    return new MeanCumulativeDifference(points, unwatched);
  }

  /**
   * Every group against every later one, in the order of the map.
   *
   * @param groups histories by the name of their group
   * @throws IllegalArgumentException when a number is out of its range
   */
  public static List<Pair> pairwise(
      Map<String, EventHistories> groups, double confidence, double... ages) {
    List<String> names = new ArrayList<>();
    List<MeanCumulativeFunction> functions = new ArrayList<>();
    groups.forEach(
        (name, histories) -> {
          names.add(name);
          functions.add(MeanCumulativeFunction.of(histories, confidence));
        });
    List<Pair> pairs = new ArrayList<>();
    for (int a = 0; a < names.size(); a++) {
      for (int b = a + 1; b < names.size(); b++) {
        MeanCumulativeDifference difference =
            of(functions.get(a), functions.get(b), confidence, ages);
        pairs.add(new Pair(names.get(a), names.get(b), difference));
      }
    }
    return List.copyOf(pairs);
  }

  private static Point point(
      MeanCumulativeFunction first, MeanCumulativeFunction second, double z, double age) {
    double a = first.meanAt(age);
    double b = second.meanAt(age);
    double error = Math.sqrt(first.varianceAt(age) + second.varianceAt(age));
    double half = error > 0 ? z * error : Double.POSITIVE_INFINITY;
    double p = error > 0 ? 2 * Quantiles.normalShare(-Math.abs(a - b) / error) : 1;
    return new Point(age, a, b, a - b, error, a - b - half, a - b + half, p);
  }
}
