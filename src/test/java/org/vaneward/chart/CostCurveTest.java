package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** The cost curve as a model. */
class CostCurveTest {
  private static final CostCurve.Input INPUT = Samples.cost("EUR");

  private static List<String> texts(CostCurve.Input input) {
    return CostCurve.paper(input).notes().stream().map(Note::text).toList();
  }

  @Test
  void theMinimumTheLevelAndTheLimitsAreNamedWhereTheyAre() {
    List<String> texts = texts(INPUT);
    assertTrue(texts.contains("2,000 h: EUR 400"), texts.toString());
    assertTrue(texts.contains("run to failure: EUR 700"), texts.toString());
    assertTrue(texts.contains("mandated: 4,000 h"), texts.toString());
    assertTrue(texts.contains("within 2%"), texts.toString());
    assertTrue(texts.contains("cost per 1,000 running hours, EUR"), texts.toString());
  }

  @Test
  void theWindowIsTheOneGiven() {
    var window = CostCurve.paper(INPUT).chart().getSeries("window");
    assertEquals(1640, window.getXData()[0]);
    assertEquals(2440, window.getXData()[1]);
  }

  @Test
  void costsStartAtNothingAndTheBlowUpIsCut() {
    Paper paper = CostCurve.paper(INPUT);
    assertEquals(0, paper.y().min());
    assertEquals(1000, paper.y().max(), 1e-9);
    assertTrue(INPUT.curve().get(0).costPerThousandHours() > 8000, "the curve does blow up");
  }

  @Test
  void aLevelFarAboveIsSaidNotDrawn() {
    CostCurve.Input input =
        new CostCurve.Input("EUR", INPUT.curve(), INPUT.optimum(), 9000, List.of(), AgeUnit.HOURS);
    assertNull(CostCurve.paper(input).chart().getSeries("run to failure"));
    List<String> texts = texts(input);
    assertTrue(texts.contains("run to failure: EUR 9,000 (above this scale)"), texts.toString());
  }

  @Test
  void withoutAnOptimumOnlyTheLevelIsDrawn() {
    CostCurve.Input input =
        new CostCurve.Input("EUR", INPUT.curve(), Optional.empty(), 425, List.of(), AgeUnit.HOURS);
    Paper paper = CostCurve.paper(input);
    assertNull(paper.chart().getSeries("least"));
    assertNull(paper.chart().getSeries("window"));
    assertNotNull(paper.chart().getSeries("run to failure"));
    assertEquals(
        "Cost per 1,000 running hours against planned interval. Running to failure is cheapest,"
            + " at EUR 425.",
        CostCurve.draw("a", input).alternative());
  }

  @Test
  void aWindowWithoutEndReachesTheEdge() {
    CostCurve.Optimum open =
        new CostCurve.Optimum(new CostCurve.Point(2000, 400), 1640, Double.POSITIVE_INFINITY, 0.02);
    CostCurve.Input input =
        new CostCurve.Input("EUR", INPUT.curve(), Optional.of(open), 700, List.of(), AgeUnit.HOURS);
    assertEquals(8000, CostCurve.paper(input).chart().getSeries("window").getXData()[1]);
    assertTrue(CostCurve.draw("a", input).alternative().contains("within 2% from 1,640 h on."));
  }

  @Test
  void theBandIsDrawnAndSaid() {
    List<CostCurve.Point> points = new ArrayList<>();
    for (CostCurve.Point p : INPUT.curve()) {
      double cost = p.costPerThousandHours();
      points.add(new CostCurve.Point(p.intervalHours(), cost, 0.8 * cost, 1.3 * cost));
    }
    CostCurve.Input banded =
        new CostCurve.Input(
            INPUT.currency(),
            points,
            INPUT.optimum(),
            INPUT.runToFailure(),
            INPUT.limits(),
            INPUT.unit());
    Picture picture = CostCurve.draw("Cost", banded);
    assertTrue(picture.alternative().contains("The band is where the cost may lie"));
    assertEquals(List.of("2,000", "400", "320", "520"), picture.rows().get(39));
    ProbabilityPlotTest.assertRefused("upper", () -> new CostCurve.Point(100, 5, 4, 3));
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = CostCurve.draw("Cost", INPUT);
    assertEquals(
        "Cost per 1,000 running hours against planned interval. Cheapest at 2,000 h with EUR 400,"
            + " against EUR 700 when run to failure; within 2% from 1,640 h to 2,440 h. Limits:"
            + " mandated at 4,000 h.",
        picture.alternative());
    assertEquals(160, picture.rows().size());
    assertEquals(List.of("2,000", "400", "400", "400"), picture.rows().get(39));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    ProbabilityPlotTest.assertRefused("NaN", () -> new CostCurve.Point(100, Double.NaN));
    ProbabilityPlotTest.assertRefused("Infinity", () -> new CostCurve.Limit("a", 1 / 0.0));
    CostCurve.Point least = new CostCurve.Point(2000, 400);
    ProbabilityPlotTest.assertRefused(
        "2500.0 to 3000.0", () -> new CostCurve.Optimum(least, 2500, 3000, 0.02));
    ProbabilityPlotTest.assertRefused(
        "not 1",
        () ->
            new CostCurve.Input(
                "EUR", List.of(least), Optional.empty(), 700, List.of(), AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "0.0",
        () ->
            new CostCurve.Input(
                "EUR", INPUT.curve(), Optional.empty(), 0, List.of(), AgeUnit.HOURS));
  }
}
