package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FolderInUseTest {
  @TempDir Path folder;

  @Test
  void aSecondRunIsRefusedUntilTheFirstHasEnded() {
    Path out = folder.resolve("not/there/yet");
    String written =
        FolderInUse.during(
            out,
            () -> {
              assertTrue(Files.exists(out.resolve(FolderInUse.NAME)));
              BadInputException refused =
                  assertThrows(BadInputException.class, () -> FolderInUse.take(out));
              assertTrue(String.valueOf(refused.getMessage()).contains("another run is writing"));
              return "done";
            });
    assertEquals("done", written);
    assertFalse(Files.exists(out.resolve(FolderInUse.NAME)));
    FolderInUse.take(out).close();
  }

  @Test
  void aRunThatWritesNothingLeavesNoFolder() {
    Path out = folder.resolve("a/b");
    assertThrows(
        BadInputException.class,
        () ->
            FolderInUse.during(
                out,
                () -> {
                  throw new BadInputException("no such fleet");
                }));
    assertFalse(Files.exists(folder.resolve("a")));
    assertTrue(Files.exists(folder));
  }

  /** Takes the folder named, says so, and holds it until its input ends. */
  static final class Holder {
    public static void main(String[] args) throws IOException {
      FolderInUse held = FolderInUse.take(Path.of(args[0]));
      System.out.println("held");
      int end = System.in.read();
      held.close();
      System.exit(end < 0 ? 0 : 1);
    }
  }

  @Test
  void anotherProcessIsRefusedTooAndAKilledOneLetsGo() throws IOException, InterruptedException {
    Process holder =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Holder.class.getName(),
                folder.toString())
            .start();
    try (BufferedReader said =
        new BufferedReader(
            new InputStreamReader(holder.getInputStream(), StandardCharsets.UTF_8))) {
      assertEquals("held", said.readLine());
      assertThrows(BadInputException.class, () -> FolderInUse.take(folder));
    }
    holder.destroyForcibly().waitFor();
    FolderInUse.take(folder).close();
  }

  @Test
  void whatAKilledRunLeftIsClearedAway() throws IOException, InterruptedException {
    Process ended = new ProcessBuilder("true").start();
    ended.waitFor();
    Path inner = Files.createDirectories(folder.resolve("pumps"));
    Path left = Files.writeString(inner.resolve(".P-1.html." + ended.pid() + "-7.tmp"), "half");
    Path mark = Files.writeString(folder.resolve(FolderInUse.NAME), "of a killed run");
    Path running =
        Files.writeString(
            folder.resolve(".a.csv." + ProcessHandle.current().pid() + "-1.tmp"), "going on");
    Path other = Files.writeString(folder.resolve(".mine.tmp"), "somebody's");
    FolderInUse.take(folder).close();
    assertFalse(Files.exists(left));
    assertFalse(Files.exists(mark));
    assertTrue(Files.exists(running));
    assertTrue(Files.exists(other));
  }

  @Test
  void manyAtOnceHoldItOneByOne() throws Exception {
    AtomicInteger holding = new AtomicInteger();
    AtomicInteger turns = new AtomicInteger();
    ExecutorService pool = Executors.newFixedThreadPool(8);
    List<Future<?>> all = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      all.add(pool.submit(() -> takeOften(holding, turns)));
    }
    for (Future<?> one : all) {
      one.get(60, TimeUnit.SECONDS);
    }
    pool.shutdown();
    assertTrue(turns.get() > 0);
    assertEquals(0, holding.get());
  }

  private void takeOften(AtomicInteger holding, AtomicInteger turns) {
    for (int i = 0; i < 200; i++) {
      try {
        turns.addAndGet(
            FolderInUse.during(
                folder,
                () -> {
                  assertEquals(1, holding.incrementAndGet());
                  holding.decrementAndGet();
                  return 1;
                }));
      } catch (BadInputException e) {
        assertTrue(String.valueOf(e.getMessage()).contains("another run"), e.getMessage());
      }
    }
  }

  @Test
  void aFileInItsPlaceIsOneLine() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "");
    BadInputException refused = assertThrows(BadInputException.class, () -> FolderInUse.take(file));
    assertTrue(
        String.valueOf(refused.getMessage()).contains("a file stands where a folder belongs"));
  }
}
