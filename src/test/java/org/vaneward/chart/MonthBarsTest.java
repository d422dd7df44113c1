package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Bars of months. */
class MonthBarsTest {
  private static final List<MonthBars.Bar> BARS =
      List.of(
          new MonthBars.Bar("2026-07", 7.5, 3.7, 13),
          new MonthBars.Bar("2026-08", 0, 2, 4),
          new MonthBars.Bar("2026-09", 1234.5, 0, 1500));

  @Test
  void saysWhatItShows() {
    Picture picture = MonthBars.draw("Money", "EUR", BARS);
    assertEquals(
        "Planned below, unplanned above. Highest months, EUR enough in 80 of 100 futures:"
            + " 2026-09 (1,500), 2026-07 (13), 2026-08 (4).",
        picture.alternative());
    assertEquals(
        List.of("month", "EUR, planned", "EUR, unplanned", "EUR, enough in 80 of 100"),
        picture.columns());
    assertEquals(List.of("2026-09", "1,235", "0", "1,500"), picture.rows().get(2));
    assertTrue(picture.svg().contains("unplanned"));
    assertTrue(picture.svg().contains("2026-07"));
  }

  @Test
  void namesOfTheLastBarKeepApart() {
    Paper paper = MonthBars.paper("openings", List.of(new MonthBars.Bar("2026-07", 0, 0, 0)));
    List<Note> sides =
        paper.notes().stream()
            .filter(n -> List.of("planned", "unplanned", "80 of 100").contains(n.text()))
            .toList();
    assertEquals(3, sides.size());
    for (int i = 1; i < 3; i++) {
      assertTrue(Math.abs(sides.get(i).y() - sides.get(i - 1).y()) > 13, sides.toString());
    }
  }

  @Test
  void tenYearsOfMonthsStillReadAndMoreAreRefused() {
    List<MonthBars.Bar> bars = new ArrayList<>();
    for (int m = 0; m < MonthBars.MOST_MONTHS; m++) {
      bars.add(new MonthBars.Bar(2026 + m / 12 + "-" + (m % 12 + 101), m, 3, m + 5));
    }
    assertTrue(MonthBars.draw("Long", "openings", bars).svg().length() > 1000);
    bars.add(new MonthBars.Bar("2050-01", 1, 1, 1));
    assertThrows(
        IllegalArgumentException.class, () -> MonthBars.draw("Too long", "openings", bars));
    assertThrows(
        IllegalArgumentException.class, () -> MonthBars.draw("None", "openings", List.of()));
    assertThrows(
        IllegalArgumentException.class,
        () -> MonthBars.draw("Twice", "openings", List.of(BARS.get(0), BARS.get(0))));
    assertThrows(IllegalArgumentException.class, () -> new MonthBars.Bar("2026-07", -1, 0, 0));
  }
}
