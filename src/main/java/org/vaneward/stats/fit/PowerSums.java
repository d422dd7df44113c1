package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.numeric.Chunks;

/**
 * Sums of exp(shape y) y^m for m = 0, 1, 2 over the log ages y to which lives were seen to run,
 * less the same at their entry.
 *
 * <p>With many lives a pass over them is dear. Each pass therefore takes higher powers along, and
 * shapes nearby are served from their Taylor series: with d the distance from the shape of the
 * pass, the sum with y^m is the sum over j of d^j / j! times the sum with y^(m + j). All y being at
 * most 0, what the series leaves out after J terms is at most |d|^J / J! |sum with y^(m + J)|
 * exp(|d| Y), with Y the greatest |y| (Lagrange's form of the remainder). How far a pass reaches
 * follows from that, so that no more than a rounding is lost.
 */
final class PowerSums {
  /** Lives from which the series is worth its higher powers. */
  private static final int MANY = 2048;

  /** Terms of a series. */
  private static final int TERMS = 10;

  private static final double TERMS_FACTORIAL = 3_628_800;

  /** What a series may leave out, relative: half a unit in the last place. */
  private static final double ROUNDING = 0x1p-53;

  private final double[] end;
  private final double[] endCount;
  private final double[] lateEnd;
  private final double[] lateEntry;
  private final double[] lateCount;
  private final double spread;
  private final List<Pass> passes = new ArrayList<>();

  PowerSums(LifeColumns lives) {
    end = lives.end;
    endCount = lives.endCount;
    lateEnd = lives.lateEnd;
    lateEntry = lives.lateEntry;
    lateCount = lives.lateCount;
    spread = lives.spread;
  }

  /** The sums at one shape. */
  record Sums(double m0, double m1, double m2) {
    Sums plus(Sums other) {
      return new Sums(m0 + other.m0, m1 + other.m1, m2 + other.m2);
    }
  }

  Sums at(double shape) {
    Sums early = end.length < MANY ? fewEarly(shape) : near(shape).at(shape);
    return lateEnd.length == 0 ? early : early.plus(late(shape));
  }

  private Sums fewEarly(double shape) {
    double sum0 = 0;
    double sum1 = 0;
    double sum2 = 0;
    for (int i = 0; i < end.length; i++) {
      double y = end[i];
      double e = endCount[i] * Math.exp(shape * y);
      double ey = e * y;
      sum0 += e;
      sum1 += ey;
      sum2 += ey * y;
    }
    return new Sums(sum0, sum1, sum2);
  }

  private Sums late(double shape) {
    Sums[] parts = new Sums[Chunks.count(lateEnd.length)];
    Chunks.run(lateEnd.length, (chunk, from, to) -> parts[chunk] = late(shape, from, to));
    Sums sum = parts[0];
    for (int i = 1; i < parts.length; i++) {
      sum = sum.plus(parts[i]);
    }
    return sum;
  }

  private Sums late(double shape, int from, int to) {
    double sum0 = 0;
    double sum1 = 0;
    double sum2 = 0;
    for (int i = from; i < to; i++) {
      double y = lateEnd[i];
      double x = lateEntry[i];
      double e = lateCount[i] * Math.exp(shape * y);
      double gone = Math.expm1(shape * (x - y));
      double left = 1 + gone;
      sum0 -= e * gone;
      sum1 += e * ((y - x) * left - y * gone);
      sum2 += e * ((y - x) * (y + x) * left - y * y * gone);
    }
    return new Sums(sum0, sum1, sum2);
  }

  /** A pass that reaches to the shape: an earlier one, or a new one at the shape itself. */
  private Pass near(double shape) {
    for (Pass pass : passes) {
      if (Math.abs(shape - pass.shape) <= pass.reach) {
        return pass;
      }
    }
    Pass pass = pass(shape);
    if (pass.reach > 0) {
      passes.add(pass);
    }
    return pass;
  }

  private Pass pass(double shape) {
    double[][] parts = new double[Chunks.count(end.length)][];
    Chunks.run(end.length, (chunk, from, to) -> parts[chunk] = powers(shape, from, to));
    double[] sums = new double[TERMS + 3];
    for (double[] part : parts) {
      for (int j = 0; j < sums.length; j++) {
        sums[j] += part[j];
      }
    }
    return new Pass(shape, sums, spread);
  }

  private double[] powers(double shape, int from, int to) {
    double[] sums = new double[TERMS + 3];
    for (int i = from; i < to; i++) {
      double y = end[i];
      double power = endCount[i] * Math.exp(shape * y);
      for (int j = 0; j < sums.length; j++) {
        sums[j] += power;
        power *= y;
      }
    }
    return sums;
  }

  /** What one pass over the lives observed from age 0 leaves. */
  private static final class Pass {
    private final double shape;
    private final double[] sums;

    /** Distance in shape up to which the series lose no more than a rounding. */
    private final double reach;

    /**
     * A pass.
     *
     * @param shape the shape
     * @param sums of exp(shape y) y^m for m = 0, 1, … TERMS + 2
     * @param widest at least the greatest |y|
     */
    Pass(double shape, double[] sums, double widest) {
      this.shape = shape;
      this.sums = sums;
      // Up to here exp(|d| Y) is at most e.
      double least = 1 / widest;
      for (int m = 0; m <= 2; m++) {
        double ratio = Math.abs(sums[m] / sums[m + TERMS]);
        double room = TERMS_FACTORIAL * ROUNDING / Math.E * ratio;
        least = Math.min(least, Math.pow(room, 1.0 / TERMS));
      }
      reach = least;
    }

    Sums at(double otherShape) {
      double d = otherShape - shape;
      return new Sums(series(d, 0), series(d, 1), series(d, 2));
    }

    private double series(double d, int m) {
      double sum = sums[m + TERMS - 1];
      for (int j = TERMS - 1; j > 0; j--) {
        sum = sums[m + j - 1] + sum * d / j;
      }
      return sum;
    }
  }
}
