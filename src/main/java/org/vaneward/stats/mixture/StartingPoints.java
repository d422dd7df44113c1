package org.vaneward.stats.mixture;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.vaneward.stats.distribution.Weibull;

/**
 * Points from which to climb: the failures cut in two at some of their quantiles, each part giving
 * its component; cuts with a falling hazard before the cut; two spreads about one scale; and random
 * ones.
 */
final class StartingPoints {
  private static final double[] CUTS = {0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95};
  private static final double[] FALLING = {0.2, 0.5, 0.8};

  /** Standard deviation of the log of a Weibull age with shape 1, pi / sqrt(6). */
  private static final double LOG_SPREAD = 1.2825;

  /** Log scale less mean log age at shape 1: Euler's constant. */
  private static final double LOG_MEAN = 0.5772;

  private final Rows rows;
  private final Weibull single;
  private final double logShape;
  private final double logScale;
  private final double spread;

  /** Failures by log age. */
  private final double[] age;

  private final double[] weight;

  StartingPoints(Rows rows, Weibull single) {
    this.rows = rows;
    this.single = single;
    logShape = Math.log(single.shape());
    logScale = Math.log(single.scale()) - rows.centre;
    int[] failed =
        IntStream.range(0, rows.size)
            .filter(i -> !rows.isRightCensored(i))
            .boxed()
            .sorted(Comparator.comparingDouble(rows::failedAt))
            .mapToInt(i -> i)
            .toArray();
    age = new double[failed.length];
    weight = new double[failed.length];
    for (int k = 0; k < failed.length; k++) {
      age[k] = rows.failedAt(failed[k]);
      weight[k] = rows.count[failed[k]];
    }
    spread = part(0, 1).sd;
  }

  List<Point> all(int random, long seed) {
    List<Point> points = new ArrayList<>();
    for (double cut : CUTS) {
      points.add(cutAt(cut));
    }
    for (double cut : FALLING) {
      Point p = cutAt(cut);
      points.add(
          new Point(
              p.logit(), logShape + Math.log(0.6), p.logScale1(), p.logShape2(), p.logScale2()));
    }
    for (double logit : new double[] {-1.4, 0, 1.4}) {
      points.add(new Point(logit, logShape - 0.9, logScale, logShape + 0.9, logScale));
    }
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(seed);
    for (int i = 0; i < random; i++) {
      points.add(random(rng));
    }
    return points;
  }

  private Point random(UniformRandomProvider rng) {
    Point p = cutAt(rng.nextDouble(0.03, 0.97));
    return new Point(
        rng.nextDouble(-2.5, 2.5),
        p.logShape1() + rng.nextDouble(-1.5, 0.7),
        p.logScale1() + rng.nextDouble(-0.7, 0.7) * spread,
        p.logShape2() + rng.nextDouble(-1.0, 1.0),
        p.logScale2() + rng.nextDouble(-0.5, 0.5) * spread);
  }

  /** Failures below the cut are of the first kind, the others and all survivors of the second. */
  private Point cutAt(double cut) {
    Part early = part(0, cut);
    Part late = part(cut, 1);
    double share = single.failed(Math.exp(rows.centre + early.end));
    double kept = Math.max(0.02, Math.min(0.98, share));
    return new Point(
        Math.log(kept / (1 - kept)),
        early.logShape(spread),
        early.logScale(spread),
        late.logShape(spread),
        late.logScale(spread));
  }

  /** Mean and spread of some of the log ages of failures. */
  private record Part(double mean, double sd, double end) {
    double logShape(double spread) {
      return Math.log(LOG_SPREAD / Math.max(sd, 0.1 * spread));
    }

    double logScale(double spread) {
      return mean + LOG_MEAN / Math.exp(logShape(spread));
    }
  }

  /** The part of the failures between two shares of them, the ends taken in part. */
  private Part part(double from, double to) {
    double total = 0;
    for (double w : weight) {
      total += w;
    }
    double low = from * total;
    double high = to * total;
    double sum = 0;
    double first = 0;
    double second = 0;
    double end = age[0];
    double before = 0;
    for (int k = 0; k < age.length; k++) {
      double w = Math.min(before + weight[k], high) - Math.max(before, low);
      before += weight[k];
      if (w > 0) {
        double off = age[k] - age[0];
        sum += w;
        first += w * off;
        second += w * off * off;
        end = age[k];
      }
    }
    double mean = first / sum;
    return new Part(age[0] + mean, Math.sqrt(Math.max(second / sum - mean * mean, 0)), end);
  }
}
