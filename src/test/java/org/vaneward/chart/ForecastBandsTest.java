package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ForecastBandsTest {
  static final List<ForecastBands.Stretch> HALF_YEARS =
      List.of(
          new ForecastBands.Stretch("2024-07", 3, 7.4, 12, 8),
          new ForecastBands.Stretch("2025-01", 4, 8.1, 13, 17),
          new ForecastBands.Stretch("2025-07", 4, 9.6, 15, 4));

  @Test
  void saysWhatItShows() {
    Picture picture = ForecastBands.draw("Stops", "unplanned stops", 0.9, HALF_YEARS);
    assertEquals(
        "Of 3 half-years, 2 brought a number of unplanned stops within the 90% limits foretold at"
            + " their beginning; outside: 17 from 2025-01 on. Bars are what was foretold, the line across"
            + " them its mean, dots what came (diamonds where outside).",
        picture.alternative());
    assertEquals(List.of("2025-01", "4", "8.10", "13", "17"), picture.rows().get(1));
    assertTrue(picture.svg().contains("2025-07"));
  }

  @Test
  void refusesWhatCannotBe() {
    assertThrows(
        IllegalArgumentException.class, () -> new ForecastBands.Stretch("2025-01", 5, 5, 4, 1));
    assertThrows(
        IllegalArgumentException.class, () -> new ForecastBands.Stretch("2025-01", -1, 5, 6, 1));
    assertThrows(
        IllegalArgumentException.class, () -> ForecastBands.draw("None", "stops", 0.9, List.of()));
  }
}
