package org.vaneward.notebook;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.notebook.Kernel.Came;
import org.vaneward.notebook.Kernel.CellFailed;

/** Runs every notebook from a fresh start and holds what comes against what it stores. */
class NotebooksTest {
  private static final Path PICTURES = Path.of("target", "notebooks");

  static Stream<Path> notebooks() {
    return Notebook.all().stream();
  }

  @Test
  void thereAreFive() {
    assertEquals(5, Notebook.all().size(), () -> Notebook.all().toString());
  }

  /** Also writes its pictures, to be looked at. */
  @ParameterizedTest
  @MethodSource("notebooks")
  void showsWhatItStores(Path file) throws IOException {
    Notebook stored = Notebook.read(file);
    Notebook came = stored.run();
    List<ObjectNode> before = stored.code();
    List<ObjectNode> after = came.code();
    for (int i = 0; i < before.size(); i++) {
      int cell = i + 1;
      assertEquals(
          Notebook.stored(before.get(i)),
          Notebook.stored(after.get(i)),
          () -> file + ", code cell " + cell + ": run org.vaneward.notebook.RunNotebooks");
    }
    List<String> pictures = came.pictures();
    assertEquals(stored.pictures().size(), pictures.size());
    Files.createDirectories(PICTURES);
    for (int i = 0; i < pictures.size(); i++) {
      String name = file.getFileName().toString().replace(".ipynb", "-" + (i + 1) + ".svg");
      Files.writeString(PICTURES.resolve(name), pictures.get(i));
      assertTrue(pictures.get(i).startsWith("<svg") && pictures.get(i).contains("</svg>"), name);
    }
  }

  @ParameterizedTest
  @MethodSource("notebooks")
  void isAJavaNotebookThatTellsAStory(Path file) {
    JsonNode json = Notebook.read(file).json();
    assertEquals("java", json.at("/metadata/kernelspec/name").asText());
    assertEquals("java", json.at("/metadata/language_info/name").asText());
    assertEquals(4, json.path("nbformat").asInt());
    Set<String> ids = new HashSet<>();
    int words = 0;
    for (JsonNode cell : json.path("cells")) {
      assertTrue(ids.add(cell.path("id").asText("")), () -> "id of " + cell);
      words += cell.path("cell_type").asText().equals("markdown") ? 1 : 0;
    }
    int code = Notebook.read(file).code().size();
    assertTrue(words > code / 2, file + " has few words between its cells");
    assertTrue(!Notebook.read(file).pictures().isEmpty(), file + " has no picture");
  }

  @Test
  void aCellThatFailsIsTold() {
    try (Kernel kernel = new Kernel()) {
      assertTrue(failure(kernel, "int x = \"one\";").contains("incompatible types"));
      assertTrue(failure(kernel, "List.of().get(0)").contains("IndexOutOfBounds"));
      assertThrows(CellFailed.class, () -> kernel.run("foo("));
    }
  }

  private static String failure(Kernel kernel, String cell) {
    return String.valueOf(assertThrows(CellFailed.class, () -> kernel.run(cell)).getMessage());
  }

  @Test
  void oneCellUsesWhatAnotherDeclared() {
    try (Kernel kernel = new Kernel()) {
      assertEquals(
          Optional.empty(), kernel.run("int x = 20;\nint twice(int n) { return 2 * n; }").value());
      Came came =
          kernel.run(
              "System.out.println(\"on the way\");\ndisplay(\"<svg/>\", \"image/svg+xml\");\ntwice(x) + 2");
      assertEquals("on the way\n", came.printed().replace("\r", ""));
      assertEquals(List.of(new Shown.Content("image/svg+xml", "<svg/>")), came.shown());
      assertEquals(Optional.of("42"), came.value());
      assertEquals(Optional.of("a \"text\""), kernel.run("\"a \\\"text\\\"\"").value());
    }
  }
}
