package org.vaneward.chart;

import java.awt.Color;
import java.util.List;

/**
 * One hue from light to dark, for areas with numbers on them. One hue reads the same to all eyes
 * and in a grey print; what is written on each has at least 4.5 times its brightness or a part of
 * that.
 */
final class Shades {
  /**
   * A ground and what is written on it.
   *
   * @param fill colour of the ground
   * @param ink colour of text on it
   */
  record Shade(Color fill, Color ink) {}

  /**
   * From light to dark. Between the last two lies the blue on which neither dark nor white letters
   * read well.
   */
  static final List<Shade> LIGHT_TO_DARK =
      List.of(
          new Shade(pale(0.10), House.INK),
          new Shade(pale(0.30), House.INK),
          new Shade(pale(0.50), House.INK),
          new Shade(pale(0.70), House.INK),
          new Shade(House.BLUE, Color.WHITE));

  private Shades() {}

  /** Blue with white, without transparency: grid lines must not show through. */
  private static Color pale(double blue) {
    return new Color(
        mixed(House.BLUE.getRed(), blue),
        mixed(House.BLUE.getGreen(), blue),
        mixed(House.BLUE.getBlue(), blue));
  }

  private static int mixed(int channel, double share) {
    return (int) Math.round(255 + share * (channel - 255));
  }
}
