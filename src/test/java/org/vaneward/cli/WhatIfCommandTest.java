package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Questions put to a fleet on the command line. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class WhatIfCommandTest {
  private String fleet = "";

  @BeforeAll
  void draw(@TempDir Path temp) {
    fleet = temp.resolve("fleet").toString();
    Run.ending(0, "sample", "seeds/small-terminal.json", "--out", fleet, "--quiet");
  }

  @Test
  void intervalSaysWhatWasAskedAndShortensWhenStopsAreDearer() {
    JsonNode now = json("interval");
    JsonNode asked = json("interval", "--if-unplanned", "seal=60000");
    assertTrue(now.path("what_if").isMissingNode());
    assertEquals("a stop by seal cost 60,000 beside its parts", asked.get("what_if").asText());
    double before = now.get("intervals").get(0).get("least_cost_interval").asDouble();
    double after = asked.get("intervals").get(0).get("least_cost_interval").asDouble();
    assertTrue(after < before, after + " is not below " + before);
  }

  @Test
  void planSaysWhatWasAsked() {
    Run run = Run.of("plan", fleet, "--if-usage", "1.2", "--if-mandated", "30", "--quiet");
    assertTrue(run.code() <= 1, run.err());
    assertTrue(
        run.out()
            .contains(
                "What if rebuilds were mandated every 30 months (a question, not a permission); the"
                    + " pumps ran 1.2 times what they do. Everything else as recorded."),
        run.out());
  }

  @Test
  void planListsWhatThePumpsDueTake() {
    JsonNode parts = json("plan").get("parts_due");
    assertTrue(parts.size() > 0);
    assertTrue(parts.get(0).get("number").asInt() > 0, parts.toString());
  }

  @ParameterizedTest
  @CsvSource({
    "--if-usage, 0, usage is a multiple above 0",
    "--if-planned, -1, a planned rebuild costs 0 or more",
    "--if-mandated, 0, a mandated limit is 1 to 1200 months",
    "--if-unplanned, vanes=5, no failure of vanes stops a pump",
    "--if-unplanned, gasket=5, no failure of gasket stops a pump",
  })
  void whatMakesNoSenseIsRefusedInOneLine(String option, String value, String why) {
    Run run = Run.of("plan", fleet, option, value, "--quiet");
    run.isRefusedInOneLine();
    assertTrue(run.err().contains(why), run.err());
  }

  @Test
  void aCalculatorTakesNoQuestion() {
    Run run =
        Run.of(
            "interval",
            "--shape",
            "2",
            "--scale",
            "9000",
            "--planned",
            "1",
            "--unplanned",
            "5",
            "--if-usage",
            "2");
    run.isRefusedInOneLine();
  }

  private JsonNode json(String command, String... more) {
    String[] words = new String[more.length + 5];
    words[0] = command;
    words[1] = fleet;
    words[2] = "--format";
    words[3] = "json";
    words[4] = "--quiet";
    System.arraycopy(more, 0, words, 5, more.length);
    return Run.of(words).json();
  }
}
