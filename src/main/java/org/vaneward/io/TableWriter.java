package org.vaneward.io;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/** Takes a table cell by cell in the order of its header: a CSV text, or a sheet of a workbook. */
public interface TableWriter {
  /** A text cell: never markup, never a formula. */
  TableWriter cell(String value);

  /**
   * A number with all its digits.
   *
   * @throws IllegalArgumentException when it is not finite: an unknown number is {@link #empty()}
   */
  TableWriter cell(double value);

  /** A whole number. */
  TableWriter cell(long value);

  /** A day. */
  TableWriter cell(LocalDate value);

  /** A number with {@code decimals} digits after the point, rounded half even. */
  TableWriter rounded(double value, int decimals);

  /** A cell that says nothing: unknown. */
  TableWriter empty();

  /**
   * Ends the row.
   *
   * @throws IllegalStateException when cells are missing
   */
  TableWriter endRow();

  /** A text cell, empty when there is none. */
  default TableWriter cell(Optional<String> value) {
    return value.isPresent() ? cell(value.get()) : empty();
  }

  /** A day, empty when there is none. */
  default TableWriter date(Optional<LocalDate> value) {
    return value.isPresent() ? cell(value.get()) : empty();
  }

  /** A number cell as {@link #cell(double)}, empty when there is none. */
  default TableWriter cell(OptionalDouble value) {
    return value.isPresent() ? cell(value.getAsDouble()) : empty();
  }

  /** A whole number, empty when there is none. */
  default TableWriter cell(OptionalInt value) {
    return value.isPresent() ? cell((long) value.getAsInt()) : empty();
  }

  /** A number as {@link #rounded(double, int)}, empty when there is none. */
  default TableWriter rounded(OptionalDouble value, int decimals) {
    return value.isPresent() ? rounded(value.getAsDouble(), decimals) : empty();
  }
}
