package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.vaneward.review.failure.Evidence.Measure;
import org.vaneward.review.failure.PumpRate.TrendOfPump;
import org.vaneward.stats.comparison.RateRatio;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Is a pump getting worse? Its lives are laid end to end in the order in which parts were fitted,
 * in units of the failures to be expected of them. In that time the failures of a pump that stays
 * as it is form a Poisson process of rate one, whatever the ages and services of its parts;
 * Laplace's test asks whether they lie late in it (D. R. Cox and P. A. W. Lewis, The Statistical
 * Analysis of Series of Events, 1966, ch. 3, from memory).
 */
final class PumpQuestions {
  /** Fewer failures show no trend. */
  private static final int LEAST_FAILURES = 3;

  private static final double LEVEL = 0.05;

  private final Sample sample;
  private final double confidence;

  /**
   * Prepares.
   *
   * @param sample failures at any age of all components, by service
   */
  PumpQuestions(Sample sample, double confidence) {
    this.sample = sample;
    this.confidence = confidence;
  }

  /** One question of a trend for each pump with failures enough. */
  List<Asked> trends() {
    List<Asked> asked = new ArrayList<>();
    for (Group group : Group.of(sample, "pump")) {
      Optional<Course> course = course(sample, group);
      if (course.isPresent()) {
        asked.add(
            new Asked(
                Topic.TREND,
                Outcome.LIFE,
                "",
                group.name(),
                group.name(),
                course.get().pWorse(),
                () -> evidence(group, course.get()),
                () -> group.lives(sample),
                lives -> without(group, lives)));
      }
    }
    return asked;
  }

  private OptionalDouble without(Group group, Set<String> lives) {
    Group left =
        group.with(
            Arrays.stream(group.rows()).filter(i -> !lives.contains(sample.life(i))).toArray());
    Optional<Course> course = course(sample, left);
    return course.isPresent() ? OptionalDouble.of(course.get().pWorse()) : OptionalDouble.empty();
  }

  /** The trend of one pump. */
  TrendOfPump trend(Group group) {
    Optional<Course> course = course(sample, group);
    if (course.isEmpty()) {
      return TrendOfPump.UNKNOWN;
    }
    double p = course.get().pWorse();
    return p <= LEVEL
        ? TrendOfPump.WORSE
        : p >= 1 - LEVEL ? TrendOfPump.BETTER : TrendOfPump.STEADY;
  }

  OptionalDouble trendP(Group group) {
    return course(sample, group).stream().mapToDouble(Course::pWorse).findFirst();
  }

  private Evidence evidence(Group group, Course course) {
    RateRatio ratio =
        RateRatio.builder(1)
            .add(course.late, 0.5, course.early, 0.5)
            .confidence(confidence)
            .compare();
    return new Evidence(
        course.late,
        (course.late + course.early) / 2,
        Measure.LATE_TO_EARLY,
        ((RateRatio.Compared) ratio).ratio(),
        Optional.empty(),
        OptionalDouble.empty(),
        "",
        sample.records(group.rows()));
  }

  /**
   * How the failures of a pump lie.
   *
   * @param z Laplace's statistic, positive when they lie late
   * @param early failures in the first half
   * @param late failures in the second
   */
  private record Course(double z, double early, double late) {
    double pWorse() {
      return Quantiles.normalShare(-z);
    }
  }

  private static Optional<Course> course(Sample sample, Group group) {
    double failures = group.observed(sample);
    double end = group.expected(sample);
    if (failures < LEAST_FAILURES || !(end > 0)) {
      return Optional.empty();
    }
    Integer[] order = Arrays.stream(group.rows()).boxed().toArray(Integer[]::new);
    Arrays.sort(
        order,
        Comparator.comparing((Integer i) -> sample.text("fitted_on", i))
            .thenComparing(i -> sample.life(i)));
    double at = 0;
    double sum = 0;
    double late = 0;
    for (int i : order) {
      at += sample.expected(i);
      sum += sample.observed(i) * at;
      late += at > end / 2 ? sample.observed(i) : 0;
    }
    double z = (sum - failures * end / 2) / (end * Math.sqrt(failures / 12));
    return Optional.of(new Course(z, failures - late, late));
  }
}
