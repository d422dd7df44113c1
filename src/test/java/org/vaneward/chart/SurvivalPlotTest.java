package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** The survival curve as a model. */
class SurvivalPlotTest {
  private static final SurvivalPlot.Input INPUT = Samples.survival("vanes in petrol");

  @Test
  void theCurveStartsWholeDropsAtFailuresAndEndsAtTheLastAgeSeen() {
    var steps = SurvivalPlot.paper(INPUT).chart().getSeries("steps");
    assertArrayEquals(new double[] {0, 1200, 1200, 2600, 2600, 4100, 4100, 4800}, steps.getXData());
    assertArrayEquals(new double[] {1, 1, 0.9, 0.9, 0.75, 0.75, 0.5, 0.5}, steps.getYData());
  }

  @Test
  void ticksOfSoundPartsSitOnTheCurve() {
    var ticks = SurvivalPlot.paper(INPUT).chart().getSeries("sound");
    assertEquals(1900, ticks.getXData()[0]);
    assertEquals(0.9, (ticks.getYData()[0] + ticks.getYData()[1]) / 2, 1e-12);
    assertEquals(4800, ticks.getXData()[3]);
    assertEquals(0.5, (ticks.getYData()[3] + ticks.getYData()[4]) / 2, 1e-12);
  }

  @Test
  void theFittedLifeIsDrawnOnlyWhereThereIsOne() {
    var fit = SurvivalPlot.paper(INPUT).chart().getSeries("fit");
    int last = fit.getXData().length - 1;
    assertEquals(1, fit.getYData()[0]);
    assertEquals(Samples.LIFE.survival(fit.getXData()[last]), fit.getYData()[last], 1e-12);
    SurvivalPlot.Input without =
        new SurvivalPlot.Input("a", INPUT.steps(), List.of(), Optional.empty(), 0.9, AgeUnit.HOURS);
    assertEquals(null, SurvivalPlot.paper(without).chart().getSeries("fit"));
    assertTrue(SurvivalPlot.draw("a", without).alternative().endsWith("No life is fitted."));
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = SurvivalPlot.draw("Vanes", INPUT);
    assertEquals(
        "Share still running against age, as steps, of vanes in petrol: 50% after 4,800 h, with 3"
            + " failures. The fitted life (Weibull shape 2.10, scale 5,200 h) is drawn through it.",
        picture.alternative());
    assertEquals(List.of("1,200", "0.9000", "0.7000", "0.9700", "10", "1"), picture.rows().get(0));
    List<String> texts = SurvivalPlot.paper(INPUT).notes().stream().map(Note::text).toList();
    assertTrue(texts.contains("observed, with 90% limits"), texts.toString());
    assertTrue(texts.contains("age, running hours"), texts.toString());
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    ProbabilityPlotTest.assertRefused("1.5", () -> new SurvivalPlot.Step(10, 1.5, 0, 1, 3, 1));
    ProbabilityPlotTest.assertRefused(
        "NaN", () -> new SurvivalPlot.Step(10, 0.5, 0, 1, Double.NaN, 1));
    ProbabilityPlotTest.assertRefused(
        "0 given",
        () ->
            new SurvivalPlot.Input(
                "a", List.of(), List.of(), Optional.empty(), 0.9, AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "1200.0 follows 4100.0",
        () ->
            new SurvivalPlot.Input(
                "a",
                List.of(INPUT.steps().get(2), INPUT.steps().get(0)),
                List.of(),
                Optional.empty(),
                0.9,
                AgeUnit.HOURS));
    ProbabilityPlotTest.assertRefused(
        "-1.0",
        () ->
            new SurvivalPlot.Input(
                "a", INPUT.steps(), List.of(-1.0), Optional.empty(), 0.9, AgeUnit.HOURS));
  }
}
