package org.vaneward.notebook;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import jdk.jshell.EvalException;
import jdk.jshell.JShell;
import jdk.jshell.JShellException;
import jdk.jshell.Snippet;
import jdk.jshell.SnippetEvent;
import jdk.jshell.SourceCodeAnalysis.CompletionInfo;
import jdk.jshell.execution.LocalExecutionControlProvider;
import org.jspecify.annotations.Nullable;

/** Runs cells of Java one after the other, in this process: what one declares, the next may use. */
final class Kernel implements AutoCloseable {
  private static final String STARTUP =
      "import static org.vaneward.notebook.Shown.display; import java.util.*; import java.util.stream.*;";

  private final JShell shell;

  Kernel() {
    shell =
        JShell.builder()
            .executionEngine(new LocalExecutionControlProvider(), Map.of())
            .compilerOptions("-classpath", System.getProperty("java.class.path"), "-Xlint:-options")
            .build();
    run(STARTUP);
  }

  /**
   * What came of a cell.
   *
   * @param printed what it wrote to standard output
   * @param shown what it displayed
   * @param value text of its last line, where that is an expression with a value
   */
  record Came(String printed, List<Shown.Content> shown, Optional<String> value) {}

  /** Thrown when a cell does not compile or ends in an exception. */
  static final class CellFailed extends RuntimeException {
    private static final long serialVersionUID = 1;

    CellFailed(String message) {
      super(message);
    }
  }

  /**
   * Runs a cell.
   *
   * @throws CellFailed when it does not compile or ends in an exception
   */
  Came run(String cell) {
    Shown.taken();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PrintStream out = System.out;
    Optional<String> value = Optional.empty();
    System.setOut(new PrintStream(bytes, true, StandardCharsets.UTF_8));
    try {
      for (String snippet : snippets(cell)) {
        value = evaluated(snippet);
      }
    } finally {
      System.setOut(out);
    }
    return new Came(bytes.toString(StandardCharsets.UTF_8), Shown.taken(), value);
  }

  private List<String> snippets(String cell) {
    List<String> snippets = new ArrayList<>();
    String rest = cell;
    while (!rest.isBlank()) {
      CompletionInfo next = shell.sourceCodeAnalysis().analyzeCompletion(rest);
      if (next.completeness().isComplete()) {
        snippets.add(next.source());
        rest = next.remaining();
      } else {
        throw new CellFailed("incomplete: " + rest.strip());
      }
    }
    return snippets;
  }

  private Optional<String> evaluated(String snippet) {
    Optional<String> value = Optional.empty();
    for (SnippetEvent event : shell.eval(snippet)) {
      if (event.status() == Snippet.Status.REJECTED) {
        throw new CellFailed(snippet.strip() + "\n" + diagnosed(event.snippet()));
      }
      @Nullable JShellException thrown = event.exception();
      if (thrown != null) {
        String name = thrown instanceof EvalException e ? e.getExceptionClassName() : "";
        throw new CellFailed(snippet.strip() + "\n" + name + ": " + thrown.getMessage());
      }
      if (event.snippet().kind() == Snippet.Kind.VAR
          || event.snippet().kind() == Snippet.Kind.EXPRESSION) {
        value = shownValue(event);
      }
    }
    return value;
  }

  /** Of an expression, not of a declaration or an assignment; texts without their quotes. */
  private Optional<String> shownValue(SnippetEvent event) {
    boolean expression =
        event.snippet().subKind() == Snippet.SubKind.TEMP_VAR_EXPRESSION_SUBKIND
            || event.snippet().subKind() == Snippet.SubKind.VAR_VALUE_SUBKIND;
    @Nullable String value = event.value();
    if (!expression || value == null) {
      return Optional.empty();
    }
    boolean text = value.length() > 1 && value.startsWith("\"") && value.endsWith("\"");
    return Optional.of(text ? value.substring(1, value.length() - 1).translateEscapes() : value);
  }

  private String diagnosed(Snippet snippet) {
    return shell
        .diagnostics(snippet)
        .map(d -> d.getMessage(Locale.ROOT))
        .collect(Collectors.joining("\n"));
  }

  @Override
  public void close() {
    shell.close();
  }
}
