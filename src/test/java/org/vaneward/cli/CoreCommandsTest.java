package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Family;

/** The statistics core as somebody with nothing but a table gets it: reference cases by command. */
class CoreCommandsTest {
  @TempDir Path folder = Path.of("unset");

  static Stream<Case> regression() {
    return Reference.cases("regression").stream();
  }

  @ParameterizedTest
  @MethodSource("regression")
  void fitWithCovariates(Case c) {
    JsonNode fit = fit(c, "--covariates", joined(c.node().get("covariates"))).get("fits").get(0);
    JsonNode expected = c.expected();
    assertEquals(expected.get("coefficients").size(), fit.get("coefficients").size());
    for (int i = 0; i < expected.get("coefficients").size(); i++) {
      JsonNode wanted = expected.get("coefficients").get(i);
      JsonNode got = fit.get("coefficients").get(i);
      assertEquals(wanted.get("term").asText(), got.get("term").asText());
      c.holds("estimate", wanted.get("estimate"), got.get("estimate").asDouble());
      c.holds("std_error", wanted.get("std_error"), got.get("std_error").asDouble());
      c.holds("lower", wanted.get("lower_90"), got.get("lower").asDouble());
      c.holds("upper", wanted.get("upper_90"), got.get("upper").asDouble());
      c.holds("p", wanted.get("p"), got.get("p").asDouble());
    }
    c.holds("shape", expected.get("shape"), fit.at("/shape/estimate").asDouble());
    c.holds("log L", expected.get("log_likelihood"), fit.get("log_likelihood").asDouble());
    c.holds(
        "null log L",
        expected.get("null_log_likelihood"),
        fit.get("null_log_likelihood").asDouble());
    for (int i = 0; i < expected.get("term_tests").size(); i++) {
      JsonNode wanted = expected.get("term_tests").get(i);
      JsonNode got = fit.get("terms").get(i);
      assertEquals(wanted.get("term").asText(), got.get("term").asText());
      for (String what : List.of("statistic", "df", "p", "p_holm")) {
        c.holds(what, wanted.get(what), got.get(what).asDouble());
      }
    }
  }

  static Stream<Case> logRank() {
    return Reference.cases("logrank").stream();
  }

  @ParameterizedTest
  @MethodSource("logRank")
  void comparisonOfGroups(Case c) {
    List<String> options = new ArrayList<>(List.of("--by", c.node().get("group_column").asText()));
    if (c.node().has("strata_column")) {
      options.addAll(List.of("--strata", c.node().get("strata_column").asText()));
    }
    JsonNode test = fit(c, options.toArray(String[]::new)).at("/comparison/log_rank");
    for (String what : List.of("statistic", "df", "p")) {
      c.holds(what, c.expected().get(what), test.get(what).asDouble());
    }
  }

  static Stream<Case> commonShape() {
    return Reference.cases("common_shape").stream();
  }

  @ParameterizedTest
  @MethodSource("commonShape")
  void comparisonOfShapes(Case c) {
    JsonNode test =
        fit(c, "--by", c.node().get("group_column").asText()).at("/comparison/common_shape");
    for (String what : List.of("statistic", "df", "p")) {
      c.holds(what, c.expected().get(what), test.get(what).asDouble());
    }
  }

  static Stream<Case> ranks() {
    return Reference.cases("ranks").stream().filter(c -> c.node().has("data"));
  }

  @ParameterizedTest
  @MethodSource("ranks")
  void plottingPositions(Case c) {
    JsonNode plot = fit(c).get("fits").get(0).get("plot");
    JsonNode expected = c.expected();
    assertEquals(expected.get("age").size(), plot.size());
    for (int i = 0; i < plot.size(); i++) {
      JsonNode got = plot.get(i);
      c.holds("age", expected.get("age").get(i), got.get("age").asDouble());
      c.holds("rank", expected.get("adjusted_rank").get(i), got.get("adjusted_rank").asDouble());
      c.holds("exact", expected.get("median_rank_exact").get(i), got.get("median_rank").asDouble());
      c.holds("benard", expected.get("median_rank_benard").get(i), got.get("benard").asDouble());
    }
  }

  static Stream<Case> curves() {
    return Reference.cases("product_limit").stream();
  }

  @ParameterizedTest
  @MethodSource("curves")
  void cumulativeHazard(Case c) {
    JsonNode hazard = fit(c, "--replicates", "0").get("fits").get(0).get("cumulative_hazard");
    JsonNode expected = c.expected().get("cumulative_hazard");
    assertEquals(expected.size(), hazard.size());
    for (int i = 0; i < expected.size(); i++) {
      c.holds("hazard", expected.get(i), hazard.get(i).get("estimate").asDouble());
    }
  }

  static Stream<Case> competing() {
    return Reference.cases("competing_risks").stream();
  }

  @ParameterizedTest
  @MethodSource("competing")
  void fitsByCause(Case c) {
    JsonNode document = fit(c, "--cause", "cause", "--ages", joined(c.expected().get("age")));
    JsonNode expected = c.expected();
    for (JsonNode fit : document.get("fits")) {
      JsonNode weibull = expected.at("/weibull/" + fit.at("/group/cause").asText());
      c.holds("shape", weibull.get("shape"), fit.at("/shape/estimate").asDouble());
      c.holds("scale", weibull.get("scale"), fit.at("/scale/estimate").asDouble());
    }
    int seen = 0;
    for (JsonNode row : document.get("incidence")) {
      String cause = row.get("cause").asText();
      int at = indexOf(expected.get("age"), row.get("age").asDouble());
      JsonNode curve = expected.at("/aalen_johansen/" + cause);
      c.holds("incidence", curve.get("incidence").get(at), row.get("incidence").asDouble());
      c.holds("std_error", curve.get("std_error").get(at), row.get("std_error").asDouble());
      JsonNode fitted = expected.at("/fitted_incidence/" + cause).get(at);
      c.holds("fitted", fitted, row.get("fitted").asDouble());
      seen++;
    }
    assertEquals(2 * expected.get("age").size(), seen);
  }

  static Stream<Case> mixtures() {
    return Reference.cases("mixture").stream();
  }

  @ParameterizedTest
  @MethodSource("mixtures")
  void mixture(Case c) {
    JsonNode mixture = fit(c, "--mixture").get("fits").get(0).get("mixture");
    c.holds("share", c.expected().get("share"), mixture.get("share").asDouble());
    for (int i = 0; i < 2; i++) {
      c.holds("shape", c.expected().get("shapes").get(i), mixture.get("shapes").get(i).asDouble());
      c.holds("scale", c.expected().get("scales").get(i), mixture.get("scales").get(i).asDouble());
    }
    c.holds("log L", c.expected().get("log_likelihood"), mixture.get("log_likelihood").asDouble());
  }

  static Stream<Case> families() {
    return Stream.of("right_censored_fits", "interval_censored_fits", "delayed_entry_fits")
        .flatMap(topic -> Reference.cases(topic).stream());
  }

  @ParameterizedTest
  @MethodSource("families")
  void everyDistribution(Case c) {
    JsonNode fits = fit(c, "--distribution", "all", "--replicates", "0").get("fits");
    assertEquals(Family.values().length, fits.size());
    for (JsonNode fit : fits) {
      String family = fit.get("distribution").asText();
      JsonNode expected = c.expected().get(family);
      assertEquals("fitted", fit.get("status").asText(), family);
      for (String what : List.of("shape", "scale", "location", "spread")) {
        assertEquals(expected.has(what), fit.has(what), family + " " + what);
        if (expected.has(what)) {
          c.holds(what, expected.get(what), fit.get(what).get("estimate").asDouble());
        }
      }
      c.holds("log L", expected.get("log_likelihood"), fit.get("log_likelihood").asDouble());
      c.holds("aic", expected.get("aic"), fit.get("aic").asDouble());
    }
  }

  static Stream<Case> recurrence() {
    return Reference.cases("mean_cumulative_function").stream();
  }

  @ParameterizedTest
  @MethodSource("recurrence")
  void meanCumulativeFunction(Case c) {
    JsonNode mcf = review(c).get("mcf");
    JsonNode expected = c.expected();
    assertEquals(expected.get("age").size(), mcf.size());
    for (int i = 0; i < mcf.size(); i++) {
      for (String what : List.of("age", "mean", "std_error")) {
        c.holds(what, expected.get(what).get(i), mcf.get(i).get(what).asDouble());
      }
      c.holds("lower", expected.get("lower_90").get(i), mcf.get(i).get("lower").asDouble());
      c.holds("upper", expected.get("upper_90").get(i), mcf.get(i).get("upper").asDouble());
    }
  }

  static Stream<Case> trends() {
    return Reference.cases("trend").stream();
  }

  @ParameterizedTest
  @MethodSource("trends")
  void trend(Case c) {
    JsonNode document = review(c);
    JsonNode expected = c.expected();
    for (String what : List.of("statistic", "p")) {
      c.holds(
          "Laplace",
          expected.at("/laplace/" + what),
          document.at("/trend/laplace/" + what).asDouble());
      c.holds(
          "MIL-HDBK-189",
          expected.at("/mil_hdbk_189/" + what),
          document.at("/trend/mil_hdbk_189/" + what).asDouble());
    }
    JsonNode power = document.get("power_law");
    assertEquals(expected.at("/power_law/truncation").asText(), power.get("truncation").asText());
    c.holds("shape", expected.at("/power_law/shape"), power.at("/shape/estimate").asDouble());
    c.holds("scale", expected.at("/power_law/scale"), power.at("/scale/estimate").asDouble());
  }

  static Stream<Case> differences() {
    return Reference.cases("mean_cumulative_difference").stream();
  }

  @ParameterizedTest
  @MethodSource("differences")
  void differenceOfTwoGroups(Case c) {
    JsonNode expected = c.expected();
    JsonNode document =
        review(
            c,
            "--by",
            c.node().get("group_column").asText(),
            "--ages",
            joined(expected.get("age")),
            "--confidence",
            "0.95");
    assertEquals(2, document.get("groups").size());
    JsonNode difference = document.get("difference");
    assertEquals(expected.get("first").asText(), difference.get("first").asText());
    assertEquals(expected.get("second").asText(), difference.get("second").asText());
    JsonNode points = difference.get("points");
    assertEquals(expected.get("age").size(), points.size());
    for (int i = 0; i < points.size(); i++) {
      c.holds("d", expected.get("difference").get(i), points.get(i).get("difference").asDouble());
      c.holds("s", expected.get("std_error").get(i), points.get(i).get("std_error").asDouble());
      c.holds("l", expected.get("lower_95").get(i), points.get(i).get("lower").asDouble());
      c.holds("u", expected.get("upper_95").get(i), points.get(i).get("upper").asDouble());
    }
  }

  static Stream<Case> counts() {
    return Reference.cases("count_shrinkage").stream();
  }

  @ParameterizedTest
  @MethodSource("counts")
  void countsWithExposure(Case c) {
    JsonNode document =
        Run.ending(0, "review", "--counts", table(c).toString(), "--format", "json").json();
    JsonNode expected = c.expected();
    assertTrue(expected.get("finite_maximum").asBoolean());
    for (String what : List.of("shape", "rate_parameter", "mean_rate", "log_likelihood")) {
      c.holds(what, expected.get(what), document.get(what).asDouble());
    }
    JsonNode units = document.get("units");
    assertEquals(expected.get("unit").size(), units.size());
    for (int i = 0; i < units.size(); i++) {
      int at = indexOfText(expected.get("unit"), units.get(i).get("unit").asText());
      c.holds(
          "rate", expected.get("posterior_mean_rate").get(at), units.get(i).get("rate").asDouble());
      c.holds("lower", expected.get("posterior_05").get(at), units.get(i).get("lower").asDouble());
      c.holds("upper", expected.get("posterior_95").get(at), units.get(i).get("upper").asDouble());
    }
  }

  private JsonNode fit(Case c, String... options) {
    return run(c, "fit", "--lives", options);
  }

  private JsonNode review(Case c, String... options) {
    return run(c, "review", "--events", options);
  }

  private JsonNode run(Case c, String command, String source, String... options) {
    List<String> args = new ArrayList<>(List.of(command, source, table(c).toString()));
    args.addAll(List.of(options));
    args.addAll(List.of("--format", "json", "--quiet"));
    return Run.ending(0, args.toArray(String[]::new)).json();
  }

  /** The rows of the case, those its filter picks, as a file. */
  private Path table(Case c) {
    List<Map<String, String>> rows = c.rows();
    List<String> columns = List.copyOf(new TreeSet<>(rows.get(0).keySet()));
    StringBuilder text = new StringBuilder(String.join(",", columns)).append('\n');
    for (Map<String, String> row : rows) {
      text.append(
              String.join(
                  ",",
                  columns.stream().map(name -> Objects.requireNonNull(row.get(name))).toList()))
          .append('\n');
    }
    try {
      return Files.writeString(folder.resolve("table.csv"), text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String joined(JsonNode list) {
    List<String> texts = new ArrayList<>();
    list.forEach(node -> texts.add(node.asText()));
    return String.join(",", texts);
  }

  private static int indexOf(JsonNode list, double wanted) {
    for (int i = 0; i < list.size(); i++) {
      if (list.get(i).asDouble() == wanted) {
        return i;
      }
    }
    throw new AssertionError(wanted + " is not in " + list);
  }

  private static int indexOfText(JsonNode list, String wanted) {
    for (int i = 0; i < list.size(); i++) {
      if (list.get(i).asText().equals(wanted)) {
        return i;
      }
    }
    throw new AssertionError(wanted + " is not in " + list);
  }
}
