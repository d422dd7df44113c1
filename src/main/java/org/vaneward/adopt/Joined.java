package org.vaneward.adopt;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.vaneward.io.Cell;

/**
 * Columns of an export whose cells stand for one column of the record format together.
 *
 * @param column of the record format
 * @param from the export's columns, in the order in which their cells are put together
 * @param days those of them that hold days
 * @param because what speaks for it
 * @param words what their cells mean together, where the column holds some words only
 */
record Joined(
    String column,
    List<ColumnProfile> from,
    List<ColumnProfile> days,
    String because,
    Map<String, String> words) {
  private static final double MOSTLY = 0.8;

  /** A column of parts or of sides has no more different texts than this. */
  private static final int MOST_TEXTS = 60;

  /** Their headers. */
  List<String> headers() {
    return from.stream().map(ColumnProfile::name).toList();
  }

  /** As people read it. */
  String shown() {
    return String.join(" and ", from.stream().map(profile -> Cell.quoted(profile.name())).toList());
  }

  /** Pump and day, which tell an opening that has no number: in one order in all tables. */
  static Joined opening(TableMatch told) {
    ColumnProfile day = told.from("date").orElseThrow();
    return new Joined(
        "rebuild",
        List.of(told.from("pump").orElseThrow(), day),
        List.of(day),
        "pump and day tell the opening together",
        Map.of());
  }

  /** Finds the two columns that tell a position together: a part, and the side it is on. */
  record Sides(Vocabulary vocabulary, Places places) {
    /**
     * The two.
     *
     * @param taken headers that something else is read from
     */
    Optional<Joined> find(Export export, Set<String> taken) {
      List<ColumnProfile> free =
          export.columns().stream()
              .filter(column -> !taken.contains(column.name()))
              .filter(column -> column.typed().isEmpty() && !column.texts().isEmpty())
              .filter(column -> column.different() <= MOST_TEXTS)
              .filter(this::namesPlaces)
              .toList();
      return free.stream()
          .flatMap(
              part ->
                  free.stream()
                      .filter(side -> side != part)
                      .flatMap(side -> joined(part, side, export).stream()))
          .max(Comparator.comparingInt(joined -> joined.words().size()));
    }

    /** Whether its cells name places of a pump, each as far as it goes. */
    private boolean namesPlaces(ColumnProfile column) {
      return column.share(
              text ->
                  vocabulary.isUnknown(text)
                      || !vocabulary.placed(Tokens.of(text)).places().isEmpty(),
              text -> false)
          >= MOSTLY;
    }

    private Optional<Joined> joined(ColumnProfile part, ColumnProfile side, Export export) {
      boolean partFirst = export.columns().indexOf(part) < export.columns().indexOf(side);
      Map<String, String> words = new TreeMap<>();
      Set<String> parts = new HashSet<>();
      Set<String> sides = new HashSet<>();
      for (String one : part.texts().keySet()) {
        place(one).ifPresent(position -> put(words, one, position, parts, one));
        for (String other : side.texts().keySet()) {
          String both = partFirst ? one + " " + other : other + " " + one;
          if (!vocabulary.isUnknown(other)) {
            place(both)
                .ifPresent(
                    position -> {
                      put(words, both, position, parts, one);
                      sides.add(other);
                    });
          }
        }
      }
      boolean tells =
          !sides.isEmpty() && share(part, parts) >= MOSTLY && share(side, sides) >= MOSTLY;
      return tells
          ? Optional.of(
              new Joined(
                  "position",
                  partFirst ? List.of(part, side) : List.of(side, part),
                  List.of(),
                  "together they name positions of the pump",
                  words))
          : Optional.empty();
    }

    private static void put(
        Map<String, String> words, String text, String position, Set<String> parts, String part) {
      words.put(text, position);
      parts.add(part);
    }

    private Optional<String> place(String text) {
      return vocabulary.isUnknown(text) ? Optional.empty() : places.position(Tokens.of(text));
    }

    private double share(ColumnProfile of, Set<String> told) {
      return of.share(text -> vocabulary.isUnknown(text) || told.contains(text), text -> false);
    }
  }
}
