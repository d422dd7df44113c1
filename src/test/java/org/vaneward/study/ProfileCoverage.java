package org.vaneward.study;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.commons.rng.SplittableUniformRandomProvider;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.apache.commons.statistics.distribution.TDistribution;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;

/**
 * How often 90% limits of a Weibull fit hold the true shape, scale and 10% life, over simulated
 * samples. Run as a program, it prints the tables of {@code docs/coverage.md}.
 *
 * <p>With time censoring at a quantile of the life, and with failure censoring, the law of all
 * likelihood ratios is the same for every shape and scale (log ages are a location-scale family and
 * the censoring moves with it), so one shape stands for all. With random censoring it is not.
 */
public final class ProfileCoverage {
  private static final double CONFIDENCE = 0.90;
  private static final double SCALE = 1000;
  private static final int BLOCK = 100;

  /** Samples behind the page. */
  static final int SAMPLES = 20_000;

  static final long SEED = 7;

  /** The lift of the critical value, times the number of failures, that the page looks at. */
  static final double LIFT = 1.25;

  private ProfileCoverage() {}

  /** How the simulated observation ends. */
  enum Censoring {
    /** All lives at one time. */
    TIME,
    /** All lives at the failure that makes the number full. */
    FAILURES,
    /** Each life at a time of its own, uniform from 0 on. */
    RANDOM
  }

  /**
   * A cell of the table.
   *
   * @param failures number of failures; with time and random censoring that number on average
   * @param lives number of lives
   */
  record Cell(Censoring censoring, int failures, int lives, double shape) {
    double shareFailed() {
      return (double) failures / lives;
    }
  }

  /** The three quantities, in this order in every array. */
  static final List<String> QUANTITIES = List.of("shape", "scale", "10% life");

  /** Counts over the samples of one cell. */
  static final class Count {
    int samples;
    int refused;
    final int[] profile = new int[3];
    final int[] below = new int[3];
    final int[] wald = new int[3];
    final int[] lifted = new int[3];
    final int[] tCritical = new int[3];
    final double[] ratio = new double[3];

    /** Samples in which the limits and the likelihood ratio itself do not say the same. */
    int contradictions;

    void add(Count other) {
      samples += other.samples;
      refused += other.refused;
      contradictions += other.contradictions;
      for (int q = 0; q < 3; q++) {
        profile[q] += other.profile[q];
        below[q] += other.below[q];
        wald[q] += other.wald[q];
        lifted[q] += other.lifted[q];
        tCritical[q] += other.tCritical[q];
        ratio[q] += other.ratio[q];
      }
    }

    int fitted() {
      return samples - refused;
    }

    double covered(int[] held, int q) {
      return (double) held[q] / fitted();
    }
  }

  /** A sample: log ages, those of failures first. */
  static final class Sample {
    final double[] logAge;
    final int failures;

    Sample(double[] logAge, int failures) {
      this.logAge = logAge;
      this.failures = failures;
    }

    Observations lives() {
      Observations.Builder lives = Observations.builder();
      for (int i = 0; i < logAge.length; i++) {
        double age = Math.exp(logAge[i]);
        if (i < failures) {
          lives.addFailure(0, age, 1);
        } else {
          lives.addRightCensored(0, age, 1);
        }
      }
      return lives.build();
    }
  }

  /** Draws samples of one life and one way of ending the observation. */
  static final class Sampler {
    private final Cell cell;
    private final int lives;
    private final double logTime;
    private final double latest;

    Sampler(Cell cell) {
      this.cell = cell;
      lives = cell.lives();
      logTime =
          Math.log(new Weibull(cell.shape(), SCALE).quantile(Math.min(cell.shareFailed(), 0.999)));
      latest = cell.censoring() == Censoring.RANDOM ? latestEnd(cell) : 0;
    }

    Sample draw(UniformRandomProvider rng) {
      double[] age = new double[lives];
      for (int i = 0; i < lives; i++) {
        age[i] = Math.log(SCALE) + Math.log(-Math.log1p(-rng.nextDouble())) / cell.shape();
      }
      if (cell.censoring() == Censoring.FAILURES) {
        Arrays.sort(age);
        Arrays.fill(age, cell.failures(), lives, age[cell.failures() - 1]);
        return new Sample(age, cell.failures());
      }
      double[] sorted = new double[lives];
      int failures = 0;
      int censored = 0;
      for (double y : age) {
        double end = end(rng);
        if (y <= end) {
          sorted[failures++] = y;
        } else {
          sorted[lives - ++censored] = end;
        }
      }
      return new Sample(sorted, failures);
    }

    private double end(UniformRandomProvider rng) {
      return cell.censoring() == Censoring.TIME
          ? logTime
          : Math.log(latest * (1 - rng.nextDouble()));
    }

    /** The latest end that lets the share of lives fail: mean survival up to it is the rest. */
    private static double latestEnd(Cell cell) {
      Weibull law = new Weibull(cell.shape(), SCALE);
      double censored = 1 - cell.shareFailed();
      return Roots.between(end -> meanSurvival(law, end) - censored, SCALE / 100, SCALE * 100)
          .orElseThrow();
    }

    private static double meanSurvival(Weibull law, double end) {
      int steps = 2000;
      double sum = 0;
      for (int i = 0; i < steps; i++) {
        sum += law.survival(end * (i + 0.5) / steps);
      }
      return sum / steps;
    }
  }

  /** Counts over samples of one cell; the same on any number of threads. */
  static Count count(Cell cell, int samples, long seed) {
    Sampler sampler = new Sampler(cell);
    List<UniformRandomProvider> children = children(seed, samples / BLOCK);
    return children.parallelStream()
        .map(rng -> block(sampler, rng))
        .reduce(
            new Count(),
            (a, b) -> {
              Count sum = new Count();
              sum.add(a);
              sum.add(b);
              return sum;
            });
  }

  static List<UniformRandomProvider> children(long seed, int n) {
    SplittableUniformRandomProvider source =
        (SplittableUniformRandomProvider) RandomSource.L64_X128_MIX.create(seed);
    List<UniformRandomProvider> children = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      children.add(source.split());
    }
    return children;
  }

  private static Count block(Sampler sampler, UniformRandomProvider rng) {
    Count count = new Count();
    for (int k = 0; k < BLOCK; k++) {
      judge(sampler.draw(rng), sampler.cell.shape(), count);
    }
    return count;
  }

  private static void judge(Sample sample, double shape, Count count) {
    count.samples++;
    Observations lives = sample.lives();
    FitSettings settings =
        FitSettings.defaults().withConfidence(CONFIDENCE).withShares(List.of(0.1));
    if (!(WeibullFitter.fit(lives, settings) instanceof WeibullFit.Fitted fit)
        || !(WeibullFitter.fit(lives, settings.withLimits(LimitMethod.WALD))
            instanceof WeibullFit.Fitted wald)) {
      count.refused++;
      return;
    }
    double[] ratio =
        new WeibullRatio(sample.logAge, sample.failures).statistics(shape, Math.log(SCALE));
    double[] truth = {shape, SCALE, new Weibull(shape, SCALE).quantile(0.1)};
    double chiSquare = Quantiles.chiSquare(CONFIDENCE, 1);
    double t = tSquare(sample.failures);
    for (int q = 0; q < 3; q++) {
      Estimate limits = of(fit, q);
      boolean holds = holds(limits, truth[q]);
      count.profile[q] += holds ? 1 : 0;
      count.below[q] += truth[q] < limits.lower() ? 1 : 0;
      count.wald[q] += holds(of(wald, q), truth[q]) ? 1 : 0;
      count.ratio[q] += ratio[q];
      count.lifted[q] += ratio[q] <= chiSquare * (1 + LIFT / sample.failures) ? 1 : 0;
      count.tCritical[q] += ratio[q] <= t ? 1 : 0;
      count.contradictions += holds == ratio[q] <= chiSquare ? 0 : 1;
    }
  }

  private static Estimate of(WeibullFit.Fitted fit, int q) {
    return q == 0 ? fit.shape() : q == 1 ? fit.scale() : fit.quantiles().get(0).age();
  }

  private static boolean holds(Estimate limits, double truth) {
    return limits.lower() <= truth && truth <= limits.upper();
  }

  /** The square of Student's t with failures - 1 degrees of freedom in place of chi-square. */
  private static double tSquare(int failures) {
    double t =
        failures > 1
            ? TDistribution.of(failures - 1).inverseCumulativeProbability((1 + CONFIDENCE) / 2)
            : Double.POSITIVE_INFINITY;
    return t * t;
  }

  /** Cells of the second table: fewer failures, and other shares censored. */
  static List<Cell> furtherCells() {
    return List.of(
        new Cell(Censoring.TIME, 5, 10, 2),
        new Cell(Censoring.FAILURES, 5, 10, 2),
        new Cell(Censoring.TIME, 10, 50, 2),
        new Cell(Censoring.FAILURES, 10, 50, 2),
        new Cell(Censoring.RANDOM, 10, 50, 2),
        new Cell(Censoring.FAILURES, 10, 10, 2));
  }

  /** Cells of the first table: half of the lives censored. */
  static List<Cell> cells() {
    List<Cell> cells = new ArrayList<>();
    for (int failures : new int[] {10, 20, 50}) {
      cells.add(new Cell(Censoring.TIME, failures, 2 * failures, 2));
      cells.add(new Cell(Censoring.FAILURES, failures, 2 * failures, 2));
      for (double shape : new double[] {0.8, 2, 4}) {
        cells.add(new Cell(Censoring.RANDOM, failures, 2 * failures, shape));
      }
    }
    return cells;
  }

  /** The line of a cell and a quantity as far as it names them. */
  static String name(Cell cell, int q) {
    String shape =
        cell.censoring() == Censoring.RANDOM
            ? String.format(Locale.ROOT, "%.1f", cell.shape())
            : "any";
    return String.format(
        Locale.ROOT,
        "%-8s  %8d  %5d  %5s  %-8s",
        cell.censoring().name().toLowerCase(Locale.ROOT),
        cell.failures(),
        cell.lives(),
        shape,
        QUANTITIES.get(q));
  }

  /** The table for some cells. */
  static String table(List<Cell> cells, int samples, long seed) {
    StringBuilder text =
        new StringBuilder(
            "ends by   failures  lives  shape  quantity  profile  too high   wald   lifted      t  ratio\n");
    for (Cell cell : cells) {
      Count c = count(cell, samples, seed);
      for (int q = 0; q < 3; q++) {
        text.append(
            String.format(
                Locale.ROOT,
                "%s  %6.1f%% %8.1f%% %6.1f%% %6.1f%% %6.1f%% %6.3f%n",
                name(cell, q),
                100 * c.covered(c.profile, q),
                100 * c.covered(c.below, q),
                100 * c.covered(c.wald, q),
                100 * c.covered(c.lifted, q),
                100 * c.covered(c.tCritical, q),
                c.ratio[q] / c.fitted()));
      }
    }
    return text.toString();
  }

  /** Prints both tables. */
  public static void main(String[] args) {
    System.out.println(table(cells(), SAMPLES, SEED));
    System.out.print(table(furtherCells(), SAMPLES, SEED));
  }
}
