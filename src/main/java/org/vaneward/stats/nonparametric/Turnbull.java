package org.vaneward.stats.nonparametric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.Observations;

/**
 * Non-parametric maximum-likelihood estimate of the distribution of lives known only to lie in
 * intervals, beside exact and right-censored ones (B. W. Turnbull, Journal of the Royal Statistical
 * Society B 38, 1976).
 *
 * <p>The estimate puts mass only on the maximal intersections of the sets (lower, upper] and {t};
 * where within one the mass lies is not determined. Masses come from the self-consistency (EM)
 * iteration, sped up by extrapolation and run until the Kuhn–Tucker conditions hold: the derivative
 * of the log-likelihood in a mass is the number of lives where there is mass, and no more where
 * there is none.
 *
 * <p>Lives that came under observation after age 0 are left out and counted: the estimate is then
 * that of the others, unbiased as long as entry has nothing to do with the life.
 *
 * @param masses in order of age; the last may run to infinity
 * @param lives number of lives taken in
 * @param leftOut number of lives with an entry age, left out
 * @param logLikelihood sum of log probabilities of the sets; exact lives by their point mass
 * @param iterations taken
 * @param kuhnTuckerGap by how much, relative to the number of lives, the greatest derivative is
 *     above it; the log-likelihood is within this times the number of lives of the greatest
 *     possible
 * @param converged whether the gap and the change of the masses fell below their bounds
 */
public record Turnbull(
    List<Mass> masses,
    double lives,
    double leftOut,
    double logLikelihood,
    int iterations,
    double kuhnTuckerGap,
    boolean converged) {
  /** Gap in the Kuhn–Tucker conditions below which they hold. */
  public static final double GAP = 1e-9;

  /** Change of a mass in one step that counts as none. */
  private static final double STILL = 1e-12;

  /** A leap leaves at least this share of a mass. */
  private static final double LEAST_LEFT = 0.01;

  /** Log-likelihoods that differ by less than this share are the same. */
  private static final double ROUNDING = 1e-14;

  private static final int MOST_ITERATIONS = 200_000;

  public Turnbull {
    masses = List.copyOf(masses);
  }

  /**
   * Mass on (from, to], or at the point from = to; to may be infinite.
   *
   * @param from start
   * @param to end
   * @param mass share of lives
   * @param survivalAfter share that outlives {@code to}
   */
  public record Mass(double from, double to, double mass, double survivalAfter) {}

  /** The estimate; no masses when no life is taken in. */
  public static Turnbull of(Observations lives) {
    int n = 0;
    double leftOut = 0;
    double taken = 0;
    int[] rows = new int[lives.size()];
    for (int i = 0; i < lives.size(); i++) {
      if (lives.entry(i) > 0) {
        leftOut += lives.count(i);
      } else {
        rows[n++] = i;
        taken += lives.count(i);
      }
    }
    if (n == 0) {
      return new Turnbull(List.of(), 0, leftOut, 0, 0, 0, true);
    }
    Sets sets = new Sets(lives, Arrays.copyOf(rows, n));
    return sets.estimate(taken, leftOut);
  }

  /** The masses after a step, and how far those before it were from the maximum. */
  private static final class Step {
    private final double[] mass;
    private final double gap;
    private final double change;

    Step(double[] mass, double gap, double change) {
      this.mass = mass;
      this.gap = gap;
      this.change = change;
    }

    boolean still() {
      return gap <= GAP && change <= STILL;
    }
  }

  /** The intersections, and the run of them that each life covers. */
  private static final class Sets {
    private final double[] from;
    private final double[] to;
    private final int[] first;
    private final int[] last;
    private final double[] count;

    Sets(Observations lives, int[] rows) {
      List<double[]> found = intersections(lives, rows);
      from = found.stream().mapToDouble(s -> s[0]).toArray();
      to = found.stream().mapToDouble(s -> s[1]).toArray();
      first = new int[rows.length];
      last = new int[rows.length];
      count = new double[rows.length];
      for (int r = 0; r < rows.length; r++) {
        int i = rows[r];
        first[r] = firstWithin(lives.lower(i), lives.isExact(i));
        last[r] = lastWithin(lives.upper(i));
        count[r] = lives.count(i);
      }
    }

    /**
     * A left end followed at once by a right end. At one age the order is: a point's left end,
     * right ends (closed), left ends of intervals (open, just above the age).
     */
    private static List<double[]> intersections(Observations lives, int[] rows) {
      List<double[]> ends = new ArrayList<>(2 * rows.length);
      for (int i : rows) {
        ends.add(new double[] {lives.lower(i), lives.isExact(i) ? 0 : 2});
        ends.add(new double[] {lives.upper(i), 1});
      }
      ends.sort((a, b) -> a[0] != b[0] ? Double.compare(a[0], b[0]) : Double.compare(a[1], b[1]));
      List<double[]> found = new ArrayList<>();
      for (int i = 0; i + 1 < ends.size(); i++) {
        if (ends.get(i)[1] != 1 && ends.get(i + 1)[1] == 1) {
          found.add(new double[] {ends.get(i)[0], ends.get(i + 1)[0]});
        }
      }
      return found;
    }

    /**
     * First intersection within a set: one that starts at or after it, points after an open end.
     */
    private int firstWithin(double lower, boolean exact) {
      int low = 0;
      int high = from.length;
      while (low < high) {
        int middle = (low + high) >>> 1;
        boolean point = from[middle] == to[middle];
        boolean before = from[middle] < lower || (from[middle] == lower && point && !exact);
        if (before) {
          low = middle + 1;
        } else {
          high = middle;
        }
      }
      return low;
    }

    private int lastWithin(double upper) {
      int low = 0;
      int high = to.length;
      while (low < high) {
        int middle = (low + high) >>> 1;
        if (to[middle] <= upper) {
          low = middle + 1;
        } else {
          high = middle;
        }
      }
      return low - 1;
    }

    Turnbull estimate(double taken, double leftOut) {
      double[] mass = new double[from.length];
      Arrays.fill(mass, 1.0 / mass.length);
      int iterations = 0;
      Step step;
      do {
        double[] start = mass;
        Step first = step(start, taken);
        step = step(first.mass, taken);
        iterations += 2;
        // should leaping ever go round in circles, the plain iteration still gets there
        boolean leap = !step.still() && iterations < MOST_ITERATIONS / 2;
        mass = leap ? leap(start, first.mass, step.mass) : step.mass;
      } while (!step.still() && iterations < MOST_ITERATIONS);
      return new Turnbull(
          masses(mass), taken, leftOut, logLikelihood(mass), iterations, step.gap, step.still());
    }

    /**
     * One step of the self-consistency iteration: each mass times its derivative over the lives.
     */
    private Step step(double[] mass, double taken) {
      double[] next = new double[mass.length];
      derivatives(mass, next);
      double gap = 0;
      double change = 0;
      for (int j = 0; j < mass.length; j++) {
        double factor = next[j] / taken;
        gap = Math.max(gap, factor - 1);
        change = Math.max(change, Math.abs(mass[j] * (factor - 1)));
        next[j] = mass[j] * factor;
      }
      return new Step(next, gap, change);
    }

    /**
     * Where the iteration seems to be heading, from two steps (squared extrapolation: R. Varadhan
     * and C. Roland, Scandinavian Journal of Statistics 35, 2008); the second step when that is
     * likelier. A mass falls by no more than a hundredth at once: one that is 0 could not come
     * back.
     */
    private double[] leap(double[] start, double[] first, double[] second) {
      double move = 0;
      double bend = 0;
      for (int j = 0; j < start.length; j++) {
        double r = first[j] - start[j];
        double v = second[j] - first[j] - r;
        move += r * r;
        bend += v * v;
      }
      double length = Math.sqrt(move / bend);
      if (!(length > 1 && length < Double.POSITIVE_INFINITY)) {
        return second;
      }
      double[] ahead = new double[start.length];
      double sum = 0;
      for (int j = 0; j < start.length; j++) {
        double r = first[j] - start[j];
        double v = second[j] - first[j] - r;
        ahead[j] =
            Math.max(start[j] + 2 * length * r + length * length * v, LEAST_LEFT * second[j]);
        sum += ahead[j];
      }
      for (int j = 0; j < ahead.length; j++) {
        ahead[j] /= sum;
      }
      double known = logLikelihood(second);
      return logLikelihood(ahead) >= known - ROUNDING * Math.abs(known) ? ahead : second;
    }

    private static double[] before(double[] mass) {
      double[] sums = new double[mass.length + 1];
      for (int j = 0; j < mass.length; j++) {
        sums[j + 1] = sums[j] + mass[j];
      }
      return sums;
    }

    /** Derivative in each mass: sum over the lives that cover it of count over probability. */
    private void derivatives(double[] mass, double[] derivative) {
      double[] sums = before(mass);
      double[] steps = new double[mass.length + 1];
      for (int r = 0; r < first.length; r++) {
        double weight = count[r] / (sums[last[r] + 1] - sums[first[r]]);
        steps[first[r]] += weight;
        steps[last[r] + 1] -= weight;
      }
      double running = 0;
      for (int j = 0; j < mass.length; j++) {
        running += steps[j];
        derivative[j] = running;
      }
    }

    private double logLikelihood(double[] mass) {
      double[] sums = before(mass);
      double sum = 0;
      for (int r = 0; r < first.length; r++) {
        sum += count[r] * Math.log(sums[last[r] + 1] - sums[first[r]]);
      }
      return sum;
    }

    private List<Mass> masses(double[] mass) {
      List<Mass> masses = new ArrayList<>();
      double[] after = new double[mass.length + 1];
      for (int j = mass.length - 1; j >= 0; j--) {
        after[j] = after[j + 1] + mass[j];
      }
      for (int j = 0; j < mass.length; j++) {
        masses.add(new Mass(from[j], to[j], mass[j], after[j + 1]));
      }
      return masses;
    }
  }
}
