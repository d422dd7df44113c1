package org.vaneward.policy;

import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.GaussLegendre;
import org.vaneward.stats.numeric.Roots;

/**
 * What it costs to run a pump on from the ages its parts have now until it fails or is stopped for
 * a planned rebuild.
 *
 * <p>With s the further running, a_i the ages now and R(s) the chance that no announcing part has
 * failed within s, the expected cost of the run beyond a planned rebuild is
 *
 * <pre>∫₀ˢ R(u) m(u) du,  m(u) = Σ h_i(a_i + u) (c_i − c_p) + Σ c_h F_v(a_v + u),</pre>
 *
 * the first sum over announcing positions, the second over those whose failure stays unseen. m is
 * the price of running one hour more instead of rebuilding.
 *
 * <p>Integrals are taken in log s, where a hazard has no spike at 0, by 16-point Gauss–Legendre
 * panels. A panel is at most one unit of log s wide, and half a unit divided by the shape where a
 * position's cumulative hazard exceeds 1e-10: between panels of that width the integrands are
 * polynomials of degree 31 to the last digits. Below the first panel R is 1 and hazards are
 * integrated exactly; beyond the last, R is below 2e-22. Together: relative accuracy 1e-12 or
 * better for shapes from 0.3 to 20.
 *
 * <p>Immutable; safe to share between threads.
 */
public final class RunCost {
  /** Cumulative hazard at the end of the last panel: survival 2e-22. */
  private static final double END_HAZARD = 50;

  /** Share failed by the age that stands for a life's scale. */
  private static final double SCALE_SHARE = 0.632;

  /** Cumulative hazard below which survival is taken as 1. */
  private static final double START_HAZARD = 1e-13;

  /** Share of the planned cost that may be at stake below the first panel. */
  private static final double START_COST_SHARE = 1e-6;

  /** Share of its age over which a hazard is taken as straight. */
  private static final double SHORT = 1e-5;

  /** Cumulative hazard below which a position's curvature does not matter. */
  private static final double NOTICEABLE_HAZARD = 1e-10;

  private static final GaussLegendre RULE = GaussLegendre.of(16);

  private final CostModel model;
  private final PositionRisk[] positions;
  private final double[] ages;
  private final double[] hazardNow;
  private final double[] steepest;
  private final boolean anyAnnounces;

  /** Panel edges as log of further running, and as further running. */
  private final double[] logEdges;

  private final double[] edges;

  /**
   * Sums up to each edge: column 0 is ∫R; column 1 + i is, for position i, the chance that it is
   * the first to fail if it announces, ∫ R F_i if it does not.
   */
  private final double[][] sums;

  private RunCost(CostModel model, double[] ages) {
    this.model = model;
    this.positions = model.positions().toArray(new PositionRisk[0]);
    this.ages = ages;
    this.hazardNow = new double[positions.length];
    this.steepest = new double[positions.length];
    boolean announces = false;
    for (int i = 0; i < positions.length; i++) {
      hazardNow[i] = positions[i].life().cumulativeHazard(ages[i]);
      steepest[i] = Ageing.steepest(positions[i].life());
      announces |= positions[i].announces();
    }
    this.anyAnnounces = announces;
    double start = firstEdge();
    this.logEdges = panels(Math.log(start), Math.log(lastEdge(start)));
    this.edges = Arrays.stream(logEdges).map(Math::exp).toArray();
    this.sums = accumulate();
  }

  /** A run with every part new. */
  public static RunCost fromNew(CostModel model) {
    return new RunCost(model, new double[model.positions().size()]);
  }

  /**
   * A run from the ages the parts have.
   *
   * @param ages age of the part in each position of the model, hours, in the model's order
   * @throws IllegalArgumentException when there is not one age, finite and at least 0, for each
   *     position
   */
  public static RunCost fromAges(CostModel model, List<Double> ages) {
    if (ages.size() != model.positions().size()) {
      throw new IllegalArgumentException(
          ages.size() + " ages were given for " + model.positions().size() + " positions");
    }
    double[] copy = ages.stream().mapToDouble(Double::doubleValue).toArray();
    for (double age : copy) {
      if (!(age >= 0 && age < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("an age is finite and at least 0, not " + age);
      }
    }
    return new RunCost(model, copy);
  }

  /** The model this run is of. */
  public CostModel model() {
    return model;
  }

  /** Chance that no announcing part fails within {@code hours} more. */
  public double survival(double hours) {
    return Math.exp(-addedHazard(hours));
  }

  /**
   * Price of running one hour more instead of rebuilding, after {@code hours} more.
   *
   * @param hours further running; negative looks back, at most to the age of the youngest part
   */
  public double marginalCostPerHour(double hours) {
    double total = 0;
    for (int i = 0; i < positions.length; i++) {
      total += marginalOf(i, hours);
    }
    return total;
  }

  private double marginalOf(int index, double hours) {
    PositionRisk risk = positions[index];
    double age = ages[index] + hours;
    if (!risk.announces()) {
      return risk.hiddenCostPerHour() * risk.life().failed(age);
    }
    double extra = risk.unplannedCost() - model.plannedCost();
    return extra == 0 ? 0 : risk.life().hazard(age) * extra;
  }

  /** Expected running until the pump fails or {@code hours} have passed. */
  public double meanHours(double hours) {
    return sumsAt(hours)[0];
  }

  /** Expected cost, beyond a planned rebuild, of running on for {@code hours} or to failure. */
  public double costBeyondPlanned(double hours) {
    return costBeyondPlanned(sumsAt(hours));
  }

  /**
   * Expected cost of running on for {@code hours}, less what that running costs at {@code
   * costPerHour} in the long run. Where this is least, the pump should be rebuilt.
   */
  public double extraCost(double hours, double costPerHour) {
    double[] at = sumsAt(hours);
    return costBeyondPlanned(at) - costPerHour * at[0];
  }

  /**
   * For each position, the chance that it fails first, within {@code hours}; 0 for one that does
   * not announce its failure.
   */
  public double[] firstFailureShares(double hours) {
    double[] at = sumsAt(hours);
    double[] shares = new double[positions.length];
    for (int i = 0; i < shares.length; i++) {
      shares[i] = positions[i].announces() ? at[1 + i] : 0;
    }
    return shares;
  }

  /** Cost per hour of a cycle that starts here and is ended by a rebuild after {@code hours}. */
  double costPerHour(double hours) {
    return costPerHour(sumsAt(hours));
  }

  /** {@link #costPerHour} when nothing but a failure ends the run. */
  double runToFailureCostPerHour() {
    if (anyAnnounces) {
      return costPerHour(sums[sums.length - 1]);
    }
    // The pump never stops: in the end every hidden failure is there and stays.
    return Arrays.stream(positions).mapToDouble(PositionRisk::hiddenCostPerHour).sum();
  }

  /** Further running at the panel edges: close enough that no valley of the cost hides between. */
  double[] edges() {
    return edges.clone();
  }

  private double costPerHour(double[] at) {
    return (model.plannedCost() + costBeyondPlanned(at)) / at[0];
  }

  private double costBeyondPlanned(double[] at) {
    double total = 0;
    for (int i = 0; i < positions.length; i++) {
      PositionRisk risk = positions[i];
      double price =
          risk.announces() ? risk.unplannedCost() - model.plannedCost() : risk.hiddenCostPerHour();
      total += price * at[1 + i];
    }
    return total;
  }

  private double addedHazard(double hours) {
    double total = 0;
    for (int i = 0; i < positions.length; i++) {
      if (positions[i].announces()) {
        total += addedHazard(i, hours);
      }
    }
    return total;
  }

  private double addedHazard(int i, double hours) {
    LifeDistribution life = positions[i].life();
    if (!(ages[i] > 0)) {
      return life.cumulativeHazard(hours);
    }
    // Not as a difference, which for an old part would lose the digits of a short further run.
    if (life instanceof Weibull weibull) {
      return hazardNow[i] * Math.expm1(weibull.shape() * Math.log1p(hours / ages[i]));
    }
    return hours < SHORT * ages[i]
        ? hours * life.hazard(ages[i] + hours / 2)
        : life.cumulativeHazard(ages[i] + hours) - hazardNow[i];
  }

  private double[] sumsAt(double hours) {
    if (!(hours > 0 && hours < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("further running is positive and finite, not " + hours);
    }
    if (hours <= edges[0]) {
      return below(hours);
    }
    int last = edges.length - 1;
    if (hours >= edges[last]) {
      return beyond(hours - edges[last]);
    }
    int found = Arrays.binarySearch(edges, hours);
    if (found >= 0) {
      return sums[found];
    }
    int panel = -found - 2;
    double[] at = sums[panel].clone();
    addPanel(at, logEdges[panel], Math.log(hours));
    return at;
  }

  /** Nothing has failed yet to speak of: R is 1. */
  private double[] below(double hours) {
    double[] at = new double[1 + positions.length];
    at[0] = hours;
    for (int i = 0; i < positions.length; i++) {
      at[1 + i] =
          positions[i].announces()
              ? addedHazard(i, hours)
              : hours * positions[i].life().failed(ages[i]);
    }
    return at;
  }

  /**
   * Either the pump has surely stopped, or nothing can stop it and everything unseen has failed.
   */
  private double[] beyond(double hours) {
    double[] at = sums[sums.length - 1];
    if (anyAnnounces) {
      return at;
    }
    double[] further = at.clone();
    for (int i = 0; i < further.length; i++) {
      further[i] += hours;
    }
    return further;
  }

  private double[][] accumulate() {
    double[][] all = new double[edges.length][];
    all[0] = below(edges[0]);
    for (int j = 1; j < edges.length; j++) {
      all[j] = all[j - 1].clone();
      addPanel(all[j], logEdges[j - 1], logEdges[j]);
    }
    return all;
  }

  private void addPanel(double[] at, double low, double high) {
    double half = (high - low) / 2;
    double middle = low + half;
    for (int p = 0; p < RULE.points(); p++) {
      double hours = Math.exp(middle + half * RULE.node(p));
      addPoint(at, hours, half * RULE.weight(p) * hours);
    }
  }

  private void addPoint(double[] at, double hours, double weight) {
    double alive = weight * survival(hours);
    if (alive == 0) {
      return;
    }
    at[0] += alive;
    for (int i = 0; i < positions.length; i++) {
      LifeDistribution life = positions[i].life();
      double age = ages[i] + hours;
      at[1 + i] += alive * (positions[i].announces() ? life.hazard(age) : life.failed(age));
    }
  }

  /** Far enough down that R is 1 and next to no cost is at stake. */
  private double firstEdge() {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < positions.length; i++) {
      least = Math.min(least, START_COST_SHARE * positions[i].life().quantile(SCALE_SHARE));
      if (ages[i] > 0) {
        least = Math.min(least, START_COST_SHARE * ages[i]);
      }
      least = Math.min(least, positions[i].announces() ? quietHours(i) : cheapHours(positions[i]));
    }
    return Math.max(least, Double.MIN_NORMAL);
  }

  private double quietHours(int i) {
    PositionRisk risk = positions[i];
    double atStake = START_COST_SHARE * model.plannedCost() / risk.unplannedCost();
    double hazard = Math.min(START_HAZARD, atStake) / positions.length;
    return ages[i] > 0
        ? hazard / risk.life().hazard(ages[i])
        : risk.life().quantile(-Math.expm1(-hazard));
  }

  private double cheapHours(PositionRisk risk) {
    return risk.hiddenCostPerHour() > 0
        ? START_HAZARD * model.plannedCost() / risk.hiddenCostPerHour()
        : Double.POSITIVE_INFINITY;
  }

  private double lastEdge(double start) {
    if (!anyAnnounces) {
      return Arrays.stream(positions)
          .mapToDouble(r -> r.life().inverseSurvival(Math.exp(-END_HAZARD)))
          .max()
          .orElseThrow();
    }
    double high = 2 * start;
    while (addedHazard(high) < END_HAZARD) {
      high *= 2;
    }
    return Roots.between(s -> addedHazard(s) - END_HAZARD, start, high).orElse(high);
  }

  private double[] panels(double from, double to) {
    double[] cuts = new double[64];
    int n = 0;
    double x = from;
    while (x < to) {
      if (n + 2 > cuts.length) {
        cuts = Arrays.copyOf(cuts, 2 * cuts.length);
      }
      cuts[n++] = x;
      x += width(x);
    }
    cuts[n++] = to;
    return Arrays.copyOf(cuts, n);
  }

  private double width(double x) {
    double width = 1;
    for (int i = 0; i < positions.length; i++) {
      width = Math.min(width, width(i, x, width));
    }
    return width;
  }

  private double width(int i, double x, double most) {
    double width = most;
    while (true) {
      double hours = Math.exp(x + width);
      // d log(cumulative hazard at age a + s) / d log s is the shape, or the like, times s / (a +
      // s).
      double steepness = steepest[i] * hours / (ages[i] + hours);
      double fine = 0.5 / Math.max(1, steepness);
      if (width <= fine || addedHazard(i, hours) <= NOTICEABLE_HAZARD) {
        return width;
      }
      width = Math.max(width / 2, fine);
    }
  }
}
