package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.JsonFields;
import org.vaneward.model.FamilyFit;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.model.GroupComparison;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.comparison.LogRank;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.LifeFit;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.LifeFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.mixture.MixtureFit;

/** Fits of groups of lives as keys of the document that {@code fit} promises. */
final class FitFields {
  private final FitQuestion question;

  FitFields(FitQuestion question) {
    this.question = question;
  }

  JsonFields document(FamilyFits fits) {
    return new JsonFields()
        .with("fits", fits.fits().stream().map(this::entry).toList())
        .with("comparison", fits.comparison().map(FitFields::comparison));
  }

  private JsonFields entry(FamilyFit fit) {
    Optional<Fitted> fitted = fitted(fit);
    JsonFields entry =
        new JsonFields()
            .with("group", fit.group())
            .with("distribution", fit.fit().family().word())
            .with("status", status(fit))
            .with("reason", reason(fit))
            .with("lives", fit.lives())
            .with("failures", fit.fit().failures());
    fitted.ifPresent(f -> entry.withAll(numbers(f)));
    scaleLower(fit).ifPresent(lower -> entry.with("scale_lower", List.of(lower)));
    if (!fit.survival().isEmpty()) {
      entry.with("survival", survival(fit));
    }
    entry
        .with("limits", limitsWord())
        .with("limits_reason", fit.noLimits())
        .with("confidence", question.settings().confidence());
    if (fitted.isPresent()) {
      entry.withAll(CheckFields.fields(fit));
    }
    entry.with("mixture", fit.mixture().map(FitFields::mixture));
    if (fit.fit().family() == question.families().get(0)) {
      entry.withAll(CurveFields.of(fit.observations(), question.settings().confidence()));
      if (question.by().isEmpty()) {
        entry.withAll(CurveFields.closely(fit.observations(), question.settings().confidence()));
      }
    }
    return entry;
  }

  private static JsonFields numbers(Fitted fit) {
    JsonFields fields = new JsonFields();
    fit.parameters().forEach(fields::with);
    return fields
        .with("log_likelihood", fit.logLikelihood())
        .with("aic", fit.aic())
        .with("aicc", fit.aicc())
        .with("bic", fit.bic())
        .with("covariance", fit.covariance())
        .with("mean", fit.mean())
        .with("quantiles", CurveFields.quantiles(fit.quantiles()));
  }

  private List<JsonFields> survival(FamilyFit fit) {
    List<JsonFields> rows = new ArrayList<>();
    for (int i = 0; i < question.ages().size(); i++) {
      Estimate at = fit.survival().get(i);
      rows.add(
          new JsonFields()
              .with("age", question.ages().get(i))
              .with("estimate", at.estimate())
              .with("lower", at.lower())
              .with("upper", at.upper()));
    }
    return rows;
  }

  private static JsonFields mixture(MixtureFit mixture) {
    if (mixture instanceof MixtureFit.Fitted m) {
      return new JsonFields()
          .with("status", "fitted")
          .with("share", m.law().share())
          .with("shapes", List.of(m.law().first().shape(), m.law().second().shape()))
          .with("scales", List.of(m.law().first().scale(), m.law().second().scale()))
          .with("log_likelihood", m.logLikelihood())
          .with("aic", m.aic())
          .with("aicc", m.aicc())
          .with("bic", m.bic())
          .with("single_weibull_log_likelihood", m.single().logLikelihood())
          .with("single_weibull_aic", m.single().aic());
    }
    return new JsonFields()
        .with("status", "not-estimable")
        .with("reason", ((MixtureFit.NotEstimable) mixture).reason());
  }

  private static JsonFields comparison(GroupComparison comparison) {
    return new JsonFields()
        .with("log_rank", logRankFields(comparison.logRank()))
        .with("common_shape", comparison.commonShape().map(CheckFields::test));
  }

  private static JsonFields logRankFields(LogRank test) {
    if (test instanceof LogRank.Tested t) {
      return new JsonFields()
          .with("statistic", t.statistic())
          .with("df", t.degreesOfFreedom())
          .with("p", t.p());
    }
    return new JsonFields()
        .with("status", "not-testable")
        .with("reason", ((LogRank.NotTested) test).reason());
  }

  /** Lower limit of the scale at a known shape, where nothing failed. */
  Optional<ScaleLower> scaleLower(FamilyFit fit) {
    OptionalDouble shape =
        fit.fit().family() == Family.EXPONENTIAL
            ? OptionalDouble.of(1)
            : fit.fit().family() == Family.WEIBULL
                ? question.settings().fixedShape()
                : OptionalDouble.empty();
    if (shape.isEmpty() || fit.fit().failures() > 0) {
      return Optional.empty();
    }
    double confidence = question.settings().confidence();
    double lower =
        WeibullFitter.scaleLowerLimit(fit.observations(), shape.getAsDouble(), confidence);
    return Optional.of(new ScaleLower(shape.getAsDouble(), confidence, lower));
  }

  /** How limits were made, in a word. */
  String limitsWord() {
    return question.bootstrapLimits()
        ? "bootstrap"
        : question.settings().limits().name().toLowerCase(Locale.ROOT);
  }

  static Optional<Fitted> fitted(FamilyFit fit) {
    return fit.fit() instanceof Fitted fitted ? Optional.of(fitted) : Optional.empty();
  }

  static String status(FamilyFit fit) {
    return fitted(fit).isPresent() ? "fitted" : "not-estimable";
  }

  static Optional<String> reason(FamilyFit fit) {
    LifeFit answer = fit.fit();
    return answer instanceof NotEstimable none ? Optional.of(none.reason()) : Optional.empty();
  }

  record ScaleLower(double shape, double confidence, double lower) {}
}
