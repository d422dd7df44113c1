package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.vaneward.report.ColumnWidths.Column;

class ColumnWidthsTest {
  private static final double ROOM = 500;

  private static Column column(String heading, String... cells) {
    return new Column(heading, List.of(cells), false, false);
  }

  private static double sum(ColumnWidths widths, int columns) {
    return IntStream.range(0, columns).mapToDouble(widths::width).sum();
  }

  @Test
  void columnsFillTheRoomAndWordsStayWhole() {
    List<Column> columns =
        List.of(
            column("Pump", "P-01", "P-02"),
            column("Why", "the sixty-month limit ".repeat(20).strip(), "none"),
            column("Mandated", "2025-12-31", "–"));
    ColumnWidths widths = ColumnWidths.of(columns, ROOM);
    assertEquals(ROOM, sum(widths, 3), 1e-9);
    assertEquals(7.5, widths.size());
    assertTrue(widths.fits("Mandated", 2, true));
    assertEquals("2025-12-31", widths.breakable("2025-12-31", 2, false));
    assertTrue(widths.width(1) > 2 * widths.width(0));
  }

  @Test
  void smallerLettersWhereWordsAreMany() {
    List<Column> columns =
        IntStream.range(0, 14).mapToObj(c -> column("Heading" + c, "1,234.5")).toList();
    ColumnWidths widths = ColumnWidths.of(columns, ROOM);
    assertTrue(widths.size() < 7.5, "size " + widths.size());
    assertEquals(ROOM, sum(widths, 14), 1e-9);
    IntStream.range(0, 14).forEach(c -> assertTrue(widths.fits("Heading" + c, c, true)));
  }

  @Test
  void wordsTooLongForAnySizeMayBreakAnywhere() {
    String tag = "P".repeat(300);
    ColumnWidths widths =
        ColumnWidths.of(List.of(column("Pump", tag), column("Hours", "1,200")), ROOM);
    assertEquals(ROOM, sum(widths, 2), 1e-9);
    assertTrue(widths.fits("1,200", 1, false));
    assertFalse(widths.fits(tag, 0, false));
    String broken = widths.breakable(tag + " and 1", 0, false);
    assertEquals(tag + " and 1", broken.replace("\u200B", ""));
    assertEquals(300, broken.chars().filter(c -> c == 0x200B).count() - 1);
    assertTrue(broken.endsWith(" and 1") || broken.endsWith("\u200Band 1"), broken);
  }
}
