package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToDoubleFunction;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.comparison.GammaPoisson;
import org.vaneward.stats.comparison.GammaPoisson.Unit;
import org.vaneward.stats.comparison.LogRank;
import org.vaneward.stats.comparison.RateRatio;
import org.vaneward.stats.competing.CauseLives;
import org.vaneward.stats.competing.CauseSpecificFits;
import org.vaneward.stats.competing.CumulativeIncidence;
import org.vaneward.stats.competing.CumulativeIncidence.Incidence;
import org.vaneward.stats.competing.FittedIncidence;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.nonparametric.AdjustedRanks;
import org.vaneward.stats.nonparametric.AdjustedRanks.Point;
import org.vaneward.stats.nonparametric.PlottingPositions;

/**
 * Comparisons, shrunken rates, competing risks and ranks beside those of general-purpose statistics
 * software.
 */
final class ComparisonChecks {
  private ComparisonChecks() {}

  static ValidationSection logRank() {
    List<Case> cases = Reference.cases("logrank");
    FitChecks.Rows rows = new FitChecks.Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      if (!(logRank(c) instanceof LogRank.Tested test)) {
        throw new IllegalStateException(c.name() + " is not tested");
      }
      List<LogRank.Group> groups = test.groups();
      column(rows, c, "observed, %d groups", e.get("observed"), groups, LogRank.Group::observed);
      column(rows, c, "expected, %d groups", e.get("expected"), groups, LogRank.Group::expected);
      for (int g = 0; g < groups.size(); g++) {
        String row = "variance, row " + (g + 1) + " of %d";
        column(rows, c, row, e.get("variance").get(g), test.variance().get(g), v -> v);
      }
      rows.add("statistic", e.get("statistic"), test.statistic());
      rows.add("degrees of freedom", e.get("df"), test.degreesOfFreedom());
      rows.add("p", e.get("p"), test.p());
    }
    return new ValidationSection(
        "Log-rank tests",
        "logrank",
        "Do groups differ? Where a row stands for several figures the values are those of the last, the difference is\n"
            + "the largest of all.",
        rows.rows,
        rows.citations);
  }

  private static LogRank logRank(Case c) {
    List<Observations> groups = new ArrayList<>();
    List<int[]> strata = new ArrayList<>();
    String groupColumn = c.node().get("group_column").asText();
    for (JsonNode name : c.expected().get("groups")) {
      List<Map<String, String>> rows =
          c.rows().stream().filter(r -> name.asText().equals(r.get(groupColumn))).toList();
      groups.add(Reference.observations(rows));
      if (c.node().hasNonNull("strata_column")) {
        String column = c.node().get("strata_column").asText();
        strata.add(
            rows.stream()
                .mapToInt(r -> Objects.requireNonNull(r.get(column)).hashCode())
                .toArray());
      }
    }
    return strata.isEmpty() ? LogRank.of(groups) : LogRank.of(groups, strata);
  }

  static ValidationSection countShrinkage() {
    List<Case> cases = Reference.cases("count_shrinkage");
    FitChecks.Rows rows = new FitChecks.Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      if (!(GammaPoisson.fit(numbers(c, "count"), numbers(c, "exposure"), 0.90)
          instanceof GammaPoisson.Spread fit)) {
        throw new IllegalStateException(c.name() + " is not fitted");
      }
      rows.add("shape", e.get("shape"), fit.shape());
      rows.add("rate parameter", e.get("rate_parameter"), fit.rateParameter());
      rows.add("mean rate", e.get("mean_rate"), fit.meanRate());
      rows.add("spread between units", e.get("between_unit_cv"), fit.betweenUnitCv());
      rows.add("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
      JsonNode v = e.get("covariance_log_shape_log_rate_parameter");
      rows.add("variance of log shape", v.get(0).get(0), fit.covariance().shapeShape());
      rows.add("covariance", v.get(0).get(1), fit.covariance().shapeRate());
      rows.add("variance of log rate parameter", v.get(1).get(1), fit.covariance().rateRate());
      JsonNode lr = e.get("likelihood_ratio_against_poisson");
      rows.add("statistic against one rate", lr.get("statistic"), fit.againstPoisson().statistic());
      rows.add("p against one rate", lr.get("p_boundary"), fit.againstPoisson().p());
      List<Unit> units = fit.units();
      column(
          rows, c, "rate, %d units", e.get("posterior_mean_rate"), units, u -> u.rate().estimate());
      column(rows, c, "lower limit, %d units", e.get("posterior_05"), units, u -> u.rate().lower());
      column(rows, c, "upper limit, %d units", e.get("posterior_95"), units, u -> u.rate().upper());
      column(
          rows,
          c,
          "chance of being above the mean, %d units",
          e.get("probability_above_mean_rate"),
          units,
          Unit::probabilityAboveMean);
    }
    return new ValidationSection(
        "Shrunken failure rates",
        "count_shrinkage",
        "Counts with exposure, rates drawn from a gamma distribution. Rows of several units show the last unit and the\n"
            + "largest difference of all. Limits at 90%.",
        rows.rows,
        rows.citations);
  }

  static ValidationSection competingRisks() {
    List<Case> cases = Reference.cases("competing_risks");
    FitChecks.Rows rows = new FitChecks.Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      List<String> names = new ArrayList<>();
      e.get("causes").forEach(name -> names.add(name.asText()));
      int[] cause = c.rows().stream().mapToInt(r -> names.indexOf(r.get("cause"))).toArray();
      CauseLives lives = CauseLives.of(c.lives(), cause, names);
      CumulativeIncidence curves = CumulativeIncidence.of(lives, 0.90);
      CauseSpecificFits fits = CauseSpecificFits.fit(lives, FitSettings.defaults());
      FittedIncidence fitted = fits.incidence().orElseThrow();
      List<Double> ages = new ArrayList<>();
      e.get("age").forEach(a -> ages.add(a.asDouble()));
      for (int i = 0; i < names.size(); i++) {
        int k = i;
        String name = names.get(k);
        JsonNode w = e.get("weibull").get(name);
        if (fits.causes().get(k).fit() instanceof Fitted fit) {
          rows.add(name + ", shape", w.get("shape"), fit.weibull().shape());
          rows.add(name + ", scale", w.get("scale"), fit.weibull().scale());
          rows.add(name + ", log-likelihood", w.get("log_likelihood"), fit.logLikelihood());
        }
        JsonNode curve = e.get("aalen_johansen").get(name);
        List<Incidence> got =
            ages.stream().map(a -> curves.incidenceAt(a, k).orElseThrow()).toList();
        column(
            rows,
            c,
            name + ", incidence, %d ages",
            curve.get("incidence"),
            got,
            x -> x.share().estimate());
        column(
            rows,
            c,
            name + ", standard error, %d ages",
            curve.get("std_error"),
            got,
            Incidence::stdError);
        column(
            rows,
            c,
            name + ", fitted incidence, %d ages",
            e.get("fitted_incidence").get(name),
            ages,
            a -> fitted.incidence(k, a));
      }
      column(
          rows,
          c,
          "no failure, %d ages",
          e.get("event_free"),
          ages,
          a -> curves.eventFreeAt(a).orElseThrow());
    }
    return new ValidationSection(
        "Competing risks",
        "competing_risks",
        "Cumulative incidence by cause and a Weibull fit for each cause. Rows of several ages show the last age and the\n"
            + "largest difference of all.",
        rows.rows,
        rows.citations);
  }

  static ValidationSection ranks() {
    List<Case> cases = Reference.cases("ranks");
    FitChecks.Rows rows = new FitChecks.Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      for (JsonNode table : e.path("tables")) {
        int n = table.get("n").asInt();
        List<Double> places = new ArrayList<>();
        for (int i = 1; i <= n; i++) {
          places.add((double) i);
        }
        column(
            rows,
            c,
            "median ranks of %d",
            table.get("exact"),
            places,
            i -> PlottingPositions.medianRank(i, n));
      }
      if (e.has("adjusted_rank")) {
        if (!(AdjustedRanks.of(c.lives()) instanceof AdjustedRanks.Ranked ranked)) {
          throw new IllegalStateException(c.name() + " is not ranked");
        }
        List<Point> points = ranked.points();
        column(rows, c, "adjusted rank, %d failures", e.get("adjusted_rank"), points, Point::rank);
        column(
            rows,
            c,
            "median rank, %d failures",
            e.get("median_rank_exact"),
            points,
            Point::medianRank);
        column(
            rows,
            c,
            "Benard's approximation, %d failures",
            e.get("median_rank_benard"),
            points,
            Point::benard);
      }
    }
    return new ValidationSection(
        "Ranks",
        "ranks",
        "Exact median ranks, also of adjusted ranks that are not whole. A row stands for all failures: the values are\n"
            + "those of the last, the difference is the largest of all.",
        rows.rows,
        rows.citations);
  }

  private static double[] numbers(Case c, String column) {
    return c.rows().stream()
        .mapToDouble(r -> Double.parseDouble(Objects.requireNonNull(r.get(column))))
        .toArray();
  }

  /** A row for several figures: shows the last, holds all of them to the tolerance. */
  private static <T> void column(
      FitChecks.Rows rows,
      Case c,
      String quantity,
      JsonNode expected,
      List<T> got,
      ToDoubleFunction<T> of) {
    boolean agrees = expected.size() == got.size() && !got.isEmpty();
    double difference = 0;
    double lastWanted = Double.NaN;
    double lastGot = Double.NaN;
    for (int i = 0; i < Math.min(got.size(), expected.size()); i++) {
      lastWanted = expected.get(i).asDouble();
      lastGot = of.applyAsDouble(got.get(i));
      agrees &= ValidationRow.agree(lastWanted, lastGot, rows.slack(lastWanted));
      difference = Math.max(difference, ValidationRow.relative(lastWanted, lastGot));
    }
    rows.rows.add(
        new ValidationRow(
            c.name(),
            String.format(Locale.ROOT, quantity, expected.size()),
            rows.source(),
            ValidationRow.number(lastWanted),
            ValidationRow.number(lastGot),
            difference,
            rows.tolerance(),
            agrees));
  }

  static ValidationSection rateRatios() {
    JsonNode all = Reference.own("rate-ratio/expected.json");
    List<ValidationRow> rows = new ArrayList<>();
    all.get("ratios")
        .forEachEntry(
            (name, e) -> {
              RateRatio.Builder builder = RateRatio.builder(e.get("strata").size());
              for (JsonNode s : e.get("strata")) {
                builder.add(
                    s.get(0).asDouble(),
                    s.get(1).asDouble(),
                    s.get(2).asDouble(),
                    s.get(3).asDouble());
              }
              if (!(builder.confidence(all.get("confidence").asDouble()).compare()
                  instanceof RateRatio.Compared c)) {
                throw new IllegalStateException(name + " is not compared");
              }
              rows.add(exact(name, "failures expected", e.get("expected"), c.expected()));
              rows.add(exact(name, "p, as many or more", e.get("p_more"), c.pMore()));
              rows.add(exact(name, "ratio", e.get("ratio"), c.ratio().estimate()));
              rows.add(exact(name, "lower limit", e.get("lower"), c.ratio().lower()));
              rows.add(exact(name, "upper limit", e.get("upper"), c.ratio().upper()));
            });
    return new ValidationSection(
        "Ratios of failure rates",
        "rate-ratio",
        "A group's failures against those of the rest, stratum by stratum, exact.",
        rows,
        Map.of(
            "SciPy",
            all.get("source").asText()
                + " in `src/test/resources/reference-own/rate-ratio`; one-stratum limits there are"
                + " also those of `scipy.stats.binomtest`"));
  }

  private static ValidationRow exact(String name, String quantity, JsonNode expected, double got) {
    double e = expected.asDouble();
    return ValidationRow.of(
        name, quantity, "SciPy", e, got, 1e-9 * Math.max(1e-3, Math.abs(e)), "rel. 1e-09");
  }
}
