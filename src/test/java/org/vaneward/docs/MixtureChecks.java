package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.vaneward.docs.FitChecks.Rows;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.mixture.MixtureFit;
import org.vaneward.stats.mixture.MixtureSettings;
import org.vaneward.stats.mixture.WeibullMixture;

/** Mixtures of two Weibulls beside those of general-purpose statistics software. */
final class MixtureChecks {
  private MixtureChecks() {}

  static ValidationSection section() {
    List<Case> cases = Reference.cases("mixture");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      if (!(WeibullMixture.fit(c.lives(), MixtureSettings.defaults())
          instanceof MixtureFit.Fitted fit)) {
        throw new IllegalStateException(c.name() + " is not fitted");
      }
      rows.add("share of the first", e.get("share"), fit.law().share());
      rows.add("shape of the first", e.get("shapes").get(0), fit.law().first().shape());
      rows.add("shape of the second", e.get("shapes").get(1), fit.law().second().shape());
      rows.add("scale of the first", e.get("scales").get(0), fit.law().first().scale());
      rows.add("scale of the second", e.get("scales").get(1), fit.law().second().scale());
      rows.add("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
      rows.add("AIC", e.get("aic"), fit.aic());
      rows.add("BIC", e.get("bic"), fit.bic());
      rows.add(
          "log-likelihood, one Weibull",
          e.get("single_weibull_log_likelihood"),
          fit.single().logLikelihood());
      rows.add("AIC, one Weibull", e.get("single_weibull_aic"), fit.single().aic());
    }
    return new ValidationSection(
        "Mixture of two Weibulls",
        "mixture",
        "Components in order of scale; the best interior maximum of the likelihood.",
        rows.rows,
        rows.citations);
  }
}
