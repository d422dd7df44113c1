package org.vaneward.stats.pooling;

import java.util.List;
import java.util.OptionalDouble;

/**
 * What to ask of a pooled fit. Defaults: limits of confidence 0.90, 2,000 posterior draws, seed 1,
 * the ages by which 1%, 5%, 10% and 50% have failed, and {@link Priors#defaults}.
 *
 * @param confidence of two-sided limits, between 0 and 1
 * @param draws number of posterior draws, from 100 to 1,000,000
 * @param seed of the generator: the same seed gives the same draws
 * @param shares shares failed for which to give the age, each between 0 and 1
 * @param priors what is believed before the data
 * @param precision how closely the posterior is integrated
 */
public record PoolingSettings(
    double confidence,
    int draws,
    long seed,
    List<Double> shares,
    Priors priors,
    Precision precision) {
  private static final int FEWEST_DRAWS = 100;
  private static final int MOST_DRAWS = 1_000_000;

  /**
   * Checks and copies.
   *
   * @throws IllegalArgumentException when a number is out of its range
   */
  public PoolingSettings {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    if (draws < FEWEST_DRAWS || draws > MOST_DRAWS) {
      throw new IllegalArgumentException(
          "draws number from " + FEWEST_DRAWS + " to " + MOST_DRAWS + ", not " + draws);
    }
    shares = List.copyOf(shares);
    for (double p : shares) {
      if (!(p > 0 && p < 1)) {
        throw new IllegalArgumentException("a share is between 0 and 1, not " + p);
      }
    }
  }

  /** The defaults. */
  public static PoolingSettings defaults() {
    return new PoolingSettings(
        0.90, 2000, 1, List.of(0.01, 0.05, 0.10, 0.50), Priors.defaults(), Precision.USUAL);
  }

  /** A copy with limits of another confidence. */
  public PoolingSettings withConfidence(double other) {
    return new PoolingSettings(other, draws, seed, shares, priors, precision);
  }

  /** A copy with another number of draws. */
  public PoolingSettings withDraws(int other) {
    return new PoolingSettings(confidence, other, seed, shares, priors, precision);
  }

  /** A copy with another seed. */
  public PoolingSettings withSeed(long other) {
    return new PoolingSettings(confidence, draws, other, shares, priors, precision);
  }

  /** A copy with other shares. */
  public PoolingSettings withShares(List<Double> other) {
    return new PoolingSettings(confidence, draws, seed, other, priors, precision);
  }

  /** A copy with other priors. */
  public PoolingSettings withPriors(Priors other) {
    return new PoolingSettings(confidence, draws, seed, shares, other, precision);
  }

  /** A copy integrated with another precision. */
  public PoolingSettings withPrecision(Precision other) {
    return new PoolingSettings(confidence, draws, seed, shares, priors, other);
  }

  /**
   * Weakly informative priors, independent of one another and of the unit of age.
   *
   * <ul>
   *   <li>Log shape of the typical group: normal around the log of {@code shapeMedian}, 1.5, with
   *       standard deviation {@code shapeLogSd}, 0.7. Nine shapes in ten then lie between 0.5 and
   *       5, what trade parts show from running-in to hard wear-out (common practice, no source).
   *   <li>Standard deviation of log shape between groups: the positive half of a normal
   *       distribution with standard deviation {@code shapesBetweenScale}, 0.3. Shapes of one kind
   *       of part that differ by a factor of 1.2 between services are ordinary, by a factor of 2
   *       rare (common practice, no source). With 0 all groups have one shape.
   *   <li>Log scale of the typical group: normal with standard deviation {@code scaleLogSd}, 3,
   *       around the log of the scale that all groups taken together have at the shape {@code
   *       shapeMedian}. A factor of 20 either way is one standard deviation: it keeps the scale
   *       finite and says nothing else. Its centre moves with the unit of age. Strictly a centre
   *       worked out from the data is no prior; {@code typicalScale} states one instead.
   *   <li>Standard deviation of log scale between groups: the positive half of a normal
   *       distribution with standard deviation {@code betweenScale}, 0.7. Half of it lies below
   *       0.47, a twentieth above 1.37: groups that differ by a factor of 1.6 are ordinary, by a
   *       factor of 4 rare. It falls from 0 on, so that groups alike can be told to be alike, and
   *       is proper, so that two groups are enough (A. Gelman, Bayesian Analysis 1, 2006, 515-534,
   *       from memory).
   * </ul>
   *
   * @param shapeMedian median of the typical group's shape, positive
   * @param shapeLogSd standard deviation of its logarithm, positive
   * @param shapesBetweenScale standard deviation of the normal distribution whose half is the prior
   *     of the standard deviation of log shape between groups; 0 for one shape
   * @param scaleLogSd standard deviation of the log scale of the typical group, positive
   * @param betweenScale standard deviation of the normal distribution whose half is the prior of
   *     the standard deviation between groups, positive
   * @param typicalScale median of the scale of the typical group, in the unit of the ages; empty to
   *     work it out from the data
   */
  public record Priors(
      double shapeMedian,
      double shapeLogSd,
      double shapesBetweenScale,
      double scaleLogSd,
      double betweenScale,
      OptionalDouble typicalScale) {
    /**
     * Checks.
     *
     * @throws IllegalArgumentException unless each number is positive and finite, that between
     *     shapes at least 0
     */
    public Priors {
      double centre = typicalScale.orElse(1);
      for (double x : new double[] {shapeMedian, shapeLogSd, scaleLogSd, betweenScale, centre}) {
        if (!(x > 0 && x < Double.POSITIVE_INFINITY)) {
          throw new IllegalArgumentException("a prior's number is positive and finite, not " + x);
        }
      }
      if (!(shapesBetweenScale >= 0 && shapesBetweenScale < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "the prior's scale between shapes is at least 0 and finite, not " + shapesBetweenScale);
      }
    }

    /** The defaults. */
    public static Priors defaults() {
      return new Priors(1.5, 0.7, 0.3, 3, 0.7, OptionalDouble.empty());
    }

    /** A copy with another median of the shape. */
    public Priors withShapeMedian(double other) {
      return new Priors(
          other, shapeLogSd, shapesBetweenScale, scaleLogSd, betweenScale, typicalScale);
    }

    /** A copy with another standard deviation of log shape. */
    public Priors withShapeLogSd(double other) {
      return new Priors(
          shapeMedian, other, shapesBetweenScale, scaleLogSd, betweenScale, typicalScale);
    }

    /**
     * A copy with another scale of the standard deviation of log shape between groups; 0 for one
     * shape.
     */
    public Priors withShapesBetweenScale(double other) {
      return new Priors(shapeMedian, shapeLogSd, other, scaleLogSd, betweenScale, typicalScale);
    }

    /** A copy with another standard deviation of the typical log scale. */
    public Priors withScaleLogSd(double other) {
      return new Priors(
          shapeMedian, shapeLogSd, shapesBetweenScale, other, betweenScale, typicalScale);
    }

    /** A copy with another scale of the standard deviation between groups. */
    public Priors withBetweenScale(double other) {
      return new Priors(
          shapeMedian, shapeLogSd, shapesBetweenScale, scaleLogSd, other, typicalScale);
    }

    /** A copy with the median of the typical group's scale stated. */
    public Priors withTypicalScale(double other) {
      return new Priors(
          shapeMedian,
          shapeLogSd,
          shapesBetweenScale,
          scaleLogSd,
          betweenScale,
          OptionalDouble.of(other));
    }
  }
}
