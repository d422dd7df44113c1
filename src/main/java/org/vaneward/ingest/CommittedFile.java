package org.vaneward.ingest;

import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.fleet.Commitment;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.CsvTable;
import org.vaneward.io.TableRow;

/**
 * Rebuilds promised before: a CSV file with the columns {@code pump}, {@code week} (ISO 8601, such
 * as {@code 2026-W36}) or {@code date}, and {@code note} where there is one. A calendar written by
 * this program is such a file.
 */
public final class CommittedFile {
  private static final String PUMP = "pump";
  private static final String WEEK = "week";
  private static final String DATE = "date";
  private static final String NOTE = "note";

  private final String name;
  private final LocalDate asOf;
  private final Set<String> inService;
  private final Map<String, Long> seen = new HashMap<>();

  private CommittedFile(String name, LocalDate asOf, Set<String> inService) {
    this.name = name;
    this.asOf = asOf;
    this.inService = inService;
  }

  /**
   * The commitments in {@code file}, in its order.
   *
   * @param asOf the day of record; nothing can be committed before it
   * @param inService asset tags of the pumps in service
   * @throws BadInputException when a row names no such pump, one twice, or no week to come
   */
  public static List<Commitment> read(Path file, LocalDate asOf, Set<String> inService) {
    CommittedFile reader = new CommittedFile(file.toString(), asOf, inService);
    List<Commitment> all = new ArrayList<>();
    try (CsvTable table = CsvTable.open(file, file.toString(), List.of(PUMP))) {
      if (!table.header().has(WEEK) && !table.header().has(DATE)) {
        throw new BadInputException(
            file + ": no column 'week' and no column 'date'; the header must name one of them");
      }
      for (Optional<TableRow> row = table.next(); row.isPresent(); row = table.next()) {
        all.add(reader.commitment(row.get()));
      }
    }
    return all;
  }

  private Commitment commitment(TableRow row) {
    row.problem().ifPresent(problem -> refuse(row, problem));
    String pump = pump(row);
    Optional<LocalDate> day = day(row);
    Optional<LocalDate> week = week(row);
    LocalDate monday =
        week.or(() -> day.map(CommittedFile::mondayOf))
            .orElseThrow(
                () -> refusal(row, "no week and no date; write one of them, such as 2026-W36"));
    if (day.isPresent() && !mondayOf(day.get()).equals(monday)) {
      throw refusal(
          row,
          "date "
              + day.get()
              + " is not in week "
              + Cell.quoted(text(row, WEEK))
              + "; make them agree, or leave one of them out");
    }
    LocalDate last = day.orElse(monday.plusDays(6));
    if (last.isBefore(asOf)) {
      throw refusal(
          row,
          (day.isPresent() ? "date " + last : "week " + Cell.quoted(text(row, WEEK)))
              + " is past; the records reach to "
              + asOf
              + ": take out what is done or was missed");
    }
    return new Commitment(
        pump,
        monday,
        day,
        Optional.of(text(row, NOTE).replaceAll("\\s+", " ")).filter(note -> !note.isEmpty()));
  }

  private String pump(TableRow row) {
    String pump = text(row, PUMP);
    if (pump.isEmpty()) {
      throw refusal(row, "no pump; write its tag as in pumps.csv");
    }
    if (!inService.contains(pump)) {
      throw refusal(
          row,
          "pump "
              + Cell.quoted(pump)
              + " is not among the pumps in service on "
              + asOf
              + "; write its tag as in pumps.csv, or take the row out");
    }
    Long before = seen.put(pump, row.line());
    if (before != null) {
      throw refusal(
          row,
          "pump "
              + Cell.quoted(pump)
              + " is already committed in line "
              + before
              + "; only its next rebuild can be, so leave one of the two");
    }
    return pump;
  }

  private Optional<LocalDate> day(TableRow row) {
    String text = text(row, DATE);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(inFourDigits(LocalDate.parse(text)));
    } catch (DateTimeException e) {
      throw refusal(row, "date " + Cell.quoted(text) + " is no day; write it as YYYY-MM-DD", e);
    }
  }

  private Optional<LocalDate> week(TableRow row) {
    String text = text(row, WEEK);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          inFourDigits(LocalDate.parse(text + "-1", DateTimeFormatter.ISO_WEEK_DATE)));
    } catch (DateTimeException e) {
      throw refusal(
          row, "week " + Cell.quoted(text) + " is no ISO 8601 week; write it as 2026-W36", e);
    }
  }

  /** A longer year is no year of a rebuild, and the last of them has weeks that reach beyond it. */
  private static LocalDate inFourDigits(LocalDate day) {
    if (day.getYear() < 0 || day.getYear() > 9999) {
      throw new DateTimeException("the year has more than four digits: " + day);
    }
    return day;
  }

  private static LocalDate mondayOf(LocalDate day) {
    return day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
  }

  /** Without the apostrophe that keeps a spreadsheet from running a cell. */
  private static String text(TableRow row, String column) {
    String text = row.cell(column).strip();
    return text.length() > 1 && text.charAt(0) == '\'' && "=+-@".indexOf(text.charAt(1)) >= 0
        ? text.substring(1)
        : text;
  }

  private void refuse(TableRow row, String why) {
    throw refusal(row, why);
  }

  private BadInputException refusal(TableRow row, String why) {
    return new BadInputException(name + " line " + row.line() + ": " + why);
  }

  private BadInputException refusal(TableRow row, String why, Exception cause) {
    return new BadInputException(name + " line " + row.line() + ": " + why, cause);
  }
}
