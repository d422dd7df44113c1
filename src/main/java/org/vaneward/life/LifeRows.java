package org.vaneward.life;

import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.vaneward.fleet.Service;
import org.vaneward.io.CsvWriter;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Life.LifeSpan;

/** Lays out lives as the rows of a table. */
final class LifeRows {
  /** The columns every life has, and how to read them off it. */
  private static final Map<String, Function<Life, String>> OF_LIFE = new LinkedHashMap<>();

  static {
    OF_LIFE.put(LivesTable.LIFE, Life::id);
    OF_LIFE.put("component", Life::component);
    OF_LIFE.put("position", Life::position);
    OF_LIFE.put("pump", Life::pump);
    OF_LIFE.put("site", Life::site);
    OF_LIFE.put("product", life -> "");
    OF_LIFE.put("duty", life -> "");
    OF_LIFE.put("fitted_on", life -> life.fittedOn().toString());
    OF_LIFE.put("ended_on", life -> life.endedOn().toString());
    OF_LIFE.put("end", life -> word(life.end()));
    OF_LIFE.put(
        LivesTable.SEEN_GOOD,
        life -> life.seenGood().isPresent() ? CsvWriter.plain(life.seenGood().getAsDouble()) : "");
    OF_LIFE.put("reconditioned", life -> life.reconditioned() ? "yes" : "no");
    OF_LIFE.put("marks", LifeRows::marks);
  }

  private final List<Life> lives;
  private final double[] entry;
  private final double[] lower;
  private final double[] upper;
  private int row;

  private LifeRows(List<Life> lives) {
    this.lives = lives;
    int rows = lives.stream().mapToInt(life -> life.spans().size()).sum();
    entry = new double[rows];
    lower = new double[rows];
    upper = new double[rows];
  }

  static LivesTable table(List<Life> lives) {
    return table(lives, further(lives));
  }

  /** What is known of some of the lives besides what is known of all. */
  static Set<String> further(List<Life> lives) {
    Set<String> further = new TreeSet<>();
    for (Life life : lives) {
      Covariates.each(life.covariates(), (name, value) -> further.add(name));
      life.spans().forEach(span -> further.addAll(span.conditions().keySet()));
    }
    return further;
  }

  /**
   * The table of some lives.
   *
   * @param further the columns that {@link #further} found, of these or more
   */
  static LivesTable table(List<Life> lives, Set<String> further) {
    LifeRows rows = new LifeRows(lives);
    lives.forEach(rows::add);
    double[] count = new double[rows.row];
    Arrays.fill(count, 1);
    return new LivesTable(rows.entry, rows.lower, rows.upper, count, rows.columns(further));
  }

  private Map<String, TextColumn> columns(Set<String> further) {
    Map<String, TextColumn> columns = new LinkedHashMap<>();
    OF_LIFE.forEach((name, of) -> columns.put(name, column(name, (life, span) -> of.apply(life))));
    columns.put("product", column("product", (life, span) -> of(span, Service::product)));
    columns.put("duty", column("duty", (life, span) -> of(span, Service::duty)));
    Further values = new Further(List.copyOf(further));
    for (String name : further) {
      columns.put(free(name, columns.keySet()), TextColumn.of(() -> values.column(name)));
    }
    return columns;
  }

  private static String of(LifeSpan span, Function<Service, String> part) {
    return span.service().map(part).orElse("");
  }

  /** A covariate of the records that bears the name of a column of ours stands beside it. */
  private static String free(String name, Set<String> taken) {
    String free = name;
    while (taken.contains(free) || LivesTable.NUMBERS.contains(free)) {
      free = "other_" + free;
    }
    return free;
  }

  private TextColumn column(String name, BiFunction<Life, LifeSpan, String> text) {
    return TextColumn.of(
        () -> {
          TextColumn.Known known = new TextColumn.Known();
          boolean repeats = !name.equals(LivesTable.LIFE);
          String[] values = new String[lower.length];
          int at = 0;
          for (Life life : lives) {
            for (LifeSpan span : life.spans()) {
              String value = text.apply(life, span);
              values[at++] = repeats ? known.text(value) : value;
            }
          }
          return values;
        });
  }

  /** What else is known of lives: put together for all columns in one pass. */
  private final class Further {
    private final List<String> names;
    private Map<String, String[]> columns = Map.of();

    Further(List<String> names) {
      this.names = names;
    }

    synchronized String[] column(String name) {
      if (columns.isEmpty()) {
        columns = filled();
      }
      return columns.getOrDefault(name, new String[0]);
    }

    private Map<String, String[]> filled() {
      Map<String, String[]> filled = new HashMap<>();
      for (String name : names) {
        String[] blank = new String[lower.length];
        Arrays.fill(blank, "");
        filled.put(name, blank);
      }
      TextColumn.Known known = new TextColumn.Known();
      int at = 0;
      for (Life life : lives) {
        for (LifeSpan span : life.spans()) {
          int here = at++;
          Covariates.each(
              life.covariates(), (name, value) -> set(filled, name, here, known.text(value)));
          span.conditions()
              .forEach(
                  (name, value) -> set(filled, name, here, known.text(CsvWriter.plain(value))));
        }
      }
      return filled;
    }

    private static void set(Map<String, String[]> columns, String name, int row, String value) {
      String[] values = columns.getOrDefault(name, new String[0]);
      values[row] = value;
    }
  }

  private void add(Life life) {
    int last = life.spans().size() - 1;
    for (int s = 0; s <= last; s++) {
      LifeSpan span = life.spans().get(s);
      entry[row] = span.fromAge();
      lower[row] = span.toAge();
      upper[row] = Double.POSITIVE_INFINITY;
      if (s == last) {
        setEnd(life.end(), span);
      }
      row++;
    }
  }

  private void setEnd(LifeEnd end, LifeSpan span) {
    if (end instanceof LifeEnd.Failed failed) {
      upper[row] = failed.age();
    } else if (end instanceof LifeEnd.FoundFailed found) {
      lower[row] = Math.max(found.lastGoodAge(), span.fromAge());
      upper[row] = found.age();
    }
  }

  private static String word(LifeEnd end) {
    if (end instanceof LifeEnd.Failed) {
      return "failed";
    }
    if (end instanceof LifeEnd.FoundFailed) {
      return "found-failed";
    }
    if (end instanceof LifeEnd.RemovedWorking) {
      return "removed";
    }
    if (end instanceof LifeEnd.StillRunning) {
      return "running";
    }
    return end instanceof LifeEnd.Retired ? "retired" : "lost-sight";
  }

  private static String marks(Life life) {
    return life.marks().stream()
        .map(mark -> mark.name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .collect(Collectors.joining(" "));
  }
}
