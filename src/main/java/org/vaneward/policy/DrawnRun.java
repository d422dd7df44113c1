package org.vaneward.policy;

import java.util.Arrays;
import org.vaneward.stats.numeric.GaussLegendre;

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
 * the call. Panels are 10-point Gauss–Legendre in log s, at most one unit wide and one divided by
 * the steepest shape where a cumulative hazard matters, from a ten-millionth of the shortest scale
 * to where R is below 5e-18 in every draw. Where every part has an age, hazards are smooth from the
 * start: one panel in s itself then reaches from 0 to a tenth of the youngest age or less. Relative
 * accuracy 1e-8 or better for shapes from 0.5 to 12 (held by a test against {@link RunCost}).
 *
 * <p>The mean over the draws of B − g A is the integral of one function, E R (m − g): between edges
 * the polynomial through its values at a panel's points is integrated, with no draw looked at
 * again. Within 1e-8 of the mean of the draws (held by a test).
 *
 * <p>Immutable; safe to share between threads.
 */
public final class DrawnRun {
  /** Cumulative hazard beyond which nothing more happens in a draw: survival 3e-20. */
  private static final double OVER = 45;

  private final DrawnCostModel model;
  private final DrawnRunGrid grid;
  private final int draws;
  private final double youngestAge;
  private final double oldestAge;

  /** A and B by draw and edge. */
  private final double[][] meanHours;

  private final double[][] beyond;

  /** Means over the draws: A and B by edge, R and R m by point of the panels, there times hours. */
  private final double[] expectedA;

  private final double[] expectedB;
  private final double[] aliveAt;
  private final double[] costAt;

  private DrawnRun(DrawnCostModel model, double[] ages) {
    this.model = model;
    this.draws = model.draws();
    this.grid = DrawnRunGrid.of(model, ages);
    this.youngestAge = Arrays.stream(ages).min().orElseThrow();
    this.oldestAge = Arrays.stream(ages).max().orElseThrow();
    this.meanHours = new double[draws][grid.size()];
    this.beyond = new double[draws][grid.size()];
    this.aliveAt = new double[grid.nodes().size()];
    this.costAt = new double[aliveAt.length];
    DrawnNodes.Sight sight = new DrawnNodes.Sight(DrawnRunGrid.POINTS);
    for (int d = 0; d < draws; d++) {
      accumulate(d, sight);
    }
    this.expectedA = mean(meanHours);
    this.expectedB = mean(beyond);
    spreadOverPanels();
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

  /** {@link #costPerHour} in every draw. */
  public double[] costsPerHour(double hours) {
    double[] costs = new double[draws];
    if (hours < Double.POSITIVE_INFINITY && isInPanel(hours)) {
      Part part = new Part(hours);
      for (int d = 0; d < draws; d++) {
        double[] at = part.at(d);
        costs[d] = (model.plannedCost() + at[1]) / at[0];
      }
    } else {
      Arrays.setAll(costs, d -> costPerHour(d, hours));
    }
    return costs;
  }

  /** Mean of {@link #costPerHour} over the draws. */
  public double expectedCostPerHour(double hours) {
    double total = 0;
    for (double one : costsPerHour(hours)) {
      total += one;
    }
    return total / draws;
  }

  /**
   * Mean over the draws of B − g A: the expected cost of running on for {@code hours}, less what
   * that running costs at {@code costPerHour} in the long run. Where this is least, the pump should
   * be rebuilt.
   */
  public double expectedExtraCost(double hours, double costPerHour) {
    double[] at = expectedAt(hours);
    return at[1] - costPerHour * at[0];
  }

  /** Mean of {@link #meanHours} over the draws. */
  public double expectedHours(double hours) {
    return expectedAt(hours)[0];
  }

  /**
   * What each position adds to the price of running one hour more instead of rebuilding, after
   * {@code hours} more: the mean over the draws, each weighted by its chance R to come so far.
   *
   * @param hours further running, 0 or more
   */
  public double[] marginalByPosition(double hours) {
    double[] logAges = grid.logAges(hours);
    double[] marginal = new double[grid.groups()];
    double[] prices = new double[model.positions().size()];
    for (int d = 0; d < draws; d++) {
      double alive = grid.survival(d, hours) / draws;
      grid.marginalCosts(d, hours, logAges, marginal);
      for (int i = 0; i < prices.length; i++) {
        prices[i] += alive * marginal[grid.groupOf(i)];
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
    double[] logAges = grid.logAges(hours);
    double total = 0;
    for (int d = 0; d < draws; d++) {
      total += grid.slope(d, hours, logAges, costPerHour);
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
    return grid.slope(draw, hours, grid.logAges(hours), costPerHour);
  }

  /** Once it has surely stopped, a draw stays as it is: later panels add nothing to it. */
  private void accumulate(int draw, DrawnNodes.Sight sight) {
    double[] a = meanHours[draw];
    double[] b = beyond[draw];
    double[] sums = grid.startsNew() ? grid.below(draw, grid.edge(0)) : new double[2];
    int last = DrawnRunGrid.POINTS - 1;
    boolean over = false;
    for (int j = grid.startsNew() ? 1 : 0; j < a.length; j++) {
      if (j > 0) {
        a[j - 1] = sums[0];
        b[j - 1] = sums[1];
      }
      if (!over) {
        addPanel(draw, grid.firstNode(j), sight, sums);
        over = sight.hazard[last] > OVER;
      }
    }
    a[a.length - 1] = sums[0];
    b[a.length - 1] = sums[1];
  }

  private void addPanel(int draw, int first, DrawnNodes.Sight sight, double[] sums) {
    DrawnNodes nodes = grid.nodes();
    nodes.look(draw, first, DrawnRunGrid.POINTS, sight);
    for (int p = 0; p < DrawnRunGrid.POINTS; p++) {
      double alive = Math.exp(-sight.hazard[p]);
      double cost = alive * sight.cost[p];
      aliveAt[first + p] += alive;
      costAt[first + p] += cost;
      sums[0] += nodes.weight[first + p] * alive;
      sums[1] += nodes.weight[first + p] * cost;
    }
  }

  private static double[] mean(double[][] byDraw) {
    double[] mean = new double[byDraw[0].length];
    for (double[] row : byDraw) {
      for (int j = 0; j < mean.length; j++) {
        mean[j] += row[j];
      }
    }
    for (int j = 0; j < mean.length; j++) {
      mean[j] /= byDraw.length;
    }
    return mean;
  }

  /** From sums over the draws to what is integrated between −1 and 1 in each panel. */
  private void spreadOverPanels() {
    for (int i = 0; i < aliveAt.length; i++) {
      double factor =
          grid.nodes().weight[i] / DrawnRunGrid.RULE.weight(i % DrawnRunGrid.POINTS) / draws;
      aliveAt[i] *= factor;
      costAt[i] *= factor;
    }
  }

  private double sum(int draw, double hours, double[] held, boolean running) {
    int edge = grid.edgeAt(hours);
    return edge >= 0 ? held[edge] : at(draw, hours)[running ? 0 : 1];
  }

  /** A and B. */
  private double[] at(int draw, double hours) {
    int edge = checkedEdge(hours);
    if (edge >= 0) {
      return new double[] {meanHours[draw][edge], beyond[draw][edge]};
    }
    if (isInPanel(hours)) {
      return new Part(hours).at(draw);
    }
    int last = grid.size() - 1;
    return hours < grid.edge(0)
        ? grid.below(draw, hours)
        : beyondGrid(meanHours[draw][last], beyond[draw][last], hours);
  }

  /** Means of A and B over the draws. */
  private double[] expectedAt(double hours) {
    int edge = checkedEdge(hours);
    if (edge >= 0) {
      return new double[] {expectedA[edge], expectedB[edge]};
    }
    if (isInPanel(hours)) {
      return withinPanel(-edge - 1, hours);
    }
    int last = grid.size() - 1;
    return hours < grid.edge(0)
        ? expectedBelow(hours)
        : beyondGrid(expectedA[last], expectedB[last], hours);
  }

  private double[] expectedBelow(double hours) {
    double[] mean = new double[2];
    for (int d = 0; d < draws; d++) {
      double[] one = grid.below(d, hours);
      mean[0] += one[0] / draws;
      mean[1] += one[1] / draws;
    }
    return mean;
  }

  private double[] withinPanel(int panel, double hours) {
    GaussLegendre rule = DrawnRunGrid.RULE;
    int first = grid.firstNode(panel);
    double half = (grid.placeIn(panel, hours) + 1) / 2;
    double a = panel > 0 ? expectedA[panel - 1] : 0;
    double b = panel > 0 ? expectedB[panel - 1] : 0;
    for (int p = 0; p < rule.points(); p++) {
      double x = half * (1 + rule.node(p)) - 1;
      a += half * rule.weight(p) * rule.interpolate(aliveAt, first, x);
      b += half * rule.weight(p) * rule.interpolate(costAt, first, x);
    }
    return new double[] {a, b};
  }

  private int checkedEdge(double hours) {
    if (!(hours > 0)) {
      throw new IllegalArgumentException("further running is positive, not " + hours);
    }
    return grid.edgeAt(hours);
  }

  /** Whether a panel is to be integrated up to there. */
  private boolean isInPanel(double hours) {
    return hours < grid.edge(0)
        ? !grid.startsNew()
        : hours < grid.edge(grid.size() - 1) && grid.edgeAt(hours) < 0;
  }

  /** A panel up to some hours within it, for one draw after the other. */
  private final class Part {
    private final int panel;
    private final DrawnNodes nodes;
    private final DrawnNodes.Sight sight = new DrawnNodes.Sight(DrawnRunGrid.POINTS);

    Part(double hours) {
      this.panel = -grid.edgeAt(hours) - 1;
      this.nodes = grid.part(panel, hours);
    }

    double[] at(int draw) {
      nodes.look(draw, 0, DrawnRunGrid.POINTS, sight);
      double a = panel > 0 ? meanHours[draw][panel - 1] : 0;
      double b = panel > 0 ? beyond[draw][panel - 1] : 0;
      for (int p = 0; p < DrawnRunGrid.POINTS; p++) {
        double alive = nodes.weight[p] * Math.exp(-sight.hazard[p]);
        a += alive;
        b += alive * sight.cost[p];
      }
      return new double[] {a, b};
    }
  }

  /** Either the pump has surely stopped, or nothing stops it and all that is unseen has failed. */
  private double[] beyondGrid(double a, double b, double hours) {
    double further = hours - grid.edge(grid.size() - 1);
    return grid.anyAnnounces()
        ? new double[] {a, b}
        : new double[] {a + further, b + further * grid.hiddenPerHour()};
  }
}
