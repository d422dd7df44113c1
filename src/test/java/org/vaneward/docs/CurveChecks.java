package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.nonparametric.Turnbull;

/** Curves without a distribution beside those of general-purpose statistics software. */
final class CurveChecks {
  /** Masses below this are not in the reference. */
  private static final double NO_MASS = 1e-7;

  private CurveChecks() {}

  static ValidationSection productLimit() {
    List<Case> cases = Reference.cases("product_limit");
    FitChecks.Rows rows = new FitChecks.Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      List<ProductLimit.Point> points = ProductLimit.of(c.lives(), 0.90).points();
      curve(rows, c, "survival", "survival", points, ProductLimit.Point::survival);
      curve(rows, c, "standard error", "std_error", points, ProductLimit.Point::stdError);
      curve(rows, c, "lower limit", "lower_90", points, ProductLimit.Point::lower);
      curve(rows, c, "upper limit", "upper_90", points, ProductLimit.Point::upper);
      curve(
          rows,
          c,
          "cumulative hazard",
          "cumulative_hazard",
          points,
          ProductLimit.Point::cumulativeHazard);
    }
    return new ValidationSection(
        "Product limit",
        "product_limit",
        "Each row stands for all ages at which a life failed: the values are those of the last age with one, the difference\n"
            + "is the largest of all. Limits at 90%.",
        rows.rows,
        rows.citations);
  }

  private static void curve(
      FitChecks.Rows rows,
      Case c,
      String quantity,
      String key,
      List<ProductLimit.Point> points,
      ToDoubleFunction<ProductLimit.Point> of) {
    JsonNode expected = c.expected().get(key);
    boolean agrees = expected.size() == points.size();
    double difference = 0;
    int last = 0;
    for (int i = 0; agrees && i < points.size(); i++) {
      double got = of.applyAsDouble(points.get(i));
      if (expected.get(i).isNull()) {
        agrees = Double.isNaN(got);
      } else {
        double wanted = expected.get(i).asDouble();
        agrees = ValidationRow.agree(wanted, got, rows.slack(wanted));
        difference = Math.max(difference, ValidationRow.relative(wanted, got));
        last = i;
      }
    }
    rows.rows.add(
        new ValidationRow(
            c.name(),
            String.format(Locale.ROOT, "%s, %d ages", quantity, points.size()),
            rows.source(),
            ValidationRow.number(expected.get(last).asDouble()),
            ValidationRow.number(of.applyAsDouble(points.get(last))),
            difference,
            rows.tolerance(),
            agrees));
  }

  static ValidationSection turnbull() {
    List<Case> cases = Reference.cases("turnbull");
    FitChecks.Rows rows = new FitChecks.Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      Turnbull estimate = Turnbull.of(c.lives());
      rows.add("log-likelihood", c.expected().get("log_likelihood"), estimate.logLikelihood());
      masses(rows, c.expected().get("intervals"), estimate);
    }
    return new ValidationSection(
        "Turnbull's estimate",
        "turnbull",
        "Masses are given by the stretch of age (from, to] in which each lies.",
        rows.rows,
        rows.citations);
  }

  private static void masses(FitChecks.Rows rows, JsonNode expected, Turnbull estimate) {
    List<Turnbull.Mass> masses =
        estimate.masses().stream().filter(m -> m.mass() > NO_MASS).toList();
    rows.addWords(
        "stretches with mass",
        Integer.toString(expected.size()),
        Integer.toString(masses.size()),
        expected.size() == masses.size());
    for (int i = 0; i < Math.min(masses.size(), expected.size()); i++) {
      Turnbull.Mass mass = masses.get(i);
      JsonNode wanted = expected.get(i);
      boolean placed =
          wanted.get("from").asDouble() == mass.from()
              && wanted.get("to").asDouble(Double.POSITIVE_INFINITY) == mass.to();
      String where = "(" + ValidationRow.number(mass.from()) + ", " + end(mass.to()) + "]";
      rows.add("mass in " + where, wanted.get("mass"), placed ? mass.mass() : Double.NaN);
    }
  }

  private static String end(double to) {
    return Double.isInfinite(to) ? "∞" : ValidationRow.number(to);
  }
}
