package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
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
 * uniform between those of {@value #LEAST_FACTOR} and {@value #GREATEST_FACTOR}, which is stated
 * and not fitted. The share of the few, m and c are found by maximum likelihood, c on a grid and
 * the others by the EM algorithm, the share held down as though {@value #UNITS_ALIKE} more units of
 * the many had been seen. {@link GammaPoisson} has one distribution for all and draws a single
 * outlier among many alike units almost wholly to the rest; here it can be told. (Two groups and
 * the false discovery rate that goes with them: B. Efron, Large-Scale Inference, 2010, ch. 2 and 5,
 * from memory.)
 *
 * @param share share of the few
 * @param mean mean rate m of the many
 * @param variation coefficient of variation c of their rates
 * @param units what is known of each unit, in the order given
 */
public record TroubledUnits(double share, double mean, double variation, List<Unit> units) {
  /** Least factor on the rate of a troubled unit. */
  public static final double LEAST_FACTOR = 1.5;

  /** Greatest factor on the rate of a troubled unit. */
  public static final double GREATEST_FACTOR = 10;

  /** Units of the many taken as seen beforehand. */
  static final double UNITS_ALIKE = 10;

  private static final int FACTORS = 24;
  private static final double[] VARIATIONS = {0.02, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 1, 1.5};
  private static final int STEPS = 100;
  private static final double STILL = 1e-5;

  /** Copies. */
  public TroubledUnits {
    units = List.copyOf(units);
  }

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
   * @param expected expected number of each, at least 0; a unit with nothing expected tells nothing
   *     and is left where the many are. Not modified.
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
    Climb best = new Climb(counts, expected, VARIATIONS[0]);
    for (double variation : VARIATIONS) {
      Climb climb = new Climb(counts, expected, variation);
      climb.run();
      best = climb.value > best.value || variation == VARIATIONS[0] ? climb : best;
    }
    List<Unit> units = new ArrayList<>();
    for (int i = 0; i < counts.length; i++) {
      units.add(best.unit(i, confidence));
    }
    return new TroubledUnits(best.share, best.mean, best.variation, units);
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
    private final double variation;
    private final double shape;
    private double share = 0.02;
    private double mean;
    private int known;
    private double value = Double.NEGATIVE_INFINITY;

    Climb(double[] counts, double[] expected, double variation) {
      this.counts = counts;
      this.expected = expected;
      this.variation = variation;
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
      value = UNITS_ALIKE * Math.log1p(-share);
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
      share = Math.max(1e-9, troubled / (known + UNITS_ALIKE));
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

    private Unit unit(int i, double confidence) {
      if (!(expected[i] > 0)) {
        return new Unit(
            new Estimate(mean, gamma(i, (1 - confidence) / 2), gamma(i, (1 + confidence) / 2)),
            share);
      }
      double many = logMany(i) + Math.log1p(-share);
      double few = logFew(i) + Math.log(share);
      double troubled = 1 / (1 + Math.exp(many - few));
      double[] weights = weights(i);
      double fewMean = 0;
      for (int k = 0; k < FACTORS; k++) {
        fewMean += weights[k] * mean * factor(k);
      }
      double manyMean = mean * (shape + counts[i]) / (shape + mean * expected[i]);
      Estimate rate =
          new Estimate(
              (1 - troubled) * manyMean + troubled * fewMean,
              limit(i, weights, troubled, (1 - confidence) / 2),
              limit(i, weights, troubled, (1 + confidence) / 2));
      return new Unit(rate, troubled);
    }

    private double[] weights(int i) {
      double[] weights = new double[FACTORS];
      double top = logPoisson(counts[i], mean * expected[i] * factor(best(i)));
      double sum = 0;
      for (int k = 0; k < FACTORS; k++) {
        weights[k] = Math.exp(logPoisson(counts[i], mean * expected[i] * factor(k)) - top);
        sum += weights[k];
      }
      for (int k = 0; k < FACTORS; k++) {
        weights[k] /= sum;
      }
      return weights;
    }

    private double gamma(int i, double p) {
      return mean * Quantiles.gamma(p, shape + counts[i]) / (shape + mean * expected[i]);
    }

    /** Where the posterior share below reaches {@code p}. */
    private double limit(int i, double[] weights, double troubled, double p) {
      double high = mean * GREATEST_FACTOR * 2 + gamma(i, 1 - 1e-9);
      OptionalDouble root =
          Roots.between(x -> below(i, weights, troubled, x) - p, 1e-12 * mean, high, 1e-9 * mean);
      return root.orElse(Double.NaN);
    }

    private double below(int i, double[] weights, double troubled, double x) {
      double many =
          Quantiles.gammaShare(x * (shape + mean * expected[i]) / mean, shape + counts[i]);
      double few = 0;
      double width = Math.log(GREATEST_FACTOR / LEAST_FACTOR) / FACTORS;
      for (int k = 0; k < FACTORS; k++) {
        double place = Math.log(x / mean / factor(k)) / width + 0.5;
        few += weights[k] * Math.max(0, Math.min(1, place));
      }
      return (1 - troubled) * many + troubled * few;
    }
  }
}
