package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.sample.Sample;
import org.vaneward.stats.Reference;

/** {@code spares} as a calculator and on a fleet. */
class SparesCommandTest {
  @TempDir static Path folder = Path.of("unset");

  @BeforeAll
  static void draw() {
    Sample.write(Path.of("seeds/small-terminal.json"), folder, OptionalLong.empty());
  }

  private static Run fleet(int code, String... more) {
    List<String> words = new ArrayList<>(List.of("spares", folder.toString(), "--quiet"));
    words.addAll(List.of("--futures", "400"));
    words.addAll(List.of(more));
    return Run.ending(code, words.toArray(String[]::new));
  }

  static Stream<Reference.Case> references() {
    return Reference.cases("decisions").stream().filter(c -> c.name().startsWith("spares-"));
  }

  @ParameterizedTest
  @MethodSource("references")
  void theCalculatorKeepsItsContract(Reference.Case reference) {
    JsonNode in = reference.expected();
    JsonNode out =
        Run.ending(
                0,
                "spares",
                "--shape",
                in.get("shape").asText(),
                "--scale",
                in.get("scale").asText(),
                "--positions",
                in.get("positions").asText(),
                "--horizon",
                in.get("horizon").asText(),
                "--format",
                "json")
            .json();
    List<String> keys = new ArrayList<>();
    out.fieldNames().forEachRemaining(keys::add);
    assertEquals(List.of("mean", "sd", "p50", "p80", "p95", "stock"), keys);
    for (String key : keys.subList(0, 5)) {
      reference.holds(key, in.get(key), out.get(key).asDouble());
    }
    assertEquals(in.get("stock"), out.get("stock"));
  }

  @Test
  void theTablesOfAFleetAgreeWithOneAnother() {
    JsonNode json = fleet(0, "--format", "json").json();
    assertEquals(24, json.get("months").size());
    assertEquals("2026-07", json.get("months").get(0).asText());
    JsonNode budget = json.get("budget").get(0);
    assertEquals("all", budget.get("on").asText());
    double monthly = 0;
    for (JsonNode month : budget.get("months")) {
      monthly += month.get("mean").asDouble();
    }
    double all = budget.get("all").get("mean").asDouble();
    assertTrue(all > 0);
    assertEquals(all, monthly, 1e-9 * all);
    assertEquals("plan", json.get("rules").get(0).get("key").asText());
    assertEquals(all, json.get("rules").get(0).get("money").get("mean").asDouble(), 1e-9 * all);
    assertEquals(5, json.get("rules").size());
    assertEquals(2, json.get("kits").size());
    assertEquals("one store", json.get("stock").get(0).get("store").asText());
    // Nothing is stated of holding and waiting: no cheapest level.
    assertTrue(json.at("/stock/0/items/0/cheapest/level").isMissingNode());
    assertTrue(json.at("/stock/0/items/0/order_at").isInt());
  }

  @Test
  void theTextAnswersFirstAndCarriesTheCautions() {
    String text = fleet(0).out();
    int answer = text.indexOf("the plan opens about");
    assertTrue(answer > 0 && answer < 200, text);
    assertTrue(text.contains("Isolate and lock out"), text);
    assertTrue(text.contains("2026 from Jul, P50"), text);
    // One seal in the kit, two in the pump.
    assertTrue(text.replaceAll(" +", " ").contains("seal 2 1 1 0"), text);
    assertTrue(text.contains("2028 to Jun, P80"), text);
    String flowing = text.replaceAll("\\s+", " ");
    assertTrue(flowing.contains("A cheapest level needs stock.holding_per_year"), text);
  }

  @Test
  void csvHasOneRowForEachPlaceAndLine() {
    List<String> rows = fleet(0, "--format", "csv", "--months", "3").out().lines().toList();
    assertEquals("scope,of,kind,name,mean,p10,p50,p80,p90,p95", rows.get(0));
    // All, 1 year, 3 months, 1 site, 3 products.
    assertEquals(0, (rows.size() - 1) % 9);
    assertEquals(1, rows.stream().filter(r -> r.startsWith("all,,opening,planned,")).count());
  }

  @Test
  void theSameSeedGivesTheSameBytesAndAnotherDoesNot() {
    String one = fleet(0, "--format", "json").out();
    assertEquals(one, fleet(0, "--format", "json").out());
    assertTrue(!one.equals(fleet(0, "--format", "json", "--seed", "2").out()));
  }

  @Test
  void badUsageIsOneLine() {
    refused("--horizon is missing", "spares", "--shape", "2", "--scale", "10");
    refused("a number from 1 to 120", "spares", folder.toString(), "--months", "121");
    refused("a number from 100", "spares", folder.toString(), "--futures", "5");
    refused(
        "at most 20000 futures",
        "spares",
        folder.toString(),
        "--months",
        "120",
        "--futures",
        "50000");
    refused("not both", "spares", folder.toString(), "--shape", "2");
    refused("go with a fleet folder", "spares", "--shape", "2", "--months", "3");
    refused("must be above 0", "spares", "--shape", "0", "--scale", "1", "--horizon", "1");
    refused(
        "a horizon up to 2160000", "spares", "--shape", "2", "--scale", "8000", "--horizon", "1e9");
  }

  private static void refused(String says, String... words) {
    Run run = Run.ending(2, words);
    assertTrue(run.err().contains(says), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
    assertEquals("", run.out());
  }
}
