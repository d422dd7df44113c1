package org.vaneward.report;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.model.CovariateFits;
import org.vaneward.model.CovariateFits.Fit;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.regression.RegressionFit;
import org.vaneward.stats.regression.RegressionFit.Coefficient;
import org.vaneward.stats.regression.RegressionFit.Fitted;
import org.vaneward.stats.regression.RegressionFit.NotEstimable;
import org.vaneward.stats.regression.RegressionFit.TermTest;

/** Weibull regressions, for people and for programs. */
public final class CovariateFitView implements View {
  private final CovariateFits fits;
  private final CovariateFits.Question question;

  /** A view of fits that answer {@code question}. */
  public CovariateFitView(CovariateFits fits, CovariateFits.Question question) {
    this.fits = fits;
    this.question = question;
  }

  @Override
  public String text() {
    StringBuilder text =
        new StringBuilder(
            Words.wrapped(
                "Weibull, log scale a sum of covariates, one shape; "
                    + limitsWord()
                    + " limits at "
                    + Words.percent(question.settings().confidence())
                    + ". Life ratio: by what every life is multiplied, for each unit of a number or"
                    + " against the first level of a name.",
                0));
    fits.fits().forEach(fit -> text.append('\n').append(text(fit)));
    return text.toString();
  }

  private String text(Fit fit) {
    String head =
        Words.wrapped(
            GroupWords.label(fit.group())
                + ": "
                + Words.whole(fit.lives())
                + " lives, "
                + Words.count(Math.round(fit.observations().failures()), "failure", "failures")
                + (fit.leftOut() > 0
                    ? "; left out for a blank in a number: "
                        + Words.count(fit.leftOut(), "row", "rows")
                    : ""),
            0);
    if (fit.fit() instanceof Fitted fitted) {
      return head + coefficients(fitted) + tests(fitted);
    }
    NotEstimable none = (NotEstimable) fit.fit();
    return head + Words.wrapped("  Not estimable: " + reason(none) + ".", 2);
  }

  private static String reason(NotEstimable none) {
    return none.reason()
        + (none.terms().isEmpty() ? "" : " (" + String.join(", ", none.terms()) + ")");
  }

  private String coefficients(Fitted fit) {
    TextTable table = new TextTable("term", "coefficient", "life ratio", "hazard ratio", "p");
    for (Coefficient c : fit.coefficients()) {
      table.row(
          c.term(),
          signed(c.value()),
          c.lifeRatio().map(Words::number).orElse(Words.NONE),
          c.hazardRatio().map(Words::number).orElse(Words.NONE),
          c.lifeRatio().isPresent() ? Words.p(c.p()) : Words.NONE);
    }
    return table + "Shape " + Words.number(fit.shape()) + "\n";
  }

  private static String signed(Estimate e) {
    return String.format(Locale.ROOT, "%.4g (%.4g to %.4g)", e.estimate(), e.lower(), e.upper());
  }

  private static String tests(Fitted fit) {
    if (fit.termTests().isEmpty()) {
      return "";
    }
    TextTable table =
        new TextTable("left out", "likelihood ratio", "degrees of freedom", "p", "p, adjusted");
    for (TermTest t : fit.termTests()) {
      table.row(
          t.term(),
          Words.number(t.statistic()),
          Words.whole(t.degreesOfFreedom()),
          Words.p(t.p()),
          Words.p(t.pHolm()));
    }
    return "\n" + table + "Adjusted by Holm's method for the number of tests.\n";
  }

  private String limitsWord() {
    return question.settings().limits().name().toLowerCase(Locale.ROOT);
  }

  @Override
  public String json() {
    return Json.write(
        new JsonFields().with("fits", fits.fits().stream().map(this::entry).toList()));
  }

  private JsonFields entry(Fit fit) {
    JsonFields entry = new JsonFields().with("group", fit.group()).with("distribution", "weibull");
    if (fit.fit() instanceof Fitted) {
      entry.with("status", "fitted");
    } else {
      NotEstimable none = (NotEstimable) fit.fit();
      entry
          .with("status", "not-estimable")
          .with("reason", none.reason())
          .with("reason_terms", none.terms());
    }
    entry
        .with("lives", fit.lives())
        .with("failures", fit.observations().failures())
        .with("rows_left_out", fit.leftOut());
    if (fit.fit() instanceof Fitted fitted) {
      entry.withAll(numbers(fitted));
    }
    return entry.with("limits", limitsWord()).with("confidence", question.settings().confidence());
  }

  private static JsonFields numbers(Fitted f) {
    return new JsonFields()
        .with("shape", f.shape())
        .with("log_likelihood", f.logLikelihood())
        .with("null_log_likelihood", f.nullLogLikelihood())
        .with("aic", f.aic())
        .with("aicc", f.aicc())
        .with("bic", f.bic())
        .with("coefficients", f.coefficients().stream().map(CovariateFitView::coefficient).toList())
        .with("terms", f.termTests().stream().map(CovariateFitView::term).toList())
        .with("untested", f.untested().isEmpty() ? Optional.empty() : Optional.of(f.untested()))
        .with("covariance", f.covariance())
        .with("covariance_order", f.covarianceOrder());
  }

  private static JsonFields coefficient(Coefficient c) {
    return new JsonFields()
        .with("term", c.term())
        .with("estimate", c.value().estimate())
        .with("std_error", c.stdError())
        .with("lower", c.value().lower())
        .with("upper", c.value().upper())
        .with("p", c.p())
        .with("life_ratio", c.lifeRatio())
        .with("hazard_ratio", c.hazardRatio());
  }

  private static JsonFields term(TermTest t) {
    return new JsonFields()
        .with("term", t.term())
        .with("statistic", t.statistic())
        .with("df", t.degreesOfFreedom())
        .with("p", t.p())
        .with("p_holm", t.pHolm());
  }

  /** One row for each coefficient. */
  @Override
  public String csv() {
    List<String> by = question.by();
    String[] header = new String[by.size() + 7];
    by.toArray(header);
    List<String> further =
        List.of("term", "estimate", "std_error", "lower", "upper", "p", "reason");
    for (int i = 0; i < further.size(); i++) {
      header[by.size() + i] = further.get(i);
    }
    CsvWriter table = CsvWriter.forSpreadsheets(header);
    fits.fits().forEach(fit -> rows(table, fit));
    return table.text();
  }

  private static void rows(CsvWriter table, Fit fit) {
    RegressionFit answer = fit.fit();
    if (answer instanceof NotEstimable none) {
      fit.group().values().forEach(table::cell);
      table.empty().empty().empty().empty().empty().empty().cell(reason(none)).endRow();
    }
    if (answer instanceof Fitted fitted) {
      for (Coefficient c : fitted.coefficients()) {
        fit.group().values().forEach(table::cell);
        table.cell(c.term()).cell(c.value().estimate()).cell(c.stdError());
        table.cell(c.value().lower()).cell(c.value().upper()).cell(c.p()).empty().endRow();
      }
    }
  }
}
