package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.gamma.LogGamma;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;

/**
 * Units of which most are alike and a few may be troubled: rates drawn towards the many, and the
 * chance of being one of the few.
 *
 * <p>A unit's count is Poisson with mean rate times expected number. Of the many, rates are gamma
 * with mean m and coefficient of variation c; of the few, m times a factor whose logarithm is
 * uniform between those of {@value #LEAST_FACTOR} and {@value #GREATEST_FACTOR}. For each c of a
 * grid the share of the few and m are found by the EM algorithm, the share as though {@value
 * #UNITS_BEFORE} units had been seen before and {@value #TROUBLED_BEFORE} of them troubled. The c
 * are then averaged over, each with its likelihood times a half-normal prior of scale {@value
 * #USUAL_VARIATION}: with few events nothing is known of how units differ, and limits are wide. The
 * priors are ours, stated and not fitted. {@link GammaPoisson} has one distribution for all and
 * draws a single outlier among many alike units almost wholly to the rest; here it can be told.
 * (Two groups and the false discovery rate that goes with them: B. Efron, Large-Scale Inference,
 * 2010, ch. 2 and 5, from memory.)
 *
 * @param spreads the coefficients of variation averaged over
 * @param units what is known of each unit, in the order given
 */
public record TroubledUnits(List<Spread> spreads, List<Unit> units) {
  /** Least factor on the rate of a troubled unit. */
  public static final double LEAST_FACTOR = 1.5;

  /** Greatest factor on the rate of a troubled unit. */
  public static final double GREATEST_FACTOR = 10;

  /** Units taken as seen beforehand. */
  static final double UNITS_BEFORE = 20;

  /** How many of these were troubled. */
  static final double TROUBLED_BEFORE = 1;

  /** Scale of the prior of the coefficient of variation. */
  static final double USUAL_VARIATION = 0.5;

  private static final int FACTORS = 24;
  private static final double[] VARIATIONS = {0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 1, 1.5};
  private static final int STEPS = 100;
  private static final double STILL = 1e-5;

  /** Accuracy of limits beside the greatest rate there may be. */
  private static final double CLOSE = 1e-6;

  /** Copies. */
  public TroubledUnits {
    spreads = List.copyOf(spreads);
    units = List.copyOf(units);
  }

  /**
   * One coefficient of variation.
   *
   * @param variation coefficient of variation c of the rates of the many
   * @param weight its posterior weight
   * @param share share of the few under it
   * @param mean mean rate m of the many under it
   */
  public record Spread(double variation, double weight, double share, double mean) {}

  /**
   * One unit.
   *
   * @param rate posterior mean of its rate, with equal-tailed posterior limits
   * @param probabilityTroubled chance that it is one of the few
   */
  public record Unit(Estimate rate, double probabilityTroubled) {}

  /**
   * A unit on the list of those likely to be troubled.
   *
   * @param unit its place in the order given, from 0
   * @param rate posterior mean of its rate, with limits
   * @param probabilityTroubled chance that it is one of the few
   * @param expectedFalseShare share of the units down to this one that are to be expected not to
   *     be: the mean of 1 - probability
   */
  public record Ranked(
      int unit, Estimate rate, double probabilityTroubled, double expectedFalseShare) {}

  /**
   * Fits the groups.
   *
   * @param counts events of each unit, at least 0. Not modified.
   * @param expected expected number of each, at least 0; a unit with nothing expected tells
   *     nothing. Not modified.
   * @param confidence of the limits, between 0 and 1
   * @throws IllegalArgumentException when an argument is out of its range
   */
  public static TroubledUnits fit(double[] counts, double[] expected, double confidence) {
    if (counts.length != expected.length || !(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "each unit has a count and an expected number, and a confidence is between 0 and 1, not "
              + counts.length
              + ", "
              + expected.length
              + " and "
              + confidence);
    }
    List<Climb> climbs = new ArrayList<>();
    for (double variation : VARIATIONS) {
      Climb climb = new Climb(counts, expected, variation);
      climb.run();
      climbs.add(climb);
    }
    double[] weight = weights(climbs);
    List<Spread> spreads = new ArrayList<>();
    for (int c = 0; c < weight.length; c++) {
      Climb climb = climbs.get(c);
      spreads.add(new Spread(VARIATIONS[c], weight[c], climb.share, climb.mean));
    }
    List<Unit> units = new ArrayList<>();
    for (int i = 0; i < counts.length; i++) {
      units.add(unit(climbs, weight, i, confidence));
    }
    return new TroubledUnits(spreads, units);
  }

  /** Likelihood times prior of each coefficient of variation, of its cell of the grid. */
  private static double[] weights(List<Climb> climbs) {
    double[] log = new double[VARIATIONS.length];
    double greatest = Double.NEGATIVE_INFINITY;
    for (int c = 0; c < log.length; c++) {
      double low = c == 0 ? 0 : (VARIATIONS[c - 1] + VARIATIONS[c]) / 2;
      double high =
          c == log.length - 1 ? 2 * VARIATIONS[c] - low : (VARIATIONS[c] + VARIATIONS[c + 1]) / 2;
      double z = VARIATIONS[c] / USUAL_VARIATION;
      log[c] = climbs.get(c).value - z * z / 2 + Math.log(high - low);
      greatest = Math.max(greatest, log[c]);
    }
    double sum = 0;
    for (int c = 0; c < log.length; c++) {
      log[c] = Math.exp(log[c] - greatest);
      sum += log[c];
    }
    for (int c = 0; c < log.length; c++) {
      log[c] /= sum;
    }
    return log;
  }

  private static Unit unit(List<Climb> climbs, double[] weight, int i, double confidence) {
    double mean = 0;
    double troubled = 0;
    double high = 0;
    List<Posterior> posteriors = new ArrayList<>();
    for (int c = 0; c < weight.length; c++) {
      Posterior posterior = new Posterior(climbs.get(c), i);
      posteriors.add(posterior);
      mean += weight[c] * posterior.mean();
      troubled += weight[c] * posterior.troubled;
      high = Math.max(high, posterior.high());
    }
    double least = 1e-9 * high;
    double most = high;
    DoubleUnaryOperator below =
        x -> {
          double sum = 0;
          for (int c = 0; c < weight.length; c++) {
            sum += weight[c] * posteriors.get(c).below(x);
          }
          return sum;
        };
    double tail = (1 - confidence) / 2;
    double close = CLOSE * high;
    OptionalDouble lower = Roots.between(x -> below.applyAsDouble(x) - tail, least, most, close);
    OptionalDouble upper =
        Roots.between(x -> below.applyAsDouble(x) - 1 + tail, least, most, close);
    return new Unit(
        new Estimate(mean, lower.orElse(0), upper.orElse(Double.POSITIVE_INFINITY)), troubled);
  }

  /** The units, the likeliest to be troubled first; equal ones in the order given. */
  public List<Ranked> ranked() {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < units.size(); i++) {
      order.add(i);
    }
    order.sort(Comparator.comparingDouble((Integer i) -> -units.get(i).probabilityTroubled()));
    List<Ranked> ranked = new ArrayList<>();
    double sum = 0;
    for (int i : order) {
      Unit unit = units.get(i);
      sum += 1 - unit.probabilityTroubled();
      ranked.add(new Ranked(i, unit.rate(), unit.probabilityTroubled(), sum / (ranked.size() + 1)));
    }
    return List.copyOf(ranked);
  }

  /** The climb at one coefficient of variation. */
  private static final class Climb {
    private final double[] counts;
    private final double[] expected;
    private final double shape;
    private double share = TROUBLED_BEFORE / UNITS_BEFORE;
    private double mean;
    private int known;
    private double value = Double.NEGATIVE_INFINITY;

    Climb(double[] counts, double[] expected, double variation) {
      this.counts = counts;
      this.expected = expected;
      shape = 1 / (variation * variation);
      double sum = 0;
      double all = 0;
      for (int i = 0; i < counts.length; i++) {
        sum += expected[i] > 0 ? counts[i] : 0;
        all += expected[i];
        known += expected[i] > 0 ? 1 : 0;
      }
      mean = sum > 0 && all > 0 ? sum / all : 1;
    }

    void run() {
      for (int step = 0; step < STEPS; step++) {
        double before = value;
        step();
        if (value - before < STILL) {
          return;
        }
      }
    }

    private void step() {
      double troubled = 0;
      double manyCounts = 0;
      double manyExpected = 0;
      value =
          TROUBLED_BEFORE * Math.log(share) + (UNITS_BEFORE - TROUBLED_BEFORE) * Math.log1p(-share);
      for (int i = 0; i < counts.length; i++) {
        if (!(expected[i] > 0)) {
          continue;
        }
        double many = logMany(i) + Math.log1p(-share);
        double few = logFew(i) + Math.log(share);
        double top = Math.max(many, few);
        double sum = top + Math.log(Math.exp(many - top) + Math.exp(few - top));
        double alike = Math.exp(many - sum);
        value += sum;
        troubled += 1 - alike;
        // The mean of a unit's rate beside m, given that it is one of the many.
        double rate = (shape + counts[i]) / (shape + mean * expected[i]);
        manyCounts += alike * counts[i];
        manyExpected += alike * rate * expected[i];
      }
      share = (troubled + TROUBLED_BEFORE) / (known + UNITS_BEFORE);
      mean = manyExpected > 0 && manyCounts > 0 ? manyCounts / manyExpected : mean;
    }

    /** Log-probability of a unit's count among the many, but for terms of the count alone. */
    private double logMany(int i) {
      double y = counts[i];
      double t = mean * expected[i];
      return LogGamma.value(shape + y)
          - LogGamma.value(shape)
          + shape * Math.log(shape / (shape + t))
          + (y > 0 ? y * Math.log(t / (shape + t)) : 0);
    }

    private double logFew(int i) {
      double y = counts[i];
      double sum = 0;
      double top = logPoisson(y, mean * expected[i] * factor(best(i)));
      for (int k = 0; k < FACTORS; k++) {
        sum += Math.exp(logPoisson(y, mean * expected[i] * factor(k)) - top);
      }
      return top + Math.log(sum / FACTORS);
    }

    /** The factor under which a unit's count is likeliest. */
    private int best(int i) {
      double wanted = counts[i] / Math.max(1e-300, mean * expected[i]);
      double place =
          Math.log(Math.max(1e-300, wanted) / LEAST_FACTOR)
              / Math.log(GREATEST_FACTOR / LEAST_FACTOR);
      return (int) Math.max(0, Math.min(FACTORS - 1, Math.floor(place * FACTORS)));
    }

    private static double factor(int k) {
      double place = (k + 0.5) / FACTORS;
      return LEAST_FACTOR * Math.pow(GREATEST_FACTOR / LEAST_FACTOR, place);
    }

    private static double logPoisson(double y, double t) {
      return (y > 0 ? y * Math.log(t) : 0) - t;
    }
  }

  /** What one coefficient of variation says of a unit's rate. */
  private static final class Posterior {
    private final double shape;
    private final double rateParameter;
    private final double manyMean;
    private final double troubled;
    private final double[] factorWeight = new double[FACTORS];

    Posterior(Climb climb, int i) {
      double expected = Math.max(climb.expected[i], 0);
      double count = expected > 0 ? climb.counts[i] : 0;
      shape = climb.shape + count;
      rateParameter = (climb.shape + climb.mean * expected) / climb.mean;
      manyMean = climb.mean;
      troubled =
          expected > 0
              ? 1
                  / (1
                      + Math.exp(
                          climb.logMany(i)
                              + Math.log1p(-climb.share)
                              - climb.logFew(i)
                              - Math.log(climb.share)))
              : climb.share;
      double sum = 0;
      double top = Double.NEGATIVE_INFINITY;
      for (int k = 0; k < FACTORS; k++) {
        factorWeight[k] =
            expected > 0 ? Climb.logPoisson(count, climb.mean * expected * Climb.factor(k)) : 0;
        top = Math.max(top, factorWeight[k]);
      }
      for (int k = 0; k < FACTORS; k++) {
        factorWeight[k] = Math.exp(factorWeight[k] - top);
        sum += factorWeight[k];
      }
      for (int k = 0; k < FACTORS; k++) {
        factorWeight[k] /= sum;
      }
    }

    double mean() {
      double few = 0;
      for (int k = 0; k < FACTORS; k++) {
        few += factorWeight[k] * manyMean * Climb.factor(k);
      }
      return (1 - troubled) * shape / rateParameter + troubled * few;
    }

    /** A rate above which next to nothing lies. */
    double high() {
      return 2 * GREATEST_FACTOR * manyMean + Quantiles.gamma(1 - 1e-9, shape) / rateParameter;
    }

    /** Share of the posterior below a rate. */
    double below(double rate) {
      double many = Quantiles.gammaShare(rate * rateParameter, shape);
      double few = 0;
      double width = Math.log(GREATEST_FACTOR / LEAST_FACTOR) / FACTORS;
      for (int k = 0; k < FACTORS; k++) {
        double place = Math.log(rate / manyMean / Climb.factor(k)) / width + 0.5;
        few += factorWeight[k] * Math.max(0, Math.min(1, place));
      }
      return (1 - troubled) * many + troubled * few;
    }
  }
}
