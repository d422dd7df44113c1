package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.cli.Main;
import org.vaneward.plan.Calendar;
import org.vaneward.plan.CalendarRequest;
import org.vaneward.plan.PumpPlan;
import org.vaneward.stats.fit.FitSettings;
import org.xml.sax.InputSource;

/**
 * The whole run on odd and hostile records: a report in words that make sense, or one line that
 * says what is wrong.
 */
class OddRecordsTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** What a program says when it has nothing to say. */
  private static final Pattern NO_WORDS =
      Pattern.compile(
          "\\b(NaN|null|Optional(?:Double|Int)?|Infinity)\\b"
              + "|(?<![\\w-])[-−]0(?:[.,]0+)?(?![\\d.,\\w-])"
              + "|\\?{2,}| ,|, ?$|\\{\\}|\\[\\]|@[0-9a-f]{6,}");

  @TempDir Path temp;

  /** What a run left behind. */
  private record Run(int code, String said, Path report) {
    String read(String name) throws IOException {
      return Files.readString(report.resolve(name));
    }
  }

  private OddFleet drawn() {
    return OddFleet.drawn(temp.resolve("drawn"));
  }

  private Run run(OddFleet fleet, String... options) {
    Path report = temp.resolve("report");
    StringWriter said = new StringWriter();
    int code;
    try (PrintWriter err = new PrintWriter(said)) {
      String folder = fleet.write(temp.resolve("fleet")).toString();
      List<String> words = new ArrayList<>();
      words.addAll(List.of("report", folder, "--out", report.toString(), "--quiet", "--debug"));
      words.addAll(List.of(options));
      code = Main.run(words.toArray(new String[0]), err, err);
    }
    return new Run(code, said.toString(), report);
  }

  /** The page without its own programs and what they work on; a record cannot end these. */
  private static String withoutScripts(String html) {
    return html.replaceAll("(?s)<script[^>]*>.*?</script>", " ");
  }

  /** The text a reader sees. */
  private static String shown(String html) {
    return withoutScripts(html)
        .replaceAll("(?s)<style>.*?</style>", " ")
        .replaceAll("(?s)<[^>]*>", "\n")
        .replace("&#39;", "'")
        .replace("&#34;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&");
  }

  private static List<String> wordless(String text) {
    List<String> found = new ArrayList<>();
    Matcher matcher = NO_WORDS.matcher(text);
    while (matcher.find()) {
      found.add(
          text.substring(
              Math.max(0, matcher.start() - 60), Math.min(text.length(), matcher.end() + 20)));
    }
    return found;
  }

  private static List<String> pictures(String html) {
    List<String> pictures = new ArrayList<>();
    Matcher svg = Pattern.compile("(?s)<svg.*?</svg>").matcher(html);
    while (svg.find()) {
      pictures.add(svg.group());
    }
    return pictures;
  }

  private static void assertWellFormed(String svg) {
    try {
      DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(svg)));
    } catch (Exception e) {
      throw new AssertionError(
          e.getMessage() + ": " + svg.substring(0, Math.min(400, svg.length())), e);
    }
  }

  private void assertSensible(Run run) throws IOException {
    assertEquals(0, run.code(), run.said());
    String html = withoutScripts(run.read("index.html"));
    assertEquals(List.of(), wordless(shown(html)));
    assertEquals(List.of(), wordless(run.read("plan.csv")));
    assertFalse(html.contains("NaN") || html.contains("Infinity"), "a number in a picture");
    assertFalse(html.contains("<script"), "the page runs no program but its own");
    pictures(html).forEach(OddRecordsTest::assertWellFormed);
    assertTrue(JSON.readTree(run.read("report.json")).has("plan"));
    assertMandateHolds();
  }

  /** No next rebuild lies after the mandated day, and no booking either unless the plan says so. */
  private void assertMandateHolds() {
    FleetAnalysis analysis =
        FleetAnalysis.of(temp.resolve("fleet"), FitSettings.defaults(), 1, said -> {});
    LocalDate calendarEnds = analysis.fleetSettings().asOf().plusWeeks(CalendarRequest.WEEKS - 1);
    Set<String> confessed =
        analysis.plan().calendar().notKept().stream()
            .map(Calendar.NotKept::pump)
            .collect(Collectors.toCollection(TreeSet::new));
    for (PumpPlan pump : analysis.plan().pumps()) {
      pump.mandatedBy().ifPresent(by -> assertNotAfter(pump, by, confessed, calendarEnds));
    }
  }

  private static void assertNotAfter(
      PumpPlan pump, LocalDate by, Set<String> confessed, LocalDate calendarEnds) {
    assertTrue(
        pump.nextRebuild().date().filter(day -> !day.isAfter(by)).isPresent(), pump.toString());
    assertFalse(
        pump.nextRebuild().to().filter(day -> day.isAfter(by)).isPresent(), pump.toString());
    assertTrue(
        confessed.contains(pump.pump())
            || pump.scheduled().map(day -> !day.isAfter(by)).orElse(by.isAfter(calendarEnds)),
        pump.toString());
  }

  @TestFactory
  Stream<DynamicTest> aReportInWords() {
    Map<String, Consumer<OddFleet>> cases = new LinkedHashMap<>();
    cases.put("as drawn", fleet -> {});
    cases.put("no openings", fleet -> fleet.empty(OddFleet.REBUILDS, OddFleet.FINDINGS));
    cases.put(
        "no tables",
        fleet ->
            fleet.empty(
                OddFleet.PUMPS,
                OddFleet.SERVICES,
                OddFleet.READINGS,
                OddFleet.REBUILDS,
                OddFleet.FINDINGS));
    cases.put("one pump", OddRecordsTest::onePump);
    cases.put("no readings", fleet -> fleet.empty(OddFleet.READINGS));
    cases.put("no readings, no meter at openings", OddRecordsTest::noMeter);
    cases.put(
        "no readings, no usage",
        fleet -> noMeter(fleet.fill(OddFleet.PUMPS, "hours_per_week", "")));
    cases.put(
        "usage of nought", fleet -> noMeter(fleet.fill(OddFleet.PUMPS, "hours_per_week", "0")));
    cases.put(
        "nothing that may be left out",
        fleet ->
            fleet.without(
                "fleet",
                "currency",
                "clock",
                "kits",
                "parts",
                "needs",
                "costs",
                "limits",
                "workshop"));
    cases.put("clock of days", fleet -> fleet.settings(json -> json.put("clock", "days")));
    cases.put(
        "clock of days, no readings",
        fleet -> noMeter(fleet.settings(json -> json.put("clock", "days"))));
    cases.put("all retired", fleet -> fleet.fill(OddFleet.PUMPS, "retired", "2026-01-31"));
    cases.put("no failed bearing", fleet -> neverFailed(fleet, "bearing"));
    cases.put("no failure", OddRecordsTest::noFailure);
    cases.put("no failure, no limits", fleet -> noFailure(fleet.without("limits")));
    cases.put("no services", fleet -> fleet.empty(OddFleet.SERVICES));
    cases.put("a service with one failure", OddRecordsTest::oneFailure);
    cases.put("vanes over the limit at every opening", OddRecordsTest::wornOut);
    cases.put("bearings of one age", OddRecordsTest::oneAge);
    cases.put("commissioned on the day of record", OddRecordsTest::newToday);
    cases.put(
        "records from after the day of record",
        fleet -> fleet.fill(OddFleet.PUMPS, "records_from", "2027-01-01"));
    cases.put(
        "records from on the day of record",
        fleet -> fleet.fill(OddFleet.PUMPS, "records_from", "2026-06-30"));
    cases.put("no first day", fleet -> fleet.fill(OddFleet.PUMPS, "commissioned", ""));
    cases.put(
        "meters of a billion",
        fleet ->
            fleet
                .change(OddFleet.READINGS, "hours", h -> plus(h, 1e9))
                .change(OddFleet.REBUILDS, "hours", h -> plus(h, 1e9)));
    cases.put(
        "readings no clock allows",
        fleet ->
            fleet
                .change(OddFleet.READINGS, "hours", h -> times(h, 1e6))
                .change(OddFleet.REBUILDS, "hours", h -> times(h, 1e6)));
    cases.put(
        "meters that stand still",
        fleet -> fleet.fill(OddFleet.READINGS, "hours", "0").fill(OddFleet.REBUILDS, "hours", ""));
    cases.put(
        "site NA, tags 00123 and #3",
        fleet ->
            fleet
                .fill(OddFleet.PUMPS, "site", "NA")
                .rename("OJ-P01", "00123")
                .rename("OJ-P02", "#3"));
    cases.put(
        "limit of a month",
        fleet -> fleet.settings(json -> json.putObject("limits").put("max_interval_months", 1)));
    cases.put(
        "planned dearer than a failure",
        fleet ->
            fleet.settings(json -> ((ObjectNode) json.at("/costs/planned")).put("labour", 1e6)));
    cases.put(
        "planned without cost",
        fleet ->
            fleet
                .without("kits", "parts")
                .settings(
                    json ->
                        ((ObjectNode) json.at("/costs/planned"))
                            .put("labour", 0)
                            .put("downtime", 0)));
    return tests(cases);
  }

  /**
   * What settings leave out or say oddly, and odd tags. "Nothing that may be left out" above
   * replays history without all of it; replaying it for each of these would be most of their time.
   */
  @TestFactory
  Stream<DynamicTest> aReportInWordsWhateverTheSettings() {
    Map<String, Consumer<OddFleet>> cases = new LinkedHashMap<>();
    cases.put("no costs", fleet -> fleet.without("costs"));
    cases.put("no costs, no limits", fleet -> fleet.without("costs", "limits"));
    cases.put("no kits", fleet -> fleet.without("kits"));
    cases.put("no parts", fleet -> fleet.without("parts"));
    cases.put("no kits, no parts", fleet -> fleet.without("kits", "parts"));
    cases.put("no needs", fleet -> fleet.without("needs"));
    cases.put("no limits", fleet -> fleet.without("limits"));
    cases.put("no workshop", fleet -> fleet.without("workshop"));
    cases.put("no currency", fleet -> fleet.without("currency"));
    cases.put("no name", fleet -> fleet.settings(json -> json.put("fleet", "")));
    cases.put("tags true and 1e5", fleet -> fleet.rename("OJ-P01", "true").rename("OJ-P02", "1e5"));
    cases.put("closed for a century", fleet -> fleet.settings(OddRecordsTest::closed));
    cases.put(
        "lead time of decades",
        fleet ->
            fleet.settings(json -> ((ObjectNode) json.at("/kits/0")).put("lead_time_days", 20000)));
    cases.put("component nobody finds", fleet -> fleet.settings(OddRecordsTest::coupling));
    return tests(cases, "--no-backtest");
  }

  private Stream<DynamicTest> tests(Map<String, Consumer<OddFleet>> cases, String... options) {
    return cases.entrySet().stream()
        .map(
            one ->
                DynamicTest.dynamicTest(
                    one.getKey(),
                    () -> {
                      OddFleet fleet = drawn();
                      one.getValue().accept(fleet);
                      assertSensible(run(fleet, options));
                    }));
  }

  private static String plus(String hours, double more) {
    return hours.isEmpty() ? "" : String.valueOf(Double.parseDouble(hours) + more);
  }

  private static String times(String hours, double factor) {
    return hours.isEmpty() ? "" : String.valueOf(Double.parseDouble(hours) * factor);
  }

  private static void onePump(OddFleet fleet) {
    for (String table :
        List.of(OddFleet.PUMPS, OddFleet.SERVICES, OddFleet.READINGS, OddFleet.REBUILDS)) {
      fleet.keep(table, row -> "OJ-P01".equals(row.get("pump")));
    }
    Set<String> rebuilds =
        fleet.rows(OddFleet.REBUILDS).stream()
            .map(row -> row.getOrDefault("rebuild", ""))
            .collect(Collectors.toSet());
    fleet.keep(OddFleet.FINDINGS, row -> rebuilds.contains(row.get("rebuild")));
  }

  private static void noMeter(OddFleet fleet) {
    fleet.empty(OddFleet.READINGS).fill(OddFleet.REBUILDS, "hours", "");
  }

  private static void neverFailed(OddFleet fleet, String component) {
    for (Map<String, String> row : fleet.rows(OddFleet.FINDINGS)) {
      if (row.getOrDefault("position", "").startsWith(component)) {
        row.put("as_found", "good");
        row.put("primary", "");
        row.put("measured_mm", "");
      }
    }
  }

  private static void noFailure(OddFleet fleet) {
    neverFailed(fleet, "");
    fleet.fill(OddFleet.REBUILDS, "trigger", "planned");
  }

  private static void oneFailure(OddFleet fleet) {
    Set<String> petrol =
        fleet.rows(OddFleet.SERVICES).stream()
            .filter(row -> "petrol".equals(row.get("product")))
            .map(row -> row.getOrDefault("pump", ""))
            .collect(Collectors.toSet());
    Set<String> opened =
        fleet.rows(OddFleet.REBUILDS).stream()
            .filter(row -> petrol.contains(row.get("pump")))
            .map(row -> row.getOrDefault("rebuild", ""))
            .collect(Collectors.toSet());
    boolean first = true;
    for (Map<String, String> row : fleet.rows(OddFleet.FINDINGS)) {
      if (opened.contains(row.get("rebuild")) && "failed".equals(row.get("as_found"))) {
        if (!first) {
          row.put("as_found", "good");
          row.put("primary", "");
        }
        first = false;
      }
    }
  }

  private static void wornOut(OddFleet fleet) {
    for (Map<String, String> row : fleet.rows(OddFleet.FINDINGS)) {
      if ("vane-set".equals(row.get("position"))) {
        row.put("as_found", "worn");
        row.put("measured_mm", "2.4");
        row.put("action", "renewed");
      }
    }
  }

  /** Every pump runs as much a week and loses a bearing at the same age, once. */
  private static void oneAge(OddFleet fleet) {
    fleet
        .fill(OddFleet.PUMPS, "commissioned", "2020-01-01")
        .fill(OddFleet.PUMPS, "hours_per_week", "40")
        .fill(OddFleet.SERVICES, "from", "2020-01-01");
    noMeter(fleet);
    fleet.keep(OddFleet.REBUILDS, row -> false).keep(OddFleet.FINDINGS, row -> false);
    int number = 0;
    for (Map<String, String> pump : fleet.rows(OddFleet.PUMPS)) {
      String rebuild = "S" + number++;
      fleet
          .rows(OddFleet.REBUILDS)
          .add(
              new LinkedHashMap<>(
                  Map.of(
                      "rebuild", rebuild,
                      "pump", pump.getOrDefault("pump", ""),
                      "date", "2024-01-01",
                      "hours", "8000",
                      "trigger", "noise")));
      fleet
          .rows(OddFleet.FINDINGS)
          .add(
              new LinkedHashMap<>(
                  Map.of(
                      "rebuild", rebuild,
                      "position", "bearing-inboard",
                      "as_found", "failed",
                      "primary", "yes",
                      "action", "renewed")));
    }
  }

  private static void newToday(OddFleet fleet) {
    fleet.rows(OddFleet.PUMPS).get(0).put("commissioned", "2026-06-30");
    fleet.rows(OddFleet.SERVICES).get(0).put("from", "2026-06-30");
    for (String table : List.of(OddFleet.READINGS, OddFleet.REBUILDS)) {
      fleet.keep(table, row -> !"OJ-P01".equals(row.get("pump")));
    }
  }

  private static void closed(ObjectNode json) {
    json.putObject("workshop")
        .put("rebuilds_per_week", 1)
        .putArray("closed")
        .addObject()
        .put("from", "2026-06-01")
        .put("to", "2126-06-01");
  }

  private static void coupling(ObjectNode json) {
    ObjectNode coupling = json.withArray("components").addObject();
    coupling.put("component", "coupling").put("announces", true);
    coupling.putArray("positions").add("coupling-1");
  }

  @TestFactory
  Stream<DynamicTest> oneLineOfRefusal() {
    Map<String, Consumer<OddFleet>> cases = new LinkedHashMap<>();
    cases.put("currency", fleet -> fleet.settings(json -> json.put("currency", "¤")));
    cases.put("'K-V3' stands twice", fleet -> fleet.array("kits").add(fleet.array("kits").get(0)));
    cases.put("as_of", fleet -> fleet.without("as_of"));
    cases.put("components", fleet -> fleet.without("components"));
    cases.put(
        "costs",
        fleet -> fleet.settings(json -> ((ObjectNode) json.get("costs")).remove("planned")));
    cases.put(
        "max_interval_months: 1201 months",
        fleet -> fleet.settings(json -> json.putObject("limits").put("max_interval_months", 1201)));
    cases.put(
        "costs.unplanned.seal.labour",
        fleet ->
            fleet.settings(
                json -> ((ObjectNode) json.at("/costs/unplanned/seal")).put("labour", 1e15)));
    cases.put("clock", fleet -> fleet.settings(json -> json.put("clock", "weeks")));
    cases.put(
        "price",
        fleet -> fleet.settings(json -> ((ObjectNode) json.at("/kits/0")).put("price", -1)));
    return cases.entrySet().stream()
        .map(
            one ->
                DynamicTest.dynamicTest(
                    one.getKey(),
                    () -> {
                      OddFleet fleet = drawn();
                      one.getValue().accept(fleet);
                      Run run = run(fleet);
                      String line = run.said().lines().findFirst().orElse("");
                      assertEquals(2, run.code(), run.said());
                      assertTrue(line.contains("fleet.json"), line);
                      assertTrue(line.contains(one.getKey()), line);
                      assertFalse(Files.exists(run.report().resolve("index.html")), line);
                    }));
  }

  @Test
  void textThatWouldRunIsOnlyText() throws IOException {
    String script = "<script>alert(1)</script>";
    OddFleet fleet =
        drawn().rename("OJ-P01", script).rename("OJ-P02", "=cmd()").rename("OJ-P03", "+1+1");
    fleet.fill(OddFleet.REBUILDS, "crew", "O'Hare & \"Sons\", </svg> ${x} \uD83D\uDE80");
    fleet.fill(OddFleet.REBUILDS, "note", "line one\nline two, \"quoted\" " + script);
    fleet.fill(OddFleet.PUMPS, "site", "@Quay \"4\", </svg><img src=x onerror=alert(1)>");
    fleet.change(
        OddFleet.SERVICES, "product", p -> p.equals("petrol") ? "=petrol</svg>" + script : p);
    fleet.rows(OddFleet.FINDINGS).get(0).put("position", "=HYPERLINK(\"x\")<b>");
    fleet.settings(json -> json.put("fleet", "</title>" + script + " ${1+1} @page"));
    Run run = run(fleet);
    assertSensible(run);
    String html = withoutScripts(run.read("index.html"));
    assertFalse(html.contains("<img"), "no picture from outside");
    assertTrue(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;"), "the tag is shown as text");
    assertTrue(shown(html).contains("${1+1}"), "nothing is worked out");
    assertEquals(
        html.split("<svg", -1).length,
        html.split("</svg>", -1).length,
        "pictures end where they end");
    for (String table : List.of("plan.csv", "fits.csv", "check.csv")) {
      assertAll(
          table,
          cells(run.report().resolve(table)).stream()
              .map(cell -> () -> assertFalse(cell.matches("(?s)[=+@\\t\\r].*|-[^\\d].*"), cell)));
    }
    List<String> plan = cells(run.report().resolve("plan.csv"));
    assertTrue(plan.containsAll(List.of(script, "'=cmd()", "'+1+1")), "tags in plan.csv");
  }

  /** Every cell of a table the program wrote. */
  private static List<String> cells(Path file) {
    List<String> cells = new ArrayList<>();
    try (var table = org.vaneward.io.CsvTable.open(file, "table", List.of())) {
      for (var row = table.next(); row.isPresent(); row = table.next()) {
        var one = row.get();
        one.header().columns().forEach(column -> cells.add(one.cell(column)));
      }
    }
    return cells;
  }

  @Test
  void aThousandPumpsTakeHalfAMinuteOrSoAndFewMegabytes() throws IOException {
    OddFleet fleet = drawn().times(84);
    long start = System.nanoTime();
    Run run = run(fleet);
    Duration took = Duration.ofNanos(System.nanoTime() - start);
    assertEquals(0, run.code(), run.said());
    // Two cores need 30 to 50 seconds, a third of it for compiling the program as it warms up, and
    // twice that beside other work. The limit is against work that grows faster than the fleet.
    assertTrue(took.compareTo(Duration.ofSeconds(150)) < 0, "took " + took);
    long size = Files.size(run.report().resolve("index.html"));
    assertTrue(size < 20_000_000, "index.html has " + size + " bytes");
    assertEquals(List.of(), wordless(shown(run.read("index.html"))));
  }
}
