package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.knowm.xchart.XYSeries;
import org.vaneward.stats.distribution.Weibull;

/** Probability paper as a model: series, ranges, labels, words. */
class ProbabilityPlotTest {
  private static final List<ProbabilityPlot.Group> ONE =
      List.of(Samples.group("petrol", Samples.LIFE, 30));

  @Test
  void pointsOfAWeibullLifeLieOnItsStraightLine() {
    Paper paper = ProbabilityPlot.paper(ONE);
    XYSeries points = paper.chart().getSeries("points petrol");
    XYSeries fit = paper.chart().getSeries("fit petrol");
    double slope = slope(fit);
    assertEquals(Samples.LIFE.shape() * Math.log(10), slope, 1e-9);
    for (int i = 0; i < points.getXData().length; i++) {
      double expected = fit.getYData()[0] + slope * (points.getXData()[i] - fit.getXData()[0]);
      assertEquals(expected, points.getYData()[i], 1e-9);
    }
  }

  @Test
  void theLineCrossesTheDottedLevelAtTheScale() {
    Paper paper = ProbabilityPlot.paper(ONE);
    double level = paper.chart().getSeries("scale level").getYData()[0];
    XYSeries fit = paper.chart().getSeries("fit petrol");
    double at = fit.getXData()[0] + (level - fit.getYData()[0]) / slope(fit);
    assertEquals(5200, Math.pow(10, at), 1e-6);
  }

  @Test
  void everythingDrawnIsOnThePaper() {
    Paper paper = ProbabilityPlot.paper(ONE);
    for (String name : List.of("points petrol", "fit petrol")) {
      XYSeries series = paper.chart().getSeries(name);
      for (int i = 0; i < series.getXData().length; i++) {
        assertTrue(paper.x().holds(series.getXData()[i]), name);
        double y = series.getYData()[i];
        assertTrue(y > paper.y().min() - 1e-9 && y < paper.y().max() + 1e-9, name + " " + y);
      }
    }
  }

  @Test
  void axesAreLabelledInHoursAndPercent() {
    List<String> texts = ProbabilityPlot.paper(ONE).notes().stream().map(Note::text).toList();
    assertTrue(texts.containsAll(List.of("1,000", "2,000", "5,000", "10,000")), texts.toString());
    assertTrue(texts.containsAll(List.of("2%", "10%", "50%", "63.2%", "90%", "99%")), texts + "");
    assertTrue(texts.contains("age, running hours (logarithmic)"), texts.toString());
    assertTrue(texts.contains("petrol: shape 2.10, scale 5,200 h"), texts.toString());
  }

  @Test
  void severalGroupsHaveDistinctMarkersAndAKey() {
    List<ProbabilityPlot.Group> groups =
        List.of(
            Samples.group("petrol", Samples.LIFE, 20),
            Samples.group("diesel", new Weibull(1.4, 9000), 20),
            new ProbabilityPlot.Group(
                "jet fuel",
                List.of(new ProbabilityPlot.Point(900, 0.1)),
                Optional.empty(),
                List.of(),
                AgeUnit.HOURS));
    Paper paper = ProbabilityPlot.paper(groups);
    long markers =
        groups.stream()
            .map(group -> paper.chart().getSeries("points " + group.label()).getMarker())
            .distinct()
            .count();
    assertEquals(3, markers);
    List<String> texts = paper.notes().stream().map(Note::text).toList();
    assertTrue(texts.contains("diesel: shape 1.40, scale 9,000 h"), texts.toString());
    assertTrue(texts.contains("jet fuel: no fit"), texts.toString());
  }

  @Test
  void aFitFarBeyondTheDataDoesNotSqueezeThem() {
    ProbabilityPlot.Group group =
        new ProbabilityPlot.Group(
            "few",
            List.of(new ProbabilityPlot.Point(2100, 0.02), new ProbabilityPlot.Point(3900, 0.06)),
            Optional.of(new Weibull(1.1, 90_000)),
            List.of(),
            AgeUnit.HOURS);
    Paper paper = ProbabilityPlot.paper(List.of(group));
    assertTrue(Math.pow(10, paper.x().max()) < 14_000, "ends at " + paper.x().max());
    assertTrue(paper.x().holds(Math.log10(2100)));
  }

  @Test
  void aSinglePointAndExtremeSharesCanBeDrawn() {
    for (double share : new double[] {1e-12, 0.5, 1 - 1e-12}) {
      ProbabilityPlot.Group group =
          new ProbabilityPlot.Group(
              "one",
              List.of(new ProbabilityPlot.Point(2100, share)),
              Optional.of(Samples.LIFE),
              List.of(new LimitPoint(2100, 0, 1), new LimitPoint(2200, 0, 1)),
              AgeUnit.HOURS);
      Picture picture = ProbabilityPlot.draw("one", List.of(group));
      assertTrue(picture.svg().contains("<text"), "share " + share);
    }
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = ProbabilityPlot.draw("Vanes", ONE);
    assertTrue(
        picture.alternative().contains("petrol: shape 2.10, scale 5,200 h (30 points"),
        picture.alternative());
    assertEquals(30, picture.rows().size());
    assertEquals(List.of("group", "age, h", "failed share"), picture.columns());
    assertEquals("petrol", picture.rows().get(0).get(0));
    assertEquals("0.0230", picture.rows().get(0).get(2));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    assertRefused("NaN", () -> new ProbabilityPlot.Point(Double.NaN, 0.5));
    assertRefused("1.0", () -> new ProbabilityPlot.Point(10, 1));
    assertRefused("Infinity", () -> new LimitPoint(Double.POSITIVE_INFINITY, 0, 1));
    assertRefused("0.9 above 0.1", () -> new LimitPoint(10, 0.9, 0.1));
    assertRefused(
        "0 given",
        () ->
            new ProbabilityPlot.Group("a", List.of(), Optional.empty(), List.of(), AgeUnit.HOURS));
    ProbabilityPlot.Group group = ONE.get(0);
    assertRefused("petrol", () -> ProbabilityPlot.paper(List.of(group, group)));
    assertRefused("0 given", () -> ProbabilityPlot.paper(List.of()));
    List<ProbabilityPlot.Group> five =
        List.of("a", "b", "c", "d", "e").stream()
            .map(label -> Samples.group(label, Samples.LIFE, 5))
            .toList();
    assertRefused("not 5", () -> ProbabilityPlot.paper(five));
  }

  static void assertRefused(String naming, org.junit.jupiter.api.function.Executable call) {
    IllegalArgumentException refusal = assertThrows(IllegalArgumentException.class, call);
    assertTrue(
        String.valueOf(refusal.getMessage()).contains(naming),
        String.valueOf(refusal.getMessage()));
  }

  private static double slope(XYSeries series) {
    int last = series.getXData().length - 1;
    return (series.getYData()[last] - series.getYData()[0])
        / (series.getXData()[last] - series.getXData()[0]);
  }

  @Test
  void daysAreSaidWhereAgesAreInDays() {
    Picture picture =
        ProbabilityPlot.draw(
            "Seals",
            List.of(
                new ProbabilityPlot.Group(
                    "petrol",
                    List.of(
                        new ProbabilityPlot.Point(100, 0.1), new ProbabilityPlot.Point(300, 0.5)),
                    Optional.empty(),
                    List.of(),
                    AgeUnit.DAYS)));
    assertTrue(picture.svg().contains("age, days"), picture.svg());
    assertTrue(picture.columns().contains("age, days"), picture.columns().toString());
    assertFalse(picture.svg().contains("hours"), picture.svg());
  }
}
