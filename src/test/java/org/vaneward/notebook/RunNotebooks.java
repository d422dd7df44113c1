package org.vaneward.notebook;

import java.nio.file.Path;
import org.vaneward.notebook.Kernel.CellFailed;

/**
 * Runs every notebook and stores what came of its cells in it: {@code mvn -q test-compile exec:java
 * -Dexec.classpathScope=test -Dexec.mainClass=org.vaneward.notebook.RunNotebooks}, from the root of
 * the repository.
 */
public final class RunNotebooks {
  private RunNotebooks() {}

  /**
   * Runs them; {@code args} are parts of names, all when there are none. Ends with 1 at a cell that
   * fails.
   */
  public static void main(String[] args) {
    try {
      run(args);
    } catch (CellFailed failed) {
      // Not left to the virtual machine: the shell has its own ideas of what to do with it.
      System.err.println(failed.getMessage());
      System.exit(1);
    }
  }

  private static void run(String... args) {
    for (Path file : Notebook.all()) {
      if (args.length == 0 || matches(file, args)) {
        Notebook.read(file).run().write();
        System.out.println("ran " + file);
      }
    }
  }

  private static boolean matches(Path file, String... parts) {
    for (String part : parts) {
      if (file.toString().contains(part)) {
        return true;
      }
    }
    return false;
  }
}
