package org.vaneward.io;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ExcelReaderException;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;

/**
 * A sheet of a workbook (ISO/IEC 29500, SpreadsheetML) read row by row. A number formatted as a
 * date is a date, whatever the sheet shows of it; its time of day does not count. A formula is
 * never computed: what it came to when the workbook was saved stands for it. Rows of blank cells
 * are no rows.
 */
public final class SheetTable implements TableRows {
  private static final ReadingOptions WITH_FORMATS = new ReadingOptions(true, true);

  /** Letters of a date in a number format, texts in quotes and brackets left out. */
  private static final Pattern LITERALS = Pattern.compile("\"[^\"]*\"|\\\\.|_.|\\[[^\\]]*\\]");

  private static final Pattern DAY_OR_YEAR = Pattern.compile("[dyDY]");

  private final String name;
  private final ReadableWorkbook workbook;
  private final Stream<Row> stream;
  private final Iterator<Row> rows;
  private final TableHeader header;
  private int rowBefore;

  private SheetTable(
      String name, ReadableWorkbook workbook, Sheet sheet, TextForm form, List<String> required)
      throws IOException {
    this.name = name;
    this.workbook = workbook;
    this.stream = sheet.openStream();
    this.rows = stream.iterator();
    this.header = readHeader(form, required);
  }

  /**
   * Opens the sheet called {@code sheet} of the workbook {@code file}; the table is called {@code
   * name} in messages and has every column in {@code required}.
   *
   * @throws BadInputException when it is no workbook, is too large unpacked, has no such sheet, or
   *     the header of that will not do
   */
  public static SheetTable open(
      Path file, String sheet, String name, TextForm form, List<String> required) {
    WorkbookGuard.check(file, name);
    try {
      ReadableWorkbook workbook = new ReadableWorkbook(file.toFile(), WITH_FORMATS);
      try {
        return new SheetTable(name, workbook, find(workbook, sheet, name), form, required);
      } catch (IOException | RuntimeException e) {
        workbook.close();
        throw e;
      }
    } catch (BadInputException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      throw damaged(name, e);
    }
  }

  /**
   * The names of the sheets of a workbook, in order.
   *
   * @throws BadInputException when it is no workbook or is too large unpacked
   */
  public static List<String> sheets(Path file, String name) {
    WorkbookGuard.check(file, name);
    try (ReadableWorkbook workbook = new ReadableWorkbook(file.toFile())) {
      return workbook.getSheets().map(Sheet::getName).toList();
    } catch (IOException | RuntimeException e) {
      throw damaged(name, e);
    }
  }

  /**
   * The first rows of a sheet that are not blank.
   *
   * @param name of the table in messages
   * @param count how many at most
   * @throws BadInputException when it is no workbook, is too large unpacked or has no such sheet
   */
  public static List<HeadRow> head(Path file, String sheet, String name, int count) {
    WorkbookGuard.check(file, name);
    try (ReadableWorkbook workbook = new ReadableWorkbook(file.toFile(), WITH_FORMATS)) {
      Sheet found = find(workbook, sheet, name);
      try (Stream<Row> rows = found.openStream()) {
        return rows.filter(row -> !isBlank(row))
            .limit(count)
            .map(row -> new HeadRow(row.getRowNum(), cells(row, new BitSet())))
            .toList();
      }
    } catch (BadInputException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      throw damaged(name, e);
    }
  }

  private static Sheet find(ReadableWorkbook workbook, String sheet, String name) {
    return workbook
        .findSheet(sheet)
        .orElseThrow(
            () ->
                new BadInputException(
                    name
                        + ": no sheet '"
                        + Cell.shortened(sheet)
                        + "'; the workbook has: "
                        + sheets(workbook)));
  }

  private static String sheets(ReadableWorkbook workbook) {
    return workbook
        .getSheets()
        .map(sheet -> Cell.shortened(sheet.getName()))
        .collect(Collectors.joining(", "));
  }

  private static BadInputException damaged(String name, Exception e) {
    return new BadInputException(
        name + ": cannot be read as a workbook (.xlsx); open it in a spreadsheet and save it again",
        e);
  }

  private TableHeader readHeader(TextForm form, List<String> required) {
    Optional<Row> first = nextRow();
    while (first.filter(row -> row.getRowNum() < form.headerLine() || isBlank(row)).isPresent()) {
      first = nextRow();
    }
    if (first.isEmpty()) {
      throw new BadInputException(
          name
              + ": empty; row "
              + form.headerLine()
              + " must name the columns "
              + String.join(", ", required));
    }
    return TableHeader.of(
        name, first.get().getRowNum(), form.named(cells(first.get(), new BitSet())), required);
  }

  @Override
  public TableHeader header() {
    return header;
  }

  @Override
  public Optional<TableRow> next() {
    Optional<Row> row = nextRow();
    while (row.filter(SheetTable::isBlank).isPresent()) {
      row = nextRow();
    }
    return row.map(this::row);
  }

  /** The next row of the sheet. Of two rows with one number nothing could be told apart. */
  private Optional<Row> nextRow() {
    Optional<Row> next = read();
    next.ifPresent(
        row -> {
          if (row.getRowNum() <= rowBefore) {
            throw new BadInputException(
                name
                    + ": row "
                    + row.getRowNum()
                    + " stands after row "
                    + rowBefore
                    + "; open the workbook in a spreadsheet and save it again");
          }
          rowBefore = row.getRowNum();
        });
    return next;
  }

  private Optional<Row> read() {
    try {
      return rows.hasNext() ? Optional.of(rows.next()) : Optional.empty();
    } catch (RuntimeException e) {
      // A damaged sheet shows as whatever the parser trips over first.
      throw damaged(name, e);
    }
  }

  private TableRow row(Row row) {
    BitSet typed = new BitSet();
    List<String> cells = cells(row, typed);
    for (int i = header.columns().size(); i < cells.size(); i++) {
      if (!cells.get(i).isBlank()) {
        return TableRow.broken(
            header,
            row.getRowNum(),
            "the row has something in column " + (i + 1) + ", which the header does not name");
      }
    }
    for (String cell : cells) {
      if (cell.length() > CsvTable.MAX_CELL) {
        return TableRow.broken(
            header,
            row.getRowNum(),
            "a cell of the row is longer than " + CsvTable.MAX_CELL + " characters");
      }
    }
    return TableRow.of(header, row.getRowNum(), cells, typed, Map.of());
  }

  private static boolean isBlank(Row row) {
    return row.stream().allMatch(cell -> cell == null || text(cell).isBlank());
  }

  private static List<String> cells(Row row, BitSet typed) {
    List<String> cells = new ArrayList<>(row.getCellCount());
    for (int i = 0; i < row.getCellCount(); i++) {
      cells.add(row.getOptionalCell(i).map(SheetTable::text).orElse(""));
      if (row.getOptionalCell(i).filter(SheetTable::isTyped).isPresent()) {
        typed.set(i);
      }
    }
    return cells;
  }

  private static boolean isTyped(org.dhatim.fastexcel.reader.Cell cell) {
    return cell.getValue() instanceof BigDecimal || cell.getValue() instanceof Boolean;
  }

  private static String text(org.dhatim.fastexcel.reader.Cell cell) {
    Object value = cell.getValue();
    if (value instanceof BigDecimal number) {
      return day(cell, number).map(LocalDate::toString).orElseGet(() -> number(number));
    }
    if (value instanceof Boolean truth) {
      return truth ? "yes" : "no";
    }
    if (cell.getType() == CellType.ERROR || !(value instanceof String text)) {
      String raw = cell.getRawValue();
      return raw == null ? "" : raw;
    }
    return text;
  }

  private static String number(BigDecimal number) {
    double value = number.doubleValue();
    return Double.isFinite(value) ? CsvWriter.plain(value) : number.toString();
  }

  private static Optional<LocalDate> day(org.dhatim.fastexcel.reader.Cell cell, BigDecimal number) {
    if (!isDate(cell) || number.signum() < 0) {
      return Optional.empty();
    }
    try {
      return Optional.of(cell.asDate().toLocalDate());
    } catch (ExcelReaderException | DateTimeException | ArithmeticException e) {
      return Optional.empty();
    }
  }

  /** Whether the format of a number shows a day or a year. */
  private static boolean isDate(org.dhatim.fastexcel.reader.Cell cell) {
    String format = cell.getDataFormatString();
    if (format != null) {
      return DAY_OR_YEAR.matcher(LITERALS.matcher(format).replaceAll("")).find();
    }
    Integer id = cell.getDataFormatId();
    return id != null
        && ((id >= 14 && id <= 17) || id == 22 || (id >= 27 && id <= 36) || (id >= 50 && id <= 58));
  }

  @Override
  public void close() {
    stream.close();
    try {
      workbook.close();
    } catch (IOException e) {
      throw damaged(name, e);
    }
  }
}
