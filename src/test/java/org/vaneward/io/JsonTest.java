package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class JsonTest {
  enum Kind {
    LOW_FLOW,
    LEAK
  }

  record Inner(String name, int count) {
    Inner {
      if (count < 0) {
        throw new IllegalArgumentException("count is not negative, not " + count);
      }
    }
  }

  record Doc(
      double wearLimitMm,
      int seed,
      LocalDate asOf,
      Kind kind,
      List<Inner> parts,
      Map<String, Double> byName,
      Optional<String> note,
      OptionalDouble extra,
      OptionalInt months) {}

  record Numbers(
      double z, OptionalDouble y, Double x, List<double[]> a, List<Double> b, boolean yes) {}

  private static final String GOOD =
      """
      {
        "wear_limit_mm": 1.5,
        "seed": 7,
        "as_of": "2026-06-30",
        "kind": "low-flow",
        "parts": [ {
          "name": "a",
          "count": 1
        } ],
        "by_name": {
          "k1": 2.0,
          "k2": 1.0E-5
        },
        "extra": 3.25
      }
      """;

  @Test
  void readsAndWritesBackTheSameText() {
    Doc doc = Json.read("x.json", GOOD, Doc.class);

    assertEquals(1.5, doc.wearLimitMm());
    assertEquals(LocalDate.of(2026, 6, 30), doc.asOf());
    assertEquals(Kind.LOW_FLOW, doc.kind());
    assertEquals(Optional.empty(), doc.note());
    assertEquals(OptionalInt.empty(), doc.months());
    assertEquals(OptionalDouble.of(3.25), doc.extra());
    assertEquals(GOOD, Json.write(doc));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        // what is replaced | by what | what the message must contain
        "\"seed\": 7|\"seed\": 7.5|line 3, column 11: seed:",
        "\"seed\": 7|\"seed\": \"7\"|seed:",
        "\"seed\": 7|\"seed\": null|seed:",
        "\"seed\": 7,|``|seed: missing",
        "\"extra\": 3.25|\"extra\": \"3.25\"|extra:",
        "\"extra\": 3.25|\"extra\": true|extra:",
        "\"seed\": 7|\"seed\": 7, \"seed\": 8|Duplicate field 'seed'",
        "\"seed\": 7|\"seed\": 7, \"sead\": 7|sead: unknown key; the keys here are as_of, by_name,",
        "2026-06-30|2026-13-30|as_of: '2026-13-30' is not a date such as 2024-03-31",
        "\"2026-06-30\"|20260630|as_of:",
        "low-flow|LOW_FLOW|kind: 'LOW_FLOW' is not one of low-flow, leak",
        "\"low-flow\"|0|kind:",
        "\"count\": 1|\"count\": -1|parts[0]: count is not negative, not -1",
        "\"count\": 1|\"count\": 3000000000|parts[0].count:",
        "\"name\": \"a\"|\"name\": 5|parts[0].name:",
        "3.25|NaN|x.json, line",
        "3.25|3.25,|x.json, line",
      })
  void refusesWithOneLine(String part, String replacement, String message) {
    String text = GOOD.replace(part, replacement);
    assertFalse(text.equals(GOOD), part);

    BadInputException e =
        assertThrows(BadInputException.class, () -> Json.read("x.json", text, Doc.class));

    String shown = String.valueOf(e.getMessage());
    assertTrue(shown.contains(message), shown);
    assertTrue(shown.startsWith("x.json"), shown);
    assertFalse(shown.contains("\n") || shown.contains("org.vaneward"), shown);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {"``", "null", "{", "[]", "7", "{} {}"})
  void refusesOtherDocuments(String text) {
    assertThrows(BadInputException.class, () -> Json.read("x.json", text, Doc.class));
  }

  @Test
  void refusesTextAfterTheDocument() {
    assertThrows(BadInputException.class, () -> Json.read("x.json", GOOD + " 1", Doc.class));
  }

  @Test
  void refusesAMissingFile(@TempDir Path folder) {
    Path file = folder.resolve("none.json");
    BadInputException e = assertThrows(BadInputException.class, () -> Json.read(file, Doc.class));
    assertEquals(file + ": cannot be read: no such file", e.getMessage());
  }

  @Test
  void leavesOutNumbersThatAreNotFinite() {
    Numbers numbers =
        new Numbers(
            Double.NaN,
            OptionalDouble.of(Double.POSITIVE_INFINITY),
            Double.NEGATIVE_INFINITY,
            List.of(new double[] {1, Double.NaN}),
            List.of(0.1, Double.NaN),
            true);
    assertEquals(
        "{\"a\":[[1.0,null]],\"b\":[0.1,null],\"yes\":true}",
        Json.write(numbers).replaceAll("\\s", ""));
  }

  @Test
  void fieldsKeepTheirOrderAndLeaveOutWhatIsAbsent() {
    JsonFields inner = new JsonFields().with("z", 1).with("a", new double[] {1, Double.NaN});
    JsonFields fields =
        new JsonFields()
            .with("zebra", "x")
            .with("none", Optional.empty())
            .with("far", Double.POSITIVE_INFINITY)
            .with("apple", OptionalDouble.of(2.5))
            .withAll(inner)
            .with("list", List.of(new JsonFields().with("k", true)));
    assertEquals(
        "{\"zebra\":\"x\",\"apple\":2.5,\"z\":1,\"a\":[1.0,null],\"list\":[{\"k\":true}]}",
        Json.write(fields).replaceAll("\\s", ""));
    assertThrows(IllegalArgumentException.class, () -> fields.with("z", 2));
  }
}
