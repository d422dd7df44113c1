package org.vaneward.policy;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Minimum;

/**
 * Long-run cost per running hour of the policy of {@link CostRate} when lives are uncertain: the
 * mean over the draws of each draw's cost rate, and the interval at which that mean is least.
 *
 * <p>The interval is what minimises the posterior expectation of the cost rate (the Bayes action
 * for a planner who minds money; J. O. Berger, Statistical Decision Theory and Bayesian Analysis,
 * 2nd edition 1985, ch. 1, from memory), not the cost rate at a fitted value. All valleys between
 * the edges of {@link DrawnRun} are compared, and running to failure.
 */
public final class ExpectedCost {
  /** Share of the cost of running to failure that counts as a saving worth the name. */
  public static final double MATERIAL = 0.01;

  private final DrawnRun run;
  private final double[] edges;
  private final double[] expected;
  private final double confidence;

  private ExpectedCost(DrawnRun run, double confidence) {
    this.run = run;
    this.edges = run.edges();
    this.expected = Arrays.stream(edges).map(run::expectedCostPerHour).toArray();
    this.confidence = confidence;
  }

  /**
   * The expected cost of {@code model}.
   *
   * @param confidence of the limits, between 0 and 1
   */
  public static ExpectedCost of(DrawnCostModel model, double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    return new ExpectedCost(DrawnRun.fromNew(model), confidence);
  }

  /** The run behind it, all parts new. */
  public DrawnRun run() {
    return run;
  }

  /** Expected cost per hour with a planned rebuild at {@code hours}; infinite: to failure. */
  public double costPerHour(double hours) {
    return run.expectedCostPerHour(hours);
  }

  /** The cost per hour at {@code hours}: expected, with limits over the draws. */
  public Estimate at(double hours) {
    return estimate(run.costsPerHour(hours));
  }

  /** What an interval saves per hour against running to failure: expected, with limits. */
  public Estimate saving(double hours) {
    return estimate(less(run.costsPerHour(Double.POSITIVE_INFINITY), run.costsPerHour(hours)));
  }

  /** The interval of least expected cost, and how sure it is. */
  public UncertainAdvice best() {
    double hours = cheapest();
    double[] never = run.costsPerHour(Double.POSITIVE_INFINITY);
    double toFailure = DrawLimits.mean(never);
    boolean pays = toFailure - costPerHour(hours) >= IntervalSearch.LEAST_SAVING * toFailure;
    double chosen = pays ? hours : Double.POSITIVE_INFINITY;
    double[] at = pays ? run.costsPerHour(chosen) : never;
    Own own = own(never);
    return new UncertainAdvice(
        pays ? OptionalDouble.of(hours) : OptionalDouble.empty(),
        estimate(at),
        estimate(never),
        estimate(less(never, at)),
        pays ? Optional.of(window(hours, DrawLimits.mean(at), toFailure)) : Optional.empty(),
        pays ? run.expectedSurvival(hours) : 0,
        share(less(never, at), 0),
        share(own.savedShare, MATERIAL),
        Math.max(0, DrawLimits.mean(less(at, own.cost))),
        median(own.interval),
        ageing(),
        pays ? Optional.empty() : Optional.of(reason()));
  }

  /** The least cost per hour in each draw, at the interval that draw would choose. */
  public List<Double> leastByDraw() {
    return Arrays.stream(own(run.costsPerHour(Double.POSITIVE_INFINITY)).cost).boxed().toList();
  }

  /** The best place but for running to failure. */
  private double cheapest() {
    double best = edges[0];
    double least = Double.POSITIVE_INFINITY;
    for (int j = 0; j < edges.length; j++) {
      boolean valley =
          (j == 0 || expected[j] <= expected[j - 1])
              && (j == edges.length - 1 || expected[j] <= expected[j + 1]);
      if (valley) {
        Minimum closed = closeIn(run::expectedCostPerHour, j);
        if (closed.value() < least) {
          least = closed.value();
          best = Math.exp(closed.at());
        }
      }
    }
    return best;
  }

  /** The least cost between the edges beside edge {@code j}, by log hours. */
  private Minimum closeIn(DoubleUnaryOperator cost, int j) {
    return Minimum.between(
        x -> cost.applyAsDouble(Math.exp(x)),
        Math.log(edges[Math.max(j - 1, 0)]),
        Math.log(edges[Math.min(j + 1, edges.length - 1)]),
        3);
  }

  private Window window(double hours, double least, double never) {
    return new CostWindow(
            run::expectedCostPerHour, edges, expected, (1 + IntervalSearch.WINDOW_SHARE) * least)
        .around(hours, run.model().plannedCost(), never);
  }

  /** What each draw would choose for itself, what that costs and what it saves. */
  private static final class Own {
    private final double[] interval;
    private final double[] cost;
    private final double[] savedShare;

    Own(int draws) {
      interval = new double[draws];
      cost = new double[draws];
      savedShare = new double[draws];
    }
  }

  private Own own(double[] never) {
    int draws = run.draws();
    Own own = new Own(draws);
    for (int d = 0; d < draws; d++) {
      int draw = d;
      int best = 0;
      double least = Double.POSITIVE_INFINITY;
      for (int j = 0; j < edges.length; j++) {
        double one = run.costPerHour(d, edges[j]);
        if (one < least) {
          least = one;
          best = j;
        }
      }
      Minimum closed = closeIn(hours -> run.costPerHour(draw, hours), best);
      boolean pays = never[d] - closed.value() >= IntervalSearch.LEAST_SAVING * never[d];
      own.interval[d] = pays ? Math.exp(closed.at()) : Double.POSITIVE_INFINITY;
      own.cost[d] = pays ? closed.value() : never[d];
      own.savedShare[d] = pays ? 1 - closed.value() / never[d] : 0;
    }
    return own;
  }

  private List<UncertainAdvice.Ageing> ageing() {
    Map<String, Double> found = new LinkedHashMap<>();
    for (DrawnRisk risk : run.model().positions()) {
      if (risk.announces()) {
        found.merge(risk.component(), rises(risk.life()), Math::max);
      }
    }
    return found.entrySet().stream()
        .map(e -> new UncertainAdvice.Ageing(e.getKey(), e.getValue()))
        .toList();
  }

  private static double rises(LifeDraws life) {
    int rising = 0;
    for (int d = 0; d < life.size(); d++) {
      rising += life.shape(d) > 1 ? 1 : 0;
    }
    return (double) rising / life.size();
  }

  private NoInterval reason() {
    double planned = run.model().plannedCost();
    boolean anyHidden = run.model().positions().stream().anyMatch(r -> r.hiddenCostPerHour() > 0);
    boolean anyDearer =
        run.model().positions().stream()
            .anyMatch(r -> r.announces() && r.unplannedCost() > planned);
    if (anyDearer && ageing().stream().noneMatch(UncertainAdvice.Ageing::likely)) {
      return NoInterval.HAZARDS_DO_NOT_RISE;
    }
    return anyDearer || anyHidden ? NoInterval.SAVING_NEGLIGIBLE : NoInterval.STOPS_COST_NO_MORE;
  }

  private static double[] less(double[] a, double[] b) {
    double[] difference = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      difference[i] = a[i] - b[i];
    }
    return difference;
  }

  private static double share(double[] x, double above) {
    return (double) Arrays.stream(x).filter(one -> one > above).count() / x.length;
  }

  private Estimate estimate(double[] x) {
    return DrawLimits.ofMean(x, confidence);
  }

  private Estimate median(double[] x) {
    return DrawLimits.of(DrawLimits.quantile(x, 0.5), x, confidence);
  }
}
