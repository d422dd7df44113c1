package org.vaneward.policy;

import java.util.Arrays;

/**
 * A run of a pump on from the ages its parts have now until it fails or is stopped for a planned
 * rebuild, for every draw of its parts' lives at once: {@link RunCost} when lives are uncertain.
 *
 * <p>In each draw, with s the further running and R(s) the chance that no announcing part has
 * failed within s, A(s) = ∫₀ˢ R du is the mean running and B(s) = ∫₀ˢ R m du the expected cost
 * beyond a planned rebuild, m the price of running one hour more instead of rebuilding. The cost
 * per hour of a cycle is (c_p + B) / A.
 *
 * <p>All draws share the edges at which A and B are held; between edges a panel is integrated on
 * the call. Panels are 8-point Gauss–Legendre in log s, at most one unit wide and one divided by
 * the steepest shape where a cumulative hazard matters, from a ten-millionth of the shortest scale
 * to where R is below 5e-18 in every draw. Relative accuracy 1e-8 or better for shapes from 0.5 to
 * 12 (held by a test against {@link RunCost}).
 *
 * <p>Immutable; safe to share between threads.
 */
public final class DrawnRun {
  private final DrawnCostModel model;
  private final DrawnRunGrid grid;
  private final int draws;
  private final double youngestAge;
  private final double oldestAge;

  /** A and B by draw and edge. */
  private final double[][] meanHours;

  private final double[][] beyond;

  private DrawnRun(DrawnCostModel model, double[] ages) {
    this.model = model;
    this.draws = model.draws();
    this.grid = DrawnRunGrid.of(model, ages);
    this.youngestAge = Arrays.stream(ages).min().orElseThrow();
    this.oldestAge = Arrays.stream(ages).max().orElseThrow();
    this.meanHours = new double[draws][];
    this.beyond = new double[draws][];
    for (int d = 0; d < draws; d++) {
      accumulate(d);
    }
  }

  /** A run with every part new. */
  public static DrawnRun fromNew(DrawnCostModel model) {
    return new DrawnRun(model, new double[model.positions().size()]);
  }

  /**
   * A run from the ages the parts have.
   *
   * @param ages age of the part in each position of the model, hours, in the model's order
   * @throws IllegalArgumentException when there is not one age, finite and at least 0, for each
   *     position
   */
  public static DrawnRun fromAges(DrawnCostModel model, double[] ages) {
    if (ages.length != model.positions().size()) {
      throw new IllegalArgumentException(
          ages.length + " ages were given for " + model.positions().size() + " positions");
    }
    for (double age : ages) {
      if (!(age >= 0 && age < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("an age is finite and at least 0, not " + age);
      }
    }
    return new DrawnRun(model, ages.clone());
  }

  /** The model this run is of. */
  public DrawnCostModel model() {
    return model;
  }

  /** Number of draws. */
  public int draws() {
    return draws;
  }

  /** Age now of the youngest part, hours. */
  public double youngestAge() {
    return youngestAge;
  }

  /** Age now of the oldest part, hours. */
  public double oldestAge() {
    return oldestAge;
  }

  /**
   * Further running at which sums are held, ascending: evaluating there costs next to nothing, and
   * no valley of a cost curve hides between two of them.
   */
  public double[] edges() {
    return grid.edges();
  }

  /** Mean further running until the pump fails or {@code hours} have passed, in one draw. */
  public double meanHours(int draw, double hours) {
    return sum(draw, hours, meanHours[draw], true);
  }

  /** Expected cost, beyond a planned rebuild, of running on for {@code hours}, in one draw. */
  public double costBeyondPlanned(int draw, double hours) {
    return sum(draw, hours, beyond[draw], false);
  }

  /** Chance that no announcing part fails within {@code hours} more, in one draw. */
  public double survival(int draw, double hours) {
    return hours == Double.POSITIVE_INFINITY
        ? (grid.anyAnnounces() ? 0 : 1)
        : grid.survival(draw, hours);
  }

  /**
   * Cost per hour of a cycle that starts here and is ended by a rebuild after {@code hours} or at
   * the failure before, in one draw; infinite hours are running to failure.
   */
  public double costPerHour(int draw, double hours) {
    if (hours == Double.POSITIVE_INFINITY && !grid.anyAnnounces()) {
      // The pump never stops: in the end every hidden failure is there and stays.
      return grid.hiddenPerHour();
    }
    double[] at = at(draw, hours);
    return (model.plannedCost() + at[1]) / at[0];
  }

  /** Mean of {@link #costPerHour} over the draws. */
  public double expectedCostPerHour(double hours) {
    double total = 0;
    for (int d = 0; d < draws; d++) {
      total += costPerHour(d, hours);
    }
    return total / draws;
  }

  /**
   * Mean over the draws of B − g A: the expected cost of running on for {@code hours}, less what
   * that running costs at {@code costPerHour} in the long run. Where this is least, the pump should
   * be rebuilt.
   */
  public double expectedExtraCost(double hours, double costPerHour) {
    double total = 0;
    for (int d = 0; d < draws; d++) {
      total += extraCost(d, hours, costPerHour);
    }
    return total / draws;
  }

  /** Mean of {@link #meanHours} over the draws. */
  public double expectedHours(double hours) {
    double total = 0;
    for (int d = 0; d < draws; d++) {
      total += meanHours(d, hours);
    }
    return total / draws;
  }

  /**
   * What each position adds to the price of running one hour more instead of rebuilding, after
   * {@code hours} more: the mean over the draws, each weighted by its chance R to come so far.
   *
   * @param hours further running, 0 or more
   */
  public double[] marginalByPosition(double hours) {
    double[] prices = new double[model.positions().size()];
    for (int d = 0; d < draws; d++) {
      double alive = grid.survival(d, hours) / draws;
      for (int i = 0; i < prices.length; i++) {
        prices[i] += alive * grid.marginalCost(d, i, hours);
      }
    }
    return prices;
  }

  /** Mean of {@link #survival} over the draws. */
  public double expectedSurvival(double hours) {
    double total = 0;
    for (int d = 0; d < draws; d++) {
      total += survival(d, hours);
    }
    return total / draws;
  }

  /**
   * Slope of {@link #expectedExtraCost} at {@code hours}: the mean over the draws of R (m − g).
   *
   * @param hours further running; negative looks back, at most to the age of the youngest part,
   *     with what is believed today: R counts as 1 then
   */
  public double expectedSlope(double hours, double costPerHour) {
    double total = 0;
    for (int d = 0; d < draws; d++) {
      total += slope(d, hours, costPerHour);
    }
    return total / draws;
  }

  /** B − g A in one draw. */
  double extraCost(int draw, double hours, double costPerHour) {
    double[] at = at(draw, hours);
    return at[1] - costPerHour * at[0];
  }

  /** Its slope, as {@link #expectedSlope}. */
  double slope(int draw, double hours, double costPerHour) {
    double alive = hours > 0 ? grid.survival(draw, hours) : 1;
    return alive * (grid.marginalCost(draw, hours) - costPerHour);
  }

  private void accumulate(int draw) {
    int n = grid.size();
    double[] a = new double[n];
    double[] b = new double[n];
    double[] sums = grid.below(draw, grid.edge(0));
    a[0] = sums[0];
    b[0] = sums[1];
    for (int j = 1; j < n; j++) {
      grid.addPanel(draw, j, sums);
      a[j] = sums[0];
      b[j] = sums[1];
    }
    meanHours[draw] = a;
    beyond[draw] = b;
  }

  private double sum(int draw, double hours, double[] held, boolean running) {
    int edge = grid.edgeAt(hours);
    return edge >= 0 ? held[edge] : at(draw, hours)[running ? 0 : 1];
  }

  /** A and B. */
  private double[] at(int draw, double hours) {
    if (!(hours > 0)) {
      throw new IllegalArgumentException("further running is positive, not " + hours);
    }
    int edge = grid.edgeAt(hours);
    if (edge >= 0) {
      return new double[] {meanHours[draw][edge], beyond[draw][edge]};
    }
    if (hours < grid.edge(0)) {
      return grid.below(draw, hours);
    }
    int last = grid.size() - 1;
    if (hours > grid.edge(last)) {
      return beyondGrid(draw, hours - grid.edge(last));
    }
    int panel = -edge - 2;
    double[] sums = {meanHours[draw][panel], beyond[draw][panel]};
    grid.addPart(draw, panel, hours, sums);
    return sums;
  }

  /** Either the pump has surely stopped, or nothing stops it and all that is unseen has failed. */
  private double[] beyondGrid(int draw, double further) {
    int last = grid.size() - 1;
    double a = meanHours[draw][last];
    double b = beyond[draw][last];
    return grid.anyAnnounces()
        ? new double[] {a, b}
        : new double[] {a + further, b + further * grid.hiddenPerHour()};
  }
}
