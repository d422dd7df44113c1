package org.vaneward.report;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.review.failure.ColumnReview;
import org.vaneward.review.failure.Comparison;
import org.vaneward.stats.Estimate;

/** Failures by the groups or numbers of a column, for people and for programs. */
public final class ColumnReviewView implements View {
  private final FleetSettings settings;
  private final ColumnReview review;
  private final double confidence;

  /** A view of a review of the fleet with these settings, limits of {@code confidence}. */
  public ColumnReviewView(FleetSettings settings, ColumnReview review, double confidence) {
    this.settings = settings;
    this.review = review;
    this.confidence = confidence;
  }

  @Override
  public String text() {
    StringBuilder text =
        new StringBuilder(settings.fleet() + ": failures by " + review.column() + "\n\n");
    for (Comparison c : review.comparisons()) {
      text.append(Words.wrapped(heading(c), 0)).append(table(c));
      c.slope().ifPresent(slope -> text.append(Words.wrapped(slope(c, slope), 0)));
      if (c.logRank().isPresent()) {
        text.append(
            Words.wrapped(
                "That all of them follow one curve (log-rank, failures at a known age): p "
                    + Words.p(c.logRank().getAsDouble())
                    + ".",
                0));
      }
      text.append('\n');
    }
    return text
        + Words.wrapped(
            "Limits at "
                + Words.percent(confidence)
                + ". Comparable: failures where others were watched under the same conditions. Expected:"
                + " what parts of the same age would have had there if the group were like the rest."
                + " p adjusted over all rows of this review (false-discovery rate).",
            0);
  }

  private static String heading(Comparison c) {
    return Words.capital(FindingWords.plural(c.component()))
        + ", failures "
        + c.outcome().words()
        + (switch (c.outcome()) {
          case START_UP -> "";
          case EARLY, LIFE -> ", like held against like by " + c.strata().words();
        });
  }

  private static TextTable table(Comparison c) {
    TextTable table =
        new TextTable(
            c.column(),
            "watched",
            "failed",
            "comparable",
            "expected",
            "times as often",
            "life",
            "p adjusted");
    for (Comparison.Row row : c.rows()) {
      table.row(
          row.name(),
          Words.whole(row.parts()),
          Words.whole(row.failures()),
          Words.whole(row.comparable()),
          row.ratio().isPresent() ? Words.number(row.expected()) : Words.NONE,
          row.ratio().map(FailureTables::ratio).orElse("nothing to compare"),
          row.lifeRatio().map(FailureTables::percent).orElse(Words.NONE),
          row.adjustedP().isPresent() ? Words.p(row.adjustedP().getAsDouble()) : Words.NONE);
    }
    return table;
  }

  private static String slope(Comparison c, Comparison.Slope slope) {
    return "Each unit of "
        + c.column()
        + " more multiplies the failure rate by "
        + significant(slope.ratio())
        + slope.lifeRatio().map(r -> " and life by " + significant(r)).orElse("")
        + "; that it does nothing: p "
        + Words.p(slope.p())
        + ".";
  }

  private static String significant(Estimate e) {
    return Words.significant(e.estimate())
        + " ("
        + Words.significant(e.lower())
        + " to "
        + Words.significant(e.upper())
        + ")";
  }

  @Override
  public String json() {
    return Json.write(
        new JsonFields()
            .with("by", review.column())
            .with("confidence", confidence)
            .with(
                "comparisons",
                review.comparisons().stream().map(ColumnReviewView::fields).toList()));
  }

  /** A comparison as a JSON object. */
  static JsonFields fields(Comparison c) {
    return new JsonFields()
        .with("component", c.component())
        .with("column", c.column())
        .with("outcome", c.outcome().key())
        .with("adjusted_for", c.strata().name().toLowerCase(Locale.ROOT))
        .with("groups", c.rows().stream().map(ColumnReviewView::fields).toList())
        .with("log_rank_p", c.logRank())
        .with("per_unit", c.slope().map(ColumnReviewView::fields));
  }

  private static JsonFields fields(Comparison.Row row) {
    return new JsonFields()
        .with("group", row.name())
        .with("parts", row.parts())
        .with("failures", row.failures())
        .with("comparable", row.comparable())
        .with("expected", row.expected())
        .with("rate_ratio", row.ratio())
        .with("life_ratio", row.lifeRatio())
        .with("p", row.p())
        .with("adjusted_p", row.adjustedP());
  }

  private static JsonFields fields(Comparison.Slope slope) {
    return new JsonFields()
        .with("rate_ratio", slope.ratio())
        .with("life_ratio", slope.lifeRatio())
        .with("p", slope.p());
  }

  /** The groups, one row each. */
  @Override
  public String csv() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "component",
            "outcome",
            "group",
            "parts",
            "failures",
            "comparable",
            "expected",
            "rate_ratio",
            "lower",
            "upper",
            "life_ratio",
            "p",
            "adjusted_p");
    for (Comparison c : review.comparisons()) {
      for (Comparison.Row row : c.rows()) {
        table.cell(c.component()).cell(c.outcome().key()).cell(row.name());
        table.cell(row.parts()).cell(row.failures()).cell(row.comparable()).cell(row.expected());
        for (OptionalDouble value :
            List.of(
                finite(row.ratio().map(Estimate::estimate)),
                finite(row.ratio().map(Estimate::lower)),
                finite(row.ratio().map(Estimate::upper)),
                finite(row.lifeRatio().map(Estimate::estimate)),
                row.p(),
                row.adjustedP())) {
          value.ifPresentOrElse(table::cell, table::empty);
        }
        table.endRow();
      }
    }
    return table.text();
  }

  private static OptionalDouble finite(Optional<Double> value) {
    return value
        .filter(v -> Double.isFinite(v))
        .map(OptionalDouble::of)
        .orElse(OptionalDouble.empty());
  }
}
