package org.vaneward.fuzz;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.OptionalLong;

/** Counts the rows of a text without the readers, in the plainest way that is right. */
public final class RowCount {
  private static final String SEPARATOR_LINE = "sep=[,;|\t]";

  private RowCount() {}

  /** Lines with something on them. */
  public static long jsonLines(byte[] bytes, Charset charset) {
    return text(bytes, charset).lines().filter(line -> !line.isBlank()).count();
  }

  /**
   * Rows of a CSV text after its header; empty where that takes knowing the separator and nobody
   * says it.
   */
  public static OptionalLong csv(
      byte[] bytes, Charset charset, Optional<Character> separator, int headerLine) {
    String text = text(bytes, charset);
    for (int line = 1; line < headerLine; line++) {
      text = withoutFirstLine(text);
    }
    String first = text.lines().filter(line -> !line.isBlank()).findFirst().orElse("");
    if (first.strip().matches(SEPARATOR_LINE)) {
      while (text.lines().findFirst().orElse("").isBlank()) {
        text = withoutFirstLine(text);
      }
      text = withoutFirstLine(text);
    }
    if (text.indexOf('"') < 0) {
      return OptionalLong.of(text.lines().filter(line -> !line.isEmpty()).count() - 1);
    }
    return separator.isPresent()
        ? OptionalLong.of(quoted(text, separator.get()) - 1)
        : OptionalLong.empty();
  }

  /** Records of a text with quotes; one that is closed well, since anything else is refused. */
  private static long quoted(String text, char separator) {
    long records = 0;
    boolean within = false;
    boolean cellBegins = true;
    boolean anything = false;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '"' && (within || cellBegins)) {
        // The first of two within a cell leaves it, the second enters it again.
        within = !within;
        cellBegins = !within;
        anything = true;
      } else if (!within && (c == '\n' || c == '\r')) {
        records += anything ? 1 : 0;
        anything = false;
        cellBegins = true;
      } else {
        cellBegins = c == separator && !within;
        anything = true;
      }
    }
    return records + (anything ? 1 : 0);
  }

  private static String withoutFirstLine(String text) {
    int end = 0;
    while (end < text.length() && text.charAt(end) != '\n' && text.charAt(end) != '\r') {
      end++;
    }
    boolean two = text.startsWith("\r\n", end);
    return text.substring(Math.min(text.length(), end + (two ? 2 : 1)));
  }

  private static String text(byte[] bytes, Charset charset) {
    String text = new String(bytes, marked(bytes, charset));
    return text.startsWith("\uFEFF") ? text.substring(1) : text;
  }

  private static Charset marked(byte[] bytes, Charset stated) {
    String start = new String(bytes, 0, Math.min(3, bytes.length), StandardCharsets.ISO_8859_1);
    if (start.startsWith("\u00FF\u00FE")) {
      return StandardCharsets.UTF_16LE;
    }
    if (start.startsWith("\u00FE\u00FF")) {
      return StandardCharsets.UTF_16BE;
    }
    return start.equals("\u00EF\u00BB\u00BF") ? StandardCharsets.UTF_8 : stated;
  }
}
