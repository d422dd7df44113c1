package org.vaneward.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.vaneward.notebook.Examples;

/** Runs the examples in the front's Javadoc. */
class ExamplesTest {
  private static final Path SOURCES = Path.of("src/main/java/org/vaneward/api");
  private static final Pattern EXAMPLE =
      Pattern.compile("<pre>\\{@code\\n(.*?)\\}</pre>", Pattern.DOTALL);
  private static final Pattern METHOD =
      Pattern.compile(
          "^  public (?:static )?(?!record|final|class)[\\w<>]+ (\\w+)\\(", Pattern.MULTILINE);

  private static String source(Path file) throws IOException {
    return Files.readString(file);
  }

  private static List<Path> sources() throws IOException {
    try (Stream<Path> files = Files.list(SOURCES)) {
      return files.sorted().toList();
    }
  }

  private static List<String> examples(String source) {
    List<String> examples = new ArrayList<>();
    Matcher found = EXAMPLE.matcher(source);
    while (found.find()) {
      examples.add(
          found
              .group(1)
              .lines()
              .map(l -> l.replaceFirst("^ *\\* ?", ""))
              .collect(Collectors.joining("\n")));
    }
    return examples;
  }

  /** Those of classes go on from those of the package, each from a fresh copy of its names. */
  @Test
  void eachRuns() throws IOException {
    String first = examples(source(SOURCES.resolve("package-info.java"))).get(0);
    List<String> all = new ArrayList<>();
    for (Path file : sources()) {
      if (!file.endsWith("package-info.java")) {
        all.addAll(examples(source(file)));
      }
    }
    assertTrue(all.size() > 25, () -> all.size() + " examples");
    assertEquals(List.of(), Examples.failing(first, all));
  }

  /** An entry that nobody shows how to use is a finding. */
  @Test
  void eachMethodIsShown() throws IOException {
    List<String> notShown = new ArrayList<>();
    String everything = "";
    for (Path file : sources()) {
      everything += String.join("\n", examples(source(file)));
    }
    for (Path file : sources()) {
      Matcher method = METHOD.matcher(source(file));
      while (method.find()) {
        if (!method.group(1).equals("toString") && !everything.contains(method.group(1) + "(")) {
          notShown.add(file.getFileName() + " " + method.group(1));
        }
      }
    }
    assertEquals(List.of(), notShown);
  }
}
