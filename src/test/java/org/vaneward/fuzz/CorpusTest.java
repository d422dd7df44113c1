package org.vaneward.fuzz;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Replays every input of the corpora: the well-formed ones the fuzzer starts from, whose names
 * begin with {@code good}, and those that once broke a reader.
 */
class CorpusTest {
  private static final Path CORPORA = Path.of("src/test/resources/fuzz");
  private static final Duration AT_MOST = Duration.ofSeconds(20);

  @TestFactory
  Stream<DynamicTest> eachInputIsReadOrRefused() throws IOException {
    return entries(CORPORA).stream().filter(Files::isDirectory).map(CorpusTest::replayed);
  }

  private static DynamicTest replayed(Path corpus) {
    String name = corpus.getFileName().toString();
    return DynamicTest.dynamicTest(name, () -> replay(corpus, Fuzzing.target(name)));
  }

  private static void replay(Path corpus, FuzzTarget target) throws IOException {
    List<Path> inputs = entries(corpus);
    assertFalse(inputs.isEmpty(), "an empty corpus: " + corpus);
    for (Path input : inputs) {
      byte[] bytes = Files.readAllBytes(input);
      boolean read =
          assertTimeoutPreemptively(AT_MOST, () -> target.reads(bytes), () -> "at " + input);
      boolean good = input.getFileName().toString().startsWith("good");
      assertTrue(read || !good, () -> "refused: " + input);
    }
  }

  private static List<Path> entries(Path folder) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.sorted().toList();
    }
  }
}
