package org.vaneward.fuzz;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * An input that holds several files: each follows a line {@code === name}. What stands before the
 * first such line is called "".
 */
public final class Sections {
  private static final String MARK = "=== ";

  private Sections() {}

  /** The files by name; of two with one name the later counts. */
  public static Map<String, byte[]> of(byte[] input) {
    // One character for each byte, so that the bytes come out as they went in.
    String text = new String(input, StandardCharsets.ISO_8859_1);
    Map<String, byte[]> files = new LinkedHashMap<>();
    String name = "";
    int from = 0;
    while (from <= text.length()) {
      int next = text.startsWith(MARK, from) ? from : text.indexOf("\n" + MARK, from) + 1;
      boolean last = next == 0 && !text.startsWith(MARK, from);
      String content = text.substring(from, last ? text.length() : next);
      if (!name.isEmpty() || !content.isEmpty()) {
        files.put(name, content.getBytes(StandardCharsets.ISO_8859_1));
      }
      if (last) {
        break;
      }
      int end = text.indexOf('\n', next);
      end = end < 0 ? text.length() : end;
      name = text.substring(next + MARK.length(), end);
      from = end + 1;
    }
    return files;
  }
}
