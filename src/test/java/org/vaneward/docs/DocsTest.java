package org.vaneward.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.cli.Main;

/**
 * Runs what the pages in {@code docs/} show. A fenced block whose first line is {@code $ vaneward
 * COMMAND …} is run from the root of the repository and its standard output compared with the lines
 * below. A line {@code …} stands for any number of lines left out; a last line {@code (exit code
 * N)} states an exit code other than 0.
 */
class DocsTest {
  private static final Path DOCS = Path.of("docs");
  private static final String PROMPT = "$ vaneward ";
  private static final String LEFT_OUT = "…";
  private static final Pattern EXIT_CODE = Pattern.compile("\\(exit code (\\d)\\)");
  private static final Pattern LINK = Pattern.compile("]\\(([^)#:]+)(#[^)]*)?\\)");

  /** A command a page shows, with what it is said to print. */
  record Shown(Path page, int line, String command, List<String> output, int exitCode) {
    @Override
    public String toString() {
      return page + ":" + line + " " + command;
    }
  }

  /** A row the page says meets a certain fate. */
  record BadRow(String file, String row, String fate, String message) {}

  static Stream<Shown> commands() {
    return pages().stream().flatMap(page -> shown(page).stream());
  }

  static Stream<Path> everyPage() {
    return pages().stream();
  }

  @Test
  void pagesShowCommands() {
    assertTrue(pages().size() >= 4, () -> pages().toString());
    assertTrue(commands().count() >= 4, "commands shown");
  }

  @ParameterizedTest
  @MethodSource("commands")
  void printsWhatThePageShows(Shown shown) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    String[] words = shown.command().strip().split("\\s+");
    int code = Main.run(words, new PrintWriter(out), new PrintWriter(err));
    assertEquals(shown.exitCode(), code, () -> shown + "\n" + err);
    List<String> got = trimmed(out.toString().lines().map(String::stripTrailing).toList());
    assertTrue(
        matches(shown.output(), got),
        () -> shown + " prints\n" + String.join("\n", got) + "\nand not what the page shows");
  }

  @ParameterizedTest
  @MethodSource("everyPage")
  void linksLeadSomewhere(Path page) {
    Matcher link = LINK.matcher(text(page));
    while (link.find()) {
      Path target = page.resolveSibling(link.group(1)).normalize();
      assertTrue(Files.exists(target), () -> page + " links to " + target);
    }
  }

  /** The page on records names every column and key that the sample fleet has. */
  @Test
  void everyColumnAndKeyIsExplained() throws IOException {
    String page = text(DOCS.resolve("records.md"));
    List<String> names = new ArrayList<>();
    for (String table : List.of("pumps", "services", "readings", "rebuilds", "findings")) {
      Path file = Path.of("sample-fleet", table + ".csv");
      try (Stream<String> lines = Files.lines(file)) {
        names.addAll(List.of(lines.findFirst().orElseThrow().split(",")));
      }
    }
    assertEquals(40, names.size(), names::toString);
    Matcher key =
        Pattern.compile("\"([a-z_]+)\"\\s*:").matcher(text(Path.of("sample-fleet/fleet.json")));
    while (key.find()) {
      names.add(key.group(1));
    }
    for (String name : names) {
      assertTrue(page.contains("`" + name + "`") || page.contains("\"" + name + "\":"), name);
    }
  }

  /** Each row of the table of common cases, added to the example fleet, meets what it says. */
  @ParameterizedTest
  @MethodSource("commonCases")
  void commonCasesEndAsStated(BadRow bad, @TempDir Path folder) throws IOException {
    try (Stream<Path> files = Files.list(DOCS.resolve("example-fleet"))) {
      for (Path file : files.toList()) {
        Files.copy(file, folder.resolve(String.valueOf(file.getFileName())));
      }
    }
    Path table = folder.resolve(bad.file());
    long line = Files.readString(table).lines().count() + 1;
    Files.writeString(table, bad.row() + "\n", StandardOpenOption.APPEND);
    StringWriter out = new StringWriter();
    String[] words = {"check", folder.toString(), "--format", "csv"};
    Main.run(words, new PrintWriter(out), new PrintWriter(new StringWriter()));
    String fate = bad.fate().equals("set aside") ? "set-aside" : "repaired";
    assertTrue(
        out.toString()
            .lines()
            .map(remark -> remark.replace("\"", ""))
            .anyMatch(
                remark ->
                    remark.startsWith(bad.file() + "," + line + ",")
                        && remark.contains("," + fate + "," + bad.message() + ",")),
        () -> bad + " line " + line + "\n" + out);
  }

  static Stream<BadRow> commonCases() {
    Pattern row = Pattern.compile("\\| (\\w+\\.csv) \\| `(.*)` \\| (.*) \\| `(.*)` \\|");
    List<BadRow> rows =
        text(DOCS.resolve("records.md"))
            .lines()
            .map(row::matcher)
            .filter(Matcher::matches)
            .map(m -> new BadRow(m.group(1), m.group(2), m.group(3), m.group(4)))
            .toList();
    assertTrue(rows.size() >= 20, () -> rows.size() + " common cases");
    return rows.stream();
  }

  /** The settings the page shows are those of the example fleet. */
  @Test
  void shownSettingsAreThoseOfTheExample() {
    String settings = text(DOCS.resolve("example-fleet").resolve("fleet.json"));
    assertTrue(text(DOCS.resolve("records.md")).contains("```json\n" + settings + "```"));
  }

  @Test
  void leftOutLinesMatchAnyNumber() {
    List<String> got = List.of("a", "b", "c");
    assertTrue(matches(List.of("a", "b", "c"), got));
    assertTrue(matches(List.of("a", LEFT_OUT, "c"), got));
    assertTrue(matches(List.of(LEFT_OUT, "c"), got));
    assertTrue(matches(List.of("a", "b", "c", LEFT_OUT), got));
    assertTrue(!matches(List.of("a", LEFT_OUT), List.of("b")));
    assertTrue(!matches(List.of("a", "c"), got));
    assertTrue(!matches(List.of("a", "b"), got));
  }

  /** Whether the lines are those of the pattern, where a line {@code …} is any number of them. */
  private static boolean matches(List<String> pattern, List<String> lines) {
    if (pattern.isEmpty()) {
      return lines.isEmpty();
    }
    List<String> rest = pattern.subList(1, pattern.size());
    if (pattern.get(0).equals(LEFT_OUT)) {
      for (int skip = 0; skip <= lines.size(); skip++) {
        if (matches(rest, lines.subList(skip, lines.size()))) {
          return true;
        }
      }
      return false;
    }
    return !lines.isEmpty()
        && lines.get(0).equals(pattern.get(0))
        && matches(rest, lines.subList(1, lines.size()));
  }

  private static List<Path> pages() {
    try (Stream<Path> files = Files.walk(DOCS)) {
      return files.filter(file -> file.toString().endsWith(".md")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<Shown> shown(Path page) {
    List<Shown> shown = new ArrayList<>();
    List<String> lines = text(page).lines().toList();
    for (int i = 0; i + 1 < lines.size(); i++) {
      if (lines.get(i).startsWith("```") && lines.get(i + 1).startsWith(PROMPT)) {
        int end = i + 2;
        while (!lines.get(end).startsWith("```")) {
          end++;
        }
        shown.add(shown(page, i + 2, lines.subList(i + 1, end)));
        i = end;
      }
    }
    return shown;
  }

  private static Shown shown(Path page, int line, List<String> block) {
    List<String> output = new ArrayList<>(block.subList(1, block.size()));
    Matcher exit = EXIT_CODE.matcher(block.get(block.size() - 1));
    int code = 0;
    if (exit.matches()) {
      code = Integer.parseInt(exit.group(1));
      output.remove(output.size() - 1);
    }
    String command = block.get(0).substring(PROMPT.length());
    return new Shown(page, line, command, trimmed(output), code);
  }

  /** Without blank lines at the end. */
  private static List<String> trimmed(List<String> lines) {
    int end = lines.size();
    while (end > 0 && lines.get(end - 1).isBlank()) {
      end--;
    }
    return List.copyOf(lines.subList(0, end));
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
