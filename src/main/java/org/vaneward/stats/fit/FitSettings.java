package org.vaneward.stats.fit;

import java.util.List;
import java.util.OptionalDouble;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;

/**
 * What to ask of a fit. Defaults: two-sided limits of confidence 0.90 by profile likelihood, the
 * ages by which 1%, 5%, 10% and 50% have failed, and a shape found from the data.
 *
 * @param confidence of two-sided limits, between 0 and 1
 * @param limits how limits are made
 * @param shares shares failed for which to give the age, each between 0 and 1
 * @param fixedShape the shape, when it is stated and not to be found
 */
public record FitSettings(
    double confidence, LimitMethod limits, List<Double> shares, OptionalDouble fixedShape) {
  /**
   * Checks and copies.
   *
   * @throws IllegalArgumentException when a number is out of its range
   */
  public FitSettings {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    shares = List.copyOf(shares);
    for (double p : shares) {
      if (!(p > 0 && p < 1)) {
        throw new IllegalArgumentException("a share is between 0 and 1, not " + p);
      }
    }
    if (fixedShape.isPresent()) {
      double shape = fixedShape.getAsDouble();
      if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("a Weibull shape is positive and finite, not " + shape);
      }
      if (limits == LimitMethod.LIFTED) {
        throw new IllegalArgumentException(
            "lifted limits are of a shape that is found, not of one stated as " + shape);
      }
    }
  }

  /** The defaults. */
  public static FitSettings defaults() {
    return new FitSettings(
        0.90, LimitMethod.PROFILE, List.of(0.01, 0.05, 0.10, 0.50), OptionalDouble.empty());
  }

  /** A copy with limits of another confidence. */
  public FitSettings withConfidence(double other) {
    return new FitSettings(other, limits, shares, fixedShape);
  }

  /** A copy with limits made another way. */
  public FitSettings withLimits(LimitMethod other) {
    return new FitSettings(confidence, other, shares, fixedShape);
  }

  /** A copy with other shares. */
  public FitSettings withShares(List<Double> other) {
    return new FitSettings(confidence, limits, other, fixedShape);
  }

  /** A copy with a stated shape. */
  public FitSettings withFixedShape(double shape) {
    return new FitSettings(confidence, limits, shares, OptionalDouble.of(shape));
  }

  /** A copy with the shape to be found from the data. */
  public FitSettings withFreeShape() {
    return new FitSettings(confidence, limits, shares, OptionalDouble.empty());
  }
}
