package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Where grid lines stand, and how numbers read. */
class TicksTest {
  @Test
  void linearTicksAreRoundAndExact() {
    assertArrayEquals(new double[] {0, 0.1, 0.2, 0.3}, Ticks.linear(0, 0.35, 5));
    assertArrayEquals(new double[] {0, 2000, 4000, 6000}, Ticks.linear(0, 7900, 5));
    assertArrayEquals(new double[] {-1, 0, 1}, Ticks.linear(-1, 1, 3));
  }

  @ParameterizedTest
  @CsvSource({"0,1e-6", "0,0.37", "100,101", "0,12345", "3,9e9"})
  void neverMoreLinearTicksThanAskedFor(double min, double max) {
    double[] ticks = Ticks.linear(min, max, 6);
    assertTrue(ticks.length >= 2 && ticks.length <= 7, ticks.length + " ticks");
    for (double tick : ticks) {
      assertTrue(tick >= min - 1e-9 * max && tick <= max * (1 + 1e-9), "tick " + tick);
    }
  }

  @Test
  void logarithmicTicksStepOneTwoFive() {
    assertArrayEquals(
        new double[] {500, 1000, 2000, 5000, 10000}, Ticks.logarithmic(400, 12000), 1e-9);
  }

  @Test
  void aShortLogarithmicAxisHasLabelsToo() {
    assertArrayEquals(new double[] {3000, 4000, 5000, 7000}, Ticks.logarithmic(2100, 8000), 1e-9);
  }

  @ParameterizedTest
  @ValueSource(doubles = {1.01, 1.5, 1.9, 3, 8, 30, 1000})
  void anyLogarithmicAxisHasAtLeastThreeLabels(double ratio) {
    double[] ticks = Ticks.logarithmic(2130, 2130 * ratio);
    assertTrue(ticks.length >= 3, ratio + ": " + ticks.length);
  }

  @Test
  void datesAreFirstsOfMonthsOrMondays() {
    LocalDate from = LocalDate.of(2026, 5, 14);
    assertEquals(
        List.of(
            LocalDate.of(2026, 7, 1),
            LocalDate.of(2027, 1, 1),
            LocalDate.of(2027, 7, 1),
            LocalDate.of(2028, 1, 1)),
        Ticks.dates(from, from.plusDays(750)));
    List<LocalDate> weeks = Ticks.dates(from, from.plusDays(40));
    assertTrue(weeks.size() >= 5, weeks.toString());
    assertTrue(weeks.stream().allMatch(day -> day.getDayOfWeek() == DayOfWeek.MONDAY));
    assertEquals(from.plusDays(4), weeks.get(0));
  }

  @Test
  void aMondayStartsTheWeeks() {
    LocalDate monday = LocalDate.of(2026, 5, 18);
    assertEquals(monday, Ticks.dates(monday, monday.plusDays(30)).get(0));
  }

  @Test
  void numbersReadAsPeopleWriteThem() {
    assertEquals("12,346 h", Words.age(12345.6, AgeUnit.HOURS));
    assertEquals("1,000", Words.plain(1000));
    assertEquals("0.15", Words.plain(0.15));
    assertEquals("0", Words.plain(-0.0));
    assertEquals("1,234", Words.number(1234.4));
    assertEquals("0.0730", Words.number(0.073));
    assertEquals("2.10", Words.number(2.1));
    assertEquals("99.9%", Words.percent(0.999));
    assertEquals("10%", Words.percent(0.1));
    assertEquals("a, b and c", Words.list(List.of("a", "b", "c")));
    assertEquals("a", Words.list(List.of("a")));
    assertEquals("a and b", Words.some(List.of("a", "b"), 2));
    assertEquals("a, b and 2 more", Words.some(List.of("a", "b", "c", "d"), 2));
    assertEquals("1 pump", Words.counted(1, "pump", "pumps"));
    assertEquals("1,200 pumps", Words.counted(1200, "pump", "pumps"));
  }

  @Test
  void longTextIsCutToItsRoom() {
    String cut = Words.fit("diesel, winter grade with additive package", 11, 100);
    assertTrue(cut.endsWith("…") && cut.startsWith("diesel"), cut);
    assertTrue(Words.width(cut, 11) <= 100, cut);
    assertEquals("jet", Words.fit("jet", 11, 100));
    assertEquals("…", Words.fit("\uD83D\uDE00\uD83D\uDE00", 11, 12));
  }
}
