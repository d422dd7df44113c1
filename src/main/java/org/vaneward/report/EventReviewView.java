package org.vaneward.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.review.EventQuestion;
import org.vaneward.review.EventReview;
import org.vaneward.review.EventReview.Histories;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.recurrence.LewisRobinson;
import org.vaneward.stats.recurrence.MeanCumulativeDifference;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;
import org.vaneward.stats.recurrence.PowerLawFit;
import org.vaneward.stats.recurrence.RenewalOrTrend;
import org.vaneward.stats.recurrence.TestOutcome;

/** Recurring events, for people and for programs. */
public final class EventReviewView implements View {
  private static final int SHOWN = 12;

  private final EventReview review;
  private final EventQuestion question;

  /** A view of a review that answers {@code question}. */
  public EventReviewView(EventReview review, EventQuestion question) {
    this.review = review;
    this.question = question;
  }

  @Override
  public String text() {
    StringBuilder text = new StringBuilder(histories("All units", review.all()));
    review.groups().forEach((name, group) -> text.append('\n').append(histories(name, group)));
    review.differences().forEach(pair -> text.append('\n').append(difference(pair)));
    return text.toString();
  }

  private String histories(String name, Histories h) {
    StringBuilder text = new StringBuilder();
    text.append(
        Words.wrapped(
            (name.isEmpty() ? "(no group)" : name)
                + ": "
                + Words.count(h.histories().size(), "unit", "units")
                + ", "
                + Words.count(h.histories().events(), "event", "events")
                + " in "
                + Words.significant(h.histories().totalTime())
                + " of time watched.",
            0));
    text.append(Words.wrapped("  " + trend(h), 2));
    text.append(Words.wrapped("  " + powerLaw(h.powerLaw()) + goodness(h.goodness()), 2));
    text.append(Words.wrapped("  " + h.renewal().sentence("These units"), 2)).append('\n');
    return text.append(table(h.mean())).toString();
  }

  private static String trend(Histories h) {
    return "Trend with age: Laplace "
        + test(h.laplace(), true)
        + "; MIL-HDBK-189 "
        + test(h.milHdbk189(), false)
        + ".";
  }

  private static String test(TestOutcome test, boolean signed) {
    if (test instanceof TestOutcome.Tested tested) {
      String way = tested.statistic() > 0 ? "events come faster" : "events come slower";
      return Words.number(tested.statistic())
          + ", p "
          + Words.p(tested.p())
          + (signed && tested.p() < 1 - 0.90 ? " (" + way + ")" : "");
    }
    return "not testable (" + ((TestOutcome.NotTestable) test).reason() + ")";
  }

  private static String powerLaw(PowerLawFit fit) {
    if (fit instanceof PowerLawFit.Fitted f) {
      return "Power law: mean count (age / scale)^shape with shape "
          + Words.number(f.shape())
          + " and scale "
          + Words.significant(f.scale().estimate())
          + " ("
          + Words.significant(f.scale().lower())
          + " to "
          + Words.significant(f.scale().upper())
          + "); a shape above 1 means that events come faster with age.";
    }
    return "Power law: not estimable (" + ((PowerLawFit.NotEstimable) fit).reason() + ").";
  }

  private static String goodness(TestOutcome test) {
    return test instanceof TestOutcome.Tested tested
        ? " Does it describe them? Cramér–von Mises "
            + Words.number(tested.statistic())
            + ", p "
            + Words.p(tested.p())
            + "."
        : "";
  }

  private String table(MeanCumulativeFunction mean) {
    TextTable table = new TextTable("age", "watched", "events per unit by then");
    int step = Math.max(1, (int) Math.ceil(mean.size() / (double) SHOWN));
    for (int k = 0; k < mean.size(); k++) {
      if (k % step == step - 1 || k == mean.size() - 1) {
        MeanCumulativeFunction.Point p = mean.point(k);
        table.row(
            Words.significant(p.age()),
            Words.whole(p.atRisk()),
            Words.number(new Estimate(p.mean(), p.lower(), p.upper())));
      }
    }
    return mean.size() == 0 ? "  No events.\n" : table.toString();
  }

  private String difference(MeanCumulativeDifference.Pair pair) {
    TextTable table = new TextTable("age", pair.first(), pair.second(), "difference", "p");
    List<MeanCumulativeDifference.Point> points = pair.difference().points();
    int step = Math.max(1, (int) Math.ceil(points.size() / (double) SHOWN));
    for (int i = 0; i < points.size(); i++) {
      if (i % step == step - 1 || i == points.size() - 1) {
        MeanCumulativeDifference.Point p = points.get(i);
        table.row(
            Words.significant(p.age()),
            Words.number(p.first()),
            Words.number(p.second()),
            Words.difference(p.difference())
                + " ("
                + Words.difference(p.lower())
                + " to "
                + Words.difference(p.upper())
                + ")",
            Words.p(p.p()));
      }
    }
    return "Events per unit, " + pair.first() + " less " + pair.second() + "\n" + table;
  }

  @Override
  public String json() {
    return Json.write(document());
  }

  private JsonFields document() {
    JsonFields document = block(review.all()).with("confidence", question.confidence());
    if (question.by().isPresent()) {
      List<JsonFields> groups = new ArrayList<>();
      review
          .groups()
          .forEach((name, h) -> groups.add(new JsonFields().with("group", name).withAll(block(h))));
      document.with("groups", groups);
      List<JsonFields> pairs = review.differences().stream().map(this::pair).toList();
      if (pairs.size() == 1) {
        document.with("difference", pairs.get(0));
      } else {
        document.with("differences", pairs);
      }
    }
    return document;
  }

  private JsonFields block(Histories h) {
    return new JsonFields()
        .with("units", h.histories().size())
        .with("events", h.histories().events())
        .with("total_time", h.histories().totalTime())
        .with("mcf", h.mean().points().stream().map(EventReviewView::point).toList())
        .with("trend", tests(h))
        .with("power_law", powerLawFields(h))
        .with("renewal", renewal(h.renewal()));
  }

  static JsonFields point(MeanCumulativeFunction.Point p) {
    return new JsonFields()
        .with("age", p.age())
        .with("at_risk", p.atRisk())
        .with("events", p.events())
        .with("mean", p.mean())
        .with("std_error", p.stdError())
        .with("lower", p.lower())
        .with("upper", p.upper());
  }

  private static JsonFields tests(Histories h) {
    Map<String, TestOutcome> tests = new LinkedHashMap<>();
    tests.put("laplace", h.laplace());
    tests.put("mil_hdbk_189", h.milHdbk189());
    JsonFields fields = new JsonFields();
    tests.forEach((name, test) -> fields.with(name, test(test)));
    return fields;
  }

  private static JsonFields test(TestOutcome test) {
    JsonFields fields = new JsonFields();
    if (test instanceof TestOutcome.Tested tested) {
      fields.with("statistic", tested.statistic());
      if (tested.degreesOfFreedom() > 0) {
        fields.with("df", tested.degreesOfFreedom());
      }
      return fields.with("p", tested.p());
    }
    return fields
        .with("status", "not-testable")
        .with("reason", ((TestOutcome.NotTestable) test).reason());
  }

  private static JsonFields powerLawFields(Histories h) {
    JsonFields fields = new JsonFields();
    String truncation = h.histories().truncation().name().toLowerCase(Locale.ROOT);
    if (h.powerLaw() instanceof PowerLawFit.Fitted f) {
      return fields
          .with("status", "fitted")
          .with("shape", f.shape())
          .with("scale", f.scale())
          .with("truncation", truncation)
          .with("log_likelihood", f.logLikelihood())
          .with("shape_bias_corrected", f.shapeBiasCorrected())
          .with("intensity_at_end", f.intensityAtEnd())
          .with("goodness", test(h.goodness()))
          .with(
              "constant_rate_inside",
              new JsonFields()
                  .with("statistic", f.constantRate().statistic())
                  .with("df", 1)
                  .with("p", f.constantRate().p()));
    }
    return fields
        .with("status", "not-estimable")
        .with("reason", ((PowerLawFit.NotEstimable) h.powerLaw()).reason())
        .with("truncation", truncation);
  }

  private static JsonFields renewal(RenewalOrTrend r) {
    return new JsonFields()
        .with("verdict", r.verdict().name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .with("sentence", r.sentence("These units"))
        .with("lewis_robinson", lewisRobinson(r.lewisRobinson()))
        .with("gap_factor", r.effect().map(RenewalOrTrend.GapEffect::factor))
        .with("gap_p", r.effect().map(RenewalOrTrend.GapEffect::p));
  }

  private static JsonFields lewisRobinson(LewisRobinson test) {
    if (test instanceof LewisRobinson.Tested t) {
      return new JsonFields()
          .with("statistic", t.statistic())
          .with("p", t.p())
          .with("permutation_p", t.permutationP());
    }
    return new JsonFields()
        .with("status", "not-testable")
        .with("reason", ((LewisRobinson.NotTestable) test).reason());
  }

  private JsonFields pair(MeanCumulativeDifference.Pair pair) {
    List<JsonFields> points =
        pair.difference().points().stream()
            .map(
                p ->
                    new JsonFields()
                        .with("age", p.age())
                        .with("first_mean", p.first())
                        .with("second_mean", p.second())
                        .with("difference", p.difference())
                        .with("std_error", p.stdError())
                        .with("lower", p.lower())
                        .with("upper", p.upper())
                        .with("p", p.p()))
            .toList();
    return new JsonFields()
        .with("first", pair.first())
        .with("second", pair.second())
        .with("points", points);
  }

  /** The mean cumulative functions, one row for each age. */
  @Override
  public String csv() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "group", "age", "at_risk", "events", "mean", "std_error", "lower", "upper");
    if (review.groups().isEmpty()) {
      rows(table, "", review.all());
    } else {
      review.groups().forEach((name, h) -> rows(table, name, h));
    }
    return table.text();
  }

  private static void rows(CsvWriter table, String group, Histories h) {
    for (MeanCumulativeFunction.Point p : h.mean().points()) {
      table.cell(group).cell(p.age()).cell(p.atRisk()).cell(p.events()).cell(p.mean());
      table.cell(p.stdError()).cell(p.lower()).cell(p.upper()).endRow();
    }
  }
}
