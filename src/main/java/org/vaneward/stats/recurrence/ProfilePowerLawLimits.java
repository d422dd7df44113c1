package org.vaneward.stats.recurrence;

import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Minimum;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;
import org.vaneward.stats.recurrence.PowerLawLikelihood.At;

/**
 * Limits by profile likelihood: the least and greatest value of a quantity on the region whose
 * log-likelihood lies within half the chi-square(1) quantile of the best.
 *
 * <p>At a shape whose own best log-likelihood leaves s of that drop, the rate may be r times its
 * best with n (r - 1 - log r) up to s; so the region is walked along the shape alone.
 */
final class ProfilePowerLawLimits implements PowerLawLimits {
  /** How far the log shape is followed: beyond, the limit does not exist. */
  private static final double FARTHEST = 40;

  private static final int NEWTON_STEPS = 60;

  private final PowerLawProcess process;
  private final PowerLawLikelihood likelihood;
  private final double floor;
  private final double low;
  private final double high;
  private final boolean openBelow;

  ProfilePowerLawLimits(PowerLawProcess process, PowerLawLikelihood likelihood, double confidence) {
    this.process = process;
    this.likelihood = likelihood;
    double peak = Math.log(process.shape());
    floor = likelihood.value(peak) - Quantiles.chiSquare(confidence, 1) / 2;
    low = edge(peak, -1);
    high = edge(peak, 1);
    openBelow = likelihood.value(low) > floor && low <= peak - FARTHEST;
  }

  /** Where the profile log-likelihood falls to the floor, on one side of the peak. */
  private double edge(double peak, int side) {
    double inside = peak;
    for (double step = 0.125; ; step *= 2) {
      double outside = peak + side * Math.min(step, FARTHEST);
      if (!(likelihood.value(outside) > floor)) {
        return Roots.between(
                x -> likelihood.value(x) - floor,
                Math.min(inside, outside),
                Math.max(inside, outside))
            .orElse(outside);
      }
      if (step >= FARTHEST) {
        return outside;
      }
      inside = outside;
    }
  }

  @Override
  public Estimate shape() {
    return new Estimate(process.shape(), openBelow ? 0 : Math.exp(low), Math.exp(high));
  }

  @Override
  public Estimate scale() {
    if (openBelow) {
      return new Estimate(process.scale(), 0, Double.POSITIVE_INFINITY);
    }
    double top = greatest(at -> likelihood.logScale(at) - rate(at, -1) / at.shape());
    double bottom = -greatest(at -> -likelihood.logScale(at) + rate(at, 1) / at.shape());
    return new Estimate(process.scale(), age(bottom), age(top));
  }

  private double age(double relativeLog) {
    return Math.exp(relativeLog + likelihood.logGreatest);
  }

  @Override
  public Estimate intensity(double age) {
    double u = Math.log(age) - likelihood.logGreatest;
    double top = greatest(at -> logIntensity(at, u) + rate(at, 1));
    double bottom = -greatest(at -> -logIntensity(at, u) - rate(at, -1));
    return new Estimate(process.intensity(age), perAge(bottom), perAge(top));
  }

  private double logIntensity(At at, double u) {
    return Math.log(likelihood.events) - at.logSum() + Math.log(at.shape()) + (at.shape() - 1) * u;
  }

  private double perAge(double relativeLog) {
    return Math.exp(relativeLog - likelihood.logGreatest);
  }

  @Override
  public Estimate meanCount(double age) {
    double u = Math.log(age) - likelihood.logGreatest;
    double top = greatest(at -> logCount(at, u) + rate(at, 1));
    double bottom = -greatest(at -> -logCount(at, u) - rate(at, -1));
    return new Estimate(process.meanCount(age), Math.exp(bottom), Math.exp(top));
  }

  private double logCount(At at, double u) {
    return Math.log(likelihood.events) - at.logSum() + at.shape() * u;
  }

  private interface Quantity {
    double of(At at);
  }

  private double greatest(Quantity quantity) {
    DoubleUnaryOperator negative = x -> -quantity.of(likelihood.at(Math.exp(x)));
    return -Minimum.between(negative, low, high).value();
  }

  /** Log of the least (side -1) or greatest (side 1) factor of the rate the region allows. */
  private double rate(At at, int side) {
    double left = Math.max(likelihood.value(at) - floor, 0) / likelihood.events;
    double y = side * Math.sqrt(2 * left);
    for (int i = 0; i < NEWTON_STEPS && y != 0; i++) {
      double slope = Math.expm1(y);
      double next = y - (slope - y - left) / slope;
      if (Math.abs(next - y) <= 1e-14 * Math.abs(y)) {
        return next;
      }
      y = next;
    }
    return y;
  }
}
