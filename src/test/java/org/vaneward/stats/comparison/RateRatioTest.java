package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Reference;
import org.vaneward.stats.comparison.RateRatio.Compared;

/** Ratios and slopes against SciPy: {@code reference-own/rate-ratio}. */
class RateRatioTest {
  /** Roots there and here are each good to about 1e-12. */
  private static final double RELATIVE = 1e-9;

  private static final JsonNode EXPECTED = Reference.own("rate-ratio/expected.json");

  static RateRatio.Builder builder(JsonNode strata) {
    RateRatio.Builder builder = RateRatio.builder(strata.size());
    for (JsonNode s : strata) {
      builder.add(
          s.get(0).asDouble(), s.get(1).asDouble(), s.get(2).asDouble(), s.get(3).asDouble());
    }
    return builder.confidence(EXPECTED.get("confidence").asDouble());
  }

  @Test
  void agreesWithSciPy() {
    JsonNode cases = EXPECTED.get("ratios");
    assertEquals(5, cases.size());
    cases.forEachEntry(
        (name, e) -> {
          Compared c = assertInstanceOf(Compared.class, builder(e.get("strata")).compare(), name);
          near(e, "expected", c.expected(), name);
          near(e, "p_more", c.pMore(), name);
          near(e, "p_fewer", c.pFewer(), name);
          near(e, "ratio", c.ratio().estimate(), name);
          near(e, "lower", c.ratio().lower(), name);
          near(e, "upper", c.ratio().upper(), name);
        });
  }

  private static void near(JsonNode expected, String key, double found, String name) {
    double e = expected.get(key).asDouble();
    assertEquals(e, found, RELATIVE * Math.max(1e-3, Math.abs(e)), name + ", " + key);
  }

  @Test
  void theSlopeAgreesWithPoissonRegressionInSciPy() {
    JsonNode e = EXPECTED.get("slope");
    double[] failures = numbers(e.get("failures"));
    double[] expected = numbers(e.get("expected"));
    double[] x = numbers(e.get("x"));
    int[] stratum =
        IntStream.range(0, x.length).map(i -> e.get("stratum").get(i).asInt()).toArray();
    RateSlope.Fitted fitted =
        assertInstanceOf(
            RateSlope.Fitted.class, RateSlope.fit(failures, expected, stratum, x, 1, 0.90));
    // BFGS stops where the gradient is 1e-10 or its line search fails: six digits and more.
    double close = 1e-6;
    assertEquals(e.get("ratio").asDouble(), fitted.ratio().estimate(), close);
    assertEquals(e.get("lower").asDouble(), fitted.ratio().lower(), close);
    assertEquals(e.get("upper").asDouble(), fitted.ratio().upper(), close);
    assertEquals(e.get("statistic").asDouble(), fitted.statistic(), close);
    assertEquals(e.get("p").asDouble(), fitted.p(), close);
  }

  private static double[] numbers(JsonNode array) {
    return IntStream.range(0, array.size()).mapToDouble(i -> array.get(i).asDouble()).toArray();
  }

  @Test
  void aSlopeOnZeroAndOneIsTheRatio() {
    double[] failures = {5, 3, 4, 10, 1, 0};
    double[] expected = {2.0, 6.0, 1.5, 12.0, 0.2, 0.9};
    int[] stratum = {0, 0, 1, 1, 2, 2};
    double[] x = {1, 0, 1, 0, 1, 0};
    RateSlope.Fitted slope =
        assertInstanceOf(
            RateSlope.Fitted.class, RateSlope.fit(failures, expected, stratum, x, 1, 0.90));
    Compared ratio =
        assertInstanceOf(
            Compared.class,
            builder(EXPECTED.get("ratios").get("three strata").get("strata")).compare());
    assertEquals(ratio.ratio().estimate(), slope.ratio().estimate(), 1e-10);
  }

  @Test
  void theNormalTakesOverWithoutAJump() {
    // Just below and just above the standard deviation at which it does.
    double scale = 1600.0 * 4;
    double below = tail((int) (scale * 0.98));
    double above = tail((int) (scale * 1.02));
    assertTrue(FailureShare.EXACT_DEVIATION == 40);
    assertEquals(below, above, 0.002 * below);
  }

  /** P-value of 2.5 standard deviations too many of {@code n} failures, half expected. */
  private static double tail(int n) {
    double many = n / 2.0 + 2.5 * Math.sqrt(n / 4.0);
    // Between the two whole numbers next to it the tail is taken as a line.
    double low = more(n, Math.floor(many));
    double high = more(n, Math.floor(many) + 1);
    return low + (many - Math.floor(many)) * (high - low);
  }

  private static double more(int n, double inside) {
    return assertInstanceOf(
            Compared.class,
            RateRatio.builder(1).add(inside, 1, n - inside, 1).withoutLimits().compare())
        .pMore();
  }

  @Test
  void dispersionWidensAndOneLeavesAlone() {
    JsonNode strata = EXPECTED.get("ratios").get("three strata").get("strata");
    Compared plain = assertInstanceOf(Compared.class, builder(strata).dispersion(1).compare());
    Compared wide = assertInstanceOf(Compared.class, builder(strata).dispersion(2).compare());
    assertEquals(plain.ratio().estimate(), wide.ratio().estimate(), 1e-12);
    assertTrue(wide.ratio().lower() < plain.ratio().lower());
    assertTrue(wide.ratio().upper() > plain.ratio().upper());
    assertTrue(wide.pMore() > plain.pMore());
    assertThrows(IllegalArgumentException.class, () -> builder(strata).dispersion(0.9));
  }

  @Test
  void withoutFailuresInTheRestTheRatioHasNoUpperEnd() {
    Compared c = assertInstanceOf(Compared.class, RateRatio.builder(1).add(4, 1, 0, 3).compare());
    Estimate ratio = c.ratio();
    assertEquals(Double.POSITIVE_INFINITY, ratio.estimate());
    assertEquals(Double.POSITIVE_INFINITY, ratio.upper());
    // The chance of the group's share that makes four of four as rare as one in twenty.
    double share = Math.pow(0.05, 0.25);
    assertEquals(3 * share / (1 - share), ratio.lower(), 1e-9);
    assertEquals(Math.pow(0.25, 4), c.pMore(), 1e-15);
  }

  @Test
  void withoutFailuresInTheGroupTheRatioHasNoLowerEnd() {
    Compared c = assertInstanceOf(Compared.class, RateRatio.builder(1).add(0, 1, 4, 1).compare());
    assertEquals(0, c.ratio().estimate());
    assertEquals(0, c.ratio().lower());
    double share = 1 - Math.pow(0.05, 0.25);
    assertEquals(share / (1 - share), c.ratio().upper(), 1e-9);
    assertEquals(1, c.pMore(), 1e-15);
    assertEquals(1.0 / 16, c.pFewer(), 1e-15);
    assertEquals(2, c.expected(), 1e-15);
  }

  @Test
  void withoutLimitsOnlyTheRatioIsWorkedOut() {
    Compared c =
        assertInstanceOf(
            Compared.class,
            RateRatio.builder(3)
                .add(6, 2, 5, 10)
                .add(0, 3, 0, 4)
                .add(2, 3, 0, 0)
                .withoutLimits()
                .compare());
    // One stratum is left: the others have no failures or nobody to compare with.
    assertEquals(6.0 / 2 / (5.0 / 10), c.ratio().estimate(), 1e-9);
    assertEquals(0, c.ratio().lower());
    assertEquals(Double.POSITIVE_INFINITY, c.ratio().upper());
    assertEquals(6, c.observed());
  }

  @Test
  void numbersOutOfTheirRangeAreRefused() {
    RateRatio.Builder builder = RateRatio.builder(1);
    for (double none : new double[] {-1, Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThrows(IllegalArgumentException.class, () -> builder.add(none, 1, 1, 1));
      assertThrows(IllegalArgumentException.class, () -> builder.add(1, none, 1, 1));
      assertThrows(IllegalArgumentException.class, () -> builder.add(1, 1, none, 1));
      assertThrows(IllegalArgumentException.class, () -> builder.add(1, 1, 1, none));
      assertThrows(IllegalArgumentException.class, () -> builder.dispersion(none));
      assertThrows(IllegalArgumentException.class, () -> builder.confidence(none));
    }
    assertThrows(IllegalArgumentException.class, () -> builder.confidence(0));
    assertThrows(IllegalArgumentException.class, () -> builder.confidence(1));
  }

  @Test
  void whatCannotBeComparedSaysWhy() {
    RateRatio none = RateRatio.builder(2).add(3, 1, 0, 0).add(0, 1, 0, 1).compare();
    assertTrue(
        assertInstanceOf(RateRatio.NotComparable.class, none).reason().contains("no failures"));
  }

  @Test
  void pIsTwiceTheSmallerTail() {
    Compared more =
        assertInstanceOf(Compared.class, RateRatio.builder(1).add(9, 1, 3, 1).compare());
    assertTrue(more.pMore() < more.pFewer());
    assertEquals(2 * more.pMore(), more.p(), 1e-15);
    Compared fewer =
        assertInstanceOf(Compared.class, RateRatio.builder(1).add(3, 1, 9, 1).compare());
    assertEquals(2 * fewer.pFewer(), fewer.p(), 1e-15);
    Compared alike =
        assertInstanceOf(Compared.class, RateRatio.builder(1).add(4, 1, 4, 1).compare());
    assertEquals(1, alike.p());
  }
}
