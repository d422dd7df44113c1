package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;

/** {@code fit} against published and computed figures, through the command line. */
class FitCommandTest {
  private static final String DATA = "src/test/resources/reference/";

  @TempDir Path folder = Path.of("unset");

  @Test
  void agreesWithTheHandbooksCensoredExample() throws IOException {
    JsonNode example = Reference.example("nist-apr413-weibull-mle");
    StringBuilder table = new StringBuilder("lower,upper\n");
    for (JsonNode hours : example.get("inputs").get("failures_h")) {
      table.append(hours.asText()).append(',').append(hours.asText()).append('\n');
    }
    for (JsonNode hours : example.get("inputs").get("censored_h")) {
      table.append(hours.asText()).append(",\n");
    }
    Path lives = Files.writeString(folder.resolve("lives.csv"), table);
    JsonNode fit = only("--lives", lives.toString());
    Reference.holds(example, "beta", fit.at("/shape/estimate").asDouble());
    Reference.holds(example, "eta", fit.at("/scale/estimate").asDouble());
    Reference.holds(example, "loglik", fit.get("log_likelihood").asDouble());
    Reference.holds(example, "aic_weibull", fit.get("aic").asDouble());
    assertEquals(20, fit.get("lives").asDouble());
    assertEquals(10, fit.get("failures").asDouble());
    String text = Run.ending(0, "fit", "--lives", lives.toString()).out();
    assertTrue(text.contains("1.72 ("), text);
    assertTrue(text.contains("606.5 ("), text);
  }

  @ParameterizedTest
  @CsvSource({
    "interval_censored_fits, turbine, profile, 90",
    "interval_censored_fits, turbine, wald, 90",
    "interval_censored_fits, turbine, profile, 95",
    "interval_censored_fits, bcdeter-all, profile, 90",
    "delayed_entry_fits, channing-male, profile, 90",
    "delayed_entry_fits, channing-male, wald, 95",
    "delayed_entry_fits, psych, profile, 90",
    "delayed_entry_fits, psych, wald, 90",
  })
  void agreesWithR(String topic, String name, String limits, String percent) {
    Case reference = named(topic, name);
    JsonNode fit =
        only(
            "--lives",
            DATA + reference.node().get("data").asText(),
            "--limits",
            limits,
            "--confidence",
            "0." + percent);
    holdsFit(reference, fit, limits, percent);
    assertEquals(limits, fit.get("limits").asText());
    assertEquals(Double.parseDouble("0." + percent), fit.get("confidence").asDouble());
  }

  @Test
  void fitsEachGroupOnItsOwn() {
    JsonNode fits =
        Run.ending(
                0, "fit", "--lives", DATA + "data/bcdeter.csv", "--by", "treat", "--format", "json")
            .json()
            .get("fits");
    assertEquals(2, fits.size());
    assertEquals("radio", fits.get(0).at("/group/treat").asText());
    assertEquals("radio-chemo", fits.get(1).at("/group/treat").asText());
    holdsFit(named("interval_censored_fits", "bcdeter-treat-1"), fits.get(0), "profile", "90");
    holdsFit(named("interval_censored_fits", "bcdeter-treat-2"), fits.get(1), "profile", "90");
  }

  @Test
  void documentHasThePromisedKeys() {
    JsonNode document =
        Run.ending(0, "fit", "--lives", DATA + "data/turbine.csv", "--format", "json").json();
    assertEquals(List.of("fits"), Run.keys(document));
    JsonNode fit = document.get("fits").get(0);
    assertTrue(
        Run.keys(fit)
            .containsAll(
                List.of(
                    "group",
                    "distribution",
                    "status",
                    "lives",
                    "failures",
                    "shape",
                    "scale",
                    "log_likelihood",
                    "aic",
                    "aicc",
                    "bic",
                    "covariance",
                    "quantiles",
                    "limits",
                    "confidence",
                    "product_limit")),
        () -> Run.keys(fit).toString());
    assertFalse(fit.has("reason"));
    assertFalse(fit.has("scale_lower"));
    assertEquals("fitted", fit.get("status").asText());
    assertEquals("weibull", fit.get("distribution").asText());
    assertEquals(List.of("estimate", "lower", "upper"), Run.keys(fit.get("shape")));
    assertEquals(List.of("p", "estimate", "lower", "upper"), Run.keys(fit.get("quantiles").get(0)));
    JsonNode covariance = fit.get("covariance");
    assertEquals(2, covariance.size());
    assertEquals(covariance.get(0).get(1).asDouble(), covariance.get(1).get(0).asDouble());
  }

  @Test
  void productLimitHasThePromisedKeys() throws IOException {
    Path lives = write("lower,upper\n10,10\n20,\n30,30\n40,40\n");
    JsonNode step = only("--lives", lives.toString()).get("product_limit").get(0);
    assertEquals(
        Set.of("age", "survival", "std_error", "lower", "upper", "at_risk", "events"),
        Set.copyOf(Run.keys(step)));
    assertEquals(0.75, step.get("survival").asDouble(), 1e-15);
  }

  @Test
  void aGroupThatCannotBeFittedSaysWhy() throws IOException {
    Path lives = write("lower,upper\n100,\n200,\n");
    JsonNode fit = only("--lives", lives.toString());
    assertEquals("not-estimable", fit.get("status").asText());
    assertEquals("no failures", fit.get("reason").asText());
    for (String absent :
        List.of("shape", "scale", "log_likelihood", "aic", "covariance", "quantiles")) {
      assertFalse(fit.has(absent), absent);
    }
    String csv = Run.ending(0, "fit", "--lives", lives.toString(), "--format", "csv").out();
    assertEquals(
        "weibull,not-estimable,2,0,,,,,,,,,,,,,,,no failures", csv.lines().toList().get(1));
  }

  @Test
  void withoutFailuresAFixedShapeBoundsTheScaleFromBelow() throws IOException {
    Path lives = write("lower,upper,count\n100,,3\n200,,2\n");
    JsonNode fit = only("--lives", lives.toString(), "--fixed-shape", "2", "--confidence", "0.95");
    assertEquals("not-estimable", fit.get("status").asText());
    assertEquals("no failures", fit.get("reason").asText());
    JsonNode lower = fit.get("scale_lower").get(0);
    assertEquals(Set.of("shape", "confidence", "lower"), Set.copyOf(Run.keys(lower)));
    assertEquals(2, lower.get("shape").asDouble());
    assertEquals(0.95, lower.get("confidence").asDouble());
    // No failure in a sum of age^shape has probability 1 - confidence at this scale.
    double expected = Math.sqrt((3 * 100.0 * 100 + 2 * 200.0 * 200) / -Math.log(0.05));
    assertEquals(expected, lower.get("lower").asDouble(), 1e-9 * expected);
    String text = Run.ending(0, "fit", "--lives", lives.toString(), "--fixed-shape", "2").out();
    assertTrue(text.contains("no failures; at shape 2.00 the scale is above"), text);
  }

  @Test
  void aFixedShapeFitsTheScaleAlone() throws IOException {
    Path lives = write("lower,upper\n100,100\n200,200\n300,\n");
    JsonNode fit = only("--lives", lives.toString(), "--fixed-shape", "2");
    double expected = Math.sqrt((100.0 * 100 + 200.0 * 200 + 300.0 * 300) / 2);
    assertEquals(2, fit.at("/shape/estimate").asDouble());
    assertEquals(expected, fit.at("/scale/estimate").asDouble(), 1e-9 * expected);
    assertTrue(fit.at("/scale/lower").asDouble() < expected);
    assertTrue(fit.at("/scale/upper").asDouble() > expected);
    String text = Run.ending(0, "fit", "--lives", lives.toString(), "--fixed-shape", "2").out();
    assertTrue(text.contains("2.00, held"), text);
  }

  @Test
  void livesWrittenAsCsvReadBackGiveTheFitsOfTheFleet() {
    Path lives = folder.resolve("lives.csv");
    Run.ending(0, "lives", "sample-fleet", "--format", "csv", "--out", lives.toString());
    for (String by : List.of("component,product,duty", "component", "site,component")) {
      List<String> options = List.of("--by", by, "--replicates", "0", "--format", "json");
      Run direct = ending(List.of("fit", "sample-fleet"), options);
      Run again = ending(List.of("fit", "--lives", lives.toString()), options);
      assertTrue(direct.json().get("fits").size() > 2, by);
      assertEquals(direct.out(), again.out(), by);
    }
  }

  @Test
  void aFleetIsFittedByComponentAndServiceUnlessToldOtherwise() {
    Run plain = Run.ending(0, "fit", "sample-fleet", "--format", "csv");
    Run stated =
        Run.ending(0, "fit", "sample-fleet", "--by", "component,product,duty", "--format", "csv");
    assertEquals(stated.out(), plain.out());
    assertTrue(
        plain.out().startsWith("component,product,duty,distribution,status,lives,failures,shape,"));
    assertEquals("", plain.err());
  }

  @Test
  void survivalAtAgesAndMeanHaveLimits() throws IOException {
    Path lives = write("lower,upper\n100,100\n200,200\n300,300\n400,\n");
    JsonNode fit = only("--lives", lives.toString(), "--ages", "150,250");
    JsonNode survival = fit.get("survival");
    assertEquals(2, survival.size());
    double shape = fit.at("/shape/estimate").asDouble();
    double scale = fit.at("/scale/estimate").asDouble();
    JsonNode at = survival.get(1);
    assertEquals(250, at.get("age").asDouble());
    assertEquals(Math.exp(-Math.pow(250 / scale, shape)), at.get("estimate").asDouble(), 1e-12);
    assertTrue(at.get("lower").asDouble() < at.get("estimate").asDouble());
    assertTrue(at.get("upper").asDouble() > at.get("estimate").asDouble());
    assertTrue(fit.at("/mean/lower").asDouble() < fit.at("/mean/estimate").asDouble());
    assertTrue(fit.at("/mean/upper").asDouble() > fit.at("/mean/estimate").asDouble());
  }

  @Test
  void bootstrapLimitsAreSeededAndHoldTheEstimate() {
    String lives = DATA + "data/genfan.csv";
    JsonNode first = only("--lives", lives, "--limits", "bootstrap", "--replicates", "400");
    JsonNode again = only("--lives", lives, "--limits", "bootstrap", "--replicates", "400");
    JsonNode other =
        only("--lives", lives, "--limits", "bootstrap", "--replicates", "400", "--seed", "7");
    assertEquals("bootstrap", first.get("limits").asText());
    assertEquals(first, again);
    assertTrue(!first.get("scale").equals(other.get("scale")));
    for (String what : List.of("shape", "scale")) {
      double estimate = first.get(what).get("estimate").asDouble();
      assertTrue(first.get(what).get("lower").asDouble() < estimate, what);
      assertTrue(first.get(what).get("upper").asDouble() > estimate, what);
    }
  }

  @Test
  void aLevelWithoutFailuresIsNamed() {
    Run run =
        Run.ending(
            0,
            "fit",
            "--lives",
            DATA + "data/motors.csv",
            "--covariates",
            "temperature",
            "--names",
            "temperature",
            "--format",
            "json");
    JsonNode fit = run.json().get("fits").get(0);
    assertEquals("not-estimable", fit.get("status").asText());
    assertEquals("temperature=150", fit.get("reason_terms").get(0).asText());
  }

  @Test
  void rowsWithABlankNumberAreCountedAndLeftOut() throws IOException {
    Path lives =
        write("lower,upper,bar\n100,100,1\n200,200,2\n300,300,\n400,,2\n250,250,3\n90,90,4\n");
    JsonNode fit = only("--lives", lives.toString(), "--covariates", "bar");
    assertEquals(1, fit.get("rows_left_out").asInt());
    assertEquals(5, fit.get("lives").asDouble());
    String text = Run.ending(0, "fit", "--lives", lives.toString(), "--covariates", "bar").out();
    assertTrue(text.contains("left out for a blank in a number: 1 row"), text);
  }

  @Test
  void pooledGroupsLeanOnOneAnother() {
    JsonNode document =
        Run.ending(0, "fit", "sample-fleet", "--pooled", "--format", "json", "--quiet").json();
    int bare = 0;
    for (JsonNode fit : document.get("fits")) {
      assertEquals("posterior", fit.get("limits").asText());
      assertEquals("fitted", fit.get("status").asText());
      assertTrue(fit.at("/scale/lower").asDouble() < fit.at("/scale/estimate").asDouble());
      assertTrue(fit.at("/scale/upper").asDouble() > fit.at("/scale/estimate").asDouble());
      if (fit.get("failures").asDouble() == 0) {
        bare++;
        assertTrue(fit.get("share_from_others").asDouble() > 0.4, fit.get("group").toString());
      }
    }
    assertTrue(bare > 0);
    for (String component : List.of("seal", "bearing", "vanes")) {
      JsonNode pool = document.get("pooling").get(component);
      assertTrue(pool.get("lower").asDouble() < pool.get("between_sd").asDouble(), component);
      assertTrue(pool.get("upper").asDouble() > pool.get("between_sd").asDouble(), component);
    }
  }

  @Test
  void everyFormOfFitHasTextAndATable() {
    for (List<String> form :
        List.of(
            List.of("--pooled"),
            List.of("--covariates", "product,duty"),
            List.of("--cause", "mode", "--ages", "2000,5000"),
            List.of("--distribution", "all", "--by", "component", "--replicates", "0"))) {
      List<String> args = new ArrayList<>(List.of("fit", "sample-fleet"));
      args.addAll(form);
      Run text = Run.ending(0, args.toArray(String[]::new));
      assertFalse(text.out().contains("NaN"), text.out());
      assertTrue(text.out().toLowerCase(Locale.ROOT).contains("seal"), text.out());
      args.addAll(List.of("--format", "csv"));
      List<String> rows = Run.ending(0, args.toArray(String[]::new)).lines();
      assertTrue(rows.size() > 3, form.toString());
      int columns = rows.get(0).split(",", -1).length;
      for (String row : rows) {
        assertEquals(columns, row.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1).length, row);
      }
    }
  }

  private Path write(String table) throws IOException {
    return Files.writeString(folder.resolve("table.csv"), table);
  }

  private static Run ending(List<String> command, List<String> options) {
    List<String> args = new ArrayList<>(command);
    args.addAll(options);
    return Run.ending(0, args.toArray(String[]::new));
  }

  private static JsonNode only(String... options) {
    String[] args = new String[options.length + 3];
    args[0] = "fit";
    System.arraycopy(options, 0, args, 1, options.length);
    args[args.length - 2] = "--format";
    args[args.length - 1] = "json";
    Run run = Run.ending(0, args);
    assertEquals("", run.err());
    JsonNode fits = run.json().get("fits");
    assertEquals(1, fits.size());
    assertEquals(0, fits.get(0).get("group").size());
    return fits.get(0);
  }

  private static Case named(String topic, String name) {
    return Reference.cases(topic).stream()
        .filter(c -> c.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static void holdsFit(Case reference, JsonNode fit, String limits, String percent) {
    JsonNode weibull = reference.expected().get("weibull");
    JsonNode ends = weibull.get(limits + "_" + percent);
    for (String what : List.of("shape", "scale")) {
      JsonNode got = fit.get(what);
      close(what, weibull.get(what), got.get("estimate"));
      close(what + " lower", ends.get(what).get(0), got.get("lower"));
      close(what + " upper", ends.get(what).get(1), got.get("upper"));
    }
    close("log-likelihood", weibull.get("log_likelihood"), fit.get("log_likelihood"));
    JsonNode tenth =
        StreamSupport.stream(fit.get("quantiles").spliterator(), false)
            .filter(quantile -> quantile.get("p").asDouble() == 0.10)
            .findFirst()
            .orElseThrow();
    close("10% quantile", weibull.get("quantile_10"), tenth.get("estimate"));
    close("10% quantile lower", ends.get("quantile_10").get(0), tenth.get("lower"));
    close("10% quantile upper", ends.get("quantile_10").get(1), tenth.get("upper"));
    JsonNode expected = weibull.get("covariance_log_scale_log_shape");
    for (int i = 0; i < 2; i++) {
      for (int j = 0; j < 2; j++) {
        close("covariance", expected.get(i).get(j), fit.get("covariance").get(i).get(j));
      }
    }
  }

  private static void close(String what, JsonNode expected, JsonNode got) {
    assertEquals(expected.asDouble(), got.asDouble(), 1e-6 * Math.abs(expected.asDouble()), what);
  }
}
