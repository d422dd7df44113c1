package org.vaneward.life;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
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

  private final double[] entry;
  private final double[] lower;
  private final double[] upper;
  private final Map<String, String[]> texts = new LinkedHashMap<>();
  private final Map<String, String> columnNames = new HashMap<>();
  private int row;

  private LifeRows(int rows) {
    entry = new double[rows];
    lower = new double[rows];
    upper = new double[rows];
  }

  static LivesTable table(List<Life> lives) {
    LifeRows rows = new LifeRows(lives.stream().mapToInt(life -> life.spans().size()).sum());
    OF_LIFE.keySet().forEach(name -> rows.addColumn(name, name));
    Set<String> further = new HashSet<>();
    for (Life life : lives) {
      further.addAll(life.covariates().keySet());
      life.spans().forEach(span -> further.addAll(span.conditions().keySet()));
    }
    new TreeSet<>(further).forEach(name -> rows.addColumn(name, rows.free(name)));
    lives.forEach(rows::add);
    double[] count = new double[rows.row];
    Arrays.fill(count, 1);
    return new LivesTable(rows.entry, rows.lower, rows.upper, count, rows.texts);
  }

  private void addColumn(String name, String asName) {
    columnNames.put(name, asName);
    String[] blank = new String[lower.length];
    Arrays.fill(blank, "");
    texts.put(asName, blank);
  }

  /** A covariate of the records that bears the name of a column of ours stands beside it. */
  private String free(String name) {
    String free = name;
    while (texts.containsKey(free) || LivesTable.NUMBERS.contains(free)) {
      free = "other_" + free;
    }
    return free;
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
      setTexts(life, span);
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

  private void setTexts(Life life, LifeSpan span) {
    life.covariates().forEach((name, value) -> set(covariateColumn(name), value));
    span.conditions().forEach((name, value) -> set(covariateColumn(name), CsvWriter.plain(value)));
    OF_LIFE.forEach((name, of) -> set(name, of.apply(life)));
    set("product", span.service().map(Service::product).orElse(""));
    set("duty", span.service().map(Service::duty).orElse(""));
  }

  private String covariateColumn(String name) {
    return columnNames.getOrDefault(name, name);
  }

  private void set(String column, String value) {
    String[] values = texts.getOrDefault(column, new String[0]);
    values[row] = value;
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
