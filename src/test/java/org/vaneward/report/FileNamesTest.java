package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

class FileNamesTest {
  @Test
  void aPlainTagIsItsOwnName() {
    assertEquals("FW-P07", new FileNames(List.of("FW-P07")).of("FW-P07"));
  }

  @Test
  void nothingASystemTakesForAPathIsLeft() {
    List<String> names =
        List.of(
            "../../etc/passwd", "a/b", "a\\b", "C:\\x", "<script>", "", " ", "con.", "x\u0000y");
    FileNames files = new FileNames(names);
    for (String name : names) {
      String file = files.of(name);
      assertTrue(file.matches("[A-Za-z0-9_-]+"), file);
      assertTrue(file.length() <= 80, file);
    }
    assertEquals(
        names.size(), names.stream().map(files::of).distinct().count(), "no two are alike");
  }

  @Test
  void namesThatDifferInCaseAloneDifferInMore() {
    FileNames files = new FileNames(List.of("p-1", "P-1"));
    assertTrue(
        !files.of("p-1").toLowerCase(Locale.ROOT).equals(files.of("P-1").toLowerCase(Locale.ROOT)));
  }

  @Test
  void aLongNameIsCut() {
    String name = "P".repeat(300);
    assertTrue(new FileNames(List.of(name)).of(name).length() < 80);
  }

  @Test
  void anUnknownNameIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new FileNames(List.of()).of("x"));
  }
}
