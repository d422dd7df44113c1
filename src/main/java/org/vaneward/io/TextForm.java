package org.vaneward.io;

import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.vaneward.io.TextReader.Encoding;

/**
 * How a table is laid out where it is not laid out as this program's own.
 *
 * @param charset encoding of the text; empty for UTF-8
 * @param separator what stands between cells; empty for what the header shows
 * @param headerLine line of the file, or row of the sheet, that names the columns; the first is 1
 * @param foreign whether the header is somebody else's: a column without a name, or with one that
 *     stood before, is then called {@code #} and its number, and every column may be called so
 */
public record TextForm(
    Optional<Charset> charset, Optional<Character> separator, int headerLine, boolean foreign) {
  /** Prefix of the number by which a column of a foreign header may be called. */
  public static final String NUMBER = "#";

  /**
   * As given.
   *
   * @throws IllegalArgumentException when {@code headerLine} is below 1
   */
  public TextForm {
    if (headerLine < 1) {
      throw new IllegalArgumentException("the first line is 1, not " + headerLine);
    }
  }

  /** A table of this program's own. */
  public static TextForm plain() {
    return new TextForm(Optional.empty(), Optional.empty(), 1, false);
  }

  Encoding encoding() {
    if (!foreign) {
      return Encoding.utf8();
    }
    String remedy =
        charset.isPresent()
            ? "name its encoding under mapping in fleet.json"
            : "save the file as UTF-8, or name its encoding under mapping in fleet.json";
    return charset
        .map(stated -> new Encoding(stated, remedy))
        .orElseGet(() -> new Encoding(Encoding.utf8().charset(), remedy));
  }

  /** The names of a header, as its columns are called. */
  List<String> named(List<String> header) {
    if (!foreign) {
      return header;
    }
    int last = header.size();
    while (last > 0 && header.get(last - 1).isBlank()) {
      last--;
    }
    Set<String> seen = new HashSet<>();
    List<String> names = new ArrayList<>(header);
    for (int i = 0; i < last; i++) {
      String name = header.get(i).replaceAll("\\s+", " ").strip();
      names.set(i, !name.isEmpty() && seen.add(name) ? name : NUMBER + (i + 1));
    }
    return names;
  }
}
