package org.vaneward.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.util.List;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * How pictures look: white ground, thin grey grid, few colours, labels at the thing they name.
 *
 * <p>The colours are those of M. Okabe and K. Ito, "Color Universal Design" (2008), told apart by
 * people with any of the common colour deficiencies; values from memory. Whatever has a colour also
 * has its own marker or dash, so that a grey print still reads.
 */
final class House {
  static final int WIDTH = 640;
  static final int HEIGHT = 400;
  static final int TEXT = 12;
  static final int SMALL = 11;
  static final String FONTS = "DejaVu Sans, Arial, sans-serif";

  static final Color BLUE = new Color(0, 114, 178);
  static final Color VERMILLION = new Color(213, 94, 0);
  static final Color GREEN = new Color(0, 158, 115);
  static final Color PURPLE = new Color(204, 121, 167);
  static final Color SKY = new Color(86, 180, 233);

  static final Color INK = new Color(34, 34, 34);
  static final Color GREY = new Color(96, 96, 96);
  static final Color AXIS = new Color(130, 130, 130);
  static final Color GRID = new Color(226, 226, 226);

  static final BasicStroke HAIR = stroke(0.8f);
  static final BasicStroke THIN = stroke(1.2f);
  static final BasicStroke CURVE = stroke(2f);
  static final BasicStroke HEAVY = stroke(3f);
  static final BasicStroke DASHED = stroke(1.6f, 7, 4);
  static final BasicStroke DOTTED = stroke(1.2f, 2, 3);

  /** How one of several lines looks. */
  record Look(Color colour, BasicStroke stroke, Marker marker) {}

  /** Looks of several lines in one picture, told apart by colour, dash and marker. */
  static final List<Look> LOOKS =
      List.of(
          new Look(BLUE, CURVE, SeriesMarkers.CIRCLE),
          new Look(VERMILLION, stroke(2f, 8, 3), SeriesMarkers.TRIANGLE_UP),
          new Look(GREEN, stroke(2f, 2, 3), SeriesMarkers.SQUARE),
          new Look(PURPLE, stroke(2f, 9, 3, 2, 3), SeriesMarkers.DIAMOND));

  private House() {}

  /** The same hue as a tint for areas. */
  static Color tint(Color colour, double opacity) {
    int alpha = (int) Math.round(255 * opacity);
    return new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), alpha);
  }

  /** The same hue, dark enough for text on white. */
  static Color forText(Color colour) {
    return new Color(
        colour.getRed() * 7 / 10, colour.getGreen() * 7 / 10, colour.getBlue() * 7 / 10);
  }

  /** An unbroken line of a width. */
  static BasicStroke ofWidth(float width) {
    return stroke(width);
  }

  private static BasicStroke stroke(float width, float... dash) {
    return new BasicStroke(
        width,
        BasicStroke.CAP_BUTT,
        BasicStroke.JOIN_ROUND,
        10f,
        dash.length == 0 ? null : dash,
        0f);
  }
}
