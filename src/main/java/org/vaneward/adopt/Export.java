package org.vaneward.adopt;

import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * One table of an export as it was found.
 *
 * @param file its file in the folder
 * @param sheet its sheet, in a workbook
 * @param key the key of the list it stands in, within the rows of {@code file}
 * @param form how it is laid out
 * @param rows number of its rows
 * @param columns what stands in its columns, in those of its further parts too
 * @param more further files or sheets with the same columns, laid out alike
 */
record Export(
    String file,
    Optional<String> sheet,
    Optional<String> key,
    Form form,
    long rows,
    List<ColumnProfile> columns,
    List<Export> more) {

  /**
   * How a table is laid out.
   *
   * @param charset encoding, where it has to be stated
   * @param separator what parts its cells; empty in what is no CSV
   * @param anyCharset whether its bytes are the same text in every encoding
   * @param headerLine line that names the columns
   * @param words all this in words
   * @param doubt what is doubtful in it
   */
  record Form(
      Optional<Charset> charset,
      Optional<Character> separator,
      boolean anyCharset,
      int headerLine,
      String words,
      Optional<String> doubt) {}

  /** What stands in no file of its own. */
  static final Export NOWHERE =
      new Export(
          "",
          Optional.empty(),
          Optional.empty(),
          new Form(Optional.empty(), Optional.empty(), true, 1, "", Optional.empty()),
          0,
          List.of(),
          List.of());

  /** Name for people. */
  String shown() {
    return file
        + sheet.map(name -> " [" + name + "]").orElse(key.map(k -> " [" + k + "]").orElse(""));
  }

  /** A table by itself. */
  static Export of(
      String file,
      Optional<String> sheet,
      Optional<String> key,
      Form form,
      long rows,
      List<ColumnProfile> columns) {
    return new Export(file, sheet, key, form, rows, columns, List.of());
  }

  /** The exports with those that have the same columns and layout joined to the first of them. */
  static List<Export> joined(List<Export> exports) {
    List<Export> joined = new ArrayList<>();
    List<Export> left = new ArrayList<>(exports);
    while (!left.isEmpty()) {
      Export first = left.remove(0);
      List<Export> alike = left.stream().filter(first::isLike).toList();
      left.removeAll(alike);
      joined.add(alike.isEmpty() ? first : first.with(alike));
    }
    return joined;
  }

  private Export with(List<Export> others) {
    Map<String, ColumnProfile> merged = new LinkedHashMap<>();
    columns.forEach(column -> merged.put(column.name(), new ColumnProfile(column.name())));
    List<Export> all = new ArrayList<>(others);
    all.add(0, this);
    for (Export part : all) {
      for (ColumnProfile column : part.columns) {
        Optional.ofNullable(merged.get(column.name())).ifPresent(into -> into.addAll(column));
      }
    }
    return new Export(
        file, sheet, key, form, rows, List.copyOf(merged.values()), List.copyOf(others));
  }

  private boolean isLike(Export other) {
    return key.isEmpty()
        && other.key.isEmpty()
        && sheet.isPresent() == other.sheet.isPresent()
        && form.headerLine() == other.form.headerLine()
        && form.separator().equals(other.form.separator())
        && form.charset().equals(other.form.charset())
        && names().equals(other.names());
  }

  private Set<String> names() {
    return columns.stream().map(ColumnProfile::name).collect(Collectors.toSet());
  }

  /** Name of the file or the sheet alone, which may tell what it holds. */
  String title() {
    return sheet.or(() -> key).orElse(file.replaceFirst("\\.[^.]*(\\.gz)?$", ""));
  }
}
