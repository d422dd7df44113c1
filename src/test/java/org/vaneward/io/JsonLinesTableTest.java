package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JsonLinesTableTest {
  @TempDir Path folder;

  private JsonLinesTable open(String text) throws IOException {
    Path file = folder.resolve("t.jsonl");
    Files.writeString(file, text);
    return JsonLinesTable.open(file, "t.jsonl", TextForm.plain(), List.of("pump"));
  }

  private List<TableRow> rows(String text) throws IOException {
    List<TableRow> rows = new ArrayList<>();
    try (JsonLinesTable table = open(text)) {
      for (Optional<TableRow> row = table.next(); row.isPresent(); row = table.next()) {
        rows.add(row.get());
      }
    }
    return rows;
  }

  private String problem(String line) throws IOException {
    return rows("{\"pump\": \"P1\"}\n" + line + "\n{\"pump\": \"P2\"}\n")
        .get(1)
        .problem()
        .orElse("none");
  }

  @Test
  void valuesAreTextAndKnowTheirType() throws IOException {
    List<TableRow> rows =
        rows(
            """
            {"pump": "P1", "hours": 12.50, "primary": true}

            {"pump": "P2", "note": "a, b", "hours": null, "primary": false}
            """);
    assertEquals(2, rows.size());
    TableRow first = rows.get(0);
    assertEquals("P1", first.cell("pump"));
    assertEquals("12.50", first.cell("hours"));
    assertEquals("yes", first.cell("primary"));
    assertEquals("", first.cell("note"));
    assertTrue(first.isTyped(first.header().indexOf("hours")));
    assertTrue(!first.isTyped(first.header().indexOf("pump")));
    TableRow second = rows.get(1);
    assertEquals(3, second.line());
    assertEquals("a, b", second.cell("note"));
    assertEquals("", second.cell("hours"));
    assertEquals("no", second.cell("primary"));
  }

  @Test
  void objectsWithinAnObjectAreRowsWithinTheRow() throws IOException {
    TableRow row =
        rows("""
                {"pump": "P1", "findings": [{"position": "a"}, {"position": "b", "measured_mm": 1}], "other": []}
                """)
            .get(0);
    assertEquals(
        List.of("a ", "b 1"),
        row.nested("findings").stream()
            .map(r -> r.cell("position") + " " + r.cell("measured_mm"))
            .toList());
    assertEquals(List.of(), row.nested("other"));
  }

  @Test
  void whatIsNoObjectIsARowWithAProblem() throws IOException {
    assertEquals("the line is no JSON object", problem("[1]"));
    assertEquals("the line is no JSON object", problem("7"));
    assertEquals(
        "something stands after the object; one object to a line", problem("{\"pump\": 1} {}"));
    assertEquals(
        "key 'site' holds a list or an object, no value", problem("{\"site\": {\"a\": 1}}"));
    assertEquals(
        "key 'site' holds a list of something else than objects", problem("{\"site\": [1]}"));
    assertEquals("a key has no name", problem("{\" \": 1}"));
    assertTrue(problem("{\"pump\": \"P1\", \"pump\": \"P2\"}").startsWith("no JSON: Duplicate"));
    assertTrue(problem("{\"pump\": \"P1\"").startsWith("no JSON: "));
    assertTrue(problem("{\"pump\": " + "[".repeat(5000)).startsWith("key 'pump' holds"));
    assertTrue(problem("{\"pump\": " + "9".repeat(2000) + "}").startsWith("no JSON: "));
  }

  @Test
  void aLineOfAnyLengthIsBorne() throws IOException {
    assertEquals(
        "the line is longer than 4194304 characters",
        problem("{\"pump\": \"" + "x".repeat(5_000_000) + "\"}"));
  }

  @Test
  void aKeyThatIsNowhereIsMissed() {
    BadInputException refused =
        assertThrows(BadInputException.class, () -> open("{\"tag\": \"P1\"}\n"));
    assertEquals("t.jsonl: no line has the key 'pump'; the lines have: tag", refused.getMessage());
    assertEquals(
        "t.jsonl: no line has the key 'pump'; the lines have: nothing",
        assertThrows(BadInputException.class, () -> open("")).getMessage());
  }
}
