package org.vaneward.notebook;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.vaneward.notebook.Kernel.Came;
import org.vaneward.notebook.Kernel.CellFailed;

/** A notebook file: format 4 of the Jupyter notebook (nbformat.readthedocs.io), kernel "java". */
final class Notebook {
  static final Path FOLDER = Path.of("notebooks");
  static final String SVG = "image/svg+xml";

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String PLAIN = "text/plain";

  private final Path file;
  private final ObjectNode root;

  private Notebook(Path file, ObjectNode root) {
    this.file = file;
    this.root = root;
  }

  /** Every notebook of the repository, by name. */
  static List<Path> all() {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.filter(f -> f.toString().endsWith(".ipynb")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Notebook read(Path file) {
    try {
      return new Notebook(file, (ObjectNode) JSON.readTree(Files.readString(file)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  JsonNode json() {
    return root;
  }

  /** Its cells of code, in order. */
  List<ObjectNode> code() {
    List<ObjectNode> code = new ArrayList<>();
    for (JsonNode cell : root.withArray("cells")) {
      if (cell.path("cell_type").asText().equals("code")) {
        code.add((ObjectNode) cell);
      }
    }
    return code;
  }

  /** Text that the format keeps as a list of lines. */
  static String text(JsonNode lines) {
    StringBuilder text = new StringBuilder();
    lines.forEach(line -> text.append(line.asText()));
    return text.toString();
  }

  private static ArrayNode lines(String text) {
    ArrayNode lines = JSON.createArrayNode();
    text.lines().forEach(line -> lines.add(line + "\n"));
    if (!lines.isEmpty() && !text.endsWith("\n")) {
      lines.set(
          lines.size() - 1,
          JSON.getNodeFactory().textNode(text.lines().toList().get(lines.size() - 1)));
    }
    return lines;
  }

  /**
   * Runs its cells in order from a fresh start and gives the notebook with what came of them.
   *
   * @throws CellFailed at the first that fails, naming the notebook and the cell
   */
  Notebook run() {
    Notebook done = new Notebook(file, root.deepCopy());
    try (Kernel kernel = new Kernel()) {
      int number = 0;
      for (ObjectNode cell : done.code()) {
        number++;
        try {
          cell.put("execution_count", number);
          cell.set("outputs", outputs(kernel.run(text(cell.path("source"))), number));
        } catch (CellFailed failed) {
          throw new CellFailed(file + ", code cell " + number + ": " + failed.getMessage());
        }
      }
    }
    return done;
  }

  private static ArrayNode outputs(Came came, int number) {
    ArrayNode outputs = JSON.createArrayNode();
    if (!came.printed().isEmpty()) {
      ObjectNode stream = outputs.addObject();
      stream.put("name", "stdout");
      stream.put("output_type", "stream");
      stream.set("text", lines(came.printed()));
    }
    for (Shown.Content content : came.shown()) {
      ObjectNode shown = outputs.addObject();
      shown.putObject("data").set(content.kind(), lines(content.text()));
      shown.putObject("metadata");
      shown.put("output_type", "display_data");
    }
    came.value()
        .ifPresent(
            value -> {
              ObjectNode result = outputs.addObject();
              result.putObject("data").set(PLAIN, lines(value));
              result.put("execution_count", number);
              result.putObject("metadata");
              result.put("output_type", "execute_result");
            });
    return outputs;
  }

  /** What is stored below a cell: texts as they are, pictures as their kind and title. */
  static List<String> stored(ObjectNode cell) {
    List<String> stored = new ArrayList<>();
    for (JsonNode output : cell.withArray("outputs")) {
      if (output.has("text")) {
        stored.add(text(output.path("text")));
      }
      for (Map.Entry<String, JsonNode> shown : output.path("data").properties()) {
        String content = text(shown.getValue());
        stored.add(shown.getKey().equals(SVG) ? "picture: " + title(content) : content);
      }
    }
    return stored;
  }

  /** The title an SVG bears, which says what it shows. */
  static String title(String svg) {
    int from = svg.indexOf("<title");
    int start = svg.indexOf('>', from) + 1;
    return from < 0 ? "" : svg.substring(start, svg.indexOf("</title>", start));
  }

  /** The pictures below its cells, in order. */
  List<String> pictures() {
    List<String> pictures = new ArrayList<>();
    for (ObjectNode cell : code()) {
      for (JsonNode output : cell.withArray("outputs")) {
        if (output.path("data").has(SVG)) {
          pictures.add(text(output.path("data").path(SVG)));
        }
      }
    }
    return pictures;
  }

  /** Writes it as notebook programs do: one blank of indent, a line at the end. */
  void write() {
    DefaultIndenter indent = new DefaultIndenter(" ", "\n");
    DefaultPrettyPrinter printer =
        new DefaultPrettyPrinter(
            Separators.createDefaultInstance()
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                .withArrayEmptySeparator("")
                .withObjectEmptySeparator(""));
    printer.indentArraysWith(indent);
    printer.indentObjectsWith(indent);
    try {
      Files.writeString(file, JSON.writer(printer).writeValueAsString(root) + "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
