package org.vaneward.study;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.commons.rng.UniformRandomProvider;
import org.vaneward.study.ProfileCoverage.Cell;
import org.vaneward.study.ProfileCoverage.Censoring;
import org.vaneward.study.ProfileCoverage.Sample;
import org.vaneward.study.ProfileCoverage.Sampler;

/**
 * How often 90% profile limits hold the truth when the likelihood ratio is held against its own law
 * under the fit, simulated, instead of chi-square: the critical value is the 90% quantile of the
 * ratio over samples drawn from the fitted Weibull and seen as the lives were.
 *
 * <p>How the lives were seen: with time censoring at that time, with failure censoring to that
 * number of failures. With random censoring a censored life would have been at the same age; for
 * one that failed, an age of censoring beyond it is drawn from the product limit of those ages.
 */
public final class CalibratedCoverage {
  static final int SAMPLES = 2_000;

  private static final int REPLICATES = 399;
  private static final int BLOCK = 20;
  private static final double SCALE = 1000;

  private CalibratedCoverage() {}

  /** Shares of samples whose ratio stays below its own simulated 90% quantile. */
  static double[] coverage(Cell cell, int samples, long seed) {
    Sampler sampler = new Sampler(cell);
    List<UniformRandomProvider> children = ProfileCoverage.children(seed, samples / BLOCK);
    int[] held =
        children.parallelStream()
            .map(rng -> block(sampler, cell, rng))
            .reduce(new int[4], CalibratedCoverage::sum);
    return new double[] {
      (double) held[0] / held[3], (double) held[1] / held[3], (double) held[2] / held[3]
    };
  }

  private static int[] sum(int[] a, int[] b) {
    int[] sum = new int[a.length];
    Arrays.setAll(sum, i -> a[i] + b[i]);
    return sum;
  }

  private static int[] block(Sampler sampler, Cell cell, UniformRandomProvider rng) {
    int[] held = new int[4];
    for (int k = 0; k < BLOCK; k++) {
      Sample sample = sampler.draw(rng);
      if (sample.failures < 2) {
        continue;
      }
      double[] ratio =
          new WeibullRatio(sample.logAge, sample.failures)
              .statistics(cell.shape(), Math.log(SCALE));
      double[] critical = critical(cell.censoring(), sample, rng);
      held[3]++;
      for (int q = 0; q < 3; q++) {
        held[q] += ratio[q] <= critical[q] ? 1 : 0;
      }
    }
    return held;
  }

  /** The 90% quantiles of the ratios under the fit: the 360th of 399. */
  private static double[] critical(Censoring censoring, Sample sample, UniformRandomProvider rng) {
    WeibullRatio fit = new WeibullRatio(sample.logAge, sample.failures);
    double shape = fit.bestShape();
    double logScale = fit.bestLogScale(shape);
    double[][] ratios = new double[3][REPLICATES];
    for (int k = 0; k < REPLICATES; k++) {
      Sample again = again(censoring, sample, shape, logScale, rng);
      double[] ratio =
          again.failures < 2
              ? new double[0]
              : new WeibullRatio(again.logAge, again.failures).statistics(shape, logScale);
      for (int q = 0; q < 3; q++) {
        ratios[q][k] = ratio.length == 0 ? Double.POSITIVE_INFINITY : ratio[q];
      }
    }
    double[] critical = new double[3];
    for (int q = 0; q < 3; q++) {
      Arrays.sort(ratios[q]);
      critical[q] = ratios[q][(REPLICATES + 1) * 9 / 10 - 1];
    }
    return critical;
  }

  private static Sample again(
      Censoring censoring, Sample seen, double shape, double logScale, UniformRandomProvider rng) {
    int n = seen.logAge.length;
    double[] age = new double[n];
    for (int i = 0; i < n; i++) {
      age[i] = logScale + Math.log(-Math.log1p(-rng.nextDouble())) / shape;
    }
    if (censoring == Censoring.FAILURES) {
      Arrays.sort(age);
      Arrays.fill(age, seen.failures, n, age[seen.failures - 1]);
      return new Sample(age, seen.failures);
    }
    double[] sorted = new double[n];
    int failures = 0;
    int censored = 0;
    double[] ends = Arrays.copyOfRange(seen.logAge, seen.failures, n);
    Arrays.sort(ends);
    for (int i = 0; i < n; i++) {
      double end = i < seen.failures ? endAfter(seen, ends, i, rng) : seen.logAge[i];
      if (age[i] <= end) {
        sorted[failures++] = age[i];
      } else {
        sorted[n - ++censored] = end;
      }
    }
    return new Sample(sorted, failures);
  }

  /** An end beyond failure i, from the product limit of the ends; infinite when none is beyond. */
  private static double endAfter(Sample seen, double[] ends, int i, UniformRandomProvider rng) {
    double level = rng.nextDouble();
    double left = 1;
    for (int k = 0; k < ends.length; k++) {
      if (ends[k] > seen.logAge[i]) {
        int risk = ends.length - k;
        for (int j = 0; j < seen.failures; j++) {
          risk += seen.logAge[j] > ends[k] ? 1 : 0;
        }
        left *= 1 - 1.0 / risk;
        if (left <= level) {
          return ends[k];
        }
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  /** The table for the cells with 10 failures. */
  static String table(int samples, long seed) {
    StringBuilder text =
        new StringBuilder("ends by   failures  lives  shape  quantity  calibrated\n");
    List<Cell> cells = new ArrayList<>(ProfileCoverage.cells());
    cells.removeIf(cell -> cell.failures() != 10);
    for (Cell cell : cells) {
      double[] covered = coverage(cell, samples, seed);
      for (int q = 0; q < 3; q++) {
        text.append(
            String.format(
                Locale.ROOT, "%s  %9.1f%%%n", ProfileCoverage.name(cell, q), 100 * covered[q]));
      }
    }
    return text.toString();
  }

  /** Prints the table. */
  public static void main(String[] args) {
    System.out.print(table(SAMPLES, ProfileCoverage.SEED));
  }
}
