package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Bars from most to least as a model. */
class ParetoTest {
  private static final List<Pareto.Bar> BARS =
      List.of(
          new Pareto.Bar("dry running", 12),
          new Pareto.Bar("wear", 60),
          new Pareto.Bar("dirt", 20),
          new Pareto.Bar("not known", 8));

  private static Paper paper() {
    return Pareto.paper("failures", "cause", BARS);
  }

  @Test
  void barsStandFromMostToLeastAndEndAtTheirNumber() {
    Paper paper = paper();
    assertEquals(60, end(paper, 0));
    assertEquals(20, end(paper, 1));
    assertEquals(12, end(paper, 2));
    assertEquals(8, end(paper, 3));
    Note wear = note(paper, "wear");
    assertEquals(paper.py(3.5) + 4, wear.y());
    Note number = note(paper, "60");
    assertEquals(wear.y(), number.y());
    assertEquals(paper.px(60) + 6, number.x());
  }

  @Test
  void sharesAddUpBesideTheBars() {
    Paper paper = paper();
    List<String> right =
        paper.notes().stream().map(Note::text).filter(text -> text.matches("[0-9]+%")).toList();
    assertEquals(List.of("60%", "80%", "92%", "100%"), right);
  }

  @Test
  void fourFifthsAreDarkerAndAboveALine() {
    Paper paper = paper();
    assertEquals(2, paper.chart().getSeries("most").getYData()[0]);
    assertTrue(
        paper.notes().stream()
            .anyMatch(n -> n.text().equals("failures by cause, most first; above the dots 80%")));
    assertTrue(alpha(paper, 1) > alpha(paper, 2));
    assertEquals(alpha(paper, 0), alpha(paper, 1));
  }

  @Test
  void whatIsLeastIsGathered() {
    List<Pareto.Bar> many = new ArrayList<>();
    for (int i = 1; i <= 40; i++) {
      many.add(new Pareto.Bar("cause " + i, i));
    }
    Picture picture = Pareto.draw("Many", "failures", "cause", many);
    assertEquals(Pareto.MOST_BARS, picture.rows().size());
    assertEquals(List.of("cause 40", "40", "5%", "5%"), picture.rows().get(0));
    assertEquals(List.of("others (26)", "351", "43%", "100%"), picture.rows().get(14));
    Paper paper = Pareto.paper("failures", "cause", many);
    assertEquals(351, end(paper, 14));
    assertNull(paper.chart().getSeries("most"), "the named ones do not make four fifths");
    NotesTest.assertInside(paper);
    NotesTest.assertApart(paper.notes());
    assertEquals(
        Pareto.MOST_BARS,
        Pareto.draw("a", "failures", "cause", many.subList(0, Pareto.MOST_BARS)).rows().size());
  }

  @Test
  void theNumberOfTheLongestBarFits() {
    for (double most : new double[] {0.004, 1, 99.5, 123_456_789}) {
      List<Pareto.Bar> bars =
          List.of(
              new Pareto.Bar("one whose name is far too long to stand beside any bar at all", most),
              new Pareto.Bar("two", most / 3));
      Paper paper = Pareto.paper("EUR", "a very long word for what each of these bars is", bars);
      NotesTest.assertInside(paper);
      NotesTest.assertApart(paper.notes());
    }
  }

  @Test
  void oneBarIsAllOfIt() {
    Paper paper = Pareto.paper("failures", "mode", List.of(new Pareto.Bar("worn", 3)));
    assertNull(paper.chart().getSeries("most"));
    assertTrue(paper.notes().stream().anyMatch(note -> note.text().equals("100%")));
    assertEquals(
        "Most first, failures by mode, 3 in all: worn 3.",
        Pareto.draw("a", "failures", "mode", List.of(new Pareto.Bar("worn", 3))).alternative());
  }

  @Test
  void nothingCountedHasNoBarsAndNoShares() {
    List<Pareto.Bar> none = List.of(new Pareto.Bar("worn", 0), new Pareto.Bar("bent", 0));
    Picture picture = Pareto.draw("None", "failures", "mode", none);
    assertEquals(
        "Of failures by mode there is nothing to add up: all 2 are 0.", picture.alternative());
    Paper paper = Pareto.paper("failures", "mode", none);
    assertNull(paper.chart().getSeries("bar 0"));
    assertFalse(paper.notes().stream().anyMatch(note -> note.text().endsWith("%")));
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = Pareto.draw("Causes", "failures", "cause", BARS);
    assertEquals(
        "Most first, failures by cause, 100 in all: wear 60, dirt 20, dry running 12 and not known"
            + " 8. The first 2 of 4 make 80% of all.",
        picture.alternative());
    assertEquals(
        List.of("cause", "failures", "share", "together with those above"), picture.columns());
    assertEquals(List.of("dry running", "12", "12%", "92%"), picture.rows().get(2));
  }

  @Test
  void badInputIsRefusedWithItsNumber() {
    ProbabilityPlotTest.assertRefused("-1", () -> new Pareto.Bar("a", -1));
    ProbabilityPlotTest.assertRefused("NaN", () -> new Pareto.Bar("a", Double.NaN));
    ProbabilityPlotTest.assertRefused("0 given", () -> Pareto.paper("a", "b", List.of()));
    ProbabilityPlotTest.assertRefused(
        "wear", () -> Pareto.paper("a", "b", List.of(BARS.get(1), BARS.get(1))));
  }

  private static double end(Paper paper, int bar) {
    return Arrays.stream(paper.chart().getSeries("bar " + bar).getXData()).max().orElseThrow();
  }

  private static int alpha(Paper paper, int bar) {
    return paper.chart().getSeries("bar " + bar).getFillColor().getAlpha();
  }

  private static Note note(Paper paper, String text) {
    return paper.notes().stream()
        .filter(n -> n.text().equals(text))
        .reduce((a, b) -> b)
        .orElseThrow();
  }
}
