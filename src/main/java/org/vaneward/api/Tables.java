package org.vaneward.api;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.text.FieldPosition;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import tech.tablesaw.api.ColumnType;
import tech.tablesaw.api.DateColumn;
import tech.tablesaw.api.DoubleColumn;
import tech.tablesaw.api.NumericColumn;
import tech.tablesaw.api.StringColumn;
import tech.tablesaw.api.Table;
import tech.tablesaw.columns.Column;
import tech.tablesaw.columns.numbers.NumberColumnFormatter;

/**
 * The tables of the program as Tablesaw tables: numbers and days as such, missing where unknown.
 */
final class Tables {
  /** Of a number when it is printed. */
  private static final int DIGITS = 4;

  private static final int LONGEST_UNBROKEN = 20;

  private Tables() {}

  static Table of(Listing listing) {
    Cells cells = new Cells(listing.columns().size());
    listing.rows().accept(cells);
    ColumnType.values(); // two threads that first meet Tablesaw's types elsewhere may deadlock
    Table table = Table.create(listing.name());
    for (int c = 0; c < listing.columns().size(); c++) {
      table.addColumns(column(listing.columns().get(c), cells.columns.get(c)));
    }
    return table;
  }

  /** Of the kind of its cells; of texts when it has none, or of several kinds. */
  private static Column<?> column(String name, List<@Nullable Object> cells) {
    if (all(cells, Double.class)) {
      DoubleColumn column = DoubleColumn.create(name);
      cells.forEach(
          cell -> {
            if (cell instanceof Double number) {
              column.append(number.doubleValue());
            } else {
              column.appendMissing();
            }
          });
      return printed(column);
    }
    if (all(cells, LocalDate.class)) {
      DateColumn column = DateColumn.create(name);
      cells.forEach(
          cell -> {
            if (cell instanceof LocalDate day) {
              column.append(day);
            } else {
              column.appendMissing();
            }
          });
      return column;
    }
    StringColumn column = StringColumn.create(name);
    cells.forEach(cell -> column.append(cell == null ? "" : cell.toString()));
    return column;
  }

  /** The table, its numbers printed as those of the others. */
  static Table printed(Table table) {
    for (Column<?> column : table.columns()) {
      if (column instanceof DoubleColumn numbers) {
        printed(numbers);
      }
    }
    return table;
  }

  /** The column, its numbers printed to four digits of the largest, thousands separated. */
  private static DoubleColumn printed(DoubleColumn column) {
    boolean whole = true;
    double largest = 0;
    for (double x : column.asDoubleArray()) {
      if (Double.isFinite(x)) {
        whole &= x == Math.rint(x);
        largest = Math.max(largest, Math.abs(x));
      }
    }
    int before = largest < 1 ? 0 : (int) Math.floor(Math.log10(largest)) + 1;
    int decimals = whole ? 0 : Math.max(0, DIGITS - before);
    column.setPrintFormatter(new NumberColumnFormatter(new Printed(decimals)));
    return column;
  }

  /** So many decimals; what they would show as 0 and is not, by its own first digits. */
  private static final class Printed extends DecimalFormat {
    private static final long serialVersionUID = 1;

    private static final double TINY = 1e-3;
    private static final MathContext TWO_DIGITS = new MathContext(2);

    private final double least;

    Printed(int decimals) {
      super(
          decimals == 0 ? "#,##0" : "#,##0." + "#".repeat(decimals),
          DecimalFormatSymbols.getInstance(Locale.ROOT));
      least = 0.5 * Math.pow(10, -decimals);
    }

    @Override
    public StringBuffer format(double x, StringBuffer out, FieldPosition where) {
      return x != 0 && Math.abs(x) < least ? out.append(small(x)) : super.format(x, out, where);
    }

    private static String small(double x) {
      return Math.abs(x) < TINY
          ? String.format(Locale.ROOT, "%.0e", x)
          : new BigDecimal(x).round(TWO_DIGITS).toPlainString();
    }
  }

  /** The table for a page or a notebook: texts escaped, numbers set right. */
  static String html(Table table) {
    StringBuilder html = new StringBuilder("<table>\n<thead><tr>");
    table.columns().forEach(c -> cell(html, "th", c, c.name()));
    html.append("</tr></thead>\n<tbody>\n");
    for (int row = 0; row < table.rowCount(); row++) {
      html.append("<tr>");
      for (Column<?> column : table.columns()) {
        cell(html, "td", column, column.getString(row));
      }
      html.append("</tr>\n");
    }
    return html.append("</tbody>\n</table>").toString();
  }

  private static void cell(StringBuilder html, String tag, Column<?> column, String text) {
    String side = column instanceof NumericColumn<?> ? "right" : "left";
    // Tags, days and numbers are not broken; sentences are.
    String breaks = text.length() > LONGEST_UNBROKEN ? "" : "; white-space: nowrap";
    html.append('<')
        .append(tag)
        .append(" style=\"text-align: ")
        .append(side)
        .append(tag.equals("td") ? breaks : "")
        .append("\">")
        .append(text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;"))
        .append("</")
        .append(tag)
        .append('>');
  }

  private static boolean all(List<@Nullable Object> cells, Class<?> kind) {
    return cells.stream().anyMatch(Objects::nonNull)
        && cells.stream().allMatch(cell -> cell == null || kind.isInstance(cell));
  }

  /** Takes cells row by row and keeps them column by column. */
  private static final class Cells implements TableWriter {
    private final List<List<@Nullable Object>> columns = new ArrayList<>();
    private int at;

    Cells(int width) {
      for (int c = 0; c < width; c++) {
        columns.add(new ArrayList<>());
      }
    }

    private Cells add(@Nullable Object cell) {
      columns.get(at).add(cell);
      at++;
      return this;
    }

    @Override
    public TableWriter cell(String value) {
      return add(value.isEmpty() ? null : value);
    }

    @Override
    public TableWriter cell(double value) {
      return add(value);
    }

    @Override
    public TableWriter cell(long value) {
      return add((double) value);
    }

    @Override
    public TableWriter cell(LocalDate value) {
      return add(value);
    }

    @Override
    public TableWriter rounded(double value, int decimals) {
      return add(new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).doubleValue());
    }

    @Override
    public TableWriter empty() {
      return add(null);
    }

    @Override
    public TableWriter endRow() {
      if (at != columns.size()) {
        throw new IllegalStateException(
            "a row has " + at + " cells where the header has " + columns.size());
      }
      at = 0;
      return this;
    }
  }
}
