package org.vaneward.adopt;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.vaneward.adopt.Vocabulary.NameMatch;
import org.vaneward.ingest.Table;

/**
 * Columns of an export that hold what was found at a position, where a row of rebuilds holds its
 * findings.
 *
 * @param byPosition by position: which column of a finding is read from which column
 * @param whole by position: the column whose cells say both what was found and what was done
 */
record Groups(
    Map<String, Map<String, ColumnProfile>> byPosition, Map<String, ColumnProfile> whole) {
  private static final double TOLD = 0.4;

  /** Whether there are none. */
  boolean isEmpty() {
    return byPosition.isEmpty();
  }

  /** Headers that belong to a position. */
  Set<String> headers() {
    Set<String> headers = new HashSet<>();
    byPosition.values().forEach(own -> own.values().forEach(column -> headers.add(column.name())));
    return headers;
  }

  /** The columns from which {@code column} of a finding is read, those that say both left out. */
  List<ColumnProfile> from(String column) {
    return byPosition.entrySet().stream()
        .filter(group -> !isWhole(group.getKey(), column))
        .flatMap(group -> Optional.ofNullable(group.getValue().get(column)).stream())
        .toList();
  }

  private boolean isWhole(String position, String column) {
    ColumnProfile both = whole.get(position);
    return both != null && both.equals(byPosition.getOrDefault(position, Map.of()).get(column));
  }

  /** Finds them. */
  static final class Finder {
    private final Vocabulary vocabulary;
    private final Places places;

    /** Position that a column of wear without a place belongs to. */
    private final Optional<String> worn;

    Finder(Vocabulary vocabulary, Places places, Optional<String> worn) {
      this.vocabulary = vocabulary;
      this.places = places;
      this.worn = worn;
    }

    Groups find(Export export) {
      Map<String, Map<String, ColumnProfile>> groups = new LinkedHashMap<>();
      Map<String, ColumnProfile> whole = new LinkedHashMap<>();
      for (ColumnProfile column : export.columns()) {
        places.find(column.header().name()).ifPresent(found -> add(found, column, groups, whole));
      }
      whole.forEach(
          (position, column) -> {
            Map<String, ColumnProfile> own = groups.getOrDefault(position, Map.of());
            own.putIfAbsent("as_found", column);
            own.putIfAbsent("action", column);
          });
      whole
          .entrySet()
          .removeIf(
              both -> {
                Map<String, ColumnProfile> own = groups.getOrDefault(both.getKey(), Map.of());
                return !both.getValue().equals(own.get("as_found"))
                    || !both.getValue().equals(own.get("action"));
              });
      if (!groups.isEmpty()) {
        export.columns().forEach(column -> addWear(column, groups));
      }
      groups.values().removeIf(own -> !own.containsKey("as_found") && !own.containsKey("action"));
      return new Groups(groups, whole);
    }

    private void add(
        Places.Found found,
        ColumnProfile column,
        Map<String, Map<String, ColumnProfile>> groups,
        Map<String, ColumnProfile> whole) {
      if (found.left().isEmpty()) {
        if (saysWhatWasFoundOrDone(column)) {
          groups.computeIfAbsent(found.position(), p -> new LinkedHashMap<>());
          whole.putIfAbsent(found.position(), column);
        }
        return;
      }
      part(found.left())
          .ifPresent(
              part ->
                  groups
                      .computeIfAbsent(found.position(), p -> new LinkedHashMap<>())
                      .putIfAbsent(part, column));
    }

    private boolean saysWhatWasFoundOrDone(ColumnProfile column) {
      return column.share(
              text ->
                  vocabulary.isUnknown(text)
                      || vocabulary.meaning("as_found", text).isPresent()
                      || vocabulary.meaning("action", text).isPresent(),
              text -> false)
          >= TOLD;
    }

    /** The column of a finding that the words beside the place name. */
    private Optional<String> part(List<String> left) {
      Header header = Header.of(String.join(" ", left));
      return Table.FINDINGS.columns().stream()
          .filter(column -> !column.equals("rebuild") && !column.equals("position"))
          .filter(column -> vocabulary.nameOf(column, header).weight() >= NameMatch.WORDS.weight())
          .sorted()
          .findFirst();
    }

    private void addWear(ColumnProfile column, Map<String, Map<String, ColumnProfile>> groups) {
      boolean isWear =
          vocabulary.nameOf("measured_mm", column.header()).weight() >= NameMatch.WORDS.weight()
              && column.share(
                      text -> vocabulary.isUnknown(text) || NumberForms.isNumber(text),
                      NumberForms::isNumber)
                  > TOLD;
      worn.filter(position -> isWear)
          .flatMap(position -> Optional.ofNullable(groups.get(position)))
          .ifPresent(own -> own.putIfAbsent("measured_mm", column));
    }
  }
}
