package org.vaneward.review.failure;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.IntStream;
import org.vaneward.stats.comparison.ExcessPeriod;

/** Do parts fitted in some stretch of months fail more, as with a bad lot or a new crew? */
final class PeriodQuestions {
  /** With fewer failures no stretch can stand out. */
  private static final double LEAST_FAILURES = 5;

  /** Draws that tell whether anything is left once some parts are out. */
  private static final int SECOND_LOOK = 999;

  private final GroupQuestions groups;
  private final long seed;

  PeriodQuestions(GroupQuestions groups, long seed) {
    this.groups = groups;
    this.seed = seed;
  }

  /** A stretch of months that stands out. */
  private record Stretch(YearMonth from, YearMonth to, double p) {
    boolean holds(YearMonth month) {
      return !month.isBefore(from) && !month.isAfter(to);
    }

    String name() {
      return "fitted " + from + " to " + to;
    }
  }

  /** At most one question: the stretch that stands out most. */
  List<Asked> of(Sample sample) {
    return search(sample, ExcessPeriod.DRAWS)
        .map(stretch -> List.of(question(sample, stretch)))
        .orElseGet(() -> List.of());
  }

  private Asked question(Sample sample, Stretch stretch) {
    Group group = group(sample, stretch);
    return new Asked(
        Topic.PERIOD,
        sample.outcome(),
        sample.component(),
        stretch.name(),
        "",
        stretch.p(),
        () -> groups.evidence(sample, group),
        () -> group.lives(sample),
        lives -> without(sample, lives));
  }

  private OptionalDouble without(Sample sample, Set<String> lives) {
    return search(sample.without(lives), SECOND_LOOK)
        .map(stretch -> OptionalDouble.of(stretch.p()))
        .orElseGet(OptionalDouble::empty);
  }

  private Group group(Sample sample, Stretch stretch) {
    return new Group(
        stretch.name(),
        IntStream.range(0, sample.size()).filter(i -> stretch.holds(month(sample, i))).toArray());
  }

  private static YearMonth month(Sample sample, int i) {
    return YearMonth.from(LocalDate.parse(sample.text("fitted_on", i)));
  }

  private Optional<Stretch> search(Sample sample, int draws) {
    if (sample.failures() < LEAST_FAILURES) {
      return Optional.empty();
    }
    List<YearMonth> months = new ArrayList<>();
    YearMonth first = YearMonth.of(9999, 12);
    YearMonth last = YearMonth.of(1, 1);
    for (int i = 0; i < sample.size(); i++) {
      YearMonth month = month(sample, i);
      months.add(month);
      first = month.isBefore(first) ? month : first;
      last = month.isAfter(last) ? month : last;
    }
    int n = (int) first.until(last, ChronoUnit.MONTHS) + 1;
    double[] observed = new double[n];
    double[] expected = new double[n];
    for (int i = 0; i < sample.size(); i++) {
      int bin = (int) first.until(months.get(i), ChronoUnit.MONTHS);
      observed[bin] += sample.observed(i);
      expected[bin] += sample.expected(i);
    }
    ExcessPeriod found = ExcessPeriod.search(observed, expected, 1, draws, seed);
    return Optional.of(
        new Stretch(first.plusMonths(found.first()), first.plusMonths(found.last()), found.p()));
  }
}
