package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Reference;
import org.vaneward.stats.recurrence.TestOutcome.NotTestable;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

class PowerLawGoodnessTest {
  private static Tested tested(EventHistories histories) {
    return assertInstanceOf(Tested.class, PowerLawGoodness.test(histories));
  }

  /** The 5% point for 27 events in MIL-HDBK-189 is 0.218 (from memory): held by simulation. */
  @Test
  void theTabledPointHasItsLevel() {
    double point =
        Reference.example("milhdbk189-time-terminated")
            .get("expected")
            .get("cvm_critical_5pct")
            .asDouble();
    double[] ages = new double[27];
    for (int i = 0; i < ages.length; i++) {
      ages[i] = i + 1;
    }
    PowerLawGoodness ofMany = new PowerLawGoodness(EventHistories.ofOne(ages, 30));
    assertEquals(0.05, ofMany.p(1, point), 0.015);
    assertEquals(0.05, ofMany.p(3, point), 0.015);
  }

  private static final EventHistories.Truncation TIME = EventHistories.Truncation.TIME;

  /** 200 power-law samples of units with windows of their own: standard deviation 0.021. */
  @Test
  @Tag("long")
  void aPowerLawIsAccusedAsOftenAsPromised() {
    Simulated simulated = new Simulated(42);
    int accused = 0;
    for (int k = 0; k < 200; k++) {
      EventHistories.Builder builder = EventHistories.builder();
      builder.addUnit(0, simulated.powerLaw(1.8, 3, 0, 9), 9);
      builder.addUnit(4, simulated.powerLaw(1.8, 3, 4, 8), 8);
      builder.addUnit(2, simulated.powerLaw(1.8, 3, 2, 6), 6);
      accused += tested(builder.build()).p() <= 0.1 ? 1 : 0;
    }
    assertEquals(0.1, accused / 200.0, 0.07);
  }

  @Test
  void aBathtubIsNoPowerLaw() {
    double[] ages = new double[40];
    for (int i = 0; i < 20; i++) {
      ages[i] = 20 + 0.2 * i;
      ages[39 - i] = 100 - 0.2 * (i + 1);
    }
    assertTrue(tested(EventHistories.ofOne(ages, 100)).p() < 0.01);
  }

  @Test
  void tooFewEventsAreSaid() {
    assertInstanceOf(
        NotTestable.class, PowerLawGoodness.test(EventHistories.ofOne(new double[] {3}, 5)));
    assertInstanceOf(
        NotTestable.class, PowerLawGoodness.test(EventHistories.ofOne(new double[] {3, 5}, 5)));
    NotTestable atTheEnd =
        assertInstanceOf(
            NotTestable.class,
            PowerLawGoodness.test(
                EventHistories.ofOne(new double[] {5, 5, 5}, 5).withTruncation(TIME)));
    assertEquals("no shape can be estimated", atTheEnd.reason());
  }

  /**
   * Units watched from different ages: the shape at which the mean log age is what was seen, made
   * less by one event, and Cramér and von Mises' distance of the shares, all by their definitions.
   */
  @Test
  void windowsFromDifferentAgesByDefinition() {
    double[][] ages = {{1.1, 2.5, 6, 8}, {4.5, 7.9}, {2.2, 3, 5.5}};
    double[] start = {0, 4, 2};
    double[] end = {9, 8, 6};
    EventHistories.Builder builder = EventHistories.builder();
    for (int i = 0; i < ages.length; i++) {
      builder.addUnit(start[i], ages[i], end[i]);
    }
    double low = 1e-3;
    double high = 50;
    for (int step = 0; step < 200; step++) {
      double middle = Math.sqrt(low * high);
      if (excess(middle, ages, start, end) > 0) {
        low = middle;
      } else {
        high = middle;
      }
    }
    int n = 9;
    double shape = low * (n - 1) / n;
    double[] shares = new double[n];
    int k = 0;
    for (int i = 0; i < ages.length; i++) {
      for (double t : ages[i]) {
        double from = Math.pow(start[i], shape);
        shares[k++] = (Math.pow(t, shape) - from) / (Math.pow(end[i], shape) - from);
      }
    }
    Arrays.sort(shares);
    double expected = 1.0 / (12 * n);
    for (int i = 0; i < n; i++) {
      expected += Math.pow(shares[i] - (2 * i + 1) / (2.0 * n), 2);
    }
    Tested test = tested(builder.build());
    assertEquals(expected, test.statistic(), 1e-10);
    assertTrue(test.p() > 0.2, () -> "p " + test.p());
  }

  /** Expected less seen distance of the log ages below the ends, which falls with the shape. */
  private static double excess(double shape, double[][] ages, double[] start, double[] end) {
    double sum = 0;
    for (int i = 0; i < ages.length; i++) {
      double mean = 1 / shape;
      if (start[i] > 0) {
        double width = Math.log(end[i] / start[i]);
        mean -= width / Math.expm1(shape * width);
      }
      for (double t : ages[i]) {
        sum += mean - Math.log(end[i] / t);
      }
    }
    return sum;
  }
}
