package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.vaneward.stats.recurrence.EventHistories.Truncation;

class EventHistoriesTest {
  @Test
  void keepsUnitsAsGivenAndSortsTheirEvents() {
    double[] ages = {7, 3, 7};
    EventHistories histories =
        EventHistories.builder().addUnit("a", 2, ages, 9).addUnit(0, new double[0], 4).build();
    ages[0] = 100;
    assertEquals(2, histories.size());
    assertEquals("a", histories.id(0));
    assertEquals("", histories.id(1));
    assertArrayEquals(new double[] {3, 7, 7}, histories.ages(0), 0);
    assertEquals(3, histories.events());
    assertEquals(0, histories.events(1));
    assertEquals(11, histories.totalTime(), 0);
    assertEquals(9, histories.greatestEnd(), 0);
  }

  @Test
  void findsWhatEndedObservation() {
    EventHistories one = EventHistories.ofOne(new double[] {1, 5}, 5);
    assertEquals(Truncation.FAILURE, one.truncation());
    assertTrue(one.endedByEvent(0));
    assertFalse(one.withTruncation(Truncation.TIME).endedByEvent(0));
    assertEquals(Truncation.TIME, EventHistories.ofOne(new double[] {1}, 5).truncation());
    EventHistories two =
        EventHistories.builder()
            .addUnit(0, new double[] {5}, 5)
            .addUnit(0, new double[] {2}, 6)
            .build();
    assertEquals(Truncation.TIME, two.truncation());
    assertTrue(two.withTruncation(Truncation.FAILURE).endedByEvent(0));
    assertFalse(two.withTruncation(Truncation.FAILURE).endedByEvent(1));
  }

  @Test
  void refusesWhatCannotBe() {
    refuses(0, 5, 0);
    refuses(2, 5, 2);
    refuses(0, 5, 6);
    refuses(0, 5, Double.NaN);
    refuses(-1, 5, 1);
    refuses(5, 5, 5);
    refuses(0, Double.POSITIVE_INFINITY, 1);
    EventHistories.Builder open =
        EventHistories.builder().addUnit(0, new double[] {1}, 2).truncation(Truncation.FAILURE);
    assertThrows(IllegalArgumentException.class, open::build);
  }

  private static void refuses(double start, double end, double age) {
    EventHistories.Builder builder = EventHistories.builder();
    assertThrows(
        IllegalArgumentException.class, () -> builder.addUnit(start, new double[] {age}, end));
  }
}
