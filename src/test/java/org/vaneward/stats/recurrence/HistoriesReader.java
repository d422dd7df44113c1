package org.vaneward.stats.recurrence;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.vaneward.stats.Reference;

/** Histories from reference rows: unit, age, event, with event 0 where observation ends. */
public final class HistoriesReader {
  private HistoriesReader() {}

  public static EventHistories of(Reference.Case c) {
    return of(c.rows());
  }

  public static EventHistories of(List<Map<String, String>> rows) {
    Map<String, List<Double>> events = new LinkedHashMap<>();
    Map<String, Double> ends = new LinkedHashMap<>();
    for (Map<String, String> row : rows) {
      String unit = cell(row, "unit");
      double age = Double.parseDouble(cell(row, "age"));
      List<Double> own = events.computeIfAbsent(unit, u -> new ArrayList<>());
      if (cell(row, "event").equals("1")) {
        own.add(age);
      } else {
        ends.put(unit, age);
      }
    }
    EventHistories.Builder builder = EventHistories.builder();
    events.forEach(
        (unit, ages) ->
            builder.addUnit(
                unit,
                0,
                ages.stream().mapToDouble(Double::doubleValue).toArray(),
                Objects.requireNonNull(ends.get(unit), unit)));
    return builder.build();
  }

  /** Histories by the case's group column. */
  public static Map<String, EventHistories> groups(Reference.Case c) {
    String column = c.node().get("group_column").asText();
    Map<String, List<Map<String, String>>> split = new LinkedHashMap<>();
    for (Map<String, String> row : c.rows()) {
      split.computeIfAbsent(cell(row, column), g -> new ArrayList<>()).add(row);
    }
    Map<String, EventHistories> groups = new LinkedHashMap<>();
    split.forEach((name, rows) -> groups.put(name, of(rows)));
    return groups;
  }

  public static double[] numbers(JsonNode array) {
    double[] numbers = new double[array.size()];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = array.get(i).asDouble();
    }
    return numbers;
  }

  private static String cell(Map<String, String> row, String column) {
    return Objects.requireNonNull(row.get(column), column);
  }
}
