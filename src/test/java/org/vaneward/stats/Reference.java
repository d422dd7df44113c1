package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/** The reference figures under {@code reference/}: what its README describes. */
public final class Reference {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private Reference() {}

  /** One case of a file in {@code expected/}. Prints as its name. */
  public record Case(JsonNode node) {
    public String name() {
      return node.get("name").asText();
    }

    public JsonNode expected() {
      return node.get("expected");
    }

    /** The case's lives, those its filter picks. */
    public Observations lives() {
      return observations(rows());
    }

    /** The case's lives by its group column, groups in the order of their names. */
    public Map<String, Observations> groups() {
      String column = node.get("group_column").asText();
      Map<String, List<Map<String, String>>> split = new LinkedHashMap<>();
      for (Map<String, String> row : rows()) {
        split
            .computeIfAbsent(Objects.requireNonNull(row.get(column)), g -> new ArrayList<>())
            .add(row);
      }
      Map<String, Observations> groups = new LinkedHashMap<>();
      split.forEach((name, rows) -> groups.put(name, observations(rows)));
      return groups;
    }

    /** The case's rows, those its filter picks: cell by column name. */
    public List<Map<String, String>> rows() {
      List<Map<String, String>> picked = new ArrayList<>();
      JsonNode filter = node.path("filter");
      for (Map<String, String> row : csv(node.get("data").asText())) {
        boolean keep = true;
        for (Map.Entry<String, JsonNode> rule : filter.properties()) {
          keep &= rule.getValue().asText().equals(row.get(rule.getKey()));
        }
        if (keep) {
          picked.add(row);
        }
      }
      return picked;
    }

    /** Holds a number to the expected one within the case's tolerance; null is infinity. */
    public void holds(String what, JsonNode expected, double got) {
      if (expected.isNull()) {
        assertTrue(Double.isInfinite(got) || got == 0, () -> name() + " " + what + ": " + got);
        return;
      }
      double wanted = expected.asDouble();
      double slack =
          Math.max(
              node.get("absolute_tolerance").asDouble(),
              node.get("tolerance").asDouble() * Math.abs(wanted));
      assertEquals(wanted, got, slack, () -> name() + " " + what);
    }

    @Override
    public String toString() {
      return name();
    }
  }

  /** All cases of {@code expected/topic.json}. */
  public static List<Case> cases(String topic) {
    List<Case> cases = new ArrayList<>();
    for (JsonNode node : json("expected/" + topic + ".json").get("cases")) {
      cases.add(new Case(node));
    }
    return cases;
  }

  /** The published worked example of that id. */
  public static JsonNode example(String id) {
    for (JsonNode node : json("handbook/worked_examples.json").get("cases")) {
      if (node.get("id").asText().equals(id)) {
        return node;
      }
    }
    throw new IllegalArgumentException("no worked example " + id);
  }

  /** Holds a number to a worked example's within its stated tolerance. */
  public static void holds(JsonNode example, String what, double got) {
    assertEquals(
        example.get("expected").get(what).asDouble(),
        got,
        example.get("tolerance").get(what).asDouble(),
        () -> example.get("id").asText() + " " + what);
  }

  /** A file of figures of our own making under {@code reference-own/}, by its path there. */
  public static JsonNode own(String path) {
    return json("../reference-own/" + path);
  }

  private static JsonNode json(String path) {
    try {
      return MAPPER.readTree(text(path));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<Map<String, String>> csv(String path) {
    List<String> lines = text(path).lines().toList();
    String[] header = lines.get(0).split(",", -1);
    List<Map<String, String>> rows = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      String[] cells = line.split(",", -1);
      Map<String, String> row = new HashMap<>();
      for (int i = 0; i < header.length; i++) {
        row.put(header[i], cells[i]);
      }
      rows.add(row);
    }
    return rows;
  }

  /** Rows of the shape lives have, as observations. */
  public static Observations observations(List<Map<String, String>> rows) {
    Observations.Builder builder = Observations.builder();
    for (Map<String, String> row : rows) {
      double entry = number(row, "entry");
      double lower = number(row, "lower");
      double count = number(row, "count");
      if (Objects.requireNonNull(row.get("upper")).isEmpty()) {
        builder.addRightCensored(entry, lower, count);
      } else if (number(row, "upper") == lower) {
        builder.addFailure(entry, lower, count);
      } else {
        builder.add(new Observation.Interval(entry, lower, number(row, "upper"), count));
      }
    }
    return builder.build();
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(Objects.requireNonNull(row.get(column)));
  }

  private static String text(String path) {
    String resource = path.startsWith("../") ? path.substring(2) : "/reference/" + path;
    try (InputStream in = Reference.class.getResourceAsStream(resource)) {
      return new String(Objects.requireNonNull(in, path).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
