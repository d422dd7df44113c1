package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ObservationsTest {
  private static final List<Observation> THREE =
      List.of(
          new Observation.Exact(1, 5, 2),
          new Observation.RightCensored(0, 7, 4),
          new Observation.Interval(2, 3, 6, 0.5));

  @Test
  void rowsComeBackAsTheyWentIn() {
    Observations all = Observations.of(THREE);
    assertEquals(THREE, all.asList());
    assertEquals(3, all.size());
    assertEquals(6.5, all.lives());
    assertEquals(2.5, all.failures());
    assertTrue(all.isExact(0) && !all.isExact(1) && !all.isExact(2));
    assertTrue(all.isRightCensored(1) && !all.isRightCensored(0) && !all.isRightCensored(2));
    assertEquals(List.of(2.0, 3.0, 6.0, 0.5), row(all, 2));
    assertEquals(List.of(0.0, 7.0, Double.POSITIVE_INFINITY, 4.0), row(all, 1));
  }

  private static List<Double> row(Observations all, int i) {
    return List.of(all.entry(i), all.lower(i), all.upper(i), all.count(i));
  }

  @Test
  void aBuilderGrowsAndWhatWasBuiltStays() {
    Observations.Builder builder = Observations.builder();
    List<Observation> expected = new ArrayList<>();
    for (int i = 1; i <= 100; i++) {
      builder.addFailure(0, i, 1).addRightCensored(0.5, i, 2);
      expected.add(Observation.failedAt(i));
      expected.add(new Observation.RightCensored(0.5, i, 2));
    }
    Observations before = builder.build();
    builder.add(Observation.failedBetween(1, 2)).add(Observation.rightCensoredAt(3));
    assertEquals(expected, before.asList());
    assertEquals(202, builder.build().size());
    assertEquals(new Observation.Interval(0, 1, 2, 1), builder.build().get(200));
    assertFalse(before.isExact(1));
  }

  @Test
  void refusesLivesThatCannotBe() {
    double ever = Double.POSITIVE_INFINITY;
    for (double age : new double[] {0, -1, ever, Double.NaN}) {
      refused(0, age, 1);
      assertThrows(IllegalArgumentException.class, () -> new Observation.Interval(0, 0, age, 1));
    }
    for (double entry : new double[] {-1, 5, 6, Double.NaN}) {
      refused(entry, 5, 1);
    }
    for (double count : new double[] {0, -1, ever, Double.NaN}) {
      refused(0, 5, count);
    }
    for (double lower : new double[] {0.5, 5, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> new Observation.Interval(1, lower, 5, 1));
    }
    assertEquals(1, new Observation.Interval(1, 1, 5, 1).lower());
  }

  private static void refused(double entry, double age, double count) {
    Observations.Builder builder = Observations.builder();
    assertThrows(IllegalArgumentException.class, () -> new Observation.Exact(entry, age, count));
    assertThrows(
        IllegalArgumentException.class, () -> new Observation.RightCensored(entry, age, count));
    assertThrows(IllegalArgumentException.class, () -> builder.addFailure(entry, age, count));
    assertThrows(IllegalArgumentException.class, () -> builder.addRightCensored(entry, age, count));
  }
}
