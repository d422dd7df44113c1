package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.comparison.RateSlope.Fitted;

/** What must hold of a slope however rows are written down. */
class RateSlopeTest {
  private static final double[] FAILURES = {5, 3, 4, 10, 1, 6};
  private static final double[] EXPECTED = {2.0, 6.0, 1.5, 12.0, 0.2, 3.9};
  private static final int[] STRATUM = {0, 0, 0, 1, 1, 1};
  private static final double[] X = {3, 1, 2.5, 0, 4, 1.5};

  private static Fitted fit(double[] failures, double[] expected, double[] x, double dispersion) {
    return assertInstanceOf(
        Fitted.class, RateSlope.fit(failures, expected, STRATUM, x, dispersion, 0.90));
  }

  private static double[] each(double[] values, double times, double plus) {
    return Arrays.stream(values).map(v -> v * times + plus).toArray();
  }

  @Test
  void theOtherWayRoundItIsTheInverse() {
    Fitted rises = fit(FAILURES, EXPECTED, X, 1);
    Fitted falls = fit(FAILURES, EXPECTED, each(X, -1, 0), 1);
    assertTrue(rises.ratio().estimate() > 1);
    assertEquals(1 / rises.ratio().estimate(), falls.ratio().estimate(), 1e-9);
    assertEquals(1 / rises.ratio().upper(), falls.ratio().lower(), 1e-9);
    assertEquals(1 / rises.ratio().lower(), falls.ratio().upper(), 1e-9);
    assertEquals(rises.p(), falls.p(), 1e-9);
    assertEquals(rises.p() / 2, rises.pRises(), 1e-15);
    assertEquals(1, rises.pRises() + falls.pRises(), 1e-9);
  }

  @Test
  void unitAndOriginOfTheNumberAndTheLevelOfWhatIsExpectedDoNotMatter() {
    Fitted one = fit(FAILURES, EXPECTED, X, 1);
    Fitted other = fit(FAILURES, each(EXPECTED, 7, 0), each(X, 10, -40), 1);
    assertEquals(one.ratio().estimate(), Math.pow(other.ratio().estimate(), 10), 1e-8);
    assertEquals(one.ratio().lower(), Math.pow(other.ratio().lower(), 10), 1e-8);
    assertEquals(one.ratio().upper(), Math.pow(other.ratio().upper(), 10), 1e-8);
    assertEquals(one.statistic(), other.statistic(), 1e-9);
  }

  @Test
  void dispersionIsAsIfThereWereFewerFailures() {
    Fitted plain = fit(FAILURES, EXPECTED, X, 1);
    Fitted wide = fit(each(FAILURES, 3, 0), EXPECTED, X, 3);
    assertEquals(plain.ratio().estimate(), wide.ratio().estimate(), 1e-9);
    assertEquals(plain.ratio().lower(), wide.ratio().lower(), 1e-9);
    assertEquals(plain.ratio().upper(), wide.ratio().upper(), 1e-9);
    assertEquals(plain.statistic(), wide.statistic(), 1e-9);
    assertEquals(plain.p(), wide.p(), 1e-9);
  }

  @Test
  void failuresAsExpectedHaveNoSlope() {
    Fitted none = fit(each(EXPECTED, 2, 0), EXPECTED, X, 1);
    assertEquals(1, none.ratio().estimate(), 1e-9);
    assertEquals(0, none.statistic(), 1e-9);
    assertEquals(1, none.p(), 1e-4);
  }

  @Test
  void whatHasNoSlopeSaysWhy() {
    assertReason("no failures", new double[6], EXPECTED, X);
    assertReason(
        "the number does not vary among parts that can be compared",
        FAILURES,
        EXPECTED,
        new double[] {2, 2, 2, 2, 2, 2});
    // Between strata it varies, within none.
    assertReason(
        "the number does not vary among parts that can be compared",
        FAILURES,
        EXPECTED,
        new double[] {1, 1, 1, 5, 5, 5});
    assertReason(
        "all failures lie at one end of the number", new double[] {5, 0, 0, 0, 2, 0}, EXPECTED, X);
    assertReason(
        "all failures lie at one end of the number", new double[] {0, 5, 0, 3, 0, 0}, EXPECTED, X);
  }

  /** With 0 and 1 far apart the slope of the likelihood soon is lost in rounding. */
  @Test
  void failuresOnOneSideOfTwoAloneHaveNoSlope() {
    double[] zeroOrOne = {0, 1, 0, 1, 0, 1};
    String reason = "all failures lie at one end of the number";
    assertReason(reason, new double[] {0, 4, 0, 1, 0, 2}, EXPECTED, zeroOrOne);
    assertReason(reason, new double[] {4, 0, 1, 0, 2, 0}, EXPECTED, zeroOrOne);
    // One failure elsewhere and there is a slope, however steep.
    assertTrue(
        fit(new double[] {1, 400, 0, 100, 0, 200}, EXPECTED, zeroOrOne, 1).ratio().estimate() > 50);
  }

  private static void assertReason(
      String reason, double[] failures, double[] expected, double[] x) {
    assertEquals(
        new RateSlope.NotEstimable(reason), RateSlope.fit(failures, expected, STRATUM, x, 1, 0.90));
  }
}
