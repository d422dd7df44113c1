package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;

/** {@code interval} as a calculator, against values computed in R. */
class IntervalCalculatorTest {

  static Stream<Case> ofLikePositions() {
    return Reference.cases("decisions").stream()
        .filter(c -> c.name().startsWith("age-") || c.name().startsWith("block-"))
        .filter(c -> !c.name().equals("age-five-positions"));
  }

  @ParameterizedTest
  @MethodSource("ofLikePositions")
  void likePositionsAgreeWithR(Case reference) {
    JsonNode positions = reference.expected().get("positions");
    List<String> args = new ArrayList<>(List.of("interval", "--format", "json"));
    args.addAll(List.of("--shape", positions.get(0).get("shape").asText()));
    args.addAll(List.of("--scale", positions.get(0).get("scale").asText()));
    args.addAll(List.of("--unplanned", positions.get(0).get("unplanned").asText()));
    args.addAll(List.of("--planned", reference.expected().get("planned").asText()));
    args.addAll(List.of("--positions", Integer.toString(positions.size())));
    args.addAll(List.of("--policy", policy(reference)));
    agrees(reference, Run.ending(0, args.toArray(String[]::new)));
  }

  private static String policy(Case reference) {
    return reference.name().substring(0, reference.name().indexOf('-'));
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
    assertTrue(some.startsWith("Rebuild every         2,729 h, or at the first failure\n"), some);
    String none = calculator("0.8", "text").out();
    assertTrue(none.startsWith("No planned interval   the parts do not fail more as"), none);
    String block = calculator("2.5", "text", "--policy", "block").out();
    assertTrue(
        block.startsWith("Rebuild every         2,583 h; before that, renew only the part"), block);
    assertTrue(block.contains("Mending for ever      1,691 per 1,000 h"), block);
    assertEquals("", calculator("0.8", "text").err());
  }

  private static Run calculator(String shape, String format, String... more) {
    List<String> args = new ArrayList<>(List.of("interval", "--shape", shape, "--scale", "8000"));
    args.addAll(List.of("--planned", "1000", "--unplanned", "6000", "--positions", "2"));
    args.addAll(List.of("--format", format));
    args.addAll(List.of(more));
    return Run.ending(0, args.toArray(String[]::new));
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
    assertEquals(policy(reference), got.get("policy").asText());
    JsonNode expected = reference.expected();
    for (String what : List.of("interval", "cost_rate", "run_to_failure_cost_rate")) {
      agrees(reference, what, expected.get(what), got.get(what));
    }
    if (expected.has("planned_share")) {
      agrees(reference, "planned_share", expected.get("planned_share"), got.get("planned_share"));
    } else if (expected.has("expected_failures_per_interval")) {
      double failures = expected.get("expected_failures_per_interval").asDouble();
      assertEquals(1 / (1 + failures), got.get("planned_share").asDouble(), 1e-6);
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
