package org.vaneward.io;

import com.fasterxml.jackson.core.io.NumberOutput;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * Writes a table as CSV: RFC 4180 quoting, comma, LF, point decimals whatever the locale. Cells are
 * given one by one in the order of the header; a row that is too long or too short is refused.
 *
 * <p>A spreadsheet runs a cell that begins with {@code = + - @}, a tab or a carriage return. A
 * table {@linkplain #forSpreadsheets made for people} puts an apostrophe before such text; one
 * {@linkplain #forMachines made for programs} keeps every text as it is. Numbers and dates are
 * never touched.
 */
public final class CsvWriter implements TableWriter {
  private static final int BLOCK = 1 << 16;

  private final StringBuilder text = new StringBuilder();
  private final Optional<Appendable> target;
  private final int columns;
  private final boolean guardFormulas;
  private int cellsInRow;
  private long rows;

  private CsvWriter(List<String> header, boolean guardFormulas, Optional<Appendable> target) {
    if (header.isEmpty()) {
      throw new IllegalArgumentException("a table has at least one column, not 0");
    }
    this.columns = header.size();
    this.guardFormulas = guardFormulas;
    this.target = target;
    header.forEach(this::cell);
    endRow();
    rows = 0;
  }

  /** A table that a program reads: text is written unchanged. */
  public static CsvWriter forMachines(String... header) {
    return new CsvWriter(List.of(header), false, Optional.empty());
  }

  /**
   * The same, handed to {@code target} as it is written, for tables of any length: {@link #finish}
   * hands over the rest.
   */
  public static CsvWriter forMachines(Appendable target, List<String> header) {
    return new CsvWriter(header, false, Optional.of(target));
  }

  /** A table that a person opens in a spreadsheet: text that would run as a formula is disarmed. */
  public static CsvWriter forSpreadsheets(String... header) {
    return new CsvWriter(List.of(header), true, Optional.empty());
  }

  /** A text cell. */
  @Override
  public CsvWriter cell(String value) {
    return raw(quoted(guardFormulas && runsAsFormula(value) ? "'" + value : value));
  }

  /**
   * A number in the shortest form that reads back as the same double; a whole number without a
   * fraction.
   *
   * @throws IllegalArgumentException when it is not finite: an unknown number is {@link #empty()}
   */
  @Override
  public CsvWriter cell(double value) {
    return raw(plain(value));
  }

  /** A whole number. */
  @Override
  public CsvWriter cell(long value) {
    return raw(Long.toString(value));
  }

  /** A date in ISO 8601. */
  @Override
  public CsvWriter cell(LocalDate value) {
    return raw(value.toString());
  }

  /** A number with {@code decimals} digits after the point, rounded half even. */
  @Override
  public CsvWriter rounded(double value, int decimals) {
    return raw(
        new BigDecimal(finite(value)).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString());
  }

  /** A cell that says nothing: unknown. */
  @Override
  public CsvWriter empty() {
    return raw("");
  }

  /**
   * Ends the row.
   *
   * @throws IllegalStateException when cells are missing
   */
  @Override
  public CsvWriter endRow() {
    if (cellsInRow != columns) {
      throw new IllegalStateException(
          "a row has " + cellsInRow + " cells where the header has " + columns);
    }
    text.append('\n');
    cellsInRow = 0;
    rows++;
    if (text.length() > BLOCK) {
      handOver();
    }
    return this;
  }

  private void handOver() {
    if (target.isPresent()) {
      try {
        target.get().append(text);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      text.setLength(0);
    }
  }

  /**
   * Hands over what has not been.
   *
   * @throws IllegalStateException when the last row was not ended
   * @throws UncheckedIOException when the target takes no more
   */
  public void finish() {
    requireEnded();
    handOver();
  }

  /** Rows ended so far, the header not counted. */
  public long rows() {
    return rows;
  }

  /**
   * The table, or what of it has not been handed over.
   *
   * @throws IllegalStateException when the last row was not ended
   */
  public String text() {
    requireEnded();
    return text.toString();
  }

  private void requireEnded() {
    if (cellsInRow != 0) {
      throw new IllegalStateException("the last row was not ended after " + cellsInRow + " cells");
    }
  }

  /** {@code value} as {@link #cell(double)} writes it. */
  public static String plain(double value) {
    String shortest = NumberOutput.toString(finite(value), true);
    return shortest.endsWith(".0") ? shortest.substring(0, shortest.length() - 2) : shortest;
  }

  private CsvWriter raw(String cell) {
    if (cellsInRow == columns) {
      throw new IllegalStateException("a row has more cells than the header's " + columns);
    }
    if (cellsInRow > 0) {
      text.append(',');
    }
    // A lone empty cell would be a blank line, which readers skip.
    text.append(cell.isEmpty() && columns == 1 ? "\"\"" : cell);
    cellsInRow++;
    return this;
  }

  private static double finite(double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("a number cell is finite, not " + value);
    }
    return value;
  }

  private static boolean runsAsFormula(String value) {
    return !value.isEmpty() && "=+-@\t\r".indexOf(value.charAt(0)) >= 0;
  }

  private static String quoted(String value) {
    return needsQuotes(value) ? '"' + value.replace("\"", "\"\"") + '"' : value;
  }

  /** Looks at each cell of tables of millions of rows: plain loops. */
  private static boolean needsQuotes(String value) {
    int length = value.length();
    for (int i = 0; i < length; i++) {
      char c = value.charAt(i);
      if (c == ',' || c == '"' || c == '\n' || c == '\r') {
        return true;
      }
    }
    return length > 0
        && (Character.isWhitespace(value.charAt(0))
            || Character.isWhitespace(value.charAt(length - 1)));
  }
}
