package org.vaneward.ingest;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.vaneward.fleet.RowRef;
import org.vaneward.io.Cell;
import org.vaneward.io.Numbers;
import org.vaneward.io.TableRow;

/**
 * The cells of one row by type. A required cell that will not do sets the row aside; an optional
 * one is taken as unknown, which is a repair. Either is noted with the value and what would be
 * right.
 */
final class Cells {
  private static final int LONGEST_NUMBER = 40;
  private static final Pattern DATE = Pattern.compile("\\d{4}-\\d{2}-\\d{2}");
  private static final LocalDate FIRST_DAY = LocalDate.of(1900, 1, 1);
  private static final String UNKNOWN = "; the cell is taken as unknown";

  private final Table table;
  private final TableRow row;
  private final RowRef ref;
  private final Ledger ledger;
  private boolean refused;

  Cells(Table table, TableRow row, RowRef ref, Ledger ledger) {
    this.table = table;
    this.row = row;
    this.ref = ref;
    this.ledger = ledger;
    row.problem().ifPresent(problem -> refuse("", problem));
  }

  RowRef ref() {
    return ref;
  }

  /** Whether the row is set aside. */
  boolean refused() {
    return refused;
  }

  /** Sets the row aside. */
  void refuse(String column, String reason) {
    refused = true;
    ledger.setAside(ref, column, reason);
  }

  /** Notes an assumption the row is used under. */
  void repair(String column, String assumption) {
    ledger.repair(ref, column, assumption);
  }

  /** Text of a cell without white space around it; empty text when blank. */
  private String stripped(String column) {
    String raw = row.cell(column);
    String text = raw.strip();
    if (text.length() != raw.length() && !text.isEmpty()) {
      repair(column, column + " " + Cell.quoted(text) + ": white space around it left out");
    }
    return text;
  }

  /** Text that must be there; when it is not, the row is set aside and the text is empty. */
  String requiredText(String column) {
    String text = stripped(column);
    if (text.isEmpty() && !refused) {
      refuse(column, column + " is blank; every row needs it");
    }
    return text;
  }

  /** Text that may be blank. */
  Optional<String> text(String column) {
    String text = stripped(column);
    return text.isEmpty() ? Optional.empty() : Optional.of(text);
  }

  /** Text exactly as written, unless blank. */
  Optional<String> verbatim(String column) {
    String text = row.cell(column);
    return text.isBlank() ? Optional.empty() : Optional.of(text);
  }

  /** Text that must be there, in the spelling most rows of the file use. */
  String requiredSpelling(String column, Spellings spellings) {
    String raw = row.cell(column);
    if (raw.isBlank()) {
      return requiredText(column);
    }
    String usual = spellings.usual(raw);
    if (!usual.equals(raw)) {
      repair(column, column + " " + Cell.quoted(raw) + ": taken as " + Cell.quoted(usual));
    }
    return usual;
  }

  /** Text that may be blank, in the spelling most rows of the file use. */
  Optional<String> spelling(String column, Spellings spellings) {
    return row.cell(column).isBlank()
        ? Optional.empty()
        : Optional.of(requiredSpelling(column, spellings));
  }

  /** A number that must be there and within {@code range}. */
  OptionalDouble requiredNumber(String column, Range range) {
    String text = requiredText(column);
    return text.isEmpty() ? OptionalDouble.empty() : number(column, text, range, true);
  }

  /** A number within {@code range}, or unknown. */
  OptionalDouble number(String column, Range range) {
    String text = row.cell(column).strip();
    return text.isEmpty() ? OptionalDouble.empty() : number(column, text, range, false);
  }

  private OptionalDouble number(String column, String text, Range range, boolean required) {
    String problem = "";
    double value = Double.NaN;
    if (text.length() > LONGEST_NUMBER || !Numbers.isNumber(text)) {
      problem =
          text.indexOf(',') >= 0
              ? "decimals use a point and thousands no separator, as in 1234.5"
              : "not a number; write it as 1234.5";
    } else {
      value = Double.parseDouble(text);
      problem = range.problem(value);
    }
    if (problem.isEmpty()) {
      return OptionalDouble.of(value);
    }
    complain(column, text, problem, required);
    return OptionalDouble.empty();
  }

  /** A day that must be there and not lie after {@code last}. */
  Optional<LocalDate> requiredDate(String column, LocalDate last) {
    String text = requiredText(column);
    return text.isEmpty() ? Optional.empty() : date(column, text, last, true);
  }

  /** A day not after {@code last}, or unknown. */
  Optional<LocalDate> date(String column, LocalDate last) {
    String text = row.cell(column).strip();
    return text.isEmpty() ? Optional.empty() : date(column, text, last, false);
  }

  /** Whether there is something in the cell. */
  boolean given(String column) {
    return !row.cell(column).isBlank();
  }

  private Optional<LocalDate> date(String column, String text, LocalDate last, boolean required) {
    String problem = "not a date; write it as 2024-03-31";
    if (DATE.matcher(text).matches()) {
      try {
        LocalDate date = LocalDate.parse(text);
        problem = problem(date, last);
        if (problem.isEmpty()) {
          return Optional.of(date);
        }
      } catch (DateTimeException e) {
        problem = "not a day of the calendar; write it as 2024-03-31";
      }
    }
    complain(column, text, problem, required);
    return Optional.empty();
  }

  private static String problem(LocalDate date, LocalDate last) {
    if (date.isAfter(last)) {
      return "lies after " + last + ", the last day the records speak of (as_of in fleet.json)";
    }
    return date.isBefore(FIRST_DAY) ? "lies before 1900; check the year" : "";
  }

  /** A word that must be there. */
  <T> Optional<T> requiredWord(String column, Words<T> words) {
    String raw = row.cell(column);
    return raw.isBlank() && requiredText(column).isEmpty()
        ? Optional.empty()
        : word(column, raw, words, true);
  }

  /** A word, or none. */
  <T> Optional<T> word(String column, Words<T> words) {
    String raw = row.cell(column);
    return raw.isBlank() ? Optional.empty() : word(column, raw, words, false);
  }

  /** A word, or none; anything else sets the row aside, for it may change what the row means. */
  <T> Optional<T> decisiveWord(String column, Words<T> words) {
    String raw = row.cell(column);
    return raw.isBlank() ? Optional.empty() : word(column, raw, words, true);
  }

  private <T> Optional<T> word(String column, String raw, Words<T> words, boolean required) {
    Optional<T> exact = words.exactly(raw);
    if (exact.isPresent()) {
      return exact;
    }
    String normalised = Words.normalised(raw);
    Optional<T> value = words.exactly(normalised);
    if (value.isPresent()) {
      repair(column, column + " " + Cell.quoted(raw) + ": read as " + normalised);
    } else {
      complain(column, raw, "not one of " + words.listed(), required);
    }
    return value;
  }

  private void complain(String column, String text, String problem, boolean required) {
    String what = column + " " + Cell.quoted(text) + ": " + problem;
    if (required) {
      refuse(column, what);
    } else {
      repair(column, what + UNKNOWN);
    }
  }

  /** Columns the contract does not name, as written. */
  Map<String, String> covariates() {
    Map<String, String> covariates = new HashMap<>();
    for (String column : row.header().columns()) {
      if (!table.names(column) && !row.cell(column).isBlank()) {
        covariates.put(column, row.cell(column));
      }
    }
    return covariates;
  }

  /** Which numbers make sense. */
  enum Range {
    ANY(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY),
    NOT_NEGATIVE(0, Double.POSITIVE_INFINITY),
    HOURS_OF_A_WEEK(0, 168);

    private final double least;
    private final double most;

    Range(double least, double most) {
      this.least = least;
      this.most = most;
    }

    String problem(double value) {
      if (!Double.isFinite(value)) {
        return "beyond any number that makes sense here";
      }
      if (value < least) {
        return "cannot be negative";
      }
      return value > most ? "a week has 168 hours" : "";
    }
  }
}
