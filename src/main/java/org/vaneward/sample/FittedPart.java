package org.vaneward.sample;

import org.vaneward.stats.distribution.Weibull;

/**
 * A part in its position. Its life is used up by hazard: it fails when the cumulative hazard it has
 * met reaches a budget drawn from the unit exponential. When the pump changes service, the age
 * keeps counting and the hazard at that age becomes the new service's, which is the
 * proportional-hazards form with delayed-entry pieces when the shapes agree.
 */
final class FittedPart {
  private final double fittedHours;
  private final double lifeFactor;
  private final double budget;
  private final double wearLimitMm;
  private final boolean noticed;
  private final String lot;

  private Weibull life;
  private double hazardBefore;
  private double serviceFromAge;
  private double wearBeforeMm;
  private double failureAge;

  FittedPart(
      double fittedHours,
      Weibull trueLife,
      double lifeFactor,
      double budget,
      double wearLimitMm,
      boolean noticed,
      String lot) {
    this.fittedHours = fittedHours;
    this.lifeFactor = lifeFactor;
    this.budget = budget;
    this.wearLimitMm = wearLimitMm;
    this.noticed = noticed;
    this.lot = lot;
    this.life = new Weibull(trueLife.shape(), trueLife.scale() * lifeFactor);
    this.failureAge = failureAge();
  }

  double lifeFactor() {
    return lifeFactor;
  }

  String lot() {
    return lot;
  }

  double failureAgeHours() {
    return failureAge;
  }

  /** Running hours of the pump at which this part stops it; infinite when it never does. */
  double stopsPumpAt(boolean announces) {
    return announces || noticed ? fittedHours + failureAge : Double.POSITIVE_INFINITY;
  }

  boolean hasFailedBy(double hours) {
    // The same sum as in stopsPumpAt, so that a part that stops the pump has failed to the last
    // bit.
    return hours >= fittedHours + failureAge;
  }

  /** The pump changes service at {@code hours}; a part that has failed already stays as it is. */
  void changeService(double hours, Weibull trueLife) {
    double age = hours - fittedHours;
    if (hasFailedBy(hours)) {
      return;
    }
    wearBeforeMm = wearMm(hours);
    hazardBefore += cumulative(age) - cumulative(serviceFromAge);
    serviceFromAge = age;
    life = new Weibull(trueLife.shape(), trueLife.scale() * lifeFactor);
    failureAge = failureAge();
  }

  /**
   * Wear at {@code hours}, millimetres: it grows evenly in each service so as to reach the limit at
   * the failure, and on from there to twice the limit.
   */
  double wearMm(double hours) {
    double share =
        (hours - fittedHours - serviceFromAge) / Math.max(failureAge - serviceFromAge, 1e-9);
    return Math.min(wearBeforeMm + (wearLimitMm - wearBeforeMm) * share, 2 * wearLimitMm);
  }

  private double failureAge() {
    double left = Math.max(budget - hazardBefore, 0) + cumulative(serviceFromAge);
    return life.scale() * StrictMath.pow(left, 1 / life.shape());
  }

  private double cumulative(double age) {
    return StrictMath.pow(age / life.scale(), life.shape());
  }
}
