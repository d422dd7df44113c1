package org.vaneward.io;

import de.siegmar.fastcsv.reader.CloseableIterator;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A CSV table read row by row: RFC 4180, a header row, and the rest as its {@link TextForm} says
 * or, where that is silent, as the file shows: UTF-8 or what a byte order mark tells; cells
 * separated by comma, semicolon or tab, whichever the header uses. A first line {@code sep=;} names
 * the separator. Blank lines are no rows. A row with too many or too few cells is handed on as
 * {@linkplain TableRow#problem() a problem}; what makes every later row doubtful (bytes that are no
 * text, a quote left open) ends the reading.
 */
public final class CsvTable implements TableRows {
  /** Longest cell, characters: far beyond any note, far below what troubles memory. */
  static final int MAX_CELL = 1 << 20;

  /** Longest row kept, characters. */
  static final int MAX_ROW = 1 << 22;

  private static final int HEADER_PEEK = 1 << 13;

  /** How the parser's complaint of a quote still open at the end of the file begins. */
  private static final String LEFT_OPEN = "Unclosed quoted field";

  private static final char[] SEPARATORS = {',', ';', '\t'};
  private static final Pattern SEPARATOR_LINE = Pattern.compile("sep=([,;|\t])");

  private final String name;
  private final RowHandler handler;
  private final CsvReader<RowHandler.Cells> reader;
  private final CloseableIterator<RowHandler.Cells> records;
  private final TableHeader header;
  private long linesBefore;

  private CsvTable(String name, Reader text, TextForm form, List<String> required)
      throws IOException {
    this.name = name;
    BufferedReader peekable = new BufferedReader(text, HEADER_PEEK);
    linesBefore = form.headerLine() - 1L;
    for (long line = 0; line < linesBefore; line++) {
      LineReader.skip(peekable);
    }
    String head = headLine(peekable);
    Optional<Character> named = namedSeparator(head);
    if (named.isPresent()) {
      skipBlankLinesAndOne(peekable);
      head = headLine(peekable);
    }
    char separator = form.separator().or(() -> named).orElse(separator(head, required));
    handler = new RowHandler();
    reader =
        CsvReader.builder()
            .fieldSeparator(separator)
            .skipEmptyLines(true)
            .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
            .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
            .allowUnclosedQuote(false)
            .maxBufferSize(MAX_CELL)
            .build(handler, peekable);
    records = reader.iterator();
    header = readHeader(form, required);
  }

  /**
   * Opens {@code file}, called {@code name} in messages, whose header must hold every column in
   * {@code required}.
   *
   * @throws BadInputException when it cannot be read, is empty or its header will not do
   */
  public static CsvTable open(Path file, String name, List<String> required) {
    return open(file, name, TextForm.plain(), required);
  }

  /**
   * The same where the text has a form of its own.
   *
   * @throws BadInputException when it cannot be read, is empty or its header will not do
   */
  public static CsvTable open(Path file, String name, TextForm form, List<String> required) {
    try {
      InputStream in = PackedFile.open(file);
      try {
        return new CsvTable(name, new TextReader(name, in, form.encoding()), form, required);
      } catch (IOException | RuntimeException e) {
        in.close();
        throw e;
      }
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }

  /** Passes over the line that names the separator, and over what is blank above it. */
  private void skipBlankLinesAndOne(BufferedReader text) throws IOException {
    boolean blank = true;
    while (blank) {
      text.mark(HEADER_PEEK);
      int c = text.read();
      while (Character.isWhitespace(c) && c != '\n' && c != '\r') {
        c = text.read();
      }
      blank = c == '\n' || c == '\r';
      text.reset();
      LineReader.skip(text);
      linesBefore++;
    }
  }

  /** What a first line such as {@code sep=;} names; spreadsheets write it. */
  private static Optional<Character> namedSeparator(String headLine) {
    Matcher named = SEPARATOR_LINE.matcher(headLine.strip());
    return named.matches() ? Optional.of(named.group(1).charAt(0)) : Optional.empty();
  }

  /** The first line that is not blank, as far as the look-ahead reaches. */
  private static String headLine(BufferedReader text) throws IOException {
    text.mark(HEADER_PEEK);
    char[] head = new char[HEADER_PEEK - 1];
    int length = 0;
    int count = 0;
    while (length < head.length && count >= 0) {
      count = text.read(head, length, head.length - length);
      length += Math.max(count, 0);
    }
    text.reset();
    return new String(head, 0, length).lines().filter(l -> !l.isBlank()).findFirst().orElse("");
  }

  /** The separator that finds most of the required columns, then most cells, then the comma. */
  private static char separator(String headLine, List<String> required) {
    char best = SEPARATORS[0];
    long bestScore = -1;
    for (char separator : SEPARATORS) {
      List<String> cells = split(headLine, separator);
      long found = required.stream().filter(cells::contains).count();
      long score = found * HEADER_PEEK + cells.size();
      if (score > bestScore) {
        best = separator;
        bestScore = score;
      }
    }
    return best;
  }

  private static List<String> split(String headLine, char separator) {
    if (headLine.isEmpty()) {
      return List.of();
    }
    try {
      CsvRecord cells = CsvReader.builder().fieldSeparator(separator).ofSingleCsvRecord(headLine);
      return cells.getFields().stream().map(String::strip).toList();
    } catch (CsvParseException e) {
      return List.of(); // with this separator it is no header
    }
  }

  private TableHeader readHeader(TextForm form, List<String> required) {
    RowHandler.@Nullable Cells first = nextRecord();
    if (first == null) {
      throw new BadInputException(
          name
              + ": empty; line "
              + (linesBefore + 1)
              + " must name the columns "
              + String.join(", ", required));
    }
    if (first.oversized()) {
      throw new BadInputException(
          name + ", line " + line(first) + ": the header is longer than any header should be");
    }
    return TableHeader.of(name, line(first), form.named(first.values()), required);
  }

  private long line(RowHandler.Cells cells) {
    return linesBefore + cells.line();
  }

  @Override
  public TableHeader header() {
    return header;
  }

  @Override
  public Optional<TableRow> next() {
    RowHandler.@Nullable Cells cells = nextRecord();
    return cells == null ? Optional.empty() : Optional.of(row(cells));
  }

  private TableRow row(RowHandler.Cells cells) {
    if (cells.oversized()) {
      return TableRow.broken(
          header, line(cells), "the row is longer than " + MAX_ROW + " characters");
    }
    if (!header.fits(cells.values(), cells.count())) {
      return TableRow.broken(
          header,
          line(cells),
          "the row has "
              + cells.count()
              + " cells where the header has "
              + header.columns().size()
              + " columns");
    }
    return TableRow.of(header, line(cells), cells.values());
  }

  private RowHandler.@Nullable Cells nextRecord() {
    try {
      return records.hasNext() ? records.next() : null;
    } catch (CsvParseException e) {
      throw e.getCause() instanceof BadInputException refused ? refused : malformed(e);
    } catch (UncheckedIOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }

  private BadInputException malformed(CsvParseException e) {
    String where = name + ", line " + (linesBefore + handler.line()) + ": ";
    boolean open = String.valueOf(e.getMessage()).startsWith(LEFT_OPEN);
    return new BadInputException(
        where
            + (open
                ? "a quote opened in the row that begins here is never closed"
                : "the row that begins here is not CSV: a quote in it is neither closed nor"
                    + " doubled, or a cell is longer than "
                    + MAX_CELL
                    + " characters"),
        e);
  }

  @Override
  public void close() {
    try {
      reader.close();
    } catch (IOException e) {
      throw PackedFile.unreadable(name, e);
    }
  }
}
