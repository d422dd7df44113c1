package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.recurrence.TestOutcome.NotTestable;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

class TrendTest {
  private static final List<Function<EventHistories, TestOutcome>> TESTS =
      List.of(Trend::laplace, Trend::milHdbk189, Trend::andersonDarling);

  private static Tested tested(TestOutcome outcome) {
    return assertInstanceOf(Tested.class, outcome);
  }

  @Test
  void nothingToTestIsSaid() {
    for (Function<EventHistories, TestOutcome> test : TESTS) {
      NotTestable none =
          assertInstanceOf(NotTestable.class, test.apply(EventHistories.ofOne(new double[0], 5)));
      assertEquals("no events", none.reason());
      NotTestable last =
          assertInstanceOf(
              NotTestable.class, test.apply(EventHistories.ofOne(new double[] {5}, 5)));
      assertEquals("the only event is the one that ended observation", last.reason());
    }
  }

  @Test
  void watchingFromAnAgeIsCountedFromThere() {
    EventHistories early = EventHistories.ofOne(new double[] {1, 5, 7}, 8);
    EventHistories late =
        EventHistories.builder().addUnit(64, new double[] {65, 69, 71}, 72).build();
    for (Function<EventHistories, TestOutcome> test : TESTS) {
      assertEquals(tested(test.apply(early)), tested(test.apply(late)));
    }
  }

  /** 150 constant-rate samples: the share at or below 0.1 has standard deviation 0.024. */
  @Test
  @Tag("long")
  void aConstantRateIsAccusedAsOftenAsPromised() {
    Simulated simulated = new Simulated(31);
    int[] accused = new int[TESTS.size()];
    for (int k = 0; k < 150; k++) {
      EventHistories.Builder builder = EventHistories.builder();
      for (int i = 0; i < 3; i++) {
        double end = 4 + 3 * simulated.uniform();
        builder.addUnit(0, simulated.powerLaw(1, 1, 0, end), end);
      }
      EventHistories histories = builder.build();
      for (int t = 0; t < accused.length; t++) {
        accused[t] += tested(TESTS.get(t).apply(histories)).p() <= 0.1 ? 1 : 0;
      }
    }
    for (int count : accused) {
      assertEquals(0.1, count / 150.0, 0.08);
    }
  }

  @Test
  void andersonDarlingOfOneEventInTheMiddle() {
    Tested one = tested(Trend.andersonDarling(EventHistories.ofOne(new double[] {1}, 2)));
    assertEquals(2 * Math.log(2) - 1, one.statistic(), 1e-15);
    assertTrue(one.p() > 0.99);
  }

  /** Anderson and Darling's asymptotic 10%, 5% and 1% points (from memory). */
  @ParameterizedTest
  @CsvSource({"1.933, 0.10, 0.010", "2.492, 0.05, 0.008", "3.857, 0.01, 0.004"})
  void andersonDarlingAtItsTabledPoints(double point, double level, double slack) {
    assertEquals(level, Trend.andersonDarlingTail(point, 50), slack);
  }

  @Test
  void aBathtubIsSeenByAndersonDarlingOnly() {
    double[] ages = new double[40];
    for (int i = 0; i < 20; i++) {
      ages[i] = 0.4 * (i + 1);
      ages[39 - i] = 100 - 0.4 * (i + 1);
    }
    EventHistories histories = EventHistories.ofOne(ages, 100);
    assertTrue(tested(Trend.laplace(histories)).p() > 0.9);
    assertTrue(tested(Trend.andersonDarling(histories)).p() < 0.001);
  }

  /** Cox and Lewis: the sum of the ages less what an even spread gives, over its deviation. */
  @Test
  void laplaceOfUnitsWatchedForDifferentTimes() {
    EventHistories histories =
        EventHistories.builder()
            .addUnit(0, new double[] {2, 5, 9}, 10)
            .addUnit(5, new double[] {6, 40}, 45)
            .addUnit(1, new double[0], 3)
            .build();
    double expected =
        (2 + 5 + 9 - 3 * 10 / 2.0 + (6 - 5) + (40 - 5) - 2 * 40 / 2.0)
            / Math.sqrt((3 * 100 + 2 * 1600) / 12.0);
    Tested test = tested(Trend.laplace(histories));
    assertEquals(expected, test.statistic(), 1e-14);
    assertEquals(2 * Quantiles.normalShare(-Math.abs(expected)), test.p(), 1e-14);
  }
}
