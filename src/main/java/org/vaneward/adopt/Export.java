package org.vaneward.adopt;

import java.nio.charset.Charset;
import java.util.List;
import java.util.Optional;

/**
 * One table of an export as it was found.
 *
 * @param file its file in the folder
 * @param sheet its sheet, in a workbook
 * @param key the key of the list it stands in, within the rows of {@code file}
 * @param form how it is laid out
 * @param rows number of its rows
 * @param columns what stands in its columns
 */
record Export(
    String file,
    Optional<String> sheet,
    Optional<String> key,
    Form form,
    long rows,
    List<ColumnProfile> columns) {

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
          List.of());

  /** Name for people. */
  String shown() {
    return file
        + sheet.map(name -> " [" + name + "]").orElse(key.map(k -> " [" + k + "]").orElse(""));
  }

  /** Whether what is stated of its layout holds for {@code other}. */
  boolean isLaidOutLike(Export other) {
    return key.isEmpty()
        && other.key.isEmpty()
        && sheet.isPresent() == other.sheet.isPresent()
        && form.headerLine() == other.form.headerLine()
        && form.separator().equals(other.form.separator())
        && (form.charset().equals(other.form.charset()) || other.form.anyCharset());
  }

  /** Name of the file or the sheet alone, which may tell what it holds. */
  String title() {
    return sheet.or(() -> key).orElse(file.replaceFirst("\\.[^.]*(\\.gz)?$", ""));
  }
}
