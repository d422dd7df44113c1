package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.plan.PumpPlan;
import org.vaneward.sample.Sample;
import org.vaneward.stats.fit.FitSettings;

/** The whole run on fleets that lack something or bear odd names: it says so and never breaks. */
class OddFleetsTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final Pattern SLIPS =
      Pattern.compile("NaN|Infinity|\\bnull\\b|Optional[\\[.]|(?<![0-9A-Za-z-])-0(?![0-9.,-])");

  @TempDir Path folder = Path.of("unset");
  private Path fleet = Path.of("unset");

  @BeforeEach
  void drawAFleet() {
    fleet = folder.resolve("fleet");
    Sample.write(Path.of("seeds/small-terminal.json"), fleet, OptionalLong.empty());
  }

  private FleetAnalysis analyse() {
    return FleetAnalysis.of(fleet, FitSettings.defaults(), said -> {});
  }

  /** Writes the report, reads it over for slips, and holds every date to its mandated limit. */
  private String report() throws IOException {
    FleetAnalysis analysis = analyse();
    Path out = folder.resolve("report");
    FleetReport.write(analysis, out);
    for (String file : List.of("index.html", "plan.csv", "fits.csv", "check.csv")) {
      // coordinates of pictures are not read by people
      String text = Files.readString(out.resolve(file)).replaceAll("<[^>]*>", " ");
      assertFalse(SLIPS.matcher(text).find(), () -> file + ": " + slip(text));
    }
    assertTrue(MAPPER.readTree(out.resolve("report.json").toFile()).has("plan"));
    for (PumpPlan pump : analysis.plan().pumps()) {
      LocalDate mandated = pump.mandatedBy().orElse(LocalDate.MAX);
      assertFalse(pump.nextRebuild().date().orElse(LocalDate.MIN).isAfter(mandated), pump.why());
      assertFalse(pump.nextRebuild().to().orElse(LocalDate.MIN).isAfter(mandated), pump.why());
    }
    return Files.readString(out.resolve("index.html"));
  }

  private static String slip(String text) {
    var found = SLIPS.matcher(text);
    return found.find()
        ? text.substring(Math.max(0, found.start() - 80), Math.min(text.length(), found.end() + 80))
        : "";
  }

  private void settings(Consumer<ObjectNode> edit) throws IOException {
    Path file = fleet.resolve("fleet.json");
    ObjectNode node = (ObjectNode) MAPPER.readTree(file.toFile());
    edit.accept(node);
    MAPPER.writeValue(file.toFile(), node);
  }

  private void onlyHeader(String table) throws IOException {
    Path file = fleet.resolve(table);
    Files.writeString(file, Files.readAllLines(file).get(0) + "\n");
  }

  private void replaceEverywhere(String text, String by) throws IOException {
    for (String table :
        List.of("pumps.csv", "services.csv", "readings.csv", "rebuilds.csv", "findings.csv")) {
      Path file = fleet.resolve(table);
      Files.writeString(file, Files.readString(file).replace(text, by));
    }
  }

  private String anyPump() throws IOException {
    String row = Files.readAllLines(fleet.resolve("pumps.csv")).get(1);
    return Objects.requireNonNull(row.split(",", -1)[0]);
  }

  @ParameterizedTest
  @ValueSource(strings = {"costs", "kits", "parts", "needs", "limits", "workshop"})
  void withoutAPartOfTheSettings(String key) throws IOException {
    settings(
        node -> {
          node.remove(key);
          if (key.equals("parts")) {
            node.remove("kits");
          }
        });
    String html = report();
    if (key.equals("costs")) {
      assertTrue(html.contains("when to rebuild on cost is not known for 12 of 12 pumps"), html);
      assertTrue(html.contains("no cost of an unplanned stop by seal"));
    }
    if (key.equals("parts")) {
      assertTrue(html.contains("has no price"));
    }
  }

  @Test
  void withoutAnOpening() throws IOException {
    onlyHeader("rebuilds.csv");
    onlyHeader("findings.csv");
    assertTrue(report().contains("no component has a known life"));
  }

  @Test
  void withoutServices() throws IOException {
    onlyHeader("services.csv");
    assertTrue(report().contains("not on record"));
  }

  @Test
  void withoutReadings() throws IOException {
    onlyHeader("readings.csv");
    report();
  }

  @Test
  void agesInDays() throws IOException {
    settings(node -> node.put("clock", "days"));
    String html = report();
    assertTrue(html.contains("planned interval, days"));
    assertFalse(html.contains("running hours"), "no age is in hours: " + around(html));
  }

  private static String around(String html) {
    int at = Math.max(html.indexOf("running hours"), 100);
    return html.substring(at - 100, Math.min(html.length(), at + 100));
  }

  @Test
  void everyPumpRetired() throws IOException {
    Path file = fleet.resolve("pumps.csv");
    List<String> lines = Files.readAllLines(file);
    int column = List.of(lines.get(0).split(",", -1)).indexOf("retired");
    assertTrue(column >= 0, lines.get(0));
    StringBuilder text = new StringBuilder(lines.get(0)).append('\n');
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      cells[column] = "2026-06-29";
      text.append(String.join(",", cells)).append('\n');
    }
    Files.writeString(file, text);
    assertTrue(report().contains("No pump"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"<script>alert(1)</script>", "</svg><b>x", "${x}", "00123", "#3", "NA", "ø–😀"})
  void anOddTagIsText(String tag) throws IOException {
    replaceEverywhere(anyPump(), tag);
    String html = report();
    assertFalse(html.contains("<script"), "markup from the records");
    assertFalse(html.contains("<b>x"), "markup from the records");
    String escaped = tag.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    assertTrue(html.contains(escaped), escaped);
  }

  @Test
  void aTagThatASpreadsheetWouldRunIsGuarded() throws IOException {
    replaceEverywhere(anyPump(), "=cmd()");
    report();
    String plan = Files.readString(folder.resolve("report/plan.csv"));
    assertTrue(plan.contains("'=cmd()"), plan);
    assertFalse(plan.contains("\n=cmd()"), "a live formula");
  }

  @Test
  void theSameRecordsGiveTheSameBytes() throws IOException {
    String first = report();
    assertEquals(first, report());
  }
}
