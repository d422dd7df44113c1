package org.vaneward.life;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * The texts of a column, one for each row, put together when somebody first asks: of the two dozen
 * columns of a table with millions of rows most work needs three.
 */
final class TextColumn {
  private static final int MOST_KNOWN = 100_000;

  private Optional<Supplier<String[]>> making;
  private String[] values = {};

  private TextColumn(Optional<Supplier<String[]>> making) {
    this.making = making;
  }

  /** Texts that are there; the array is kept. */
  static TextColumn of(String[] values) {
    TextColumn column = new TextColumn(Optional.empty());
    column.values = values;
    return column;
  }

  /** Texts that {@code making} puts together, once. */
  static TextColumn of(Supplier<String[]> making) {
    return new TextColumn(Optional.of(making));
  }

  /** The texts; not to be changed. */
  synchronized String[] values() {
    if (making.isPresent()) {
      values = making.get().get();
      making = Optional.empty();
    }
    return values;
  }

  /** The texts of some rows. */
  TextColumn select(int[] rows) {
    return of(
        () -> {
          String[] all = values();
          String[] chosen = new String[rows.length];
          for (int i = 0; i < chosen.length; i++) {
            chosen[i] = all[rows[i]];
          }
          return chosen;
        });
  }

  /** One object for each distinct text, as long as there are not too many of them. */
  static final class Known {
    private final Map<String, String> texts = new HashMap<>();

    String text(String text) {
      String before = texts.get(text);
      if (before != null) {
        return before;
      }
      if (texts.size() < MOST_KNOWN) {
        texts.put(text, text);
      }
      return text;
    }
  }
}
