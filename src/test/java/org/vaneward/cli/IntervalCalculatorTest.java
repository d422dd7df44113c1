package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;

/** {@code interval} as a calculator, against values computed in R. */
class IntervalCalculatorTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "age-shape-1.2-ratio-2",
        "age-shape-1.2-ratio-10",
        "age-shape-2.5-ratio-10",
        "age-shape-0.8-ratio-10",
        "age-shape-4-ratio-20",
        "age-shape-2.5-ratio-10-two-positions",
      })
  void likePositionsAgreeWithR(String name) {
    Case reference = named(name);
    JsonNode positions = reference.expected().get("positions");
    List<String> args = new ArrayList<>(List.of("interval", "--format", "json"));
    args.addAll(List.of("--shape", positions.get(0).get("shape").asText()));
    args.addAll(List.of("--scale", positions.get(0).get("scale").asText()));
    args.addAll(List.of("--unplanned", positions.get(0).get("unplanned").asText()));
    args.addAll(List.of("--planned", reference.expected().get("planned").asText()));
    args.addAll(List.of("--positions", Integer.toString(positions.size())));
    agrees(reference, Run.ending(0, args.toArray(String[]::new)));
  }

  @Test
  void unlikePositionsAgreeWithR() {
    Case reference = named("age-five-positions");
    List<String> args = new ArrayList<>(List.of("interval", "--format", "json"));
    args.addAll(List.of("--planned", reference.expected().get("planned").asText()));
    for (JsonNode position : reference.expected().get("positions")) {
      args.add("--position");
      args.add(
          position.get("shape").asText()
              + ","
              + position.get("scale").asText()
              + ","
              + position.get("unplanned").asText());
    }
    agrees(reference, Run.ending(0, args.toArray(String[]::new)));
  }

  @Test
  void csvHoldsTheSameNumbers() {
    Run csv = calculator("2.5", "csv");
    JsonNode json = calculator("2.5", "json").json();
    assertEquals(2, csv.lines().size());
    String[] header = csv.lines().get(0).split(",", -1);
    String[] cells = csv.lines().get(1).split(",", -1);
    assertEquals("interval", header[1]);
    assertEquals(json.get("interval").asDouble(), Double.parseDouble(cells[1]));
    assertEquals(json.get("cost_rate").asDouble(), Double.parseDouble(cells[2]));
    assertEquals("", calculator("0.8", "csv").lines().get(1).split(",", -1)[1]);
  }

  @Test
  void textSaysTheIntervalOrWhyThereIsNone() {
    String some = calculator("2.5", "text").out();
    assertTrue(some.startsWith("Rebuild every 2,729 h, or at the first failure\n"), some);
    String none = calculator("0.8", "text").out();
    assertTrue(none.startsWith("No planned interval: the parts do not fail more as"), none);
    assertEquals("", calculator("0.8", "text").err());
  }

  private static Run calculator(String shape, String format) {
    return Run.ending(
        0,
        "interval",
        "--shape",
        shape,
        "--scale",
        "8000",
        "--planned",
        "1000",
        "--unplanned",
        "6000",
        "--positions",
        "2",
        "--format",
        format);
  }

  private static Case named(String name) {
    return Reference.cases("decisions").stream()
        .filter(c -> c.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static void agrees(Case reference, Run run) {
    JsonNode got = run.json();
    assertEquals(
        Set.of(
            "policy",
            "interval",
            "cost_rate",
            "run_to_failure_cost_rate",
            "window",
            "planned_share"),
        Set.copyOf(Run.keys(got)));
    assertEquals("age", got.get("policy").asText());
    JsonNode expected = reference.expected();
    for (String what :
        List.of("interval", "cost_rate", "run_to_failure_cost_rate", "planned_share")) {
      agrees(reference, what, expected.get(what), got.get(what));
    }
    assertEquals(Set.of("from", "to"), Set.copyOf(Run.keys(got.get("window"))));
    agrees(reference, "window from", expected.at("/window/from"), got.at("/window/from"));
    agrees(reference, "window to", expected.at("/window/to"), got.at("/window/to"));
  }

  private static void agrees(Case reference, String what, JsonNode expected, JsonNode got) {
    assertEquals(expected.isNull(), got.isNull(), what);
    if (!expected.isNull()) {
      reference.holds(what, expected, got.asDouble());
    }
  }
}
