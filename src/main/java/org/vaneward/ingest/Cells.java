package org.vaneward.ingest;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Iterator;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.vaneward.fleet.Effect;
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
  private static final LocalDate FIRST_DAY = LocalDate.of(1900, 1, 1);
  private static final String UNKNOWN = "; the cell is taken as unknown";

  private final Columns columns;
  private final TableForm form;
  private final TableRow row;
  private final RowRef ref;
  private final Ledger ledger;
  private final Map<String, String> fixed;
  private boolean refused;

  /**
   * The cells of {@code row}.
   *
   * @param fixed text of columns that something else than the row tells, by column
   */
  Cells(Columns columns, TableRow row, RowRef ref, Ledger ledger, Map<String, String> fixed) {
    this.columns = columns;
    this.form = columns.form();
    this.row = row;
    this.ref = ref;
    this.ledger = ledger;
    this.fixed = fixed;
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
    ledger.setAside(ref, columns.written(column), reason, columns.table().lost());
  }

  /** Notes an assumption the row is used under, and what it changes. */
  void repair(String column, String assumption, Effect effect) {
    ledger.repair(ref, columns.written(column), assumption, effect);
  }

  /** Notes that the row is read as something it is not written as, which changes nothing else. */
  void readAs(String column, String assumption) {
    repair(column, assumption, Effect.NOTHING);
  }

  private String raw(String column) {
    String given = fixed.get(column);
    return given == null ? columns.text(row, column) : given;
  }

  /** Whether the table has such a column at all. */
  boolean hasColumn(String column) {
    return fixed.containsKey(column) || columns.has(column);
  }

  /** Text of a cell without white space around it; empty text when blank. */
  private String stripped(String column) {
    String raw = raw(column);
    String text = raw.strip();
    if (text.length() != raw.length() && !text.isEmpty()) {
      readAs(
          column,
          columns.written(column) + " " + Cell.quoted(text) + ": white space around it left out");
    }
    return text;
  }

  /** Text that must be there; when it is not, the row is set aside and the text is empty. */
  String requiredText(String column) {
    String text = stripped(column);
    if (text.isEmpty() && !refused) {
      refuse(column, columns.written(column) + " is blank; every row needs it");
    }
    return text;
  }

  /** Text that may be blank. */
  Optional<String> text(String column) {
    String text = stripped(column);
    return text.isEmpty() ? Optional.empty() : columns.kept(text);
  }

  /** Text exactly as written, unless blank. */
  Optional<String> verbatim(String column) {
    String text = raw(column);
    return text.isBlank() ? Optional.empty() : Optional.of(text);
  }

  /** Text that must be there, in the spelling most rows of the file use. */
  String requiredSpelling(String column, Spellings spellings) {
    String raw = raw(column);
    if (raw.isBlank()) {
      return requiredText(column);
    }
    String usual = spellings.usual(raw);
    if (!usual.equals(raw)) {
      readAs(
          column,
          columns.written(column) + " " + Cell.quoted(raw) + ": taken as " + Cell.quoted(usual));
    }
    return usual;
  }

  /** Text that may be blank, in the spelling most rows of the file use. */
  Optional<String> spelling(String column, Spellings spellings) {
    return raw(column).isBlank()
        ? Optional.empty()
        : columns.kept(requiredSpelling(column, spellings));
  }

  /** A number that must be there and within {@code range}. */
  OptionalDouble requiredNumber(String column, Range range) {
    String text = requiredText(column);
    return text.isEmpty() ? OptionalDouble.empty() : number(column, text, range, true);
  }

  /** A number within {@code range}, or unknown. */
  OptionalDouble number(String column, Range range) {
    String text = raw(column).strip();
    return text.isEmpty() ? OptionalDouble.empty() : number(column, text, range, false);
  }

  private OptionalDouble number(String column, String text, Range range, boolean required) {
    boolean typed = columns.isTyped(row, column);
    OptionalDouble known = typed ? OptionalDouble.empty() : columns.knownNumber(column, text);
    if (known.isPresent()) {
      return known;
    }
    Optional<String> plain =
        typed ? Optional.of(text).filter(Numbers::isNumber) : form.numbers().plain(text);
    if (text.length() <= LONGEST_NUMBER && plain.isPresent()) {
      double value = value(plain.get(), unit(column));
      String problem = range.problem(value);
      if (problem.isEmpty()) {
        return typed ? OptionalDouble.of(value) : columns.known(column, text, value);
      }
      complain(column, text, problem, required);
      return OptionalDouble.empty();
    }
    return measured(column, text, range, required);
  }

  /** A number that has its unit beside it. */
  private OptionalDouble measured(String column, String text, Range range, boolean required) {
    Optional<Measure> measure =
        text.length() <= LONGEST_NUMBER ? measure(column, text) : Optional.empty();
    if (measure.isEmpty()) {
      complain(column, text, form.numbers().problem(text), required);
      return OptionalDouble.empty();
    }
    Unit unit = measure.get().unit();
    double value = value(measure.get().number(), Optional.of(unit));
    String problem = range.problem(value);
    if (!problem.isEmpty()) {
      complain(column, text, problem, required);
      return OptionalDouble.empty();
    }
    readAs(
        column,
        columns.written(column)
            + " "
            + Cell.quoted(text)
            + ": taken as "
            + Where.hours(value)
            + " "
            + unit.quantity().usual().word());
    return OptionalDouble.of(value);
  }

  private static double value(String plain, Optional<Unit> unit) {
    double value = Double.parseDouble(plain);
    return unit.isPresent() && Double.isFinite(value)
        ? unit.get().toUsual(new BigDecimal(plain))
        : value;
  }

  /** What the file calls a column. */
  String written(String column) {
    return columns.written(column);
  }

  /**
   * The unit that numbers of a column are taken to be in.
   *
   * @throws java.util.NoSuchElementException when it is no measurement
   */
  Unit unitTaken(String column) {
    return unit(column).orElseGet(() -> Table.quantity(column).orElseThrow().usual());
  }

  private Optional<Unit> unit(String column) {
    Unit stated = form.units().get(column);
    return stated == null ? Optional.empty() : Optional.of(stated);
  }

  /** A number and the unit that stands with it in the cell. */
  private record Measure(String number, Unit unit) {}

  /** What a cell such as {@code 12 thou} says, in a column that measures something. */
  private Optional<Measure> measure(String column, String text) {
    Optional<Unit.Quantity> quantity = Table.quantity(column);
    if (quantity.isEmpty()) {
      return Optional.empty();
    }
    return NumberForm.withUnit(text)
        .flatMap(
            parts ->
                form.numbers()
                    .plain(parts.number())
                    .flatMap(
                        number ->
                            Unit.ofSymbol(quantity.get(), parts.unit())
                                .map(unit -> new Measure(number, unit))));
  }

  /** A day that must be there and not lie after {@code last}. */
  Optional<LocalDate> requiredDate(String column, LocalDate last) {
    String text = requiredText(column);
    return text.isEmpty() ? Optional.empty() : date(column, text, last, true);
  }

  /** A day not after {@code last}, or unknown. */
  Optional<LocalDate> date(String column, LocalDate last) {
    String text = raw(column).strip();
    return text.isEmpty() ? Optional.empty() : date(column, text, last, false);
  }

  /** Whether there is something in the cell. */
  boolean given(String column) {
    return !raw(column).isBlank();
  }

  private Optional<LocalDate> date(String column, String text, LocalDate last, boolean required) {
    boolean typed = columns.isTyped(row, column);
    Optional<LocalDate> known = typed ? Optional.empty() : columns.knownDay(column, text);
    if (known.isPresent()) {
      return known;
    }
    DateForm dates = typed ? DateForm.ISO : form.dates();
    Set<LocalDate> days = dates.days(text);
    String problem = days.isEmpty() ? dates.problem(text) : problem(days, last);
    if (problem.isEmpty()) {
      Optional<LocalDate> day = days.stream().findFirst();
      return typed ? day : columns.known(column, text, day);
    }
    complain(column, text, problem, required);
    return Optional.empty();
  }

  private static String problem(Set<LocalDate> days, LocalDate last) {
    Iterator<LocalDate> each = days.iterator();
    LocalDate first = each.next();
    return each.hasNext()
        ? "is "
            + first
            + " or "
            + each.next()
            + " by the patterns of mapping in fleet.json; leave one pattern for this column"
        : problem(first, last);
  }

  private static String problem(LocalDate date, LocalDate last) {
    if (date.isAfter(last)) {
      return "lies after " + last + ", the last day the records speak of (as_of in fleet.json)";
    }
    return date.isBefore(FIRST_DAY) ? "lies before 1900; check the year" : "";
  }

  /** A word that must be there. */
  <T> Optional<T> requiredWord(String column, Words<T> words) {
    String raw = raw(column);
    return raw.isBlank() && requiredText(column).isEmpty()
        ? Optional.empty()
        : word(column, raw, words, true);
  }

  /** A word, or none. */
  <T> Optional<T> word(String column, Words<T> words) {
    String raw = raw(column);
    return raw.isBlank() ? Optional.empty() : word(column, raw, words, false);
  }

  /** A word, or none; anything else sets the row aside, for it may change what the row means. */
  <T> Optional<T> decisiveWord(String column, Words<T> words) {
    String raw = raw(column);
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
      readAs(column, columns.written(column) + " " + Cell.quoted(raw) + ": read as " + normalised);
    } else {
      complain(column, raw, "not one of " + words.listed(), required);
    }
    return value;
  }

  private void complain(String column, String text, String problem, boolean required) {
    String what = columns.written(column) + " " + Cell.quoted(text) + ": " + problem;
    if (required) {
      refuse(column, what);
    } else {
      repair(column, what + UNKNOWN, columns.table().unknown(column));
    }
  }

  /** Columns the contract does not name, as written. */
  Map<String, String> covariates() {
    return columns.covariates(row);
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
