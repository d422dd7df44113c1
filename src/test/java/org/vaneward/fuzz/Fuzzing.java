package org.vaneward.fuzz;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** Where Jazzer enters: hands each input to one target. */
public final class Fuzzing {
  private static FuzzTarget target = input -> false;

  private Fuzzing() {}

  /**
   * Called by Jazzer once, before the first input. Classes are instrumented as they are loaded,
   * which takes longer than an input may; so they are loaded here.
   *
   * @param args name of the target's class, and its corpus
   */
  public static void fuzzerInitialize(String[] args) throws IOException {
    target = target(args[0]);
    try (Stream<Path> corpus = Files.list(Path.of(args[1]))) {
      for (Path input : corpus.toList()) {
        target.reads(Files.readAllBytes(input));
      }
    }
  }

  /** Called by Jazzer for each input. */
  public static void fuzzerTestOneInput(byte[] input) throws IOException {
    target.reads(input);
  }

  /** The target of that class. */
  static FuzzTarget target(String className) {
    try {
      return Class.forName(className).asSubclass(FuzzTarget.class).getConstructor().newInstance();
    } catch (ReflectiveOperationException e) {
      throw new IllegalArgumentException("no fuzz target: " + className, e);
    }
  }
}
