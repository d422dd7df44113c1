package org.vaneward.adopt;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.vaneward.ingest.Ingest;
import org.vaneward.io.BadInputException;
import org.vaneward.io.CsvTable;
import org.vaneward.io.HeadRow;
import org.vaneward.io.JsonLinesTable;
import org.vaneward.io.SheetTable;
import org.vaneward.io.TableRow;
import org.vaneward.io.TableRows;
import org.vaneward.io.TextForm;
import org.vaneward.io.TextHead;

/** Reads every table in a folder of exports, whatever it holds. */
final class ExportReader {
  private static final int HEAD_ROWS = 40;
  private static final long TOLD_EVERY = 1_000_000;

  private final Path folder;
  private final HeaderChoice headers;
  private final Consumer<String> progress;
  private final List<Export> exports = new ArrayList<>();
  private final Map<String, String> unread = new LinkedHashMap<>();

  ExportReader(Path folder, Vocabulary vocabulary, Consumer<String> progress) {
    this.folder = folder;
    this.headers = new HeaderChoice(vocabulary);
    this.progress = progress;
  }

  /**
   * Reads the folder.
   *
   * @throws BadInputException when it cannot be listed
   */
  void read() {
    for (String file : names()) {
      try {
        read(file);
      } catch (BadInputException e) {
        unread.put(file, e.getMessage() == null ? "cannot be read" : e.getMessage());
      }
    }
  }

  /** The tables, in order of their files. */
  List<Export> exports() {
    return exports;
  }

  /** Files that were not read, and why. */
  Map<String, String> unread() {
    return unread;
  }

  private List<String> names() {
    if (!Files.isDirectory(folder)) {
      throw new BadInputException(folder + ": no such folder; give the folder of the exports");
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(Files::isRegularFile)
          .map(file -> String.valueOf(file.getFileName()))
          .filter(name -> !name.startsWith(".") && !name.equals(Ingest.SETTINGS))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new BadInputException(folder + ": cannot be listed; is it a folder you may read?", e);
    }
  }

  private void read(String file) {
    String name = file.toLowerCase(Locale.ROOT).replaceFirst("\\.gz$", "");
    if (name.endsWith(".xlsx") && !file.toLowerCase(Locale.ROOT).endsWith(".gz")) {
      readWorkbook(file);
    } else if (name.endsWith(".jsonl") || name.endsWith(".ndjson")) {
      readLines(file);
    } else if (name.endsWith(".csv") || name.endsWith(".tsv") || name.endsWith(".txt")) {
      readText(file);
    } else {
      unread.put(file, "no form read here; save it as CSV (.csv, .tsv, .txt), .xlsx or .jsonl");
    }
  }

  private void readText(String file) {
    Path path = folder.resolve(file);
    TextHead head = TextHead.of(path, file);
    Optional<HeaderChoice.Choice> header = headers.ofText(head);
    if (header.isEmpty()) {
      unread.put(file, "no line in it looks like the header of a table");
      return;
    }
    boolean stated =
        head.sign() == TextHead.Sign.LETTERS
            || (head.sign() == TextHead.Sign.BYTES
                && !head.charset().equals(StandardCharsets.UTF_8));
    TextForm form =
        new TextForm(
            stated ? Optional.of(head.charset()) : Optional.empty(),
            Optional.of(header.get().separator()),
            header.get().line(),
            true);
    String words =
        encoding(head)
            + ", cells parted by "
            + named(header.get().separator())
            + headerLine(header.get().line());
    Export.Form found =
        new Export.Form(
            form.charset(),
            Optional.of(header.get().separator()),
            head.sign() == TextHead.Sign.ASCII || head.sign() == TextHead.Sign.MARK,
            header.get().line(),
            words,
            encodingDoubt(head));
    try (TableRows rows = CsvTable.open(path, file, form, List.of())) {
      keep(file, Optional.empty(), found, rows);
    }
  }

  private static String headerLine(int line) {
    return line == 1 ? "" : ", header on line " + line;
  }

  private static String named(char separator) {
    return switch (separator) {
      case ';' -> "semicolons";
      case '\t' -> "tabs";
      case '|' -> "bars";
      default -> "commas";
    };
  }

  private static String encoding(TextHead head) {
    return switch (head.sign()) {
      case MARK -> "encoding told by its byte order mark";
      case ASCII -> "plain ASCII";
      case BYTES -> head.charset().name() + ", as its bytes show";
      case LETTERS -> head.charset().name();
    };
  }

  private static Optional<String> encodingDoubt(TextHead head) {
    return head.sign() == TextHead.Sign.LETTERS
        ? Optional.of(
            head.charset().name()
                + " is the likeliest of several encodings; in it the letters beyond ASCII are "
                + String.join(" ", head.foreign())
                + " (if they look wrong, name another, such as windows-1250, ISO-8859-15 or IBM850)")
        : Optional.empty();
  }

  private void readLines(String file) {
    try (TableRows rows =
        JsonLinesTable.open(
            folder.resolve(file),
            file,
            new TextForm(Optional.empty(), Optional.empty(), 1, true),
            List.of())) {
      Export.Form form =
          new Export.Form(
              Optional.empty(), Optional.empty(), false, 1, "JSON Lines", Optional.empty());
      keep(file, Optional.empty(), form, rows);
    }
  }

  private void readWorkbook(String file) {
    Path path = folder.resolve(file);
    for (String sheet : SheetTable.sheets(path, file)) {
      String name = file + " [" + sheet + "]";
      List<HeadRow> head = SheetTable.head(path, sheet, name, HEAD_ROWS);
      Optional<HeaderChoice.Choice> header = headers.ofRows(head);
      if (header.isEmpty()) {
        unread.put(name, "no row in it looks like the header of a table");
        continue;
      }
      TextForm form = new TextForm(Optional.empty(), Optional.empty(), header.get().line(), true);
      Export.Form found =
          new Export.Form(
              Optional.empty(),
              Optional.empty(),
              true,
              header.get().line(),
              "workbook" + headerLine(header.get().line()),
              Optional.empty());
      try (TableRows rows = SheetTable.open(path, sheet, name, form, List.of())) {
        keep(file, Optional.of(sheet), found, rows);
      }
    }
  }

  private void keep(String file, Optional<String> sheet, Export.Form form, TableRows rows) {
    Tally own = new Tally(rows.header().columns());
    Map<String, Tally> within = new LinkedHashMap<>();
    for (Optional<TableRow> next = rows.next(); next.isPresent(); next = rows.next()) {
      TableRow row = next.get();
      own.add(row);
      for (String key : row.nestedKeys()) {
        for (TableRow inner : row.nested(key)) {
          within.computeIfAbsent(key, k -> new Tally(inner.header().columns())).add(inner);
        }
      }
      if (own.rows % TOLD_EVERY == 0) {
        progress.accept(file + ": " + own.rows / TOLD_EVERY + " million rows looked at");
      }
    }
    exports.add(Export.of(file, sheet, Optional.empty(), form, own.rows, own.columns));
    within.forEach(
        (key, tally) ->
            exports.add(Export.of(file, sheet, Optional.of(key), form, tally.rows, tally.columns)));
  }

  /** What is kept of rows that are passed over once. */
  private static final class Tally {
    private final List<ColumnProfile> columns;
    private long rows;

    Tally(List<String> names) {
      columns = names.stream().map(ColumnProfile::new).toList();
    }

    void add(TableRow row) {
      rows++;
      if (row.problem().isEmpty()) {
        for (int i = 0; i < columns.size(); i++) {
          columns.get(i).add(row.cell(i), row.isTyped(i));
        }
      }
    }
  }
}
