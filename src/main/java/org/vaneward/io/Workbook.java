package org.vaneward.io;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.dhatim.fastexcel.Position;
import org.dhatim.fastexcel.Worksheet;

/**
 * Writes a workbook in Office Open XML (ECMA-376): days are days and numbers numbers, text is text
 * and never a formula. The same sheets give the same bytes.
 */
public final class Workbook {
  private static final String DAY = "yyyy-mm-dd";
  private static final double NARROWEST = 8;
  private static final double WIDEST = 60;

  /** Entries of the archive bear this time: the archive's own has no zone and says nothing. */
  private static final LocalDateTime ARCHIVED = LocalDate.of(1980, 1, 1).atTime(LocalTime.NOON);

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private final org.dhatim.fastexcel.Workbook book;
  private final LocalDate day;
  private final Set<String> names = new HashSet<>();

  private Workbook(String title, LocalDate day) {
    this.book = new org.dhatim.fastexcel.Workbook(bytes, "Vaneward", "1.0");
    this.day = day;
    book.properties().setTitle(title);
  }

  /**
   * A workbook without sheets.
   *
   * @param day the day it speaks of, which it also bears as the day it was made
   */
  public static Workbook of(String title, LocalDate day) {
    return new Workbook(title, day);
  }

  /** Adds a sheet of sentences, one below the other; the first is its heading. */
  public Workbook notes(String name, List<String> sentences) {
    Worksheet sheet = sheet(name);
    for (int i = 0; i < sentences.size(); i++) {
      sheet.value(i, 0, sentences.get(i));
      if (i == 0) {
        sheet.style(i, 0).bold().set();
      } else {
        sheet.style(i, 0).wrapText(true).verticalAlignment("top").set();
      }
    }
    sheet.width(0, 2 * WIDEST);
    return this;
  }

  /**
   * Adds a table: its name is the sheet's, its columns are named as in the CSV but for underscores,
   * which become spaces.
   */
  public Workbook table(Listing listing) {
    Worksheet sheet = sheet(listing.name());
    Cells cells = new Cells(sheet, listing.columns());
    listing.rows().accept(cells);
    cells.finish();
    sheet.freezePane(1, 1);
    sheet.repeatRows(0);
    return this;
  }

  private Worksheet sheet(String name) {
    if (!names.add(name.toLowerCase(Locale.ROOT))) {
      throw new IllegalArgumentException("two sheets are called " + name);
    }
    Worksheet sheet = book.newWorksheet(name);
    sheet.pageOrientation("landscape");
    sheet.paperSize(org.dhatim.fastexcel.PaperSize.A4_PAPER);
    sheet.fitToWidth((short) 1);
    sheet.fitToHeight((short) 0);
    sheet.footer("&P / &N", Position.RIGHT);
    return sheet;
  }

  /** The workbook's bytes; nothing may be added afterwards. */
  public byte[] bytes() {
    try {
      book.finish();
      return repeatable(bytes.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException("a workbook cannot be written in memory", e);
    }
  }

  /** The same archive without the moment it was made. */
  private byte[] repeatable(byte[] archive) throws IOException {
    // Its entries state their lengths only in the directory at its end, which takes a file to read.
    Path file = Files.createTempFile("workbook", ".xlsx");
    try {
      Files.write(file, archive);
      ByteArrayOutputStream out = new ByteArrayOutputStream(archive.length);
      try (ZipFile in = new ZipFile(file.toFile());
          ZipOutputStream zip = new ZipOutputStream(out)) {
        for (ZipEntry entry : Collections.list(in.entries())) {
          copy(in, entry, zip);
        }
      }
      return out.toByteArray();
    } finally {
      Files.delete(file);
    }
  }

  private void copy(ZipFile in, ZipEntry entry, ZipOutputStream zip) throws IOException {
    ZipEntry copy = new ZipEntry(entry.getName());
    copy.setTimeLocal(ARCHIVED);
    zip.putNextEntry(copy);
    try (InputStream content = in.getInputStream(entry)) {
      byte[] all = content.readAllBytes();
      zip.write(entry.getName().equals("docProps/core.xml") ? dated(all) : all);
    }
    zip.closeEntry();
  }

  private byte[] dated(byte[] properties) {
    return new String(properties, StandardCharsets.UTF_8)
        .replaceAll("(<dcterms:created[^>]*>)[^<]*", "$1" + day + "T00:00:00Z")
        .getBytes(StandardCharsets.UTF_8);
  }

  /** One table of a sheet. */
  private static final class Cells implements TableWriter {
    private final Worksheet sheet;
    private final double[] widths;
    private int row = 1;
    private int column;

    Cells(Worksheet sheet, List<String> header) {
      this.sheet = sheet;
      this.widths = new double[header.size()];
      for (int c = 0; c < widths.length; c++) {
        String heading = heading(header.get(c));
        sheet.value(0, c, heading);
        sheet.style(0, c).bold().wrapText(true).verticalAlignment("top").set();
        widths[c] = Math.max(NARROWEST, Math.min(heading.length() + 1.0, 14));
      }
    }

    private static String heading(String name) {
      String words = name.replace('_', ' ');
      return words.isEmpty()
          ? words
          : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    @Override
    public TableWriter cell(String value) {
      if (!value.isEmpty()) {
        sheet.value(row, column, value);
        if (value.length() > WIDEST) {
          sheet.style(row, column).wrapText(true).verticalAlignment("top").set();
        }
      }
      return next(value.length());
    }

    @Override
    public TableWriter cell(double value) {
      sheet.value(row, column, finite(value));
      return next(12);
    }

    @Override
    public TableWriter cell(long value) {
      sheet.value(row, column, value);
      sheet.style(row, column).format("#,##0").set();
      return next(Long.toString(value).length() + 2);
    }

    @Override
    public TableWriter cell(LocalDate value) {
      sheet.value(row, column, value);
      sheet.style(row, column).format(DAY).set();
      return next(DAY.length());
    }

    @Override
    public TableWriter rounded(double value, int decimals) {
      BigDecimal exact = new BigDecimal(finite(value)).setScale(decimals, RoundingMode.HALF_EVEN);
      sheet.value(row, column, exact.doubleValue());
      String fraction = decimals == 0 ? "" : "." + "0".repeat(decimals);
      sheet.style(row, column).format("#,##0" + fraction).set();
      return next(exact.toPlainString().length() + 2);
    }

    private static double finite(double value) {
      if (!Double.isFinite(value)) {
        throw new IllegalArgumentException("a number cell is finite, not " + value);
      }
      return value;
    }

    @Override
    public TableWriter empty() {
      return next(0);
    }

    private TableWriter next(int width) {
      if (column == widths.length) {
        throw new IllegalStateException("a row has more cells than the header's " + widths.length);
      }
      widths[column] = Math.max(widths[column], Math.min(width + 1.0, WIDEST));
      column++;
      return this;
    }

    @Override
    public TableWriter endRow() {
      if (column != widths.length) {
        throw new IllegalStateException(
            "a row has " + column + " cells where the header has " + widths.length);
      }
      column = 0;
      row++;
      return this;
    }

    void finish() {
      for (int c = 0; c < widths.length; c++) {
        sheet.width(c, widths[c]);
      }
      if (row > 1) {
        sheet.setAutoFilter(0, 0, row - 1, widths.length - 1);
      }
    }
  }
}
