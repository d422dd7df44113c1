package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.recurrence.MeanCumulativeFunction.Point;

class MeanCumulativeFunctionTest {
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void runningSumsAreTheDefinition(long seed) {
    EventHistories histories = new Simulated(seed).units(5 + 10 * (int) seed);
    MeanCumulativeFunction function = MeanCumulativeFunction.of(histories, 0.90);
    double[] ages = Arrays.stream(histories.allAges()).sorted().distinct().toArray();
    assertEquals(ages.length, function.size());
    double[] own = new double[histories.size()];
    double mean = 0;
    for (int k = 0; k < ages.length; k++) {
      int n = 0;
      double d = 0;
      for (int i = 0; i < own.length; i++) {
        n += atRisk(histories, i, ages[k]) ? 1 : 0;
        d += at(histories, i, ages[k]);
      }
      mean += d / n;
      double variance = 0;
      for (int i = 0; i < own.length; i++) {
        if (atRisk(histories, i, ages[k])) {
          own[i] += (at(histories, i, ages[k]) - d / n) / n;
        }
        variance += own[i] * own[i];
      }
      Point point = function.point(k);
      assertEquals(n, point.atRisk());
      assertEquals(d, point.events(), 0);
      assertEquals(mean, point.mean(), 1e-13 * mean);
      assertEquals(Math.sqrt(variance), point.stdError(), 1e-11 * mean);
    }
  }

  private static boolean atRisk(EventHistories histories, int i, double age) {
    return histories.start(i) < age && age <= histories.end(i);
  }

  private static double at(EventHistories histories, int i, double age) {
    return Arrays.stream(histories.ages(i)).filter(t -> t == age).count();
  }

  @Test
  void neitherOrderNorUnitOfAgeMatters() {
    EventHistories histories = new Simulated(11).units(40);
    EventHistories.Builder other = EventHistories.builder();
    for (int i = histories.size() - 1; i >= 0; i--) {
      double[] ages = Arrays.stream(histories.ages(i)).map(t -> t * 1024).toArray();
      other.addUnit(histories.start(i) * 1024, ages, histories.end(i) * 1024);
    }
    List<Point> a = MeanCumulativeFunction.of(histories, 0.90).points();
    List<Point> b = MeanCumulativeFunction.of(other.build(), 0.90).points();
    assertEquals(a.size(), b.size());
    for (int k = 0; k < a.size(); k++) {
      assertEquals(1024 * a.get(k).age(), b.get(k).age(), 0);
      assertEquals(a.get(k).mean(), b.get(k).mean(), 0);
      assertEquals(a.get(k).upper(), b.get(k).upper(), 1e-12 * a.get(k).upper());
    }
  }

  @Test
  void fourTimesTheUnitsHalveTheError() {
    EventHistories histories = new Simulated(12).units(30);
    EventHistories.Builder four = EventHistories.builder();
    for (int copy = 0; copy < 4; copy++) {
      for (int i = 0; i < histories.size(); i++) {
        four.addUnit(histories.start(i), histories.ages(i), histories.end(i));
      }
    }
    MeanCumulativeFunction a = MeanCumulativeFunction.of(histories, 0.90);
    MeanCumulativeFunction b = MeanCumulativeFunction.of(four.build(), 0.90);
    for (int k = 0; k < a.size(); k++) {
      assertEquals(a.point(k).mean(), b.point(k).mean(), 1e-12);
      assertEquals(a.point(k).stdError() / 2, b.point(k).stdError(), 1e-12);
    }
  }

  @Test
  void unitsThatDoNotDifferGiveNoLimits() {
    EventHistories.Builder alike = EventHistories.builder();
    for (int i = 0; i < 7; i++) {
      alike.addUnit(0, new double[] {3, 4, 4}, 10);
    }
    for (EventHistories histories :
        List.of(alike.build(), EventHistories.ofOne(new double[] {1, 2}, 5))) {
      for (Point point : MeanCumulativeFunction.of(histories, 0.90).points()) {
        assertEquals(0, point.stdError(), 0);
        assertEquals(0, point.lower(), 0);
        assertEquals(Double.POSITIVE_INFINITY, point.upper(), 0);
        assertEquals(Double.NEGATIVE_INFINITY, point.plainLower(), 0);
      }
    }
  }

  @Test
  void saysNothingBeyondTheLastUnit() {
    EventHistories histories =
        EventHistories.builder()
            .addUnit(0, new double[] {2}, 10)
            .addUnit(0, new double[0], 8)
            .addUnit(3, new double[0], 4)
            .build();
    MeanCumulativeFunction function = MeanCumulativeFunction.of(histories, 0.90);
    assertEquals(0, function.at(1).orElseThrow().estimate(), 0);
    assertEquals(0.5, function.at(2).orElseThrow().estimate(), 0);
    assertEquals(0.5, function.at(10).orElseThrow().estimate(), 0);
    assertTrue(function.at(10.5).isEmpty());
    assertThrows(IllegalArgumentException.class, () -> function.at(Double.NaN));
    assertEquals(2, function.point(0).atRisk(), "watched between event ages only: never at risk");
  }

  @Test
  void withoutEventsTheMeanIsNothing() {
    EventHistories none = EventHistories.builder().addUnit(0, new double[0], 10).build();
    MeanCumulativeFunction function = MeanCumulativeFunction.of(none, 0.90);
    assertEquals(0, function.size());
    assertEquals(0, function.at(5).orElseThrow().estimate(), 0);
    assertEquals(0, MeanCumulativeFunction.of(EventHistories.builder().build(), 0.9).size());
  }

  @Test
  void aLargeFleetTakesAMoment() {
    Simulated simulated = new Simulated(13);
    EventHistories.Builder builder = EventHistories.builder();
    for (int i = 0; i < 100_000; i++) {
      double end = 8 + 4 * simulated.uniform();
      builder.addUnit(0, simulated.powerLaw(1, 2, 0, end), end);
    }
    EventHistories histories = builder.build();
    assertEquals(500_000, histories.events(), 3_000);
    long from = System.nanoTime();
    MeanCumulativeFunction function = MeanCumulativeFunction.of(histories, 0.90);
    double seconds = (System.nanoTime() - from) / 1e9;
    assertTrue(seconds < 10, () -> "took " + seconds + " s");
    Point middle = function.point(function.size() / 2);
    assertEquals(middle.age() / 2, middle.mean(), 5 * middle.stdError());
    assertEquals(middle.poissonStdError(), middle.stdError(), 0.02 * middle.stdError());
  }

  @Test
  void differencesOfSeveralGroups() {
    Map<String, EventHistories> groups = new LinkedHashMap<>();
    for (int g = 1; g <= 3; g++) {
      groups.put("g" + g, new Simulated(20 + g).units(20));
    }
    List<MeanCumulativeDifference.Pair> pairs =
        MeanCumulativeDifference.pairwise(groups, 0.90, 10, 50, 1e6);
    assertEquals(3, pairs.size());
    assertEquals(List.of(1e6), pairs.get(0).difference().unwatched());
    MeanCumulativeDifference.Point first = pairs.get(0).difference().points().get(1);
    MeanCumulativeDifference.Point turned =
        MeanCumulativeDifference.of(
                new Simulated(22).units(20), new Simulated(21).units(20), 0.90, 50)
            .points()
            .get(0);
    assertEquals(first.difference(), -turned.difference(), 1e-15);
    assertEquals(first.upper(), -turned.lower(), 1e-15);
    assertEquals(first.p(), turned.p(), 1e-15);
    double z = Math.abs(first.difference()) / first.stdError();
    assertEquals(2 * new NormalDistribution().cumulativeProbability(-z), first.p(), 1e-12);
    assertTrue(first.p() < 1);
  }
}
