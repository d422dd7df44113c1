package org.vaneward.adopt;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.vaneward.adopt.Vocabulary.NameMatch;
import org.vaneward.ingest.Table;
import org.vaneward.io.Cell;

/**
 * One table of the record format in one export: which column is read from which.
 *
 * @param table the table
 * @param export the export
 * @param picks by column of the record format
 * @param joined by column of the record format: what is read from several columns together
 * @param refuted by header: what it is called like and what its cells are not
 */
record TableMatch(
    Table table,
    Export export,
    Map<String, Pick> picks,
    Map<String, Joined> joined,
    Map<String, String> refuted) {
  /** A second header this close to the first is told of. */
  private static final double CLOSE = 0.15;

  private static final double VALUES_COUNT = 0.3;
  private static final double REFUTED = 0.5;
  private static final double VALUES_SPEAK = 0.8;
  private static final double BY_VALUES = 0.35;

  /** Whether the table could be read from the export with what is picked. */
  boolean has(String... columns) {
    return Set.of(columns).stream()
        .allMatch(column -> picks.containsKey(column) || joined.containsKey(column));
  }

  /** The same with a column read from several together, whatever it was read from before. */
  TableMatch with(Joined one) {
    Map<String, Pick> fewer = new LinkedHashMap<>(picks);
    fewer.remove(one.column());
    Map<String, Joined> more = new LinkedHashMap<>(joined);
    more.put(one.column(), one);
    return new TableMatch(table, export, fewer, more, refuted);
  }

  /** The export's column that {@code column} is read from. */
  Optional<ColumnProfile> from(String column) {
    return Optional.ofNullable(picks.get(column)).map(Pick::from);
  }

  /** Finds the picks. */
  static final class Finder {
    private final Vocabulary vocabulary;
    private final DayForms days;
    private final Places places;
    private final Map<ColumnProfile, Map<String, Double>> known = new HashMap<>();

    Finder(Vocabulary vocabulary, DayForms days, Places places) {
      this.vocabulary = vocabulary;
      this.days = days;
      this.places = places;
    }

    private record Scored(
        String column, ColumnProfile from, NameMatch name, double values, double score) {}

    /**
     * The columns of {@code table} in {@code export}.
     *
     * @param taken headers that something else is read from
     */
    TableMatch match(Table table, Export export, Set<String> taken) {
      List<Scored> all = new ArrayList<>();
      Map<String, String> refuted = new HashMap<>();
      for (String column : new TreeSet<>(table.columns())) {
        for (ColumnProfile from : export.columns()) {
          if (!taken.contains(from.name())) {
            score(column, from).ifPresent(all::add);
            refuted(column, from).ifPresent(why -> refuted.put(from.name(), why));
          }
        }
      }
      all.sort(Comparator.comparingDouble(Scored::score).reversed());
      Map<String, Scored> chosen = new LinkedHashMap<>();
      Set<String> used = new HashSet<>();
      for (Scored scored : all) {
        if (!chosen.containsKey(scored.column()) && used.add(scored.from().name())) {
          chosen.put(scored.column(), scored);
        }
      }
      Map<String, Pick> picks = new LinkedHashMap<>();
      for (ColumnProfile from : export.columns()) {
        chosen.values().stream()
            .filter(scored -> scored.from().equals(from))
            .forEach(scored -> picks.put(scored.column(), pick(scored, rival(scored, all, used))));
      }
      TableMatch single = new TableMatch(table, export, picks, Map.of(), refuted);
      return table == Table.FINDINGS ? joined(single, used) : single;
    }

    /** What tells position and opening of a finding where no column does so by itself. */
    private TableMatch joined(TableMatch findings, Set<String> used) {
      TableMatch more = findings;
      Export export = findings.export();
      if (!more.has("position")) {
        Optional<Joined> position = new Joined.Sides(vocabulary, places).find(export, used);
        more = position.map(more::with).orElse(more);
      }
      if (more.has("position") && !more.has("rebuild") && export.key().isEmpty()) {
        TableMatch opening = match(Table.REBUILDS, export, used);
        if (opening.has("pump", "date")) {
          more = more.with(Joined.opening(opening));
        }
      }
      return more;
    }

    private Optional<Scored> score(String column, ColumnProfile from) {
      NameMatch name = vocabulary.nameOf(column, from.header());
      double values = values(column, from);
      if (name == NameMatch.OWN) {
        return Optional.of(new Scored(column, from, name, values, 2));
      }
      if (name.weight() > 0) {
        double score = name.weight() + VALUES_COUNT * values;
        return isRefuted(from, values)
            ? Optional.empty()
            : Optional.of(new Scored(column, from, name, values, score));
      }
      return tellsByValues(column) && values >= VALUES_SPEAK
          ? Optional.of(new Scored(column, from, name, values, BY_VALUES * values))
          : Optional.empty();
    }

    private static boolean isRefuted(ColumnProfile from, double values) {
      return from.filled() > 0 && values < REFUTED;
    }

    /** What speaks against a header that is called like the column. */
    private Optional<String> refuted(String column, ColumnProfile from) {
      NameMatch name = vocabulary.nameOf(column, from.header());
      double values = values(column, from);
      boolean is = name == NameMatch.WORDS && isRefuted(from, values);
      return is
          ? Optional.of(
              "called like "
                  + column
                  + ", but "
                  + Kind.of(column)
                      .what()
                      .map(
                          what -> "only " + Math.round(100 * values) + "% of its cells are " + what)
                      .orElse("its cells are days or decimals"))
          : Optional.empty();
    }

    private static boolean tellsByValues(String column) {
      return switch (column) {
        case "trigger", "as_found", "action", "position", "date", "from" -> true;
        default -> false;
      };
    }

    /** Share of the cells that are what the column holds; half where it holds any text. */
    private double values(String column, ColumnProfile from) {
      Kind kind = Kind.of(column);
      String what = kind == Kind.WORDS ? column : kind.name();
      return known
          .computeIfAbsent(from, f -> new HashMap<>())
          .computeIfAbsent(what, w -> found(kind, column, from));
    }

    private double found(Kind kind, String column, ColumnProfile from) {
      return switch (kind) {
        case DAY -> share(from, days::isDay);
        case NUMBER -> share(from, NumberForms::isNumber);
        case WORDS -> share(from, text -> vocabulary.meaning(column, text).isPresent());
        case POSITION -> share(from, text -> places.position(Tokens.of(text)).isPresent());
        case NAME -> isDaysOrDecimals(from) ? 0 : REFUTED;
        case TEXT -> REFUTED;
      };
    }

    private double share(ColumnProfile from, Predicate<String> test) {
      return from.share(text -> vocabulary.isUnknown(text) || test.test(text), test);
    }

    private boolean isDaysOrDecimals(ColumnProfile from) {
      return from.share(
              text -> days.isDay(text) || text.matches("[+-]?\\d+[.,]\\d+"),
              text -> days.isDay(text) || text.contains("."))
          > VALUES_SPEAK;
    }

    private static Optional<Scored> rival(Scored chosen, List<Scored> all, Set<String> used) {
      return all.stream()
          .filter(other -> other.column().equals(chosen.column()))
          .filter(other -> !other.from().equals(chosen.from()))
          .filter(other -> !used.contains(other.from().name()))
          .filter(other -> chosen.name() != NameMatch.OWN)
          .filter(other -> other.score() > chosen.score() - CLOSE)
          .findFirst();
    }

    private static Pick pick(Scored scored, Optional<Scored> rival) {
      StringBuilder because = new StringBuilder(scored.name().because());
      boolean byValues = scored.name() == NameMatch.NONE;
      if (byValues) {
        because.append("its header says nothing of it");
      }
      Optional<String> what = Kind.of(scored.column()).what();
      if (what.isPresent() && scored.from().filled() > 0) {
        because
            .append("; ")
            .append(Math.round(100 * scored.values()))
            .append("% of its cells are ")
            .append(what.get());
      }
      List<String> doubts = new ArrayList<>();
      if (byValues) {
        doubts.add(
            "taken from "
                + Cell.quoted(scored.from().name())
                + " for what stands in it alone; its header says nothing of it");
      }
      if (scored.name() == NameMatch.WITHIN && what.isEmpty()) {
        doubts.add(
            "taken from "
                + Cell.quoted(scored.from().name())
                + " since a word for it stands in that header; what is in the cells cannot tell");
      }
      rival.ifPresent(
          other ->
              doubts.add(
                  "taken from "
                      + Cell.quoted(scored.from().name())
                      + "; "
                      + Cell.quoted(other.from().name())
                      + " would do as well"));
      if (what.isPresent() && scored.from().filled() > 0 && scored.values() < REFUTED) {
        doubts.add(
            "only "
                + Math.round(100 * scored.values())
                + "% of the cells in "
                + Cell.quoted(scored.from().name())
                + " are "
                + what.get());
      }
      return new Pick(
          scored.column(),
          scored.from(),
          because.toString(),
          doubts.isEmpty() ? Optional.empty() : Optional.of(String.join("; ", doubts)));
    }
  }
}
