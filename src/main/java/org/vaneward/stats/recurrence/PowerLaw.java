package org.vaneward.stats.recurrence;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;
import org.vaneward.stats.recurrence.PowerLawFit.ConstantRate;
import org.vaneward.stats.recurrence.PowerLawFit.Fitted;
import org.vaneward.stats.recurrence.PowerLawFit.LimitMethod;
import org.vaneward.stats.recurrence.PowerLawFit.NotEstimable;
import org.vaneward.stats.recurrence.PowerLawLikelihood.At;

/**
 * Fits of a power-law process by maximum likelihood: one or several alike units, each watched over
 * an age window of its own, ended by a time or by an event.
 *
 * <p>Log-likelihood: the sum over events of log intensity, less the mean count over all windows. It
 * is concave in the shape once the rate is eliminated, so one root of its slope is the maximum; the
 * result still carries its proof. For one unit watched from 0 to T, n events: shape = n / sum(log(T
 * / t)).
 *
 * <p>Limits. For units watched from 0 to one age, 2 n shape / estimate is chi-square with 2 m
 * degrees of freedom, m of the n events not having ended the observation (L. H. Crow, in
 * Reliability and Biometry, 1974, 379–410; MIL-HDBK-189, both from memory): limits of the shape are
 * exact then. So are those of the intensity at the end for one unit stopped by its last event: see
 * {@link ExactIntensity}. The tables of MIL-HDBK-189 for a unit stopped at a time are not at hand,
 * and limits of the intensity are by profile likelihood there; {@link ModifiedPowerLaw} has an
 * approximation from a handbook.
 */
public final class PowerLaw {
  /** Largest slope in log shape, for each event, that counts as none. */
  private static final double STEEPEST = 1e-8;

  /** How far from its starting value the log shape is looked for. */
  private static final double FARTHEST = 80;

  private PowerLaw() {}

  /**
   * Fits a power-law process.
   *
   * @return the checked maximum, or why there is none
   */
  public static PowerLawFit fit(EventHistories histories, PowerLawSettings settings) {
    if (histories.events() == 0) {
      return notEstimable(histories, "no events");
    }
    PowerLawLikelihood likelihood = new PowerLawLikelihood(histories);
    if (!(likelihood.meanLog < 0)) {
      return notEstimable(
          histories,
          histories.events() == 1
              ? "one event, at the greatest age"
              : "all events at the greatest age: the likelihood keeps rising with the shape");
    }
    if (!likelihood.risesFromZero()) {
      return notEstimable(histories, "events thin out with age faster than any power law");
    }
    OptionalDouble logShape = peak(likelihood);
    if (logShape.isEmpty()) {
      return notEstimable(histories, "no maximum of the likelihood could be proved");
    }
    return proven(histories, settings, likelihood, Math.exp(logShape.getAsDouble()));
  }

  private static NotEstimable notEstimable(EventHistories histories, String reason) {
    return new NotEstimable(histories.size(), histories.events(), reason);
  }

  private static OptionalDouble peak(PowerLawLikelihood likelihood) {
    double start = -Math.log(-likelihood.meanLog);
    int side = likelihood.slope(Math.exp(start)) >= 0 ? 1 : -1;
    double inside = start;
    for (double step = 0.5; step <= FARTHEST; step *= 2) {
      double outside = start + side * step;
      if (side * likelihood.slope(Math.exp(outside)) <= 0) {
        double low = Math.min(inside, outside);
        return Roots.between(x -> likelihood.slope(Math.exp(x)), low, Math.max(inside, outside));
      }
      inside = outside;
    }
    return OptionalDouble.empty();
  }

  private static PowerLawFit proven(
      EventHistories histories,
      PowerLawSettings settings,
      PowerLawLikelihood likelihood,
      double shape) {
    At at = likelihood.at(shape);
    double logScale = likelihood.logScale(at);
    double scale = Math.exp(logScale + likelihood.logGreatest);
    if (!(scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      return notEstimable(histories, "the scale is beyond what a number can hold");
    }
    double curvature = shape * shape * at.variance();
    double slope = shape * Math.abs(likelihood.meanLog - at.mean());
    if (!(slope <= STEEPEST * Math.max(1, curvature) && curvature > 0)) {
      return notEstimable(histories, "no maximum of the likelihood could be proved");
    }
    PowerLawProcess process = new PowerLawProcess(shape, scale);
    Covariance covariance = covariance(likelihood, at, logScale);
    Proof proof = new Proof(1, slope, unrelated(covariance));
    PowerLawLimits limits = limits(process, likelihood, covariance, settings);
    return fitted(histories, settings, likelihood.value(at), process, covariance, limits, proof);
  }

  /** Smaller eigenvalue of the covariance scaled to unit diagonal, which its inverse shares. */
  private static double unrelated(Covariance c) {
    return 1 - Math.abs(c.scaleShape()) / Math.sqrt(c.scaleScale() * c.shapeShape());
  }

  /** The shape's own variance, and the scale's about the ridge log scale(shape). */
  private static Covariance covariance(PowerLawLikelihood likelihood, At at, double logScale) {
    double n = likelihood.events;
    double shape = at.shape();
    double shapeShape = 1 / (n * shape * shape * at.variance());
    double ridge = at.mean() + 1 / shape - logScale;
    double scaleScale = 1 / (shape * shape * n) + ridge * ridge * shapeShape;
    return new Covariance(scaleScale, ridge * shapeShape, shapeShape);
  }

  private static PowerLawLimits limits(
      PowerLawProcess process,
      PowerLawLikelihood likelihood,
      Covariance covariance,
      PowerLawSettings settings) {
    return settings.limits() == LimitMethod.WALD
        ? new WaldPowerLawLimits(process, covariance, settings.confidence())
        : new ProfilePowerLawLimits(process, likelihood, settings.confidence());
  }

  private static Fitted fitted(
      EventHistories histories,
      PowerLawSettings settings,
      double logLikelihood,
      PowerLawProcess process,
      Covariance covariance,
      PowerLawLimits limits,
      Proof proof) {
    boolean wantsExact = settings.limits() == LimitMethod.EXACT;
    LimitMethod rest = wantsExact ? LimitMethod.PROFILE : settings.limits();
    boolean oneWindow = oneWindow(histories);
    boolean exactRate = wantsExact && histories.size() == 1 && oneWindow && counted(histories) > 0;
    exactRate &= counted(histories) < histories.events();
    double end = histories.greatestEnd();
    int n = histories.events();
    double m = counted(histories);
    return new Fitted(
        process,
        histories.size(),
        n,
        histories.truncation(),
        histories.totalTime(),
        logLikelihood,
        covariance,
        wantsExact && oneWindow
            ? exactShape(process.shape(), n, m, settings.confidence())
            : limits.shape(),
        wantsExact && oneWindow ? LimitMethod.EXACT : rest,
        limits.scale(),
        end,
        exactRate
            ? ExactIntensity.of(process.intensity(end), n, settings.confidence())
            : limits.intensity(end),
        exactRate ? LimitMethod.EXACT : rest,
        oneWindow && m > 1
            ? OptionalDouble.of(process.shape() * (m - 1) / n)
            : OptionalDouble.empty(),
        constantRate(histories, logLikelihood),
        rest,
        settings.confidence(),
        proof);
  }

  /** Events that did not end their observation. */
  private static int counted(EventHistories histories) {
    int m = 0;
    for (int i = 0; i < histories.size(); i++) {
      m += Trend.counted(histories, i);
    }
    return m;
  }

  /** Whether all units were watched from 0 to one age set beforehand, or there is one unit only. */
  private static boolean oneWindow(EventHistories histories) {
    for (int i = 0; i < histories.size(); i++) {
      if (histories.start(i) > 0 || histories.end(i) != histories.end(0)) {
        return false;
      }
    }
    return histories.size() == 1 || counted(histories) == histories.events();
  }

  private static Estimate exactShape(double shape, int n, double m, double confidence) {
    double tail = (1 - confidence) / 2;
    return new Estimate(
        shape,
        shape * Quantiles.chiSquare(tail, 2 * m) / (2 * n),
        shape * Quantiles.chiSquare(1 - tail, 2 * m) / (2 * n));
  }

  static ConstantRate constantRate(EventHistories histories, double logLikelihood) {
    double n = histories.events();
    double rate = n / histories.totalTime();
    double atRate = n * Math.log(rate) - n;
    double statistic = Math.max(0, 2 * (logLikelihood - atRate));
    return new ConstantRate(rate, atRate, statistic, Quantiles.chiSquareTail(statistic, 1));
  }

  /**
   * Mean number of events of a unit by some ages, with limits by the fit's {@code method} and
   * confidence, each on its own.
   *
   * @param histories the histories that were fitted
   * @param fit their fit
   * @param ages positive and finite
   * @return one estimate for each age
   * @throws IllegalArgumentException when an age is not positive and finite
   */
  public static List<Estimate> meanCounts(EventHistories histories, Fitted fit, double... ages) {
    PowerLawLimits limits = limits(histories, fit);
    List<Estimate> estimates = new ArrayList<>(ages.length);
    for (double age : ages) {
      estimates.add(limits.meanCount(checked(age)));
    }
    return List.copyOf(estimates);
  }

  private static PowerLawLimits limits(EventHistories histories, Fitted fit) {
    PowerLawSettings settings = new PowerLawSettings(fit.confidence(), fit.method());
    return limits(fit.process(), new PowerLawLikelihood(histories), fit.covariance(), settings);
  }

  private static double checked(double age) {
    if (!(age > 0 && age < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an age is positive and finite, not " + age);
    }
    return age;
  }
}
