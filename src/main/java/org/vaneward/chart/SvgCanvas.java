package org.vaneward.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.GraphicsConfiguration;
import java.awt.Image;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.PathIterator;
import java.awt.geom.Point2D;
import java.awt.image.BufferedImage;
import java.awt.image.ImageObserver;
import java.awt.image.RenderedImage;
import java.awt.image.renderable.RenderableImage;
import java.util.HexFormat;
import org.apache.xmlgraphics.java2d.AbstractGraphics2D;
import org.apache.xmlgraphics.java2d.GraphicContext;

/**
 * What XChart paints on, written down as SVG at once: fills and strokes in the order they come,
 * shapes of one look together. Text is not written, {@link Paper} sets its own, and clips are not,
 * one clip serves the whole plot.
 *
 * <p>XChart paints a curve as many two-point lines: those that touch are joined to one path, so
 * that dashes run through. Only plain colours and plain strokes occur here; what else may be asked
 * of a canvas is refused, so that nothing is left out unseen.
 */
final class SvgCanvas extends AbstractGraphics2D {
  /** XChart measures text even where it is told to write none. */
  private static final Graphics2D MEASURES =
      new BufferedImage(1, 1, BufferedImage.TYPE_BYTE_GRAY).createGraphics();

  private final Marks marks;

  SvgCanvas() {
    super(false);
    gc = new GraphicContext();
    marks = new Marks();
  }

  private SvgCanvas(SvgCanvas like) {
    super(like);
    marks = like.marks;
  }

  @Override
  public Graphics create() {
    return new SvgCanvas(this);
  }

  /** Everything painted, each look in a group of its own. */
  String svg() {
    return marks.finish();
  }

  @Override
  public void draw(Shape shape) {
    if (getColor().getAlpha() == 0) {
      return;
    }
    marks.look(stroked(getColor(), (BasicStroke) getStroke()));
    if (shape instanceof Line2D line) {
      AffineTransform here = getTransform();
      marks.line(here.transform(line.getP1(), null), here.transform(line.getP2(), null));
    } else {
      marks.path(shape.getPathIterator(getTransform()));
    }
  }

  @Override
  public void fill(Shape shape) {
    Color colour = (Color) getPaint();
    if (colour.getAlpha() == 0) {
      return;
    }
    marks.look(filled(colour));
    boolean moved = (getTransform().getType() & ~AffineTransform.TYPE_TRANSLATION) == 0;
    if (moved && shape instanceof Ellipse2D round && round.getWidth() == round.getHeight()) {
      Point2D middle = new Point2D.Double(round.getCenterX(), round.getCenterY());
      marks.circle(getTransform().transform(middle, null), round.getWidth() / 2);
    } else {
      marks.path(shape.getPathIterator(getTransform()));
    }
  }

  private static String filled(Color colour) {
    return "fill=\"" + hex(colour) + '"' + opacity("fill-opacity", colour);
  }

  private static String stroked(Color colour, BasicStroke stroke) {
    StringBuilder look = new StringBuilder(128);
    look.append("fill=\"none\" stroke=\"").append(hex(colour)).append('"');
    look.append(opacity("stroke-opacity", colour));
    look.append(" stroke-width=\"");
    Decimals.append(look, stroke.getLineWidth());
    look.append('"');
    float[] dashes = stroke.getDashArray();
    if (dashes != null) {
      look.append(" stroke-dasharray=\"");
      for (int i = 0; i < dashes.length; i++) {
        Decimals.append(i == 0 ? look : look.append(','), dashes[i]);
      }
      look.append('"');
    }
    if (stroke.getEndCap() != BasicStroke.CAP_BUTT) {
      boolean round = stroke.getEndCap() == BasicStroke.CAP_ROUND;
      look.append(" stroke-linecap=\"").append(round ? "round" : "square").append('"');
    }
    if (stroke.getLineJoin() != BasicStroke.JOIN_MITER) {
      boolean round = stroke.getLineJoin() == BasicStroke.JOIN_ROUND;
      look.append(" stroke-linejoin=\"").append(round ? "round" : "bevel").append('"');
    }
    return look.toString();
  }

  static String hex(Color colour) {
    return "#" + HexFormat.of().toHexDigits(colour.getRGB() & 0xffffff, 6);
  }

  private static String opacity(String attribute, Color colour) {
    if (colour.getAlpha() == 255) {
      return "";
    }
    // Hundredths are as fine as an eye tells apart.
    return " " + attribute + "=\"" + Math.round(colour.getAlpha() / 2.55) / 100.0 + '"';
  }

  /** Marks in the order they are made, shared by a canvas and those made from it. */
  private static final class Marks {
    private final StringBuilder written = new StringBuilder(8192);
    private final StringBuilder lines = new StringBuilder(1024);
    private String look = "";
    private double endX = Double.NaN;
    private double endY = Double.NaN;

    void look(String next) {
      if (!next.equals(look)) {
        close();
        look = next;
        written.append("<g ").append(next).append('>');
      }
    }

    void line(Point2D from, Point2D to) {
      if (!(from.getX() == endX && from.getY() == endY)) {
        corner('M', from.getX(), from.getY());
      }
      corner('L', to.getX(), to.getY());
      endX = to.getX();
      endY = to.getY();
    }

    private void corner(char command, double x, double y) {
      Decimals.append(lines.append(command), x);
      Decimals.append(lines.append(' '), y);
    }

    void circle(Point2D middle, double radius) {
      flush();
      Decimals.append(written.append("<circle cx=\""), middle.getX());
      Decimals.append(written.append("\" cy=\""), middle.getY());
      Decimals.append(written.append("\" r=\""), radius);
      written.append("\"/>");
    }

    void path(PathIterator outline) {
      flush();
      written.append("<path ");
      if (outline.getWindingRule() == PathIterator.WIND_EVEN_ODD) {
        written.append("fill-rule=\"evenodd\" ");
      }
      written.append("d=\"");
      double[] at = new double[6];
      for (; !outline.isDone(); outline.next()) {
        int kind = outline.currentSegment(at);
        written.append(COMMANDS[kind]);
        for (int i = 0; i < 2 * POINTS[kind]; i++) {
          Decimals.append(i == 0 ? written : written.append(' '), at[i]);
        }
      }
      written.append("\"/>");
    }

    /** By the kinds of segment: to a point without a line, with one, curves, and back. */
    private static final char[] COMMANDS = {'M', 'L', 'Q', 'C', 'Z'};

    private static final int[] POINTS = {1, 1, 2, 3, 0};

    private void flush() {
      if (lines.length() > 0) {
        written.append("<path d=\"").append(lines).append("\"/>");
        lines.setLength(0);
      }
      endX = Double.NaN;
      endY = Double.NaN;
    }

    private void close() {
      flush();
      if (!look.isEmpty()) {
        written.append("</g>");
        look = "";
      }
    }

    String finish() {
      close();
      return written.toString();
    }
  }

  // ---- what is measured, and what does not occur

  @Override
  public FontMetrics getFontMetrics(Font font) {
    synchronized (MEASURES) {
      return MEASURES.getFontMetrics(font);
    }
  }

  @Override
  public GraphicsConfiguration getDeviceConfiguration() {
    return MEASURES.getDeviceConfiguration();
  }

  @Override
  public void drawString(String text, float x, float y) {
    // Paper writes every text itself, placed where nothing is hidden.
  }

  @Override
  public void setXORMode(Color colour) {
    throw new UnsupportedOperationException("SVG has no such mode");
  }

  @Override
  public void copyArea(int x, int y, int width, int height, int dx, int dy) {
    throw new UnsupportedOperationException("nothing is copied in a picture of shapes");
  }

  @Override
  public boolean drawImage(Image image, int x, int y, ImageObserver observer) {
    throw noImages();
  }

  @Override
  public boolean drawImage(Image image, int x, int y, int w, int h, ImageObserver observer) {
    throw noImages();
  }

  @Override
  public void drawRenderedImage(RenderedImage image, AffineTransform where) {
    throw noImages();
  }

  @Override
  public void drawRenderableImage(RenderableImage image, AffineTransform where) {
    throw noImages();
  }

  private static UnsupportedOperationException noImages() {
    return new UnsupportedOperationException("pictures here hold shapes and text only");
  }

  @Override
  public void dispose() {
    // holds nothing to be given back
  }
}
