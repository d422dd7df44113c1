package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Failure bars as a model. */
class FailureBarsTest {
  private static final List<FailureBars.Bar> BARS = Samples.bars("petrol");

  private static Paper paper() {
    return FailureBars.paper("seal", BARS, 0.9);
  }

  @Test
  void barsEndAtTheirRateAndWhiskersAtTheirLimits() {
    Paper paper = paper();
    double[] bar = paper.chart().getSeries("rate 0").getXData();
    assertEquals(0, Arrays.stream(bar).min().orElseThrow());
    assertEquals(0.558, Arrays.stream(bar).max().orElseThrow());
    double[] whisker = paper.chart().getSeries("limits 0").getXData();
    assertEquals(0.38, Arrays.stream(whisker).min().orElseThrow());
    assertEquals(0.8, Arrays.stream(whisker).max().orElseThrow());
    assertTrue(paper.x().holds(0.8));
  }

  @Test
  void noFailureHasAWhiskerButNoBar() {
    Paper paper = paper();
    assertNull(paper.chart().getSeries("rate 1"));
    assertNotNull(paper.chart().getSeries("limits 1"));
  }

  @Test
  void countsStandBesideTheBars() {
    List<String> texts = paper().notes().stream().map(Note::text).toList();
    assertTrue(texts.containsAll(List.of("23 in 41,200 h", "0 in 5,200 h")), texts.toString());
    assertTrue(texts.contains("seal: bar, rate observed; whisker, 90% limits"), texts.toString());
    assertTrue(texts.contains("failures per 1,000 running hours"), texts.toString());
  }

  @Test
  void nothingFailedAnywhereStillHasAnAxis() {
    List<FailureBars.Bar> none =
        List.of(new FailureBars.Bar("petrol", 0, 100, 0, 0, 0, AgeUnit.HOURS));
    assertEquals(1.05, FailureBars.paper("seal", none, 0.9).x().max());
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = FailureBars.draw("Failures", "seal", BARS, 0.9);
    assertEquals(
        "Failures of seal per 1,000 running hours by product, with 90% limits, most first: petrol"
            + " 0.558 (0.380 to 0.800) and jet fuel 0 (0 to 0.576).",
        picture.alternative());
    assertEquals(
        List.of("petrol", "23", "41,200", "0.558", "0.380", "0.800"), picture.rows().get(0));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    ProbabilityPlotTest.assertRefused(
        "-1", () -> new FailureBars.Bar("a", -1, 100, 0.1, 0.1, 0.1, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "Infinity", () -> new FailureBars.Bar("a", 1, 100, 0.1, 0.1, 1 / 0.0, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "0.2 to 0.3", () -> new FailureBars.Bar("a", 1, 100, 0.1, 0.2, 0.3, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused("0 given", () -> FailureBars.paper("seal", List.of(), 0.9));
    ProbabilityPlotTest.assertRefused(
        "petrol", () -> FailureBars.paper("seal", List.of(BARS.get(0), BARS.get(0)), 0.9));
    ProbabilityPlotTest.assertRefused("1.9", () -> FailureBars.draw("a", "seal", BARS, 1.9));
  }
}
