package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Every command: exit code, what it prints where, and the keys its JSON promises. */
class CommandsTest {
  private static final String SAMPLE = "sample-fleet";
  private static final List<String> TABLES =
      List.of("pumps.csv", "services.csv", "readings.csv", "rebuilds.csv", "findings.csv");

  @TempDir static Path shared = Path.of("unset");
  @TempDir Path folder = Path.of("unset");

  private static String small = "unset";

  @BeforeAll
  static void drawSmallFleet() {
    small = shared.resolve("small").toString();
    Run run = Run.ending(0, "sample", "seeds/small-terminal.json", "--out", small);
    assertEquals("", run.out());
    assertEquals(
        "wrote fleet.json and five tables to " + small + System.lineSeparator(), run.err());
  }

  @Test
  void checkAccountsForEveryRow() {
    Run run = Run.ending(1, "check", SAMPLE, "--format", "json");
    assertEquals("", run.err());
    JsonNode document = run.json();
    assertEquals(List.of("files", "rows"), Run.keys(document));
    long repaired = 0;
    long setAside = 0;
    List<String> files = new ArrayList<>();
    for (JsonNode file : document.get("files")) {
      assertEquals(List.of("file", "rows", "used", "repaired", "set_aside"), Run.keys(file));
      files.add(file.get("file").asText());
      assertEquals(
          file.get("rows").asLong(),
          file.get("used").asLong()
              + file.get("repaired").asLong()
              + file.get("set_aside").asLong());
      assertEquals(
          Run.read(Path.of(SAMPLE, file.get("file").asText())).lines().count() - 1,
          file.get("rows").asLong());
      repaired += file.get("repaired").asLong();
      setAside += file.get("set_aside").asLong();
    }
    assertEquals(TABLES, files);
    assertTrue(setAside > 0);
    // A row may carry several remarks, and its fate is the worst of them.
    Set<String> aside = new TreeSet<>();
    Set<String> mended = new TreeSet<>();
    for (JsonNode row : document.get("rows")) {
      assertEquals(List.of("file", "line", "column", "fate", "reason", "changes"), Run.keys(row));
      assertFalse(row.get("changes").asText().isBlank());
      assertFalse(row.get("reason").asText().isBlank());
      String where = row.get("file").asText() + ":" + row.get("line").asLong();
      (row.get("fate").asText().equals("set-aside") ? aside : mended).add(where);
    }
    mended.removeAll(aside);
    assertEquals(setAside, aside.size());
    assertEquals(repaired, mended.size());
  }

  @Test
  void checkSaysTheSameInEveryFormat() {
    Run text = Run.ending(1, "check", SAMPLE);
    int rows = Run.ending(1, "check", SAMPLE, "--format", "json").json().get("rows").size();
    Run csv = Run.ending(1, "check", SAMPLE, "--format", "csv");
    assertEquals("file,line,column,fate,reason,changes", csv.lines().get(0));
    assertEquals(rows + 1, csv.lines().size());
    assertEquals(
        rows, text.lines().stream().filter(l -> l.matches(" {4}\\w+\\.csv:\\d+ .*")).count());
    assertTrue(text.out().contains("\nSet aside (not used)\n"));
  }

  @Test
  void checkEndsWithNoughtWhereNothingIsSetAside() {
    Run run = Run.ending(0, "check", small);
    assertFalse(run.out().contains("Set aside (not used)"));
  }

  @Test
  void livesHasARowForEachStretchOfALife() {
    JsonNode document = Run.ending(0, "lives", small, "--format", "json").json();
    Run csv = Run.ending(0, "lives", small, "--format", "csv");
    assertEquals(List.of("lives"), Run.keys(document));
    assertEquals(csv.lines().size() - 1, document.get("lives").size());
    assertTrue(
        List.of(csv.lines().get(0).split(","))
            .containsAll(List.of("component", "entry", "lower", "upper", "count")));
    boolean failed = false;
    for (JsonNode life : document.get("lives")) {
      assertTrue(
          Run.keys(life).containsAll(List.of("entry", "lower", "count", "columns")),
          life::toString);
      assertTrue(life.get("lower").asDouble() >= life.get("entry").asDouble());
      failed |= life.has("upper");
      assertFalse(life.path("upper").isNull(), "a limit that is not there is left out");
    }
    assertTrue(failed);
    assertTrue(Run.ending(0, "lives", small).out().contains("hours watched"));
  }

  @Test
  void planGivesEachPumpADateOrSaysNone() {
    Run run = Run.ending(1, "plan", SAMPLE, "--format", "json");
    JsonNode document = run.json();
    assertTrue(
        Run.keys(document).containsAll(List.of("pumps", "calendar")), () -> run.out().trim());
    List<String> keys =
        List.of(
            "pump",
            "site",
            "service",
            "hours_since_rebuild",
            "next_rebuild",
            "bound_by",
            "failure_probability",
            "why");
    Set<String> bounds = Set.of("cost", "failure-probability", "mandated", "none");
    boolean scheduled = false;
    for (JsonNode pump : document.get("pumps")) {
      assertTrue(Run.keys(pump).containsAll(keys), pump::toString);
      assertTrue(bounds.contains(pump.get("bound_by").asText()), pump::toString);
      boolean costSetsADate = !pump.get("why").asText().contains("cost sets no date");
      assertEquals(costSetsADate, pump.has("cost_of_waiting_per_week"), pump::toString);
      assertEquals(List.of("d30", "d90", "d365"), Run.keys(pump.get("failure_probability")));
      for (JsonNode end : pump.get("next_rebuild")) {
        assertEquals(end.asText(), LocalDate.parse(end.asText()).toString());
      }
      assertTrue(Set.of("date", "from", "to").containsAll(Run.keys(pump.get("next_rebuild"))));
      scheduled |= pump.has("scheduled");
    }
    assertTrue(scheduled);
    for (JsonNode week : document.get("calendar")) {
      assertTrue(week.get("week").asText().matches("20\\d\\d-W\\d\\d"), week::toString);
      assertFalse(week.get("pumps").isEmpty());
    }
  }

  @Test
  void planSaysWhatItDoesUnlessQuiet() {
    Run loud = Run.ending(1, "plan", SAMPLE);
    assertEquals(3, loud.err().lines().count());
    assertTrue(loud.err().startsWith("reading sample-fleet"));
    Run quiet = Run.ending(1, "plan", SAMPLE, "--quiet");
    assertEquals("", quiet.err());
    assertEquals(loud.out(), quiet.out());
    for (String part :
        List.of("\nWhy\n", "\nNot kept by the calendar\n", "\nCalendar\n", "Before a pump is")) {
      assertTrue(loud.out().contains(part), part);
    }
    Run csv = Run.ending(1, "plan", SAMPLE, "--format", "csv", "--quiet");
    assertTrue(csv.lines().get(0).startsWith("pump,site,product,duty,hours_since_rebuild,"));
  }

  @Test
  void intervalOfAFleetHasThePromisedKeys() {
    JsonNode document = Run.ending(0, "interval", SAMPLE, "--format", "json", "--quiet").json();
    List<String> keys =
        List.of(
            "policy",
            "interval",
            "cost_rate",
            "run_to_failure_cost_rate",
            "window",
            "planned_share",
            "product",
            "duty",
            "bound_by");
    assertTrue(document.get("intervals").size() > 10);
    int with = 0;
    for (JsonNode one : document.get("intervals")) {
      if (one.get("status").asText().equals("available")) {
        assertTrue(Run.keys(one).containsAll(keys), one::toString);
        assertEquals(Set.of("from", "to"), Set.copyOf(Run.keys(one.get("window"))));
        with += one.get("interval").isNumber() ? 1 : 0;
      } else {
        assertFalse(one.get("reason").asText().isBlank());
        assertFalse(one.has("interval"));
      }
    }
    assertTrue(with > 10);
    Run csv = Run.ending(0, "interval", SAMPLE, "--format", "csv", "--quiet");
    assertEquals(document.get("intervals").size() + 1, csv.lines().size());
  }

  @Test
  void intervalIsNullWhereRunningToFailureIsCheapest() {
    Path cheap = copyOf(small, "cheap");
    // Stops that cost no more than a planned rebuild, and no limit that would set an interval all
    // the same.
    Run.edit(
        cheap.resolve("fleet.json"),
        json ->
            json.replaceAll("\"labour\": [0-9.]+", "\"labour\": 1.0")
                .replaceAll("\"(downtime|clean_up|per_hour)\": [0-9.]+", "\"$1\": 0.0")
                .replaceAll("\"max_interval_months\": \\d+,?", "")
                .replaceAll("\"max_failure_probability\": \\{[^}]*}", "")
                .replaceAll("\"price\": [0-9.]+", "\"price\": 0.0"));
    JsonNode document =
        Run.ending(0, "interval", cheap.toString(), "--format", "json", "--quiet").json();
    int none = 0;
    for (JsonNode one : document.get("intervals")) {
      assertEquals("available", one.get("status").asText(), one::toString);
      none += one.get("interval").isNull() ? 1 : 0;
    }
    assertEquals(document.get("intervals").size(), none, document::toString);
    Run text = Run.ending(0, "interval", cheap.toString(), "--quiet");
    assertTrue(text.out().contains("an unplanned stop costs no more"), text.out());
  }

  @Test
  void intervalSaysHowSureItIs() {
    JsonNode first =
        Run.ending(0, "interval", SAMPLE, "--format", "json", "--quiet")
            .json()
            .get("intervals")
            .get(0);
    double rate = first.get("cost_rate").asDouble();
    assertEquals(rate, first.at("/cost_rate_limits/estimate").asDouble());
    assertTrue(first.at("/cost_rate_limits/lower").asDouble() < rate, first::toString);
    double saving = first.at("/saving/estimate").asDouble();
    assertEquals(first.get("run_to_failure_cost_rate").asDouble() - rate, saving, 1e-9);
    assertTrue(first.at("/saving/lower").asDouble() < saving, first::toString);
    assertTrue(first.get("chance_pays").asDouble() > 0.5, first::toString);
    assertTrue(first.get("perfect_information_per_year").asDouble() > 0, first::toString);
    double interval = first.get("interval").asDouble();
    assertTrue(first.at("/own_best/lower").asDouble() < interval, first::toString);
    assertTrue(first.at("/own_best/upper").asDouble() > interval, first::toString);
    assertEquals(0, first.get("components_not_prevented").size());
    JsonNode rules = first.get("policies");
    assertEquals("full-rebuild", rules.get(0).get("rule").asText());
    assertEquals(0, rules.get(0).at("/more_than_full_rebuild/estimate").asDouble());
    assertEquals(6, rules.size());
    assertTrue(first.at("/practice/stops").asInt() > 0, first::toString);
  }

  @Test
  void reportWritesItsFiles() throws IOException {
    Path report = folder.resolve("new/report");
    Run run = Run.ending(0, "report", SAMPLE, "--out", report.toString());
    assertEquals("", run.out());
    assertTrue(run.err().contains("wrote " + report.resolve("index.html")), run.err());
    try (Stream<Path> files = Files.list(report)) {
      assertEquals(
          Set.of(
              "index.html",
              "plan.csv",
              "calendar.csv",
              "calendar.ics",
              "intervals.csv",
              "spares.csv",
              "budget.csv",
              "stock.csv",
              "orders.csv",
              "failures.csv",
              "backtest.csv",
              "fits.csv",
              "lives.csv",
              "check.csv",
              "plan.xlsx",
              "spares.xlsx",
              "pumps",
              "sites",
              "job-sheets.html",
              "report.pdf",
              "next-rebuilds.csv",
              "next-findings.csv",
              "report.json"),
          Set.copyOf(files.map(f -> f.getFileName().toString()).toList()));
    }
    assertEquals(
        Run.ending(1, "plan", SAMPLE, "--format", "csv").out(),
        Run.read(report.resolve("plan.csv")));
    assertEquals(
        Run.ending(0, "fit", SAMPLE, "--format", "csv").out(),
        Run.read(report.resolve("fits.csv")));
    assertEquals(
        Run.ending(0, "lives", SAMPLE, "--format", "csv").out(),
        Run.read(report.resolve("lives.csv")));
    assertEquals(
        Run.ending(0, "review", SAMPLE, "--format", "csv").out(),
        Run.read(report.resolve("failures.csv")));
    assertEquals(
        Run.ending(1, "check", SAMPLE, "--format", "csv").out(),
        Run.read(report.resolve("check.csv")));
    Path budget = report.resolve("../budget-alone.csv");
    Path orders = report.resolve("../orders-alone.csv");
    Path stock = report.resolve("../stock-alone.csv");
    assertEquals(
        Run.ending(
                0,
                "spares",
                SAMPLE,
                "--format",
                "csv",
                "--budget",
                budget.toString(),
                "--stock",
                stock.toString(),
                "--orders",
                orders.toString())
            .out(),
        Run.read(report.resolve("spares.csv")));
    assertEquals(Run.read(budget), Run.read(report.resolve("budget.csv")));
    assertEquals(Run.read(stock), Run.read(report.resolve("stock.csv")));
    assertEquals(Run.read(orders), Run.read(report.resolve("orders.csv")));
    JsonNode json = Run.tree(Run.read(report.resolve("report.json")));
    assertEquals(Run.ending(0, "spares", SAMPLE, "--format", "json").json(), json.get("spares"));
    assertEquals(Run.ending(1, "plan", SAMPLE, "--format", "json").json(), json.get("plan"));
    assertEquals(
        Run.ending(0, "backtest", SAMPLE, "--format", "json").json(), json.get("backtest"));
    assertEquals(Run.ending(0, "review", SAMPLE, "--format", "json").json(), json.get("review"));
    assertEquals(
        Run.ending(0, "fit", SAMPLE, "--replicates", "0", "--format", "json").json(),
        json.get("fits"));
    assertEquals(
        Run.ending(0, "interval", SAMPLE, "--format", "json").json(), json.get("intervals"));
  }

  @Test
  void reviewOfAFleetLeadsFromFindingsToRows() throws IOException {
    JsonNode review = Run.ending(0, "review", SAMPLE, "--format", "json", "--quiet").json();
    List<String> rows = Files.readAllLines(Path.of(SAMPLE, "findings.csv"));
    JsonNode findings = review.get("findings");
    assertTrue(findings.size() >= 6, findings::toString);
    for (JsonNode finding : findings) {
      assertTrue(finding.get("sentence").asText().endsWith("."), finding::toString);
      assertFalse(finding.get("cannot_tell").asText().isEmpty());
      for (JsonNode record : finding.get("records")) {
        assertEquals("findings.csv", record.get("file").asText());
        String row = rows.get(record.get("line").asInt() - 1);
        assertTrue(row.startsWith(record.get("rebuild").asText() + ","), record + " is " + row);
      }
    }
    int asked = 0;
    for (JsonNode number : review.get("asked")) {
      asked += number.asInt();
    }
    assertEquals(review.get("questions").asInt(), asked);
  }

  @Test
  void reviewByAColumnHasARowForEachGroup() {
    Run csv =
        Run.ending(0, "review", SAMPLE, "--by", "crew", "--component", "seal", "--format", "csv");
    assertEquals(1 + 3 * 3, csv.lines().size(), csv.out());
    JsonNode json = Run.ending(0, "review", SAMPLE, "--by", "crew", "--format", "json").json();
    assertEquals("crew", json.get("by").asText());
    JsonNode first = json.get("comparisons").get(0);
    assertEquals("service", first.get("adjusted_for").asText());
    assertEquals(3, first.get("groups").size());
    assertTrue(first.get("groups").get(0).at("/rate_ratio/lower").asDouble() > 0);
    Run text = Run.ending(0, "review", SAMPLE, "--by", "pressure_bar", "--component", "seal");
    assertTrue(text.out().contains("Each unit of pressure_bar more multiplies"), text.out());
    Run refused = Run.of("review", SAMPLE, "--by", "cause");
    refused.isRefused();
    assertTrue(refused.err().contains("how a life ended"), refused.err());
  }

  @Test
  void sampleDrawsTheCommittedBytes() throws IOException {
    Path drawn = folder.resolve("six");
    Path truth = folder.resolve("truth.json");
    Run run =
        Run.ending(
            0,
            "sample",
            "seeds/depots-six.json",
            "--out",
            drawn.toString(),
            "--truth",
            truth.toString(),
            "--quiet");
    assertEquals("", run.out() + run.err());
    for (String file : TABLES) {
      assertArrayEquals(
          Files.readAllBytes(Path.of(SAMPLE, file)), Files.readAllBytes(drawn.resolve(file)), file);
    }
    assertEquals(Run.read(Path.of(SAMPLE, "fleet.json")), Run.read(drawn.resolve("fleet.json")));
    assertTrue(Run.tree(Run.read(truth)).has("seed"));
  }

  @Test
  void sampleTakesItsSeedFromTheOption() {
    Path one = folder.resolve("one");
    Path two = folder.resolve("two");
    Run.ending(0, "sample", "seeds/small-terminal.json", "--out", one.toString(), "--seed", "99");
    Run.ending(0, "sample", "seeds/small-terminal.json", "--out", two.toString(), "--seed", "99");
    String drawn = Run.read(one.resolve("rebuilds.csv"));
    assertEquals(drawn, Run.read(two.resolve("rebuilds.csv")));
    assertFalse(drawn.equals(Run.read(Path.of(small, "rebuilds.csv"))));
  }

  @ParameterizedTest
  @ValueSource(strings = {"text", "json", "csv"})
  void outGetsExactlyWhatWouldBePrinted(String format) {
    for (String command : List.of("lives", "fit", "interval", "plan", "review")) {
      Path file = folder.resolve("deep/" + command + "." + format);
      Run printed = Run.of(command, small, "--format", format, "--quiet");
      Run written = Run.of(command, small, "--format", format, "--quiet", "--out", file.toString());
      assertEquals(printed.code(), written.code());
      assertEquals("", written.out() + written.err());
      assertEquals(printed.out(), Run.read(file), command);
      assertTrue(printed.out().endsWith("\n"));
      Run loud = Run.of(command, small, "--format", format, "--out", file.toString());
      assertTrue(loud.err().contains("wrote " + file), loud.err());
    }
  }

  @Test
  void confidenceMovesTheLimitsAndNothingElse() {
    JsonNode narrow = Run.ending(0, "fit", small, "--format", "json", "--confidence", "0.5").json();
    JsonNode wide = Run.ending(0, "fit", small, "--format", "json", "--confidence", "0.95").json();
    JsonNode one = narrow.get("fits").get(0);
    JsonNode other = wide.get("fits").get(0);
    assertEquals(one.at("/shape/estimate"), other.at("/shape/estimate"));
    assertTrue(one.at("/shape/lower").asDouble() > other.at("/shape/lower").asDouble());
    assertTrue(one.at("/shape/upper").asDouble() < other.at("/shape/upper").asDouble());
    assertTrue(Run.ending(0, "fit", small, "--confidence", "0.95").out().contains("limits at 95%"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "lives", "fit", "interval", "plan", "review"})
  void textStaysOnAScreenAndFormatsTakeCapitals(String command) {
    Run run = Run.of(command, SAMPLE, "--quiet", "--format", "TEXT");
    assertTrue(run.code() < 2, run.err());
    for (String line : run.lines()) {
      assertTrue(line.length() <= 160, line);
      assertEquals(line.stripTrailing(), line);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"check", "lives", "fit", "interval", "plan", "review", "report", "sample"})
  void helpNamesOptionsAndExitCodes(String command) {
    Run run = Run.ending(0, command, "--help");
    assertEquals("", run.err());
    assertTrue(run.out().startsWith("Usage: vaneward " + command), run.out());
    for (String part :
        List.of(
            "--format=",
            "--out=",
            "--seed=",
            "--confidence=",
            "--quiet",
            "--debug",
            "--help",
            "Exit codes:",
            "  1   done, and something needs attention",
            "  3   internal error")) {
      assertTrue(run.out().contains(part), part);
    }
    run.lines().forEach(line -> assertTrue(line.length() <= 100, line));
  }

  @Test
  void helpOfTheProgramListsItsCommands() {
    Run run = Run.ending(0, "--help");
    for (String command :
        List.of("check", "lives", "fit", "interval", "plan", "review", "report", "sample")) {
      assertTrue(run.out().contains("\n  " + command + " "), command);
    }
    assertTrue(run.out().contains("2   bad input or usage"));
    assertTrue(Run.ending(0, "--version").out().startsWith("vaneward "));
  }

  private Path copyOf(String fleet, String name) {
    Path copy = folder.resolve(name);
    try (Stream<Path> files = Files.list(Path.of(fleet))) {
      Files.createDirectories(copy);
      for (Path file : files.toList()) {
        Files.copy(file, copy.resolve(file.getFileName().toString()));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return copy;
  }
}
