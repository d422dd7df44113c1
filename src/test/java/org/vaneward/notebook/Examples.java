package org.vaneward.notebook;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.notebook.Kernel.CellFailed;

/** Runs pieces of code as they stand in documentation. */
public final class Examples {
  private static final String IMPORTS =
      "import org.vaneward.api.*; import tech.tablesaw.api.*; import java.nio.file.Path;";

  private Examples() {}

  /**
   * Those of {@code examples} that fail, each with why; every one goes on from {@code first}, and
   * none from another.
   */
  public static List<String> failing(String first, List<String> examples) {
    List<String> failing = new ArrayList<>();
    try (Kernel kernel = new Kernel()) {
      kernel.run(IMPORTS);
      kernel.run(first);
      for (String example : examples) {
        try {
          kernel.run("{\n" + example + "\n}");
        } catch (CellFailed failed) {
          failing.add(failed.getMessage());
        }
      }
    }
    return failing;
  }
}
