package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.Numbers;
import org.vaneward.stats.Observations;
import org.vaneward.stats.comparison.FalseDiscovery;
import org.vaneward.stats.comparison.LogRank;
import org.vaneward.stats.comparison.RateRatio;
import org.vaneward.stats.comparison.RateSlope;

/** Puts the groups of a column side by side. */
final class Comparer {
  /** A column that varies less than this within strata, of its whole variance, is part of them. */
  private static final double LEAST_WITHIN = 0.02;

  private final Parts parts;
  private final GroupQuestions questions;
  private final double confidence;

  Comparer(Parts parts, GroupQuestions questions, double confidence) {
    this.parts = parts;
    this.questions = questions;
    this.confidence = confidence;
  }

  /** Whether all that is written in a column is numbers, and more than a few different ones. */
  boolean isNumber(Sample sample, String column) {
    boolean any = false;
    for (int i = 0; i < sample.size(); i++) {
      String text = sample.text(column, i);
      if (!text.isEmpty()) {
        any = true;
        if (!Numbers.isNumber(text)) {
          return false;
        }
      }
    }
    return any;
  }

  /**
   * Failures at any age by column, adjusted for as much of the service as leaves room to compare.
   */
  Comparison life(String component, String column) {
    for (Strata strata : List.of(Strata.SERVICE, Strata.PRODUCT, Strata.DUTY, Strata.COMPONENT)) {
      Sample sample = parts.life(component, strata);
      if (strata == Strata.COMPONENT || leavesRoom(sample, column)) {
        return compare(sample, column, strata);
      }
    }
    throw new IllegalStateException("the last of the strata always leaves room");
  }

  private boolean leavesRoom(Sample sample, String column) {
    return isNumber(sample, column)
        ? within(sample, Bands.numbers(sample, column)) >= LEAST_WITHIN
        : Group.of(sample, column).stream()
            .anyMatch(
                g -> g.against(sample).withoutLimits().compare() instanceof RateRatio.Compared);
  }

  /** Share of the variance of a number, failures expected as weights, that lies within strata. */
  private static double within(Sample sample, double[] x) {
    double[] weight = new double[sample.strata() + 1];
    double[] sum = new double[sample.strata() + 1];
    double[] squares = new double[sample.strata() + 1];
    for (int i = 0; i < x.length; i++) {
      for (int s :
          Double.isNaN(x[i]) ? new int[0] : new int[] {sample.stratum(i), sample.strata()}) {
        weight[s] += sample.expected(i);
        sum[s] += sample.expected(i) * x[i];
        squares[s] += sample.expected(i) * x[i] * x[i];
      }
    }
    double inside = 0;
    for (int s = 0; s < sample.strata(); s++) {
      inside += weight[s] > 0 ? squares[s] - sum[s] * sum[s] / weight[s] : 0;
    }
    int all = sample.strata();
    double total = weight[all] > 0 ? squares[all] - sum[all] * sum[all] / weight[all] : 0;
    return total > 0 ? inside / total : 0;
  }

  /** The groups, or bands, of a column of a sample. */
  Comparison compare(Sample sample, String column, Strata strata) {
    boolean number = isNumber(sample, column);
    List<Group> groups = number ? Bands.of(sample, column) : Group.of(sample, column);
    Sample known = Group.known(sample, groups);
    List<Group> again = number ? Bands.of(known, column) : Group.of(known, column);
    List<Comparison.Row> rows = again.stream().map(g -> row(known, g)).toList();
    return new Comparison(
        sample.component(),
        column,
        sample.outcome(),
        strata,
        rows,
        sample.outcome() == Outcome.LIFE ? logRank(known, again) : OptionalDouble.empty(),
        number ? slope(known, column) : Optional.empty());
  }

  private Comparison.Row row(Sample sample, Group group) {
    double lives = group.lives(sample).size();
    RateRatio compared = group.against(sample).confidence(confidence).compare();
    Optional<RateRatio.Compared> ratio =
        compared instanceof RateRatio.Compared c ? Optional.of(c) : Optional.empty();
    return new Comparison.Row(
        group.name(),
        lives,
        group.observed(sample),
        compared.observed(),
        compared.expected(),
        ratio.map(RateRatio.Compared::ratio),
        ratio.flatMap(c -> questions.lifeRatio(sample, c.ratio())),
        ratio.stream().mapToDouble(RateRatio.Compared::p).findFirst(),
        OptionalDouble.empty());
  }

  private Optional<Comparison.Slope> slope(Sample sample, String column) {
    return GroupQuestions.slope(sample, column, confidence) instanceof RateSlope.Fitted f
        ? Optional.of(
            new Comparison.Slope(f.ratio(), questions.lifeRatio(sample, f.ratio()), f.p()))
        : Optional.empty();
  }

  private static OptionalDouble logRank(Sample sample, List<Group> groups) {
    List<Observations> lives = new ArrayList<>();
    List<int[]> strata = new ArrayList<>();
    for (Group group : groups) {
      lives.add(sample.observations(group.rows()));
      strata.add(Arrays.stream(group.rows()).map(sample::stratum).toArray());
    }
    return LogRank.of(lives, strata) instanceof LogRank.Tested tested
        ? OptionalDouble.of(tested.p())
        : OptionalDouble.empty();
  }

  /** The comparisons with p-values adjusted over all of their rows. */
  static List<Comparison> adjusted(List<Comparison> comparisons) {
    double[] p =
        comparisons.stream()
            .flatMap(c -> c.rows().stream())
            .flatMapToDouble(r -> r.p().stream())
            .toArray();
    double[] adjusted = FalseDiscovery.adjusted(p);
    int[] next = {0};
    return comparisons.stream()
        .map(
            c ->
                new Comparison(
                    c.component(),
                    c.column(),
                    c.outcome(),
                    c.strata(),
                    c.rows().stream()
                        .map(r -> r.p().isPresent() ? r.withAdjustedP(adjusted[next[0]++]) : r)
                        .toList(),
                    c.logRank(),
                    c.slope()))
        .toList();
  }
}
