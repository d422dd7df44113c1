package org.vaneward.chart;

import java.awt.Color;

/**
 * Text in a picture, in pixels of the picture.
 *
 * @param x where the anchor is, from the left
 * @param y base line, from the top
 * @param anchor which end of the text is at {@code x}
 * @param text what it says; not escaped
 * @param colour colour
 * @param size letter size
 * @param bold whether it is bold
 * @param veil whether the ground behind it is made paler, so that lines do not cross the letters
 */
record Note(
    double x,
    double y,
    Anchor anchor,
    String text,
    Color colour,
    int size,
    boolean bold,
    boolean veil) {

  /** Which end of a text is held. */
  enum Anchor {
    START("start"),
    MIDDLE("middle"),
    END("end");

    final String svg;

    Anchor(String svg) {
      this.svg = svg;
    }
  }

  static Note at(double x, double y, Anchor anchor, String text, Color colour, int size) {
    return new Note(x, y, anchor, text, colour, size, false, false);
  }

  Note asBold() {
    return new Note(x, y, anchor, text, colour, size, true, veil);
  }

  Note veiled() {
    return new Note(x, y, anchor, text, colour, size, bold, true);
  }

  /** The room it takes, about. */
  Box box() {
    double width = Words.width(text, size) * (bold ? 1.08 : 1);
    double left = anchor == Anchor.START ? x : anchor == Anchor.END ? x - width : x - width / 2;
    return new Box(left, y - 0.85 * size, left + width, y + 0.28 * size);
  }

  /** A rectangle in pixels. */
  record Box(double left, double top, double right, double bottom) {
    boolean touches(Box other) {
      return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }

    boolean holds(double px, double py) {
      return px > left && px < right && py > top && py < bottom;
    }

    boolean inside(Box other) {
      return left >= other.left
          && right <= other.right
          && top >= other.top
          && bottom <= other.bottom;
    }

    Box grown(double by) {
      return new Box(left - by, top - by, right + by, bottom + by);
    }
  }
}
