package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class DemandFanTest {
  private static final List<DemandFan.Reach> MONTHS =
      List.of(
          new DemandFan.Reach("2026-07", 2, 4, 6, 7),
          new DemandFan.Reach("2026-08", 5, 8, 12, 14),
          new DemandFan.Reach("2026-09", 9, 13, 18, 1234));

  @Test
  void saysWhatItShows() {
    Picture picture = DemandFan.draw("Kits", "kit K-1", MONTHS);
    assertEquals(
        "Of kit K-1, 13 up to the end of 2026-09 are enough in half of the futures, 18 in 80 of 100"
            + " (dashed) and 1,234 in 95 of 100. The fan opens with time: what is far ahead is known"
            + " less well.",
        picture.alternative());
    assertEquals(List.of("2026-09", "9.00", "13.0", "18.0", "1,234"), picture.rows().get(2));
    assertTrue(picture.svg().contains(">P95: 1,234<"), picture.svg());
  }

  @Test
  void levelsAtTheEndKeepApartInTheirOrder() {
    List<Note> sides =
        DemandFan.paper("kit K-1", List.of(new DemandFan.Reach("2026-07", 3, 3, 3, 3)))
            .notes()
            .stream()
            .filter(note -> note.text().matches("P\\d+: 3"))
            .toList();
    assertEquals(4, sides.size());
    for (int i = 1; i < 4; i++) {
      assertTrue(sides.get(i - 1).y() - sides.get(i).y() > 13, sides.toString());
    }
  }

  @Test
  void levelsThatDoNotRiseAndMonthsThatComeTwiceAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> new DemandFan.Reach("2026-07", 5, 4, 6, 7));
    assertThrows(IllegalArgumentException.class, () -> new DemandFan.Reach("2026-07", -1, 4, 6, 7));
    assertThrows(IllegalArgumentException.class, () -> DemandFan.draw("None", "kit", List.of()));
    assertThrows(
        IllegalArgumentException.class,
        () -> DemandFan.draw("Twice", "kit", List.of(MONTHS.get(0), MONTHS.get(0))));
  }
}
