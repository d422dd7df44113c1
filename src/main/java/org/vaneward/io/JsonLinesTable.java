package org.vaneward.io;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A table as JSON Lines: one object (RFC 8259) on each line, its keys the columns. A number stands
 * as it is written, {@code true} as yes, {@code false} as no, {@code null} as blank. A list of
 * objects is a list of rows within the row. Blank lines are no rows; a line that is no such object
 * is handed on as {@linkplain TableRow#problem() a problem}.
 *
 * <p>The file is read twice, since any line may bring a key that none before it had.
 */
public final class JsonLinesTable implements TableRows {
  private static final int MAX_KEYS = 1000;
  private static final int MAX_DEPTH = 8;
  private static final int MAX_NUMBER = 1000;
  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(MAX_DEPTH)
                  .maxStringLength(CsvTable.MAX_CELL)
                  .maxNumberLength(MAX_NUMBER)
                  .build())
          .build();

  private final String name;
  private final InputStream in;
  private final LineReader lines;
  private final TableHeader header;
  private final Map<String, TableHeader> nested;

  private JsonLinesTable(
      String name,
      InputStream in,
      TextForm form,
      TableHeader header,
      Map<String, TableHeader> nested) {
    this.name = name;
    this.in = in;
    this.lines = new LineReader(new TextReader(name, in, form.encoding()));
    this.header = header;
    this.nested = nested;
  }

  /**
   * Opens {@code file}, called {@code name} in messages; some line must have each key in {@code
   * required}.
   *
   * @throws BadInputException when it cannot be read, or a key in {@code required} stands nowhere
   */
  public static JsonLinesTable open(Path file, String name, TextForm form, List<String> required) {
    Keys keys = new Keys();
    try (InputStream first = PackedFile.open(file)) {
      LineReader lines = new LineReader(new TextReader(name, first, form.encoding()));
      for (var line = lines.next(); line.isPresent(); line = lines.next()) {
        keys.addOf(line.get().text());
      }
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
    keys.own.removeIf(String::isBlank);
    TableHeader header = header(name, keys.own, required);
    Map<String, TableHeader> nested = new HashMap<>();
    keys.nested.forEach((key, own) -> nested.put(key, header(name, own, List.of())));
    try {
      return new JsonLinesTable(name, PackedFile.open(file), form, header, nested);
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }

  private static TableHeader header(String name, Set<String> keys, List<String> required) {
    if (keys.size() > MAX_KEYS) {
      throw new BadInputException(
          name + ": its lines have " + keys.size() + " different keys; at most " + MAX_KEYS);
    }
    for (String column : required) {
      if (!keys.contains(column)) {
        throw new BadInputException(
            name
                + ": no line has the key '"
                + Cell.shortened(column)
                + "'; the lines have: "
                + (keys.isEmpty()
                    ? "nothing"
                    : String.join(", ", keys.stream().map(Cell::shortened).limit(30).toList())));
      }
    }
    return TableHeader.of(name, 1, List.copyOf(keys), List.of());
  }

  @Override
  public TableHeader header() {
    return header;
  }

  @Override
  public Optional<TableRow> next() {
    try {
      Optional<LineReader.Line> line = lines.next();
      while (line.isPresent() && line.get().text().isBlank()) {
        line = lines.next();
      }
      return line.map(this::row);
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }

  private TableRow row(LineReader.Line line) {
    if (line.oversized()) {
      return TableRow.broken(
          header, line.number(), "the line is longer than " + CsvTable.MAX_ROW + " characters");
    }
    try (JsonParser parser = FACTORY.createParser(line.text())) {
      if (parser.nextToken() != JsonToken.START_OBJECT) {
        throw new NoRow("the line is no JSON object");
      }
      TableRow row = object(parser, header, line.number(), true);
      if (parser.nextToken() != null) {
        throw new NoRow("something stands after the object; one object to a line");
      }
      return row;
    } catch (NoRow e) {
      return TableRow.broken(header, line.number(), e.reason);
    } catch (JsonProcessingException e) {
      return TableRow.broken(header, line.number(), "no JSON: " + Cell.shortened(first(e)));
    } catch (IOException e) {
      throw new UncheckedIOException("reading from memory failed", e);
    }
  }

  private static String first(JsonProcessingException e) {
    String said = e.getOriginalMessage();
    return said == null ? "cannot be parsed" : said.lines().findFirst().orElse("");
  }

  private TableRow object(JsonParser parser, TableHeader columns, long line, boolean outer)
      throws IOException {
    String[] cells = new String[columns.columns().size()];
    Arrays.fill(cells, "");
    BitSet typed = new BitSet();
    Map<String, List<TableRow>> rows = new HashMap<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String key = parser.currentName();
      int at = columns.indexOf(key.strip());
      JsonToken value = parser.nextToken();
      if (key.isBlank()) {
        throw new NoRow("a key has no name");
      }
      if (value == JsonToken.START_ARRAY && outer) {
        rows.put(key, array(parser, key, line));
      } else if (value.isStructEnd() || value.isStructStart()) {
        throw new NoRow("key '" + Cell.shortened(key) + "' holds a list or an object, no value");
      } else {
        cells[at] = text(parser, value);
        typed.set(at, value != JsonToken.VALUE_STRING && value != JsonToken.VALUE_NULL);
      }
    }
    return TableRow.of(columns, line, List.of(cells), typed, rows);
  }

  private List<TableRow> array(JsonParser parser, String key, long line) throws IOException {
    List<TableRow> rows = new ArrayList<>();
    TableHeader columns = nested.get(key);
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      if (parser.currentToken() != JsonToken.START_OBJECT || columns == null) {
        throw new NoRow(
            "key '" + Cell.shortened(key) + "' holds a list of something else than objects");
      }
      rows.add(object(parser, columns, line, false));
    }
    return rows;
  }

  private static String text(JsonParser parser, JsonToken value) throws IOException {
    return switch (value) {
      case VALUE_NULL -> "";
      case VALUE_TRUE -> "yes";
      case VALUE_FALSE -> "no";
      default -> parser.getText();
    };
  }

  @Override
  public void close() {
    try {
      in.close();
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }

  /** A line that is no row. */
  private static final class NoRow extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final String reason;

    NoRow(String reason) {
      super(reason, null, false, false);
      this.reason = reason;
    }
  }

  /** The keys that lines have, in the order met, and those of the objects within them. */
  private static final class Keys {
    private final Set<String> own = new LinkedHashSet<>();
    private final Map<String, Set<String>> nested = new LinkedHashMap<>();

    /** Takes in the keys of a line, as far as it is an object. */
    void addOf(String line) {
      try (JsonParser parser = FACTORY.createParser(line)) {
        if (parser.nextToken() == JsonToken.START_OBJECT) {
          addOf(parser);
        }
      } catch (IOException e) {
        return; // told of when its row is read
      }
    }

    private void addOf(JsonParser parser) throws IOException {
      while (parser.nextToken() == JsonToken.FIELD_NAME) {
        String key = parser.currentName();
        if (parser.nextToken() == JsonToken.START_ARRAY) {
          addNested(parser, nested.computeIfAbsent(key, k -> new LinkedHashSet<>()));
        } else {
          own.add(key);
          parser.skipChildren();
        }
      }
    }

    private static void addNested(JsonParser parser, Set<String> keys) throws IOException {
      while (parser.nextToken() == JsonToken.START_OBJECT) {
        while (parser.nextToken() == JsonToken.FIELD_NAME) {
          if (!parser.currentName().isBlank()) {
            keys.add(parser.currentName());
          }
          parser.nextToken();
          parser.skipChildren();
        }
      }
    }
  }
}
