package org.vaneward.policy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Minimum;

/**
 * Rules for opening a pump, compared on the same records: each at its own best setting, its cost
 * expected over the same draws of the lives.
 *
 * <p>{@value #DRAWS} draws. The interval of the full rebuild is that of {@link ExpectedCost} over
 * all draws; that of the mending rule minimises its own expected cost; threshold and interval of
 * the threshold rule are the best at the middle of what is believed. The shop's present practice
 * has no formula: it is simulated, {@value #CYCLES} rebuilds a draw. Limits are not applied: what
 * they cost is another question.
 *
 * @param rows one for each rule, the full rebuild first
 */
public record PolicyComparison(List<Row> rows) {
  /** Draws over which costs are compared. */
  static final int DRAWS = 20;

  /** Simulated rebuilds for each draw. */
  static final int CYCLES = 4000;

  private static final int GRID = 60;
  private static final double SHORTEST_SHARE = 0.05;
  private static final double LONGEST_SHARE = 20;

  public PolicyComparison {
    rows = List.copyOf(rows);
  }

  /** A rule. */
  public enum Rule {
    /** Full rebuild at the interval or at the first failure. */
    FULL_REBUILD("full-rebuild", "full rebuild at the interval or the first failure"),
    /** Full rebuild at the interval, only the failed part renewed before. */
    MEND_BETWEEN("mend-between", "full rebuild at the interval; before it, mend what fails"),
    /** Between the two: what an unplanned opening becomes depends on how long the pump has run. */
    THRESHOLD("threshold", "mend what fails up to a threshold; then as the first"),
    /** No planned rebuild, every failure a full rebuild. */
    TO_FAILURE_REBUILD("run-to-failure-rebuild", "run to failure, then rebuild in full"),
    /** No planned rebuild, every failure mended. */
    TO_FAILURE_MEND("run-to-failure-mend", "run to failure, then mend what failed"),
    /** What the shop's records show. */
    PRACTICE("practice", "what the shop does now");

    private final String key;
    private final String words;

    Rule(String key, String words) {
      this.key = key;
      this.words = words;
    }

    /** The word in machine-readable output. */
    public String key() {
      return key;
    }

    /** The rule as a phrase. */
    public String words() {
      return words;
    }
  }

  /**
   * One rule.
   *
   * @param rule which
   * @param intervalHours its planned interval; empty when none pays, or for a practice
   * @param thresholdHours its threshold, for the rule that has one; infinite for mending for ever
   * @param cost cost per hour, expected, with limits: that of the first rule over all draws, and
   *     what this rule costs more over those compared
   * @param more what it costs per hour more than the first rule, expected, with limits
   * @param chanceCheaper chance that it is cheaper than the first rule
   */
  public record Row(
      Rule rule,
      OptionalDouble intervalHours,
      OptionalDouble thresholdHours,
      Estimate cost,
      Estimate more,
      double chanceCheaper) {}

  /**
   * Compares the rules.
   *
   * @param model the cost model
   * @param best the interval of least expected cost
   * @param practice what the shop does; empty when the records do not show it
   * @param renewals renewal functions worked out so far
   * @param confidence of the limits
   * @param seed of the simulated practice
   */
  public static PolicyComparison of(
      DrawnCostModel model,
      UncertainAdvice best,
      Optional<Policy> practice,
      Renewals renewals,
      double confidence,
      long seed) {
    return new Work(model.first(DRAWS), renewals, confidence).compare(best, practice, seed);
  }

  private static final class Work {
    private final DrawnCostModel model;
    private final double confidence;
    private final Renewals renewals;
    private final CostModel[] models;
    private final List<Row> rows = new ArrayList<>();
    private double[] first = {};

    /** What the first rule is expected to cost over all draws. */
    private double expected;

    Work(DrawnCostModel model, Renewals renewals, double confidence) {
      this.model = model;
      this.renewals = renewals;
      this.confidence = confidence;
      this.models = new CostModel[model.draws()];
      for (int d = 0; d < models.length; d++) {
        models[d] = model.at(d);
      }
    }

    PolicyComparison compare(UncertainAdvice best, Optional<Policy> practice, long seed) {
      DrawnRun run = DrawnRun.fromNew(model);
      double interval = best.intervalHours().orElse(Double.POSITIVE_INFINITY);
      expected = best.costPerHour();
      add(
          Rule.FULL_REBUILD,
          best.intervalHours(),
          OptionalDouble.empty(),
          run.costsPerHour(interval));
      boolean stops = model.positions().stream().anyMatch(DrawnRisk::announces);
      if (stops) {
        mending();
        threshold();
      }
      add(
          Rule.TO_FAILURE_REBUILD,
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          run.costsPerHour(Double.POSITIVE_INFINITY));
      practice.ifPresent(rule -> practice(rule, seed));
      return new PolicyComparison(rows);
    }

    private void mending() {
      BlockCost[] blocks =
          Arrays.stream(models).map(m -> BlockCost.of(m, renewals)).toArray(BlockCost[]::new);
      double[] never =
          Arrays.stream(blocks).mapToDouble(BlockCost::runToFailureCostPerHour).toArray();
      double best = cheapestBlock(blocks);
      double[] costs = at(blocks, best);
      boolean pays = DrawLimits.mean(costs) < DrawLimits.mean(never);
      add(
          Rule.MEND_BETWEEN,
          pays ? OptionalDouble.of(best) : OptionalDouble.empty(),
          OptionalDouble.empty(),
          pays ? costs : never);
      add(Rule.TO_FAILURE_MEND, OptionalDouble.empty(), OptionalDouble.empty(), never);
    }

    private double cheapestBlock(BlockCost[] blocks) {
      double low = Double.POSITIVE_INFINITY;
      double high = 0;
      for (DrawnRisk risk : model.positions()) {
        double middle = risk.life().middle().quantile(0.5);
        low = Math.min(low, SHORTEST_SHARE * middle);
        high = Math.max(high, LONGEST_SHARE * middle);
      }
      Minimum least =
          Minimum.between(
              x -> DrawLimits.mean(at(blocks, Math.exp(x))), Math.log(low), Math.log(high), GRID);
      return Math.exp(least.at());
    }

    private static double[] at(BlockCost[] blocks, double hours) {
      return Arrays.stream(blocks).mapToDouble(b -> b.costPerHour(hours)).toArray();
    }

    private void threshold() {
      ThresholdAdvice best = ThresholdSearch.best(ThresholdCost.of(model.middle(), renewals));
      double threshold = best.thresholdHours();
      double interval = Math.max(threshold, best.intervalHours().orElse(Double.POSITIVE_INFINITY));
      double[] costs =
          Arrays.stream(models)
              .mapToDouble(
                  m ->
                      threshold == Double.POSITIVE_INFINITY
                          ? BlockCost.of(m, renewals).runToFailureCostPerHour()
                          : ThresholdCost.of(m, renewals).costPerHour(threshold, interval))
              .toArray();
      add(Rule.THRESHOLD, best.intervalHours(), OptionalDouble.of(threshold), costs);
    }

    private void practice(Policy rule, long seed) {
      double[] costs = new double[models.length];
      for (int d = 0; d < costs.length; d++) {
        costs[d] = PolicySimulator.run(models[d], rule, CYCLES, seed + d).costPerHour();
      }
      add(Rule.PRACTICE, OptionalDouble.empty(), OptionalDouble.empty(), costs);
    }

    private void add(Rule rule, OptionalDouble interval, OptionalDouble threshold, double[] costs) {
      if (rows.isEmpty()) {
        first = costs;
      }
      double[] more = new double[costs.length];
      int cheaper = 0;
      for (int d = 0; d < costs.length; d++) {
        more[d] = costs[d] - first[d];
        cheaper += more[d] < 0 ? 1 : 0;
      }
      rows.add(
          new Row(
              rule,
              interval,
              threshold,
              moved(DrawLimits.ofMean(costs, confidence), expected - DrawLimits.mean(first)),
              DrawLimits.ofMean(more, confidence),
              (double) cheaper / costs.length));
    }

    private static Estimate moved(Estimate e, double by) {
      return new Estimate(e.estimate() + by, e.lower() + by, e.upper() + by);
    }
  }
}
