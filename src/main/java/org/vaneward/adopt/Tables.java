package org.vaneward.adopt;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.vaneward.ingest.Table;

/** Decides which table of the record format is read from which export. */
final class Tables {
  private static final double NAMED = 1;
  private static final double NAMED_EXACTLY = 3;
  private static final double CLOSE = 0.75;
  private static final double MOSTLY = 0.9;

  private final Vocabulary vocabulary;
  private final TableMatch.Finder finder;
  private final Groups.Finder groups;
  private final Map<Export, Groups> groupsOf = new HashMap<>();
  private final Map<Table, TableMatch> chosen = new EnumMap<>(Table.class);
  private final Map<Table, List<Export>> others = new EnumMap<>(Table.class);

  Tables(Vocabulary vocabulary, TableMatch.Finder finder, Groups.Finder groups) {
    this.vocabulary = vocabulary;
    this.finder = finder;
    this.groups = groups;
  }

  private record Scored(TableMatch match, double score) {}

  /** Looks through all exports. */
  void decide(List<Export> exports) {
    exports.forEach(export -> groupsOf.put(export, groups.find(export)));
    for (Table table : Table.values()) {
      List<Scored> fitting = new ArrayList<>();
      for (Export export : exports) {
        TableMatch match = finder.match(table, export, taken(table, export));
        if (fits(match)) {
          fitting.add(new Scored(match, score(match)));
        }
      }
      fitting.sort(Comparator.comparingDouble(Scored::score).reversed());
      if (!fitting.isEmpty()) {
        Scored best = fitting.get(0);
        chosen.put(table, best.match());
        others.put(
            table,
            fitting.stream()
                .skip(1)
                .filter(other -> other.score() > CLOSE * best.score())
                .map(other -> other.match().export())
                .toList());
      }
    }
    openingsWithoutNumber();
    readingsOfOpenings();
  }

  /** Findings that tell their opening by pump and day belong to openings called likewise. */
  private void openingsWithoutNumber() {
    TableMatch findings = chosen.get(Table.FINDINGS);
    TableMatch rebuilds = chosen.get(Table.REBUILDS);
    if (findings != null && rebuilds != null && findings.joined().containsKey("rebuild")) {
      chosen.put(Table.REBUILDS, rebuilds.with(Joined.opening(rebuilds)));
    }
  }

  /** Where nobody wrote down meter readings, those of the openings are what there is. */
  private void readingsOfOpenings() {
    TableMatch rebuilds = chosen.get(Table.REBUILDS);
    if (rebuilds != null && !chosen.containsKey(Table.READINGS) && rebuilds.has("hours")) {
      Map<String, Pick> picks = new HashMap<>(rebuilds.picks());
      picks.keySet().retainAll(Set.of("pump", "date", "hours"));
      chosen.put(
          Table.READINGS,
          new TableMatch(Table.READINGS, rebuilds.export(), picks, Map.of(), Map.of()));
    }
  }

  private Set<String> taken(Table table, Export export) {
    return table == Table.REBUILDS ? groupsOf(export).headers() : Set.of();
  }

  /** The columns of positions in an export. */
  Groups groupsOf(Export export) {
    return groupsOf.getOrDefault(export, new Groups(Map.of(), Map.of()));
  }

  /** What an export that is read as nothing comes nearest to; empty when it is near to nothing. */
  Optional<String> nearest(Export export) {
    return Stream.of(Table.values())
        .map(table -> finder.match(table, export, taken(table, export)))
        .filter(match -> match.picks().size() >= 2)
        .max(Comparator.comparingDouble(this::score))
        .map(Tables::nearest);
  }

  private static String nearest(TableMatch match) {
    List<String> there = new ArrayList<>(match.picks().keySet());
    List<String> missing = new ArrayList<>(match.table().required());
    missing.removeAll(there);
    return "nearest to "
        + match.table().title()
        + ", with "
        + String.join(", ", there)
        + (missing.isEmpty() ? "" : ", but nothing for " + String.join(", ", missing));
  }

  /** What {@code table} is read from; empty when nothing looks like it. */
  Optional<TableMatch> of(Table table) {
    return Optional.ofNullable(chosen.get(table));
  }

  /** Other exports that look like {@code table} as well. */
  List<Export> others(Table table) {
    return others.getOrDefault(table, List.of());
  }

  private boolean fits(TableMatch match) {
    boolean inRows = match.export().key().isPresent();
    return switch (match.table()) {
      case PUMPS -> !inRows && isPumpList(match);
      case SERVICES ->
          !inRows
              && match.has("pump", "product")
              && (match.has("from") || isList(match))
              && !isOfOpenings(match.export());
      case READINGS ->
          !inRows
              && match.has("pump", "date", "hours")
              && !isOfOpenings(match.export())
              && !isPumpList(finder.match(Table.PUMPS, match.export(), Set.of()));
      case REBUILDS -> !inRows && match.has("pump", "date") && isOfOpenings(match.export());
      case FINDINGS -> match.has("position") && (match.has("as_found") || match.has("action"));
    };
  }

  private static boolean isPumpList(TableMatch match) {
    boolean says =
        match.has("site")
            || match.has("model")
            || match.has("commissioned")
            || match.has("hours_per_week");
    return match.has("pump") && says && isList(match);
  }

  /** Whether nearly every pump stands once. */
  private static boolean isList(TableMatch match) {
    return match
        .from("pump")
        .filter(pumps -> pumps.filled() > 0)
        .filter(pumps -> pumps.different() >= MOSTLY * pumps.filled())
        .isPresent();
  }

  /** Whether the rows tell of pumps being opened. */
  private boolean isOfOpenings(Export export) {
    TableMatch match = finder.match(Table.REBUILDS, export, taken(Table.REBUILDS, export));
    return match.has("trigger")
        || match.has("rebuild")
        || match.has("kit")
        || match.has("crew")
        || match.has("end_clearance_mm")
        || !groupsOf(export).isEmpty();
  }

  private double score(TableMatch match) {
    double score = match.picks().size() / 2.0;
    for (String column : match.table().required()) {
      score += match.has(column) ? 1 : 0;
    }
    String title = match.export().title();
    if (title.equals(match.table().title())) {
      return score + NAMED_EXACTLY;
    }
    return score + (vocabulary.names(match.table().title(), title) ? NAMED : 0);
  }
}
