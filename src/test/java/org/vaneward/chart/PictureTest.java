package org.vaneward.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The record that pages are made of. */
class PictureTest {
  @Test
  void everyRowHasACellForEachColumn() {
    ProbabilityPlotTest.assertRefused(
        "2 cells, not 1",
        () -> new Picture("<svg/>", "t", "a", List.of("x", "y"), List.of(List.of("1"))));
  }

  @Test
  void keepsItsOwnCopyOfTheTable() {
    List<String> row = new ArrayList<>(List.of("1"));
    List<List<String>> rows = new ArrayList<>(List.of(row));
    Picture picture = new Picture("<svg/>", "t", "a", List.of("x"), rows);
    row.set(0, "2");
    rows.clear();
    assertEquals(List.of(List.of("1")), picture.rows());
  }
}
