package org.vaneward.stats.competing;

import java.util.Arrays;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.SortOrder;

/**
 * Goes through the ages of failure in order: the numbers at risk first, then each cause with its
 * infinitesimal jackknife.
 *
 * <p>With n at risk, d failures (d_k of the cause), S the share not failed before and F the
 * incidence, let A, B and D be running sums over the ages of S d_k / n^2, (d / n) / (n - d) and F
 * (d / n) / (n - d). The derivative of the incidence F(t) in the weight of a life is then P - F(t)
 * Q, where P and Q no longer change once the life has ended: P = [failed by the cause] S / n +
 * [failed] F / (n - d) less the growth of A + D while it was at risk, Q = [failed] 1 / (n - d) less
 * the growth of B. For a life still at risk the same holds with the growth so far. Sums of P^2, P Q
 * and Q^2 over the lives therefore give the variance at each age without going back to the lives.
 */
final class CauseSweep {
  /** A variance below this share of the terms that cancel in it is rounding. */
  private static final double ROUNDING = 1e-13;

  final double lives;
  final double leftOut;
  final double lastAge;
  final double[] age;
  final double[] eventFree;
  final double[][] incidence;
  final double[][] variance;

  private final double[] entry;
  private final double[] end;
  private final double[] count;
  private final int[] cause;
  private final int[] byEnd;
  private final int[] byEntry;
  private final double[] atRisk;
  private final double[] failed;

  CauseSweep(CauseLives given) {
    Observations all = given.lives();
    int[] taken = new int[all.size()];
    int n = 0;
    double sum = 0;
    double out = 0;
    for (int i = 0; i < all.size(); i++) {
      if (all.isExact(i) || all.isRightCensored(i)) {
        taken[n++] = i;
        sum += all.count(i);
      } else {
        out += all.count(i);
      }
    }
    entry = new double[n];
    end = new double[n];
    count = new double[n];
    cause = new int[n];
    for (int r = 0; r < n; r++) {
      entry[r] = all.entry(taken[r]);
      end[r] = all.lower(taken[r]);
      count[r] = all.count(taken[r]);
      cause[r] = given.cause(taken[r]);
    }
    byEnd = SortOrder.ascending(end);
    byEntry = SortOrder.ascending(entry);
    lives = sum;
    leftOut = out;
    lastAge = n == 0 ? 0 : end[byEnd[n - 1]];
    age = failureAges();
    atRisk = new double[age.length];
    failed = new double[age.length];
    double[][] byCause = new double[given.causes()][age.length];
    countAtRisk(byCause);
    eventFree = new double[age.length];
    double survival = 1;
    for (int j = 0; j < age.length; j++) {
      survival *= atRisk[j] > failed[j] ? 1 - failed[j] / atRisk[j] : 0;
      eventFree[j] = survival;
    }
    incidence = new double[given.causes()][age.length];
    variance = new double[given.causes()][age.length];
    for (int k = 0; k < given.causes(); k++) {
      new Pass(k, byCause[k], incidence[k], variance[k]).run();
    }
  }

  private double[] failureAges() {
    double[] ages = new double[end.length];
    int size = 0;
    for (int row : byEnd) {
      if (cause[row] != CauseLives.NONE && (size == 0 || ages[size - 1] != end[row])) {
        ages[size++] = end[row];
      }
    }
    return Arrays.copyOf(ages, size);
  }

  private void countAtRisk(double[][] byCause) {
    double n = 0;
    int entering = 0;
    int ending = 0;
    for (int j = 0; j < age.length; j++) {
      while (entering < byEntry.length && entry[byEntry[entering]] < age[j]) {
        n += count[byEntry[entering++]];
      }
      while (end[byEnd[ending]] < age[j]) {
        n -= count[byEnd[ending++]];
      }
      atRisk[j] = n;
      for (int i = ending; i < byEnd.length && end[byEnd[i]] == age[j]; i++) {
        int row = byEnd[i];
        if (cause[row] != CauseLives.NONE) {
          failed[j] += count[row];
          byCause[cause[row]][j] += count[row];
        }
      }
    }
  }

  /** One cause. */
  private final class Pass {
    private final int k;
    private final double[] ofCause;
    private final double[] share;
    private final double[] squares;

    /** A + D and B of the class comment: now, and for each life when it came under observation. */
    private double g;

    private double b;
    private final double[] gAtEntry = new double[entry.length];
    private final double[] bAtEntry = new double[entry.length];

    private final Moments ended = new Moments();
    private final Moments running = new Moments();

    Pass(int k, double[] ofCause, double[] share, double[] squares) {
      this.k = k;
      this.ofCause = ofCause;
      this.share = share;
      this.squares = squares;
    }

    void run() {
      int entering = 0;
      int ending = 0;
      double f = 0;
      double before = 1;
      for (int j = 0; j < age.length; j++) {
        while (entering < byEntry.length && entry[byEntry[entering]] < age[j]) {
          enter(byEntry[entering++]);
        }
        while (end[byEnd[ending]] < age[j]) {
          int row = byEnd[ending++];
          if (cause[row] == CauseLives.NONE) {
            leave(row, 0, 0);
          }
        }
        double n = atRisk[j];
        double d = failed[j];
        // once all at risk have failed nothing changes any more, and nothing is divided by 0
        double each = n > d ? 1 / (n - d) : 0;
        f += before * ofCause[j] / n;
        g += before * ofCause[j] / n / n + f * each * d / n;
        b += each * d / n;
        for (int i = ending; i < byEnd.length && end[byEnd[i]] == age[j]; i++) {
          int row = byEnd[i];
          if (cause[row] != CauseLives.NONE) {
            leave(row, (cause[row] == k ? before / n : 0) + f * each, each);
          }
        }
        share[j] = f;
        squares[j] = squares(f);
        before = eventFree[j];
      }
    }

    private void enter(int row) {
      gAtEntry[row] = g;
      bAtEntry[row] = b;
      running.add(count[row], g, b);
    }

    private void leave(int row, double p, double q) {
      running.add(-count[row], gAtEntry[row], bAtEntry[row]);
      ended.add(count[row], p - (g - gAtEntry[row]), q - (b - bAtEntry[row]));
    }

    /** Sum over all lives of (P - f Q)^2. */
    private double squares(double f) {
      double r = g - f * b;
      double sum =
          ended.pp
              - 2 * f * ended.pq
              + f * f * ended.qq
              + running.weight * r * r
              - 2 * r * (running.p - f * running.q)
              + (running.pp - 2 * f * running.pq + f * f * running.qq);
      double size =
          ended.pp + f * f * ended.qq + running.weight * r * r + running.pp + f * f * running.qq;
      return sum > ROUNDING * size ? sum : 0;
    }
  }

  /** Weighted sums over lives of a pair of numbers, their squares and product. */
  private static final class Moments {
    double weight;
    double p;
    double q;
    double pp;
    double pq;
    double qq;

    void add(double w, double x, double y) {
      weight += w;
      p += w * x;
      q += w * y;
      pp += w * x * x;
      pq += w * x * y;
      qq += w * y * y;
    }
  }
}
