package org.vaneward.docs;

import java.util.List;
import java.util.Map;

/**
 * A table of the validation page.
 *
 * @param topic the reference file it reads, without its ending
 * @param intro what the table shows, one paragraph
 * @param citations the sources, by the words the rows use for them
 */
record ValidationSection(
    String title,
    String topic,
    String intro,
    List<ValidationRow> rows,
    Map<String, String> citations) {
  private static final int WIDTH = 118;

  private static final String HEADER =
      """
      | case | quantity | source | expected | got | difference | tolerance |
      | --- | --- | --- | --- | --- | --- | --- |
      """;

  String markdown() {
    StringBuilder text = new StringBuilder("## " + title + "\n\n" + intro + "\n\n" + HEADER);
    rows.forEach(row -> text.append(row.markdown()).append('\n'));
    text.append('\n');
    citations.forEach((name, source) -> text.append(wrapped("- " + name + ": " + source, "  ")));
    return text.toString();
  }

  /** A paragraph in lines as wide as those of the other pages. */
  static String wrapped(String paragraph, String indent) {
    StringBuilder text = new StringBuilder();
    StringBuilder line = new StringBuilder();
    for (String word : paragraph.split(" ", -1)) {
      if (!line.isEmpty() && line.length() + 1 + word.length() > WIDTH) {
        text.append(line).append('\n');
        line.setLength(0);
        line.append(indent).append(word);
      } else {
        line.append(line.isEmpty() ? "" : " ").append(word);
      }
    }
    return text.append(line).append('\n').toString();
  }
}
