package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.knowm.xchart.XYSeries;

/** The map of lives as a model. */
class LifeMapTest {
  private static final LifeMap.Input LIVES = Samples.lives("petrol");

  private static Paper paper() {
    return LifeMap.paper(LIVES);
  }

  @Test
  void agesStandInTheirRowAndColumn() {
    Paper paper = paper();
    Note age = note(paper, "3,100*");
    assertEquals(paper.px(0.5), age.x());
    double diesel = note(paper, "diesel").y();
    assertTrue(Math.abs(age.y() - diesel) < 10, age + " " + diesel);
    Note vanes = note(paper, "8,800");
    assertEquals(paper.px(1.5), vanes.x());
    assertTrue(vanes.y() < age.y(), "petrol is above diesel");
    assertEquals(note(paper, "seal-inboard").x(), age.x());
  }

  @Test
  void limitsStandBelowTheAgeWhereAllFit() {
    Paper paper = paper();
    Note age = note(paper, "900");
    Note limits = note(paper, "700 to 1,300");
    assertEquals(age.x(), limits.x());
    assertTrue(limits.y() > age.y());
    assertEquals(note(paper, "15,000").x(), note(paper, "9,000 or more").x());
    List<Note> narrow = LifeMap.paper(grid(3, LifeMap.MOST_COMPONENTS)).notes();
    assertTrue(narrow.stream().noneMatch(n -> n.text().contains(" to ")), narrow.toString());
  }

  @Test
  void shorterLivesAreDarker() {
    Paper paper = paper();
    Color shortest = ground(paper, 0.5, note(paper, "900").y());
    Color middle = ground(paper, 0.5, note(paper, "3,100*").y());
    Color longest = ground(paper, 1.5, note(paper, "15,000").y());
    assertTrue(brightness(shortest) < brightness(middle));
    assertTrue(brightness(middle) < brightness(longest));
  }

  @Test
  void textCanBeReadOnEveryShadeAndShadesDifferInGrey() {
    double before = 1;
    for (Shades.Shade shade : Shades.LIGHT_TO_DARK) {
      double contrast = contrast(shade.fill(), shade.ink());
      assertTrue(contrast >= 4.5, shade + ": " + contrast);
      double bright = brightness(shade.fill());
      assertTrue((before + 0.05) / (bright + 0.05) > 1.1, shade + " after " + before);
      before = bright;
    }
  }

  @Test
  void theInkOfACellIsThatOfItsShade() {
    Paper paper = paper();
    for (String text : List.of("900", "3,100*", "4,100†", "8,800", "15,000")) {
      Note note = note(paper, text);
      Color ground = ground(paper, paper.xAt(note.x()), note.y());
      assertTrue(contrast(ground, note.colour()) >= 4.5, note.toString());
    }
  }

  @Test
  void marksAndEmptyCellsAreExplainedWhereThereAreAny() {
    List<String> texts = paper().notes().stream().map(Note::text).toList();
    assertTrue(
        texts.containsAll(
            List.of(
                "* rests on few failures", "† rests on other services too", "empty: not known")),
        texts.toString());
    LifeMap.Input plain =
        new LifeMap.Input(
            "age",
            List.of("petrol"),
            List.of("seal"),
            List.of(new LifeMap.Cell("petrol", "seal", 10, 5, 20, LifeMap.Basis.OWN)),
            0.9,
            AgeUnit.DAYS);
    List<String> few = LifeMap.paper(plain).notes().stream().map(Note::text).toList();
    assertFalse(few.stream().anyMatch(t -> t.contains("rests") || t.contains("empty")), "" + few);
    assertFalse(few.stream().anyMatch(t -> t.startsWith("below 1")), "one age needs no scale");
  }

  @Test
  void theScaleCoversEveryAgeFromMinutesToCenturies() {
    for (double least : new double[] {0.003, 1, 17, 900}) {
      LifeMap.Input input =
          new LifeMap.Input(
              "age",
              List.of("a", "b", "c"),
              List.of("seal"),
              List.of(
                  new LifeMap.Cell("a", "seal", least, 0, least, LifeMap.Basis.OWN),
                  new LifeMap.Cell("b", "seal", least * 1.3, 0, least * 2, LifeMap.Basis.OWN),
                  new LifeMap.Cell("c", "seal", least * 1e5, 0, least * 2e5, LifeMap.Basis.OWN)),
              0.9,
              AgeUnit.HOURS);
      Paper paper = LifeMap.paper(input);
      long keyed = paper.notes().stream().filter(n -> n.text().matches("(below|from) .*")).count();
      assertEquals(5, keyed, "from " + least);
    }
  }

  @Test
  void nothingIsCutOffOrOverlapsAtAnySize() {
    for (int rows : new int[] {1, 6, LifeMap.MOST_PRODUCTS}) {
      for (int columns : new int[] {1, 5, LifeMap.MOST_COMPONENTS}) {
        Paper paper = LifeMap.paper(grid(rows, columns));
        NotesTest.assertInside(paper);
        NotesTest.assertApart(paper.notes());
      }
    }
  }

  @Test
  void theLargestIsStillSmall() {
    String svg = LifeMap.draw("a", grid(LifeMap.MOST_PRODUCTS, LifeMap.MOST_COMPONENTS)).svg();
    assertTrue(svg.getBytes(StandardCharsets.UTF_8).length < 60_000, "" + svg.length());
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = LifeMap.draw("Lives", LIVES);
    assertEquals(
        "By product and component, age by which half have failed, darker where shorter: shortest"
            + " seal-inboard on petrol 900 h (700 to 1,300), longest vanes on diesel 15,000 h"
            + " (9,000 or more). Of 6 cells, 1 rests on few failures, 1 rests on other services"
            + " too and 1 not known.",
        picture.alternative());
    assertEquals(6, picture.rows().size());
    assertEquals(
        List.of("petrol", "seal-inboard", "900", "700", "1,300", "its own failures"),
        picture.rows().get(0));
    assertEquals(
        List.of("diesel", "vanes", "15,000", "9,000", "none", "its own failures"),
        picture.rows().get(3));
    assertEquals(List.of("jet fuel", "vanes", "", "", "", "not known"), picture.rows().get(5));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    ProbabilityPlotTest.assertRefused("0.0", () -> cell("a", "b", 0));
    ProbabilityPlotTest.assertRefused("NaN", () -> cell("a", "b", Double.NaN));
    ProbabilityPlotTest.assertRefused(
        "5.0 to 9.0", () -> new LifeMap.Cell("a", "b", 10, 5, 9, LifeMap.Basis.OWN));
    ProbabilityPlotTest.assertRefused("cells", () -> input(List.of("a"), List.of("b"), List.of()));
    ProbabilityPlotTest.assertRefused(
        "products", () -> input(List.of(), List.of("b"), List.of(cell("a", "b", 1))));
    ProbabilityPlotTest.assertRefused(
        "b on c", () -> input(List.of("a"), List.of("b"), List.of(cell("c", "b", 1))));
    ProbabilityPlotTest.assertRefused(
        "b on a",
        () -> input(List.of("a"), List.of("b"), List.of(cell("a", "b", 1), cell("a", "b", 2))));
    ProbabilityPlotTest.assertRefused("not 31", () -> grid(31, 1));
    ProbabilityPlotTest.assertRefused("not 10", () -> grid(1, 10));
  }

  private static LifeMap.Input input(
      List<String> products, List<String> components, List<LifeMap.Cell> cells) {
    return new LifeMap.Input("age", products, components, cells, 0.9, AgeUnit.HOURS);
  }

  private static LifeMap.Cell cell(String product, String component, double age) {
    return new LifeMap.Cell(product, component, age, age / 2, age * 2, LifeMap.Basis.FEW);
  }

  private static LifeMap.Input grid(int rows, int columns) {
    List<String> products = new ArrayList<>();
    List<String> components = new ArrayList<>();
    List<LifeMap.Cell> cells = new ArrayList<>();
    for (int row = 0; row < rows; row++) {
      products.add("a product with a very long name, number " + row);
    }
    for (int column = 0; column < columns; column++) {
      components.add("bearing-outboard " + column);
      for (int row = 0; row < rows; row++) {
        double age = 500 * Math.pow(1.04, row * 3 + column);
        cells.add(cell(products.get(row), components.get(column), age));
      }
    }
    return input(products, components, cells);
  }

  private static Note note(Paper paper, String text) {
    return paper.notes().stream().filter(n -> n.text().equals(text)).findFirst().orElseThrow();
  }

  /** What is painted where a text stands. */
  private static Color ground(Paper paper, double column, double py) {
    double level = paper.yAt(py);
    for (int step = 0; step < Shades.LIGHT_TO_DARK.size(); step++) {
      XYSeries series = paper.chart().getSeries("shade " + step);
      for (int i = 0; series != null && i < series.getXData().length; i += 3) {
        boolean across = series.getXData()[i] < column && column < series.getXData()[i + 1];
        if (across && Math.abs(series.getYData()[i] - level) < 1) {
          return series.getLineColor();
        }
      }
    }
    throw new AssertionError("nothing at " + column + " " + level);
  }

  private static double contrast(Color one, Color other) {
    double a = brightness(one) + 0.05;
    double b = brightness(other) + 0.05;
    return Math.max(a, b) / Math.min(a, b);
  }

  /** Relative luminance as the Web Content Accessibility Guidelines 2.1 define it. */
  private static double brightness(Color colour) {
    double[] weights = {0.2126, 0.7152, 0.0722};
    int[] channels = {colour.getRed(), colour.getGreen(), colour.getBlue()};
    double sum = 0;
    for (int i = 0; i < 3; i++) {
      double c = channels[i] / 255.0;
      sum += weights[i] * (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
    }
    return sum;
  }
}
