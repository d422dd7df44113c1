package org.vaneward.model;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.BootstrapLimits;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/**
 * A fit with its limits by parametric bootstrap. A limit the bootstrap refuses is not a number.
 *
 * @param fit the fit, its estimates with the limits of the bootstrap
 * @param limits those limits, for further quantities
 */
record BootstrappedFit(Fitted fit, BootstrapLimits limits) {

  static BootstrappedFit of(Fitted fit, Observations lives, FitQuestion question) {
    BootstrapLimits limits =
        BootstrapLimits.of(
            lives,
            fit.distribution(),
            FamilyFits.refit(fit, question),
            question.draws().orElse(FitQuestion.DRAWS),
            question.seed(),
            question.settings().confidence());
    Map<String, Estimate> parameters = new LinkedHashMap<>();
    fit.parameters()
        .forEach(
            (name, estimate) ->
                parameters.put(name, estimate(limits, fit, law -> parameter(law, name))));
    List<Quantile> quantiles =
        fit.quantiles().stream()
            .map(q -> new Quantile(q.p(), estimate(limits, fit, law -> law.quantile(q.p()))))
            .toList();
    Fitted with =
        new Fitted(
            fit.family(),
            fit.distribution(),
            fit.lives(),
            fit.failures(),
            fit.logLikelihood(),
            fit.covariance(),
            parameters,
            quantiles,
            estimate(limits, fit, LifeDistribution::mean),
            fit.method(),
            fit.confidence(),
            fit.parameterCount(),
            fit.proof());
    return new BootstrappedFit(with, limits);
  }

  /** Survival at an age with limits. */
  Estimate survival(double age) {
    return estimate(limits, fit, law -> law.survival(age));
  }

  private static Estimate estimate(
      BootstrapLimits limits, Fitted fit, ToDoubleFunction<LifeDistribution> quantity) {
    double estimate = quantity.applyAsDouble(fit.distribution());
    return limits
        .limits(quantity)
        .map(found -> new Estimate(estimate, found.lower(), found.upper()))
        .orElse(new Estimate(estimate, Double.NaN, Double.NaN));
  }

  private static double parameter(LifeDistribution law, String name) {
    if (law instanceof Weibull weibull) {
      return name.equals("shape") ? weibull.shape() : weibull.scale();
    }
    if (law instanceof Lognormal lognormal) {
      return name.equals("location") ? lognormal.location() : lognormal.spread();
    }
    return ((Exponential) law).scale();
  }
}
