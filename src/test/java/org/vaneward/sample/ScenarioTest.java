package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Json;

class ScenarioTest {
  @TempDir Path folder = Path.of("unset");

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "\"scale\": 8500|\"scale\": -1|scale is positive, not -1.0",
        "\"mend_probability\": 0.5|\"mend_probability\": 1.5|mend_probability is between 0 and 1",
        "\"duty\": \"loading\", \"model\"|\"duty\": \"lading\", \"model\"|no duty 'lading'",
        "\"as_of\": \"2026-06-30\"|\"as_of\": \"2016-06-30\"|follow each other",
        "\"trigger\": \"leak\"|\"trigger\": \"leaks\"|'leaks' is not one of planned, leak",
        "\"models\": [\"V4\"]|\"models\": [\"V5\"]|no kit fits model 'V4'",
        "\"retirements\": []|\"retirements\": [{\"pump\": \"OJ-P99\", \"on\": \"2020-01-01\"}]|OJ-P99",
      })
  void refusesAScenarioThatDoesNotHoldTogether(String part, String replacement, String message)
      throws IOException {
    String text = Files.readString(Samples.SMALL);
    assertTrue(text.contains(part), part);
    Path file = folder.resolve("scenario.json");
    Files.writeString(file, text.replace(part, replacement));

    BadInputException e =
        assertThrows(BadInputException.class, () -> Sample.draw(file, OptionalLong.empty()));

    String shown = String.valueOf(e.getMessage());
    assertTrue(shown.startsWith(file.toString()) && shown.contains(message), shown);
    assertFalse(shown.contains("\n"), shown);
  }

  @Test
  void aScenarioSurvivesWritingAndReading() {
    Scenario scenario = Scenario.read(Samples.SIX);
    assertEquals(scenario, Json.read("again", Json.write(scenario), Scenario.class));
    assertNotEquals(scenario, scenario.withSeed(1));
    assertEquals(scenario, scenario.withSeed(1).withSeed(scenario.seed()));
  }

  @Test
  void plainDepotsShareTheTruthOfTheSix() {
    Scenario six = Scenario.read(Samples.SIX);
    Scenario plain = Scenario.read(Samples.PLAIN);
    assertEquals(six.components(), plain.components());
    assertEquals(six.products(), plain.products());
    assertEquals(six.overrides(), plain.overrides());
    assertEquals(six.sites(), plain.sites());
  }

  @Test
  void truthIsWrittenBesideAndReadsBack() {
    Truth truth = Samples.draw(Samples.SIX).truth();
    Path file = folder.resolve("truth.json");
    FleetWriter.writeTruth(truth, file);
    assertEquals(truth, Json.read(file, Truth.class));
  }
}
