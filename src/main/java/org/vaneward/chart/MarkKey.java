package org.vaneward.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.util.ArrayList;
import java.util.List;
import org.knowm.xchart.style.markers.Marker;

/**
 * What the marks of a picture mean, drawn with the same marks: rows at the top of the plot, one
 * unit of its y axis each, as many as the width asks for.
 */
final class MarkKey {
  private static final int START = 6;
  private static final int TO_TEXT = 5;
  private static final int TO_NEXT = 14;

  /** Draws a mark of the key between two pixels from the left, at a level of the y axis. */
  @FunctionalInterface
  interface Mark {
    void draw(Paper paper, String name, Range pixels, double level);
  }

  /**
   * One mark and its meaning.
   *
   * @param text what it means
   * @param width pixels it takes from left to right
   * @param mark how it is drawn
   */
  record Entry(String text, double width, Mark mark) {
    double room() {
      return width + toText() + Words.width(text, House.SMALL);
    }

    double toText() {
      return width > 0 ? TO_TEXT : 0;
    }
  }

  private final List<List<Entry>> rows = new ArrayList<>();

  /** Breaks the entries into rows for a plot so wide. */
  MarkKey(List<Entry> entries, double plotWidth) {
    this(entries, plotWidth, 0);
  }

  /** Breaks the entries into rows whose words, not whose marks, may reach beyond the plot. */
  MarkKey(List<Entry> entries, double plotWidth, double beyond) {
    double x = 0;
    for (Entry entry : entries) {
      boolean fits = x + entry.width() <= plotWidth && x + entry.room() <= plotWidth + beyond;
      if (rows.isEmpty() || !fits) {
        rows.add(new ArrayList<>());
        x = START;
      }
      rows.get(rows.size() - 1).add(entry);
      x += entry.room() + TO_NEXT;
    }
  }

  /** Words that explain a mark made of letters, or none. */
  static Entry text(String text) {
    return new Entry(text, 0, (paper, name, pixels, level) -> {});
  }

  static Entry point(String text, Color colour, Marker marker) {
    return new Entry(
        text,
        8,
        (paper, name, pixels, level) ->
            paper.points(
                name, new double[] {middle(paper, pixels)}, new double[] {level}, colour, marker));
  }

  /** A piece of a bar. */
  static Entry bar(String text, Color fill, double half) {
    return new Entry(
        text,
        22,
        (paper, name, pixels, level) ->
            paper.bar(
                name,
                new Range(paper.xAt(pixels.min()), paper.xAt(pixels.max())),
                new Range(level - half, level + half),
                fill));
  }

  /** A piece of an upright line. */
  static Entry upright(String text, Color colour, BasicStroke stroke) {
    return new Entry(
        text,
        6,
        (paper, name, pixels, level) -> {
          double x = middle(paper, pixels);
          double[] up = {level - 0.36, level + 0.36};
          paper.line(name, new double[] {x, x}, up, colour, stroke);
        });
  }

  private static double middle(Paper paper, Range pixels) {
    return paper.xAt((pixels.min() + pixels.max()) / 2);
  }

  /** Units of the y axis it takes. */
  int height() {
    return rows.size();
  }

  /** Draws it from a level of the y axis downwards. */
  void draw(Paper paper, double top) {
    for (int row = 0; row < rows.size(); row++) {
      double level = top - row - 0.5;
      double x = paper.margins().left() + (double) START;
      for (Entry entry : rows.get(row)) {
        if (entry.width() > 0) {
          entry.mark().draw(paper, "key " + entry.text(), new Range(x, x + entry.width()), level);
        }
        double text = x + entry.width() + entry.toText();
        paper.note(
            Note.at(
                text,
                paper.py(level) + 4,
                Note.Anchor.START,
                entry.text(),
                House.GREY,
                House.SMALL));
        x += entry.room() + TO_NEXT;
      }
    }
  }
}
