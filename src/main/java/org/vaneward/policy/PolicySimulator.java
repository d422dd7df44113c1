package org.vaneward.policy;

import java.util.List;
import java.util.SplittableRandom;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Chunks;

/**
 * Lives a pump through under a {@link Policy}, from full rebuild to full rebuild. Knows none of the
 * formulas; for a rule that has none, and to hold those that have.
 *
 * <p>Random streams are split by fixed chunks of cycles: the same seed gives the same numbers on
 * any number of threads.
 */
public final class PolicySimulator {
  private final Policy policy;
  private final double plannedCost;
  private final LifeDistribution[] stops;
  private final double[] unplannedCost;
  private final double[] mendCost;
  private final LifeDistribution[] unseen;
  private final double[] hiddenPerHour;

  private PolicySimulator(CostModel model, Policy policy) {
    this.policy = policy;
    this.plannedCost = model.plannedCost();
    List<PositionRisk> announcing =
        model.positions().stream().filter(PositionRisk::announces).toList();
    List<PositionRisk> hidden = model.positions().stream().filter(r -> !r.announces()).toList();
    this.stops = announcing.stream().map(PositionRisk::life).toArray(LifeDistribution[]::new);
    this.unplannedCost = announcing.stream().mapToDouble(PositionRisk::unplannedCost).toArray();
    this.mendCost = announcing.stream().mapToDouble(PositionRisk::mendCost).toArray();
    this.unseen = hidden.stream().map(PositionRisk::life).toArray(LifeDistribution[]::new);
    this.hiddenPerHour = hidden.stream().mapToDouble(PositionRisk::hiddenCostPerHour).toArray();
  }

  /**
   * What came of it. Rates are ratios of means over cycles, their standard errors those of the
   * ratio (regenerative method).
   *
   * @param costPerHour long-run cost per running hour
   * @param stdError its standard error
   * @param plannedPerHour planned openings per running hour
   * @param unplannedPerHour unplanned openings per running hour
   * @param cycles full rebuilds lived through
   */
  public record Outcome(
      double costPerHour,
      double stdError,
      double plannedPerHour,
      double unplannedPerHour,
      long cycles) {}

  /**
   * Simulates.
   *
   * @param cycles number of full rebuilds to live through, at least 2
   * @param seed of the random numbers
   * @throws IllegalArgumentException when there are fewer cycles, or the rule may never rebuild
   */
  public static Outcome run(CostModel model, Policy policy, int cycles, long seed) {
    if (cycles < 2) {
      throw new IllegalArgumentException("at least 2 cycles are wanted, not " + cycles);
    }
    boolean stops = model.positions().stream().anyMatch(PositionRisk::announces);
    if (!policy.rebuildsInTheEnd() || !(stops || alwaysPlanned(policy))) {
      throw new IllegalArgumentException("a pump that is never rebuilt has no cycles: " + policy);
    }
    SplittableRandom random = new SplittableRandom(seed);
    SplittableRandom[] streams = new SplittableRandom[Chunks.count(cycles)];
    for (int i = 0; i < streams.length; i++) {
      streams[i] = random.split();
    }
    Sums[] sums = new Sums[streams.length];
    Chunks.run(
        cycles,
        (chunk, from, to) -> {
          Sums mine = new Sums();
          Cycle cycle = new Cycle(new PolicySimulator(model, policy), streams[chunk]);
          for (int i = from; i < to; i++) {
            cycle.live(mine);
          }
          sums[chunk] = mine;
        });
    Sums all = new Sums();
    for (Sums one : sums) {
      all.add(one);
    }
    return all.outcome(cycles);
  }

  /** Whether each cycle has a planned rebuild at its end, should nothing stop the pump before. */
  private static boolean alwaysPlanned(Policy policy) {
    if (policy instanceof Policy.FullRebuild full) {
      return full.intervalHours() < Double.POSITIVE_INFINITY;
    }
    if (policy instanceof Policy.Threshold threshold) {
      return threshold.intervalHours() < Double.POSITIVE_INFINITY;
    }
    return !(policy instanceof Policy.Practice practice)
        || practice.intervalsHours().stream().allMatch(x -> x < Double.POSITIVE_INFINITY);
  }

  private static final class Sums {
    private double cost;
    private double hours;
    private double costSquared;
    private double costHours;
    private double hoursSquared;
    private long planned;
    private long unplanned;

    void cycle(double oneCost, double oneHours) {
      cost += oneCost;
      hours += oneHours;
      costSquared += oneCost * oneCost;
      costHours += oneCost * oneHours;
      hoursSquared += oneHours * oneHours;
    }

    void add(Sums other) {
      cost += other.cost;
      hours += other.hours;
      costSquared += other.costSquared;
      costHours += other.costHours;
      hoursSquared += other.hoursSquared;
      planned += other.planned;
      unplanned += other.unplanned;
    }

    Outcome outcome(int cycles) {
      double rate = cost / hours;
      double residual = costSquared - 2 * rate * costHours + rate * rate * hoursSquared;
      double variance = Math.max(0, residual) / (cycles - 1.0);
      double error = Math.sqrt(variance / cycles) / (hours / cycles);
      return new Outcome(rate, error, planned / hours, unplanned / hours, cycles);
    }
  }

  /** One pump, cycle after cycle. */
  private static final class Cycle {
    private final PolicySimulator rules;
    private final SplittableRandom random;
    private final double[] nextStop;

    Cycle(PolicySimulator rules, SplittableRandom random) {
      this.rules = rules;
      this.random = random;
      this.nextStop = new double[rules.stops.length];
    }

    void live(Sums sums) {
      for (int k = 0; k < nextStop.length; k++) {
        nextStop[k] = life(rules.stops[k]);
      }
      double interval = interval();
      double cost = 0;
      while (true) {
        int first = first();
        double at = first < 0 ? Double.POSITIVE_INFINITY : nextStop[first];
        if (interval <= at) {
          sums.planned++;
          sums.cycle(cost + rules.plannedCost + unseen(interval), interval);
          return;
        }
        sums.unplanned++;
        if (full(at)) {
          sums.cycle(cost + rules.unplannedCost[first] + unseen(at), at);
          return;
        }
        cost += rules.mendCost[first];
        nextStop[first] = at + life(rules.stops[first]);
      }
    }

    private int first() {
      int first = -1;
      for (int k = 0; k < nextStop.length; k++) {
        if (first < 0 || nextStop[k] < nextStop[first]) {
          first = k;
        }
      }
      return first;
    }

    /** Cost of hours run on failures nobody saw before the pump was rebuilt. */
    private double unseen(double end) {
      double cost = 0;
      for (int v = 0; v < rules.unseen.length; v++) {
        cost += rules.hiddenPerHour[v] * Math.max(0, end - life(rules.unseen[v]));
      }
      return cost;
    }

    private double life(LifeDistribution life) {
      double share = 1 - random.nextDouble();
      if (life instanceof Weibull weibull) {
        return weibull.scale() * Math.pow(-Math.log(share), 1 / weibull.shape());
      }
      return share < 1 ? life.inverseSurvival(share) : 0;
    }

    private double interval() {
      Policy policy = rules.policy;
      if (policy instanceof Policy.FullRebuild rule) {
        return rule.intervalHours();
      }
      if (policy instanceof Policy.MendBetween rule) {
        return rule.intervalHours();
      }
      if (policy instanceof Policy.Threshold rule) {
        return rule.intervalHours();
      }
      List<Double> intervals = ((Policy.Practice) policy).intervalsHours();
      return intervals.get(random.nextInt(intervals.size()));
    }

    private boolean full(double at) {
      Policy policy = rules.policy;
      if (policy instanceof Policy.FullRebuild) {
        return true;
      }
      if (policy instanceof Policy.MendBetween) {
        return false;
      }
      if (policy instanceof Policy.Threshold rule) {
        return at >= rule.thresholdHours();
      }
      return random.nextDouble() < ((Policy.Practice) policy).fullShare();
    }
  }
}
