package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The sheet: where things land, how lines are joined, where labels go. */
class PaperTest {
  private static Paper paper() {
    return new Paper(
        640, 400, new Paper.Margins(34, 26, 50, 56), new Range(-2, 8), new Range(10, 30));
  }

  @Test
  void textAndSeriesAgreeOnWhereAValueIs() {
    Paper paper = paper();
    paper.line("a", new double[] {0, 5}, new double[] {12, 24}, House.BLUE, House.CURVE);
    String svg = SvgWriter.write(paper, "t", "a");
    for (double value : new double[] {-2, 0.3, 8}) {
      assertEquals(paper.chart().getScreenXFromChart(value) + 56, paper.px(value), 1, "x " + value);
      assertEquals(value, paper.xAt(paper.px(value)), 1e-12);
    }
    for (double value : new double[] {10, 17, 30}) {
      assertEquals(paper.chart().getScreenYFromChart(value) + 34, paper.py(value), 1, "y " + value);
      assertEquals(value, paper.yAt(paper.py(value)), 1e-12);
    }
    // of 558 across, 0 is at two tenths and 5 at seven; of 316 down, 12 at nine tenths, 24 at three
    assertTrue(svg.contains("M111.6 284.4L390.6 94.8"), svg);
  }

  @Test
  void aCurveIsOnePathAndAGapBreaksIt() {
    Paper paper = paper();
    double[] x = {0, 1, 2, 3, 4, 5};
    double[] y = {12, 14, 18, Double.NaN, 20, 22};
    paper.line("a", x, y, House.BLUE, House.DASHED);
    String svg = SvgWriter.write(paper, "t", "a");
    assertEquals(1, count(svg, "<path "));
    String path = svg.replaceAll("(?s).*<path d=\"([^\"]*)\".*", "$1");
    assertEquals(2, count(path, "M"), path);
    assertEquals(3, count(path, "L"), path);
    assertTrue(svg.contains("stroke-dasharray=\"7,4\""), svg);
  }

  @Test
  void eachLineKeepsItsWidth() {
    Paper paper = paper();
    double[] x = {0, 8};
    paper.line("thin", x, new double[] {12, 12}, House.INK, House.HAIR);
    paper.line("heavy", x, new double[] {20, 20}, House.INK, House.HEAVY);
    String svg = SvgWriter.write(paper, "t", "a");
    assertTrue(svg.contains("stroke-width=\"0.8\"") && svg.contains("stroke-width=\"3\""), svg);
  }

  @Test
  void pointsTooCloseToSeeAreDrawnOnce() {
    Paper paper = paper();
    double[] x = new double[1000];
    double[] y = new double[1000];
    for (int i = 0; i < x.length; i++) {
      x[i] = i * 1e-5;
      y[i] = 20;
    }
    paper.points("a", x, y, House.BLUE, House.LOOKS.get(0).marker());
    int drawn = paper.chart().getSeries("a").getXData().length;
    assertTrue(drawn >= 2 && drawn <= 4, "drawn " + drawn);
  }

  @Test
  void unevenOrEmptySeriesAreRefused() {
    Paper paper = paper();
    double[] one = {1};
    double[] two = {1, 2};
    double[] none = {};
    assertThrows(
        IllegalArgumentException.class, () -> paper.line("a", one, two, House.BLUE, House.CURVE));
    assertThrows(
        IllegalArgumentException.class, () -> paper.line("a", none, none, House.BLUE, House.CURVE));
    assertThrows(IllegalArgumentException.class, () -> paper.band("a", two, one, two, House.BLUE));
  }

  @Test
  void aLabelGoesWhereNothingIs() {
    Paper paper = paper();
    paper.line("a", new double[] {-2, 8}, new double[] {20, 20}, House.BLUE, House.CURVE);
    Note onTheLine = Note.at(200, paper.py(20) + 4, Note.Anchor.START, "x", House.INK, 12);
    Note free = Note.at(200, paper.py(26), Note.Anchor.START, "x", House.INK, 12);
    paper.label("a", List.of(onTheLine, free));
    paper.label("a", List.of(free, onTheLine));
    List<Note> notes = paper.notes();
    assertEquals(free, notes.get(0));
    assertEquals(onTheLine.veiled(), notes.get(1), "the free place is taken by now");
  }

  @Test
  void tickLabelsThatWouldTouchAreLeftOut() {
    Paper paper = paper();
    paper.gridX(new double[] {0, 0.1, 5}, List.of("10,000", "10,100", "15,000"));
    assertEquals(List.of("10,000", "15,000"), paper.notes().stream().map(Note::text).toList());
  }

  @Test
  void anAxisRunsUpwards() {
    assertThrows(IllegalArgumentException.class, () -> new Range(1, 1));
    assertThrows(IllegalArgumentException.class, () -> new Range(Double.NaN, 1));
    assertThrows(IllegalArgumentException.class, () -> new Range(0, Double.POSITIVE_INFINITY));
    assertFalse(new Range(0, 1).holds(1.1));
  }

  @Test
  void whatXmlCannotHoldIsReplaced() {
    assertEquals("a&lt;b&gt;&amp;&quot;&#39;\uFFFD\uFFFD", SvgWriter.escaped("a<b>&\"'\0\uD800"));
    assertEquals("ø 泵 \uD83D\uDE00", SvgWriter.escaped("ø 泵 \uD83D\uDE00"));
  }

  private static int count(String text, String part) {
    return (text.length() - text.replace(part, "").length()) / part.length();
  }
}
