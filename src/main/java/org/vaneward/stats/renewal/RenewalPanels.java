package org.vaneward.stats.renewal;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.numeric.GaussLegendre;

/**
 * A renewal function held at the Gauss points of panels, each solved from those before.
 *
 * <p>Panels are even in log t at first, where M goes with a power of t, and even in t as soon as
 * they would be longer than the life's feature. In a panel that starts at a, the convolution is cut
 * at c = min(t / 2, a): ∫₀ᶜ M(v) f(t − v) dv takes M from finished panels, ∫₀ᵗ⁻ᶜ M(t − u) f(u) du
 * reaches into the panel itself, which makes one small linear system of each panel. Both integrals
 * run over the same panels, in which either factor is smooth.
 */
final class RenewalPanels {
  static final int POINTS = 16;
  private static final GaussLegendre RULE = GaussLegendre.of(POINTS);

  /** Share failed below which M is F to the last digit that counts. */
  private static final double NOTHING = 1e-10;

  /** Density times feature below which a panel of the density is left out. */
  private static final double NO_DENSITY = 1e-22;

  /** Widest panel in log t. */
  private static final double LOG_WIDTH = 1;

  /** Width in log t times the steepness of F. */
  private static final double STEEP_WIDTH = 2;

  private final Life life;
  private final double feature;
  private double[] starts;
  private boolean[] even;
  private double[] age;
  private double[] weight;
  private double[] density;
  private double[] renewals;
  private int size;

  /** Panels from the first whose density counts to the last. */
  private int firstDense;

  private int lastDense;

  RenewalPanels(Life life, double feature) {
    this.life = life;
    this.feature = feature;
    starts = new double[33];
    even = new boolean[32];
    age = new double[32 * POINTS];
    weight = new double[32 * POINTS];
    density = new double[32 * POINTS];
    renewals = new double[32 * POINTS];
    starts[0] = start(life);
    firstDense = Integer.MAX_VALUE;
    lastDense = -1;
  }

  private static double start(Life life) {
    double t = 1;
    while (life.failed(t) > NOTHING && t > Double.MIN_NORMAL) {
      t /= 2;
    }
    while (life.failed(2 * t) <= NOTHING) {
      t *= 2;
    }
    return t;
  }

  double end() {
    return starts[size];
  }

  double[] edges() {
    return Arrays.copyOf(starts, size + 1);
  }

  int count() {
    return size;
  }

  double lastStart() {
    return starts[size - 1];
  }

  /** Largest difference from {@code f} at the points of the last panel. */
  double furthestFrom(DoubleUnaryOperator f) {
    double most = 0;
    for (int i = (size - 1) * POINTS; i < size * POINTS; i++) {
      most = Math.max(most, Math.abs(renewals[i] - f.applyAsDouble(age[i])));
    }
    return most;
  }

  double at(double t) {
    if (t <= starts[0]) {
      return life.failed(t);
    }
    int panel = panelOf(t);
    return RULE.interpolate(renewals, panel * POINTS, place(panel, t));
  }

  private int panelOf(double t) {
    int found = Arrays.binarySearch(starts, 0, size, t);
    return found >= 0 ? Math.min(found, size - 1) : -found - 2;
  }

  /** Where in its panel, from -1 to 1. */
  private double place(int panel, double t) {
    double low = starts[panel];
    double high = starts[panel + 1];
    double share =
        even[panel] ? (t - low) / (high - low) : Math.log(t / low) / Math.log(high / low);
    return 2 * share - 1;
  }

  /** Solves the next panel. */
  void add() {
    grow();
    lay();
    double[][] system = new double[POINTS][POINTS + 1];
    for (int i = 0; i < POINTS; i++) {
      equation(i, system[i]);
    }
    LinearSystem.solve(system);
    for (int i = 0; i < POINTS; i++) {
      renewals[size * POINTS + i] = system[i][POINTS];
    }
    size++;
  }

  private void grow() {
    if (size + 1 < even.length) {
      return;
    }
    int more = 2 * even.length;
    starts = Arrays.copyOf(starts, more + 1);
    even = Arrays.copyOf(even, more);
    age = Arrays.copyOf(age, more * POINTS);
    weight = Arrays.copyOf(weight, more * POINTS);
    density = Arrays.copyOf(density, more * POINTS);
    renewals = Arrays.copyOf(renewals, more * POINTS);
  }

  private void lay() {
    double low = starts[size];
    double steepness = low * life.density(low) / life.failed(low);
    double logWidth = Math.min(LOG_WIDTH, STEEP_WIDTH / Math.max(1, steepness));
    double high = low * Math.exp(logWidth);
    even[size] = high - low > feature || (size > 0 && even[size - 1]);
    starts[size + 1] = even[size] ? low + feature : high;
    boolean dense = false;
    double half = even[size] ? feature / 2 : logWidth / 2;
    for (int i = 0; i < POINTS; i++) {
      double x = half * (1 + RULE.node(i));
      double t = even[size] ? low + x : low * Math.exp(x);
      int node = size * POINTS + i;
      age[node] = t;
      weight[node] = half * RULE.weight(i) * (even[size] ? 1 : t);
      density[node] = life.density(t);
      dense |= density[node] * weight[node] > NO_DENSITY;
    }
    if (dense) {
      firstDense = Math.min(firstDense, size);
      lastDense = size;
    }
  }

  /** The equation of node {@code i}: coefficients of the panel's own values, then what is known. */
  private void equation(int i, double[] row) {
    double t = age[size * POINTS + i];
    double cut = Math.min(t / 2, starts[size]);
    row[i] += 1;
    row[POINTS] += life.failed(t) + finished(t, cut);
    // Failures before the first panel are followed by as many as from here on.
    row[i] -= life.failed(starts[0]);
    double[] shares = new double[POINTS];
    int last = Math.min(panelUpTo(t - cut), lastDense);
    for (int q = firstDense; q <= last; q++) {
      double high = Math.min(starts[q + 1], t - cut);
      if (high == starts[q + 1]) {
        for (int k = q * POINTS; k < (q + 1) * POINTS; k++) {
          reach(row, shares, t - age[k], weight[k] * density[k]);
        }
      } else {
        part(row, shares, q, high, t);
      }
    }
  }

  private void part(double[] row, double[] shares, int q, double high, double t) {
    double low = starts[q];
    double half = (even[q] ? high - low : Math.log(high / low)) / 2;
    for (int k = 0; k < POINTS; k++) {
      double x = half * (1 + RULE.node(k));
      double u = even[q] ? low + x : low * Math.exp(x);
      double w = half * RULE.weight(k) * (even[q] ? 1 : u);
      reach(row, shares, t - u, w * life.density(u));
    }
  }

  /** Takes M at {@code v} with a weight: from a finished panel, or from the panel being solved. */
  private void reach(double[] row, double[] shares, double v, double weighed) {
    if (v < starts[size]) {
      row[POINTS] += weighed * at(v);
      return;
    }
    RULE.lagrange(place(size, v), shares);
    for (int k = 0; k < POINTS; k++) {
      row[k] -= weighed * shares[k];
    }
  }

  /** The last panel that starts below {@code u}. */
  private int panelUpTo(double u) {
    int found = Arrays.binarySearch(starts, 0, size + 1, u);
    return found >= 0 ? found - 1 : -found - 2;
  }

  /** ∫₀ᶜ M(v) f(t − v) dv. */
  private double finished(double t, double cut) {
    double total = 0;
    int last = panelUpTo(cut);
    for (int q = 0; q <= last; q++) {
      if (cut >= starts[q + 1]) {
        for (int k = q * POINTS; k < (q + 1) * POINTS; k++) {
          total += weight[k] * renewals[k] * life.density(t - age[k]);
        }
      } else {
        total += finishedPart(q, cut, t);
      }
    }
    return total;
  }

  private double finishedPart(int q, double high, double t) {
    double low = starts[q];
    double half = (even[q] ? high - low : Math.log(high / low)) / 2;
    double total = 0;
    for (int k = 0; k < POINTS; k++) {
      double x = half * (1 + RULE.node(k));
      double v = even[q] ? low + x : low * Math.exp(x);
      double w = half * RULE.weight(k) * (even[q] ? 1 : v);
      total += w * at(v) * life.density(t - v);
    }
    return total;
  }

  /**
   * What is needed of M for ∫₀ᵃ M(a − v) f(s + v) dv: the places v and the weights times M there.
   *
   * @return places first, weighed values second
   */
  double[][] convolution(double a) {
    Points points = points(a);
    double early = Math.min(starts[0], a / 2);
    for (int k = 0; k < POINTS && early > 0; k++) {
      double v = early / 2 * (1 + RULE.node(k));
      points.add(v, early / 2 * RULE.weight(k), a - v);
    }
    double[] weighed = points.weights();
    for (int i = 0; i < weighed.length; i++) {
      weighed[i] *= at(points.rest(i));
    }
    return new double[][] {points.places(), weighed};
  }

  /**
   * Points to integrate over v in (0, a) the product of a function of v and one of a − v, each
   * smooth over the panels: places are those of the panels counted from either end. What lies
   * within the first panel's start of either end is left out.
   */
  Points points(double a) {
    double cut = a / 2;
    Points points = new Points();
    for (int q = 0; q < size && starts[q] < cut; q++) {
      double low = starts[q];
      double high = Math.min(starts[q + 1], cut);
      double half = (even[q] ? high - low : Math.log(high / low)) / 2;
      for (int k = 0; k < POINTS; k++) {
        double x = half * (1 + RULE.node(k));
        double v = even[q] ? low + x : low * Math.exp(x);
        double w = half * RULE.weight(k) * (even[q] ? 1 : v);
        points.add(v, w, a - v);
        points.add(a - v, w, v);
      }
    }
    return points;
  }

  /** Age of node {@code i}, of which each panel has {@value #POINTS}. */
  double node(int i) {
    return age[i];
  }

  /** Where the first panel starts. */
  double firstStart() {
    return starts[0];
  }

  /**
   * What the value at each node of its panel counts for in the polynomial at {@code t}.
   *
   * @param into one entry for each node of a panel
   * @return the first node of that panel
   */
  int shares(double t, double[] into) {
    int panel = panelOf(t);
    RULE.lagrange(place(panel, t), into);
    return panel * POINTS;
  }

  /** Places v in (0, a), their weights, and a − v with all its digits. */
  static final class Points {
    private double[] place = new double[256];
    private double[] weight = new double[256];
    private double[] rest = new double[256];
    private int n;

    void add(double at, double weighs, double other) {
      if (n == place.length) {
        place = Arrays.copyOf(place, 2 * n);
        weight = Arrays.copyOf(weight, 2 * n);
        rest = Arrays.copyOf(rest, 2 * n);
      }
      place[n] = at;
      weight[n] = weighs;
      rest[n] = other;
      n++;
    }

    int count() {
      return n;
    }

    double place(int i) {
      return place[i];
    }

    double rest(int i) {
      return rest[i];
    }

    double weight(int i) {
      return weight[i];
    }

    double[] places() {
      return Arrays.copyOf(place, n);
    }

    double[] weights() {
      return Arrays.copyOf(weight, n);
    }
  }
}
