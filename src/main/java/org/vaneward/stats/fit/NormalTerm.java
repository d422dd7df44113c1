package org.vaneward.stats.fit;

import org.vaneward.stats.numeric.LogSpace;

/**
 * The log-likelihood of one life whose log age is normal, with its derivatives in k and log shape
 * s: a place w on the log age axis times the shape lies z = w - k from the location, so dz/dk = -1
 * and dz/ds = w.
 *
 * <p>A life that came under observation at w0 is known to have outlived it: each term is less the
 * log of the tail there. Far out (a late entry, with the location far below it) both are huge and
 * nearly cancel; the difference is then taken before the numbers are formed.
 *
 * <p>Working object: each method overwrites it.
 */
final class NormalTerm {
  /** An interval narrower than this, times the steepness within, is integrated by a rule. */
  private static final double NARROW = 1;

  // Ten-point Gauss-Legendre rule (Abramowitz and Stegun, table 25.4).
  private static final double[] NODE = {
    0.1488743389816312,
    0.4333953941292472,
    0.6794095682990244,
    0.8650633666889845,
    0.9739065285171717
  };
  private static final double[] WEIGHT = {
    0.2955242247147529,
    0.2692667193099963,
    0.2190863625159820,
    0.1494513491505806,
    0.0666713443086881
  };

  double value;
  double k;
  double s;
  double kk;
  double ks;
  double ss;

  private final NormalTail tail = new NormalTail();
  private final NormalTail entryTail = new NormalTail();

  void clear() {
    set(0, 0, 0, 0, 0, 0);
  }

  /** Adds {@code n} times another. */
  void add(double n, NormalTerm other) {
    value += n * other.value;
    k += n * other.k;
    s += n * other.s;
    kk += n * other.kk;
    ks += n * other.ks;
    ss += n * other.ss;
  }

  WeibullLikelihood.Derivatives derivatives() {
    return new WeibullLikelihood.Derivatives(value, k, s, kk, ks, ss);
  }

  private void set(double v, double dk, double ds, double dkk, double dks, double dss) {
    value = v;
    k = dk;
    s = ds;
    kk = dkk;
    ks = dks;
    ss = dss;
  }

  /** Failed at w, entered at w0: the log density of shape times log age, less log tail at w0. */
  void failure(double w, double w0, double atK, double logShape) {
    double z = w - atK;
    double z0 = w0 - atK;
    entryTail.at(z0);
    double square = 1 - entryTail.variance;
    double v =
        z0 > 0
            ? logShape - (w - w0) * (z + z0) / 2 - entryTail.logMills
            : logShape - NormalTail.LOG_ROOT_2_PI - z * z / 2 - entryTail.log;
    set(
        v,
        w - w0 - entryTail.excess,
        1 - z * w + entryTail.hazard * w0,
        -entryTail.variance,
        w - square * w0,
        -w * w - z * w + (square * w0 + entryTail.hazard) * w0);
  }

  /** Outlived w; entered at w0, negative infinity when observed from the start. */
  void survivor(double w, double w0, double atK) {
    double z = w - atK;
    tail.at(z);
    double square = 1 - tail.variance;
    set(
        tail.log,
        tail.hazard,
        -tail.hazard * w,
        -square,
        square * w,
        -(square * w + tail.hazard) * w);
    if (w0 > Double.NEGATIVE_INFINITY) {
      lessEntry(w, w0, atK);
    }
  }

  /** Takes the entry at w0 off what is known of a life that outlived w. */
  private void lessEntry(double w, double w0, double atK) {
    double z = w - atK;
    double z0 = w0 - atK;
    entryTail.at(z0);
    double square = 1 - entryTail.variance;
    if (z0 > 0) {
      value = tail.logMills - entryTail.logMills - (w - w0) * (z + z0) / 2;
      k = w - w0 + tail.excess - entryTail.excess;
    } else {
      value -= entryTail.log;
      k -= entryTail.hazard;
    }
    s += entryTail.hazard * w0;
    kk = tail.variance - entryTail.variance;
    ks -= square * w0;
    ss += (square * w0 + entryTail.hazard) * w0;
  }

  /**
   * Failed between two places.
   *
   * @param from lower place; negative infinity when it may have failed at any age below
   * @param to upper place
   * @param width of the interval, which the difference of the places would not give if narrow
   * @param w0 entry; negative infinity when observed from the start
   * @param spare a further working object
   */
  void between(double from, double to, double width, double w0, double atK, NormalTerm spare) {
    if (from == Double.NEGATIVE_INFINITY) {
      survivor(-to, from, -atK);
      mirror();
      return;
    }
    double middle = from + width / 2;
    if (width * (1 + Math.abs(middle - atK)) < NARROW) {
      narrow(middle, width, w0, atK);
    } else if (from > atK) {
      spare.survivor(from, w0, atK);
      failedAfter(from, to, atK);
      add(1, spare);
    } else {
      if (to < atK) {
        spare.survivor(-to, Double.NEGATIVE_INFINITY, -atK);
        failedAfter(-to, -from, -atK);
        add(1, spare);
        mirror();
      } else {
        around(from, to, atK);
      }
      if (w0 > Double.NEGATIVE_INFINITY) {
        spare.survivor(w0, Double.NEGATIVE_INFINITY, atK);
        add(-1, spare);
      }
    }
  }

  /** From the mirrored axis, on which k has the other sign. */
  private void mirror() {
    k = -k;
    ks = -ks;
  }

  /** Failed by {@code to} given that it outlived {@code from}: log(1 - exp(run)). */
  private void failedAfter(double from, double to, double atK) {
    survivor(to, from, atK);
    double f = 1 / Math.expm1(-value);
    double g = f * (1 + f);
    set(
        LogSpace.log1mExp(-value),
        -f * k,
        -f * s,
        -f * kk - g * k * k,
        -f * ks - g * k * s,
        -f * ss - g * s * s);
  }

  /** A wide interval with the location inside. */
  private void around(double from, double to, double atK) {
    double low = from - atK;
    double high = to - atK;
    tail.at(high);
    entryTail.at(-low);
    double share = 1 - Math.exp(tail.log) - Math.exp(entryTail.log);
    double p = Math.exp(-high * high / 2 - NormalTail.LOG_ROOT_2_PI) / share;
    double q = Math.exp(-low * low / 2 - NormalTail.LOG_ROOT_2_PI) / share;
    double ds = p * to - q * from;
    set(
        Math.log(share),
        q - p,
        ds,
        low * q - high * p - (p - q) * (p - q),
        high * p * to - low * q * from + (p - q) * ds,
        low * q * from * from - high * p * to * to + ds - ds * ds);
  }

  /** Moments of the distance v from the middle of a narrow interval, density exp(-mv - v²/2). */
  private void narrow(double middle, double width, double w0, double atK) {
    double m = middle - atK;
    double sum = 0;
    double first = 0;
    double second = 0;
    double third = 0;
    double fourth = 0;
    for (int i = 0; i < NODE.length; i++) {
      for (int side = -1; side <= 1; side += 2) {
        double v = side * NODE[i] * width / 2;
        double density = WEIGHT[i] * Math.exp(-v * (m + v / 2));
        sum += density;
        first += density * v;
        second += density * v * v;
        third += density * v * v * v;
        fourth += density * v * v * v * v;
      }
    }
    double mean = first / sum;
    second /= sum;
    third /= sum;
    fourth /= sum;
    double variance = second - mean * mean;
    double skew = third - mean * second;
    double square = fourth - second * second;
    // With Z = m + v and W = middle + v: Z W = m middle + (m + middle) v + v².
    double c = m + middle;
    double ofProduct = square + 2 * c * skew + c * c * variance;
    double product = m * middle + c * mean + second;
    double wSquare = middle * middle + 2 * middle * mean + second;
    set(
        Math.log(width / 2 * sum) - m * m / 2 - NormalTail.LOG_ROOT_2_PI,
        m + mean,
        1 - product,
        variance - 1,
        middle + mean - skew - c * variance,
        ofProduct - wSquare - product);
    if (w0 > Double.NEGATIVE_INFINITY) {
      narrowLessEntry(m, middle, w0, atK, mean, variance, Math.log(width / 2 * sum));
    }
  }

  private void narrowLessEntry(
      double m,
      double middle,
      double w0,
      double atK,
      double mean,
      double variance,
      double logWidth) {
    double z0 = w0 - atK;
    entryTail.at(z0);
    double square = 1 - entryTail.variance;
    if (z0 > 0) {
      value = logWidth - (middle - w0) * (m + z0) / 2 - entryTail.logMills;
      k = middle - w0 + mean - entryTail.excess;
    } else {
      value -= entryTail.log;
      k -= entryTail.hazard;
    }
    s += entryTail.hazard * w0;
    kk = variance - entryTail.variance;
    ks -= square * w0;
    ss += (square * w0 + entryTail.hazard) * w0;
  }
}
