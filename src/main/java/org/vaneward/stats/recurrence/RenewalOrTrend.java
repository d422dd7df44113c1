package org.vaneward.stats.recurrence;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.TDistribution;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Is a mended unit as good as new? Three models of one set of histories side by side, and tests on
 * the order of the gaps, on which the verdict rests.
 *
 * <ul>
 *   <li>Constant rate: events of any unit at any age are as likely.
 *   <li>Renewal: after each event the unit is as new; gaps are Weibull lives, the unfinished last
 *       one censored.
 *   <li>Power law: mending changes nothing; what counts is the unit's age.
 * </ul>
 *
 * <p>The verdict is that of a permutation test on log gap against the number of earlier events,
 * within units: it needs no model, allows units that differ from each other, and is exact for few
 * gaps. Where even the most extreme order would not be rare by {@link #LEVEL}, the verdict is that
 * there are too few gaps. The models show which description fits better; a power law with many
 * units of one or two events each can look good merely because parts wear.
 *
 * <p>Events at one age count as one occasion. Of units watched from later than age 0 only what
 * follows their first event counts, in all three models alike.
 *
 * @param units units that count
 * @param occasions events that count, those at one age of a unit as one
 * @param merged events not counted as they came at the age of another of the same unit
 * @param constantRate the model with one rate; empty without events
 * @param renewal the model of Weibull gaps; empty when it cannot be fitted
 * @param powerLaw the model of a trend with age; empty when it cannot be fitted
 * @param lewisRobinson test of renewal against trend on the gaps themselves
 * @param effect what the number of earlier events does to the next gap; empty when no unit has two
 *     complete gaps that differ
 * @param verdict what it comes to
 */
public record RenewalOrTrend(
    int units,
    int occasions,
    int merged,
    Optional<Model> constantRate,
    Optional<Model> renewal,
    Optional<Model> powerLaw,
    LewisRobinson lewisRobinson,
    Optional<GapEffect> effect,
    Verdict verdict) {
  /** A p-value up to this counts as a sign of trend. */
  public static final double LEVEL = 0.05;

  /** So much more in AICc, and a model is clearly the worse one (common practice, no source). */
  private static final double CLEARLY = 4;

  private static final double CONFIDENCE = 0.90;
  private static final int DRAWS = 9_999;
  private static final long SEED = 20_000;

  /** What the gaps say. */
  public enum Verdict {
    /** Whatever the order of the gaps, it could not have been a sign. */
    TOO_FEW,
    /** No sign that gaps change along a unit's history. */
    NO_TREND,
    /** Gaps get shorter: mended is not as good as new. */
    SHORTER,
    /** Gaps get longer. */
    LONGER,
    /** No sign in the order of the gaps, but age describes the events clearly better. */
    UNCLEAR
  }

  /**
   * A model's fit.
   *
   * @param shape shape of the Weibull gaps or of the power law; 1 for a constant rate
   * @param logLikelihood of the ages themselves, comparable between the three
   * @param parameters number of free parameters
   * @param aicc Akaike's criterion with the small-sample term, n = number of occasions; empty when
   *     n is at most k + 1
   * @param betterThanConstantRate p-value of the likelihood-ratio test of a constant rate inside
   *     the model; empty for the constant rate itself
   */
  public record Model(
      double shape,
      double logLikelihood,
      int parameters,
      OptionalDouble aicc,
      OptionalDouble betterThanConstantRate) {}

  /**
   * How gaps change from one to the next of a unit.
   *
   * @param factor of the typical (geometric mean) gap with each further event, with approximate
   *     limits at 90% by Student's law
   * @param units units with two complete gaps or more
   * @param gaps their complete gaps
   * @param smallestP the least p-value that any order of these gaps could have
   * @param p two-sided, by permuting the gaps within units
   */
  public record GapEffect(Estimate factor, int units, int gaps, double smallestP, double p) {}

  /** The comparison. */
  public static RenewalOrTrend of(EventHistories histories) {
    Gaps gaps = new Gaps(histories);
    int n = gaps.occasions.events();
    Optional<Model> constant = n == 0 ? Optional.empty() : Optional.of(constantRate(gaps, n));
    Optional<Model> renewal = constant.flatMap(c -> renewal(gaps, n, c));
    Optional<Model> powerLaw = constant.flatMap(c -> powerLaw(gaps, n, c));
    Optional<GapEffect> effect = effect(gaps);
    return new RenewalOrTrend(
        gaps.occasions.size(),
        n,
        gaps.merged,
        constant,
        renewal,
        powerLaw,
        LewisRobinson.test(gaps.complete),
        effect,
        verdict(effect, renewal, powerLaw));
  }

  private static Model constantRate(Gaps gaps, double n) {
    double logLikelihood = n * Math.log(n / gaps.occasions.totalTime()) - n;
    return new Model(1, logLikelihood, 1, aicc(logLikelihood, 1, n), OptionalDouble.empty());
  }

  private static Optional<Model> renewal(Gaps gaps, int n, Model constant) {
    FitSettings settings = FitSettings.defaults().withLimits(LimitMethod.WALD);
    return WeibullFitter.fit(gaps.lives, settings) instanceof WeibullFit.Fitted fit
        ? Optional.of(model(fit.weibull().shape(), fit.logLikelihood(), n, constant))
        : Optional.empty();
  }

  private static Optional<Model> powerLaw(Gaps gaps, int n, Model constant) {
    PowerLawSettings settings =
        PowerLawSettings.defaults().withLimits(PowerLawFit.LimitMethod.WALD);
    return PowerLaw.fit(gaps.occasions, settings) instanceof PowerLawFit.Fitted fit
        ? Optional.of(model(fit.process().shape(), fit.logLikelihood(), n, constant))
        : Optional.empty();
  }

  private static Model model(double shape, double logLikelihood, int n, Model constant) {
    double statistic = 2 * (logLikelihood - constant.logLikelihood());
    return new Model(
        shape,
        logLikelihood,
        2,
        aicc(logLikelihood, 2, n),
        OptionalDouble.of(Quantiles.chiSquareTail(statistic, 1)));
  }

  private static OptionalDouble aicc(double logLikelihood, int k, double n) {
    double room = n - k - 1;
    return room > 0
        ? OptionalDouble.of(2.0 * k - 2 * logLikelihood + 2.0 * k * (k + 1) / room)
        : OptionalDouble.empty();
  }

  private static Optional<GapEffect> effect(Gaps gaps) {
    if (!(new GapPermutation(gaps.complete).variance > 0)) {
      return Optional.empty();
    }
    GapPermutation logs = new GapPermutation(gaps.logs());
    double slope = logs.sum / logs.squares;
    double freedom = Math.max(1, logs.total() - logs.units() - 1.0);
    double quantile = TDistribution.of(freedom).inverseSurvivalProbability((1 - CONFIDENCE) / 2);
    double half = quantile * Math.sqrt(logs.variance) / logs.squares;
    Estimate factor = new Estimate(Math.exp(slope), Math.exp(slope - half), Math.exp(slope + half));
    double p = logs.p(DRAWS, SEED);
    return Optional.of(
        new GapEffect(factor, logs.units(), logs.total(), smallestP(gaps.complete), p));
  }

  /** Two of all orders of the gaps: the rising one and the falling one. */
  private static double smallestP(List<double[]> gaps) {
    double orders = 1;
    for (double[] x : gaps) {
      for (int k = 2; k <= x.length && orders < 1e300; k++) {
        orders *= k;
      }
    }
    return Math.min(1, 2 / orders);
  }

  private static Verdict verdict(
      Optional<GapEffect> effect, Optional<Model> renewal, Optional<Model> powerLaw) {
    if (effect.isEmpty() || effect.get().smallestP() > LEVEL) {
      return Verdict.TOO_FEW;
    }
    if (effect.get().p() <= LEVEL) {
      return effect.get().factor().estimate() < 1 ? Verdict.SHORTER : Verdict.LONGER;
    }
    boolean ageIsBetter = aicc(renewal) - aicc(powerLaw) > CLEARLY;
    return ageIsBetter ? Verdict.UNCLEAR : Verdict.NO_TREND;
  }

  private static double aicc(Optional<Model> model) {
    return model.flatMap(m -> m.aicc().stream().boxed().findFirst()).orElse(Double.NaN);
  }

  /**
   * The verdict in one sentence for a planner.
   *
   * @param subject what the units are called, in the plural and with a capital letter, such as
   *     "These units"
   */
  public String sentence(String subject) {
    return VerdictWords.sentence(this, subject);
  }
}
