package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.review.CountReview;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.comparison.GammaPoisson;
import org.vaneward.stats.comparison.GammaPoisson.Pooled;
import org.vaneward.stats.comparison.GammaPoisson.Ranked;
import org.vaneward.stats.comparison.GammaPoisson.Spread;
import org.vaneward.stats.comparison.GammaPoisson.Unit;

/** Rates of units drawn towards the fleet's, for people and for programs. */
public final class CountReviewView implements View {
  private final CountReview review;
  private final double confidence;

  /** A view of a review with limits of {@code confidence}. */
  public CountReviewView(CountReview review, double confidence) {
    this.review = review;
    this.confidence = confidence;
  }

  @Override
  public String text() {
    GammaPoisson fit = review.fit();
    String head =
        Words.count(review.units().size(), "unit", "units")
            + ", "
            + Words.count(Math.round(fit.events()), "event", "events")
            + " in an exposure of "
            + Words.significant(fit.exposure())
            + ".\n";
    if (fit instanceof Spread spread) {
      return head + spread(spread);
    }
    if (fit instanceof Pooled pooled) {
      return head
          + Words.wrapped(
              "One rate for all: "
                  + rate(pooled.rate())
                  + " per unit of exposure, "
                  + Words.percent(confidence)
                  + " limits ("
                  + pooled.reason()
                  + "): no unit stands out by more than chance.",
              0);
    }
    return head + "Nothing can be said: " + ((GammaPoisson.NotEstimable) fit).reason() + ".\n";
  }

  private String spread(Spread spread) {
    String words =
        "The rates of the units spread by "
            + Words.percent(spread.betweenUnitCv())
            + " about a mean of "
            + Words.significant(spread.meanRate())
            + " per unit of exposure; that all had one rate has p "
            + Words.p(spread.againstPoisson().p())
            + ".";
    TextTable table =
        new TextTable(
            "unit",
            "events",
            "exposure",
            "own rate",
            "rate drawn to the fleet's",
            "above the mean",
            "false so far");
    for (Ranked ranked : spread.worseThan(1)) {
      Unit unit = spread.units().get(ranked.unit());
      table.row(
          review.units().get(ranked.unit()),
          Words.whole(unit.count()),
          Words.significant(unit.exposure()),
          Words.significant(unit.rawRate()),
          rate(unit.rate()),
          Words.percent(ranked.probabilityAbove()),
          Words.percent(ranked.expectedFalseShare()));
    }
    return Words.wrapped(words, 0)
        + "\n"
        + table
        + "\n"
        + Words.wrapped(
            "Above the mean: chance that the unit's true rate is above the fleet's mean rate. False"
                + " so far: share of the units down to this line that are to be expected not to be.",
            0);
  }

  private static String rate(Estimate rate) {
    return Words.significant(rate.estimate())
        + " ("
        + Words.significant(rate.lower())
        + " to "
        + Words.significant(rate.upper())
        + ")";
  }

  @Override
  public String json() {
    return Json.write(document());
  }

  private JsonFields document() {
    GammaPoisson fit = review.fit();
    JsonFields document = new JsonFields();
    if (fit instanceof Spread spread) {
      return document
          .with("status", "fitted")
          .with("shape", spread.shape())
          .with("rate_parameter", spread.rateParameter())
          .with("mean_rate", spread.meanRate())
          .with("log_likelihood", spread.logLikelihood())
          .with(
              "against_one_rate",
              new JsonFields()
                  .with("statistic", spread.againstPoisson().statistic())
                  .with("p", spread.againstPoisson().p()))
          .with("confidence", confidence)
          .with("units", units(spread));
    }
    if (fit instanceof Pooled pooled) {
      return document
          .with("status", "not-estimable")
          .with("reason", pooled.reason())
          .with("mean_rate", pooled.rate().estimate())
          .with("lower", pooled.rate().lower())
          .with("upper", pooled.rate().upper())
          .with("log_likelihood", pooled.logLikelihood())
          .with("confidence", confidence)
          .with("units", List.of());
    }
    return document
        .with("status", "not-estimable")
        .with("reason", ((GammaPoisson.NotEstimable) fit).reason())
        .with("units", List.of());
  }

  private List<JsonFields> units(Spread spread) {
    double[] falseShare = new double[review.units().size()];
    for (Ranked ranked : spread.worseThan(1)) {
      falseShare[ranked.unit()] = ranked.expectedFalseShare();
    }
    List<JsonFields> units = new ArrayList<>();
    for (int i = 0; i < falseShare.length; i++) {
      Unit unit = spread.units().get(i);
      units.add(
          new JsonFields()
              .with("unit", review.units().get(i))
              .with("rate", unit.rate().estimate())
              .with("lower", unit.rate().lower())
              .with("upper", unit.rate().upper())
              .with("raw_rate", unit.rawRate())
              .with("probability_above_mean", unit.probabilityAboveMean())
              .with("expected_false_share", falseShare[i]));
    }
    return units;
  }

  @Override
  public String csv() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "unit", "count", "exposure", "rate", "lower", "upper", "probability_above_mean");
    if (review.fit() instanceof Spread spread) {
      for (int i = 0; i < review.units().size(); i++) {
        Unit unit = spread.units().get(i);
        table.cell(review.units().get(i)).cell(unit.count()).cell(unit.exposure());
        table.cell(unit.rate().estimate()).cell(unit.rate().lower()).cell(unit.rate().upper());
        table.cell(unit.probabilityAboveMean()).endRow();
      }
    }
    return table.text();
  }
}
