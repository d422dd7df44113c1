package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From a folder of exports to a mapping that every command takes, as a person would go. */
class AdoptCommandTest {
  private static final Path SHEETS = Path.of("docs/example-sheets");
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir Path folder;

  private void copySheets() throws IOException {
    for (String name : List.of("Pumpenliste.csv", "Ueberholungen.csv", "Zaehler.csv")) {
      Files.copy(SHEETS.resolve(name), folder.resolve(name));
    }
  }

  @Test
  void aDraftIsRefusedSettledAndThenTaken() throws IOException {
    copySheets();
    Path settings = folder.resolve("fleet.json");
    Run adopt = Run.ending(1, "adopt", folder.toString(), "--draft", settings.toString());
    assertTrue(adopt.out().contains("Zaehler.csv: 4 rows, read as readings"), adopt.out());
    assertTrue(adopt.err().contains("wrote the draft to"), adopt.err());
    Run refused = Run.of("check", folder.toString());
    refused.isRefusedInOneLine();
    assertTrue(refused.err().contains("points wait for your word"), refused.err());

    ObjectNode draft = (ObjectNode) JSON.readTree(settings.toFile());
    ObjectNode mapping = (ObjectNode) draft.get("mapping");
    mapping.remove("unsettled");
    ((ObjectNode) mapping.get("tables").get("services")).putObject("always").put("duty", "loading");
    draft.put("as_of", "2025-12-31");
    Files.writeString(settings, draft.toString());
    Run check = Run.ending(1, "check", folder.toString());
    // What the mapping that a person wrote for the same sheets makes of them.
    String byHand = Run.ending(1, "check", SHEETS.toString()).out();
    assertEquals(byHand.lines().skip(1).toList(), check.lines().stream().skip(1).toList());
  }

  @Test
  void aDraftReplacesNothing() throws IOException {
    copySheets();
    Path there = folder.resolve("fleet.json");
    Files.writeString(there, "mine");
    Run run = Run.of("adopt", SHEETS.toString(), "--draft", there.toString());
    run.isRefusedInOneLine();
    assertTrue(run.err().contains("exists already"), run.err());
    assertEquals("mine", Files.readString(there));
  }

  @Test
  void jsonHasTheDraftAndItsDoubts() {
    Run run = Run.ending(1, "adopt", SHEETS.toString(), "--format", "json");
    JsonNode document = run.json();
    assertEquals(List.of("sources", "unread", "draft", "unsettled", "further"), Run.keys(document));
    assertEquals(
        Run.keys(document.get("unsettled")),
        Run.keys(document.get("draft").get("mapping").get("unsettled")));
    for (JsonNode source : document.get("sources")) {
      assertEquals(
          List.of("name", "rows", "form", "tables", "columns", "remarks"), Run.keys(source));
      assertFalse(source.get("columns").isEmpty());
    }
  }

  @Test
  void csvHasARowForEachColumnFound() {
    Run run = Run.ending(1, "adopt", SHEETS.toString(), "--format", "csv");
    assertEquals("source,header,taken_as,because", run.lines().get(0));
    assertEquals(1 + 5 + 8 + 3, run.lines().size());
  }

  @Test
  void recordsInTheFormatEndWithNothingToSettle() throws IOException {
    for (String name : List.of("pumps", "services", "readings")) {
      Files.copy(Path.of("docs/example-fleet", name + ".csv"), folder.resolve(name + ".csv"));
    }
    Files.writeString(
        folder.resolve("rebuilds.csv"), "rebuild,pump,date,trigger\nR1,P-1,2023-01-02,leak\n");
    Files.writeString(
        folder.resolve("findings.csv"),
        "rebuild,position,as_found,action\nR1,seal-inboard,failed,renewed\n");
    Files.copy(Path.of("docs/example-fleet/fleet.json"), folder.resolve("fleet.json"));
    Run run = Run.ending(0, "adopt", folder.toString());
    assertTrue(run.out().startsWith("5 tables found, 5 read; 0 points wait for your word"));
  }

  @Test
  void aFolderThatIsNotThereIsOneLine() {
    Run.of("adopt", folder.resolve("gone").toString()).isRefusedInOneLine();
  }
}
