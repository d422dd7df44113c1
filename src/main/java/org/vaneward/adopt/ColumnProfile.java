package org.vaneward.adopt;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** What stands in one column of an export. */
final class ColumnProfile {
  /** Different texts kept of a column: every day of half a century. */
  private static final int MOST_KEPT = 20_000;

  private static final int FIRST_KEPT = 3_000;

  private static final int TRIED = 400;

  private final Header header;
  private final String name;
  private final Map<String, Integer> texts = new LinkedHashMap<>();
  private final Map<String, Integer> typed = new LinkedHashMap<>();
  private final List<String> first = new ArrayList<>();
  private long filled;

  /**
   * A column.
   *
   * @param name what it is called in a mapping
   */
  ColumnProfile(String name) {
    this.name = name;
    this.header = Header.of(name);
  }

  /** Takes in a cell. */
  void add(String cell, boolean isTyped) {
    String text = cell.strip();
    if (first.size() < FIRST_KEPT) {
      first.add(text);
    }
    if (text.isEmpty()) {
      return;
    }
    filled++;
    addTo(isTyped ? typed : texts, text, 1);
  }

  /** Takes in what stands in another column of the same name. */
  void addAll(ColumnProfile other) {
    filled += other.filled;
    other.texts.forEach((text, count) -> addTo(texts, text, count));
    other.typed.forEach((text, count) -> addTo(typed, text, count));
    other.first.stream().limit(FIRST_KEPT - (long) first.size()).forEach(first::add);
  }

  private static void addTo(Map<String, Integer> counts, String text, int count) {
    if (counts.size() < MOST_KEPT || counts.containsKey(text)) {
      counts.merge(text, count, Integer::sum);
    }
  }

  /** How many cells counts of texts come to. */
  static long sum(Map<String, Integer> counts) {
    return counts.values().stream().mapToLong(Integer::longValue).sum();
  }

  /** What the column is called in a mapping. */
  String name() {
    return name;
  }

  Header header() {
    return header;
  }

  /** Cells that are not blank. */
  long filled() {
    return filled;
  }

  /** Texts with how often each stands, numbers and days of a workbook or of JSON left out. */
  Map<String, Integer> texts() {
    return Collections.unmodifiableMap(texts);
  }

  /** Numbers, days and truth values that the file holds as such. */
  Map<String, Integer> typed() {
    return Collections.unmodifiableMap(typed);
  }

  /** The first cells in the order of the file, blank ones among them. */
  List<String> first() {
    return Collections.unmodifiableList(first);
  }

  /** How many different cells there are, as far as they are kept. */
  long different() {
    return texts.size() + (long) typed.size();
  }

  /** Share of the first different cells for which {@code test} holds, blank ones left out. */
  double share(Predicate<String> test, Predicate<String> ofTyped) {
    long all = 0;
    long held = 0;
    int tried = 0;
    for (Map.Entry<String, Integer> text : texts.entrySet()) {
      if (tried++ == TRIED) {
        break;
      }
      all += text.getValue();
      held += test.test(text.getKey()) ? text.getValue() : 0;
    }
    for (Map.Entry<String, Integer> value : typed.entrySet()) {
      if (tried++ == 2 * TRIED) {
        break;
      }
      all += value.getValue();
      held += ofTyped.test(value.getKey()) ? value.getValue() : 0;
    }
    return all == 0 ? 0 : (double) held / all;
  }
}
