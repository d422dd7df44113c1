package org.vaneward.ingest;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.io.TextForm;

/**
 * How one table is written where it is not written as the record format has it.
 *
 * @param file its file in the folder; empty for the usual one
 * @param sheet its sheet in a workbook; empty for the usual one
 * @param also further files or sheets that hold rows of it, in the same form
 * @param text encoding, separator, where the header stands
 * @param numbers how numbers are written
 * @param dates how days are written
 * @param unknown what stands for unknown, {@linkplain Words#folded folded}
 * @param columns header by column of the record format
 * @param joined headers by column of the record format: those whose cells stand for it together
 * @param words by column: what a word of the file, {@linkplain Words#folded folded}, means
 * @param units unit by column, where it is not that of the record format
 * @param always text by column that holds for every row
 * @param positions by position: header by column of {@code findings}, where a row of rebuilds holds
 *     its findings
 */
record TableForm(
    Optional<String> file,
    Optional<String> sheet,
    List<Part> also,
    TextForm text,
    NumberForm numbers,
    DateForm dates,
    Set<String> unknown,
    Map<String, String> columns,
    Map<String, List<String>> joined,
    Map<String, Map<String, String>> words,
    Map<String, Unit> units,
    Map<String, String> always,
    Map<String, Map<String, String>> positions) {
  /**
   * A further file, or a further sheet.
   *
   * @param file its file; empty for that of the first
   * @param sheet its sheet in a workbook
   */
  record Part(Optional<String> file, Optional<String> sheet) {}

  /** As the record format has it. */
  static final TableForm PLAIN =
      new TableForm(
          Optional.empty(),
          Optional.empty(),
          List.of(),
          TextForm.plain(),
          NumberForm.PLAIN,
          DateForm.ISO,
          Set.of(),
          Map.of(),
          Map.of(),
          Map.of(),
          Map.of(),
          Map.of(),
          Map.of());

  /** The form of what stands in a file of another table: its cells are written as that says. */
  TableForm within(TableForm other) {
    Set<String> both = new HashSet<>(unknown);
    both.addAll(other.unknown);
    return new TableForm(
        other.file,
        other.sheet,
        List.of(),
        other.text,
        other.numbers,
        other.dates,
        both,
        columns,
        joined,
        words,
        units,
        always,
        Map.of());
  }

  /** Whether the mapping says where the column stands. */
  boolean names(String column) {
    return columns.containsKey(column) || joined.containsKey(column);
  }

  /** Headers of the columns in the file that stand for a column, mostly one. */
  List<String> written(String column) {
    return joined.getOrDefault(column, List.of(columns.getOrDefault(column, column)));
  }
}
