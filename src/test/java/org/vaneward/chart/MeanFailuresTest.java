package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Mean failures by running as a model. */
class MeanFailuresTest {
  private static final List<MeanFailures.Line> LINES = Samples.means("petrol");

  private static Paper paper() {
    return MeanFailures.paper("seal", LINES, 0.9, AgeUnit.HOURS);
  }

  @Test
  void linesAreStairsFromNothing() {
    double[] x = paper().chart().getSeries("line 0").getXData();
    double[] y = paper().chart().getSeries("line 0").getYData();
    assertArrayEquals(new double[] {0, 1500, 1500, 3000}, Arrays.copyOf(x, 4));
    assertArrayEquals(new double[] {0, 0, 0.5, 0.5}, Arrays.copyOf(y, 4));
    assertEquals(3, y[y.length - 1], 1e-12);
  }

  @Test
  void theFirstLinesHaveLimitsAndAllANameBesideThem() {
    Paper paper = paper();
    assertNotNull(paper.chart().getSeries("line 3 limits"));
    assertNull(paper.chart().getSeries("line 4 limits"));
    List<String> texts = paper.notes().stream().map(Note::text).toList();
    assertTrue(texts.contains("petrol (9 pumps)"), texts.toString());
    assertTrue(texts.contains("LPG (5 pumps)"), texts.toString());
    assertTrue(texts.contains("running on the product, running hours"), texts.toString());
  }

  @Test
  void tellsAndTabulatesWhatItDraws() {
    Picture picture = MeanFailures.draw("Means", "seal", LINES, 0.9, AgeUnit.HOURS);
    assertTrue(picture.alternative().contains("petrol 3.00 after 9,000 h"), picture.alternative());
    assertEquals(30, picture.rows().size());
    assertEquals(List.of("petrol", "1,500", "0.500", "0.350", "0.700"), picture.rows().get(0));
  }

  @Test
  void refusesNoLines() {
    assertThrows(
        IllegalArgumentException.class,
        () -> MeanFailures.draw("Means", "seal", List.of(), 0.9, AgeUnit.HOURS));
  }
}
