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
import java.util.OptionalLong;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.sample.Sample;

/** {@code backtest} on a small terminal. */
class BacktestCommandTest {
  @TempDir static Path folder = Path.of("unset");

  @BeforeAll
  static void draw() {
    Sample.write(Path.of("seeds/small-terminal.json"), folder, OptionalLong.empty());
  }

  private static Run fleet(String... more) {
    List<String> words = new ArrayList<>(List.of("backtest", folder.toString(), "--quiet"));
    words.addAll(List.of("--half-years", "4", "--futures", "500"));
    words.addAll(List.of(more));
    return Run.ending(0, words.toArray(String[]::new));
  }

  @Test
  void jsonHoldsEachHalfYearWithWhatCameAndWhatWasForetold() {
    JsonNode json = fleet("--format", "json").json();
    assertEquals(0.9, json.get("confidence").asDouble());
    assertEquals(4, json.get("half_years").size());
    JsonNode last = json.get("half_years").get(3);
    JsonNode stops = last.get("stops");
    assertTrue(stops.get("lower").asInt() <= stops.get("upper").asInt());
    assertTrue(stops.get("mean").asDouble() > 0);
    assertTrue(stops.get("crps").asDouble() >= 0);
    assertEquals(3, last.get("rivals").size());
    assertEquals("lives", json.get("scores").get(0).get("forecast").asText());
    assertEquals(4, json.get("scores").size());
    assertTrue(json.get("stops_within").asInt() <= 4);
    JsonNode money = json.get("money");
    assertTrue(money.get("more").has("lower"));
    assertEquals(
        money.get("advised").get("money").get("estimate").asDouble()
            - money.get("happened").get("money").get("estimate").asDouble(),
        money.get("more").get("estimate").asDouble(),
        1e-6 * money.get("happened").get("money").get("estimate").asDouble());
  }

  @Test
  void csvHasARowForEachForecast() {
    List<String> rows = fleet("--format", "csv").lines();
    assertEquals(
        "from,to,pumps,failures_known,what,forecast,came,mean,lower,upper,crps", rows.get(0));
    // Stops by four forecasts, kits, planned rebuilds.
    assertEquals(1 + 4 * 6, rows.size());
    assertEquals(4, rows.stream().filter(r -> r.contains(",stops,lives,")).count());
  }

  @Test
  void textGivesTheAnswerFirstAndSaysWhatCannotBeKnown() {
    String text = fleet().out();
    assertTrue(text.indexOf("Replayed half-year by half-year") < text.indexOf("Foretold and come"));
    assertTrue(text.contains("So few half-years say little"), text);
    assertTrue(text.contains("That is an estimate, not a record"), text);
    assertTrue(text.contains("leaves no record"), text);
  }

  @Test
  void theSameSeedGivesTheSameBytesAndAnotherDoesNot() {
    String one = fleet("--format", "json").out();
    assertEquals(one, fleet("--format", "json").out());
    assertFalse(one.equals(fleet("--format", "json", "--seed", "2").out()));
  }

  @Test
  void aFixedIntervalOfOnesOwnChangesThatRivalOnly() {
    JsonNode plain = fleet("--format", "json").json().get("scores");
    JsonNode own = fleet("--format", "json", "--fixed-interval", "900").json().get("scores");
    assertEquals(plain.get(0), own.get(0));
    assertEquals(plain.get(1), own.get(1));
    assertEquals("fixed-interval", own.get(2).get("forecast").asText());
    assertFalse(plain.get(2).equals(own.get(2)));
  }

  @Test
  void badUsageIsOneLine() {
    refused("a number from 1 to 200", "--half-years", "0");
    refused("a number from 100", "--futures", "5");
    refused("an interval is above 0", "--fixed-interval", "-3");
    Run none = Run.of("backtest", "no-such-folder", "--quiet");
    none.isRefusedInOneLine();
  }

  private static void refused(String says, String... more) {
    List<String> words = new ArrayList<>(List.of("backtest", folder.toString(), "--quiet"));
    words.addAll(List.of(more));
    Run run = Run.of(words.toArray(String[]::new));
    run.isRefusedInOneLine();
    assertTrue(run.err().contains(says), run.err());
  }

  /** Records of a few months, of pumps that have not failed: said in a sentence, no figure. */
  @Test
  void recordsTooShortToReplaySaySo(@TempDir Path young) throws IOException {
    String scenario =
        Files.readString(Path.of("seeds/small-terminal.json"))
            .replaceFirst(
                "\"commissioned_from\": \"[0-9-]+\"", "\"commissioned_from\": \"2026-01-05\"")
            .replaceFirst(
                "\"commissioned_to\": \"[0-9-]+\"", "\"commissioned_to\": \"2026-01-20\"");
    Path file = young.resolve("young.json");
    Files.writeString(file, scenario);
    Path fleet = young.resolve("fleet");
    Sample.write(file, fleet, OptionalLong.of(3));
    Run run = Run.ending(0, "backtest", fleet.toString(), "--quiet");
    assertTrue(run.out().contains("No half-year of these records can be replayed"), run.out());
    JsonNode json = Run.ending(0, "backtest", fleet.toString(), "--format", "json").json();
    assertEquals(0, json.get("half_years").size());
    assertEquals(0, json.get("scores").size());
    Run report =
        Run.ending(
            0, "report", fleet.toString(), "--out", young.resolve("report").toString(), "--quiet");
    assertEquals(0, report.code());
    assertTrue(Files.readString(young.resolve("report/index.html")).contains("can be replayed"));
  }
}
