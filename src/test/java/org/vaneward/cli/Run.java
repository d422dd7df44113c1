package org.vaneward.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;

/** One run of the program inside the test: its exit code and what it printed. */
record Run(int code, String out, String err) {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Runs the program on {@code args}. */
  static Run of(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(args, new PrintWriter(out), new PrintWriter(err));
    return new Run(code, out.toString(), err.toString());
  }

  /** Runs it and holds the exit code to {@code code}. */
  static Run ending(int code, String... args) {
    Run run = of(args);
    assertEquals(code, run.code, () -> String.join(" ", args) + ": " + run.err);
    return run;
  }

  /** Standard output as one JSON document. */
  JsonNode json() {
    return tree(out);
  }

  /** Lines of standard output. */
  List<String> lines() {
    return out.lines().toList();
  }

  /** Holds the run to what bad input and bad usage look like. */
  void isRefused() {
    assertEquals(2, code, err);
    assertEquals("", out);
    assertFalse(err.contains("\tat "), err);
    assertFalse(err.contains("Exception"), err);
    assertTrue(err.endsWith(System.lineSeparator()), err);
  }

  /** As {@link #isRefused()}, and with one line. */
  void isRefusedInOneLine() {
    isRefused();
    assertEquals(1, err.lines().count(), err);
  }

  static JsonNode tree(String text) {
    try {
      return MAPPER.readTree(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static List<String> keys(JsonNode object) {
    List<String> keys = new ArrayList<>();
    object.fieldNames().forEachRemaining(keys::add);
    return keys;
  }

  static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static void edit(Path file, UnaryOperator<String> change) {
    try {
      Files.writeString(file, change.apply(read(file)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
