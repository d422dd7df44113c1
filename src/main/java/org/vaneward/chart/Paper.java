package org.vaneward.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.XYSeries.XYSeriesRenderStyle;
import org.knowm.xchart.style.XYStyler;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * A sheet with a plot on linear axes and text around and in it. XChart paints the series into the
 * plot; everything XChart would write or rule itself is switched off. Things are painted in the
 * order they are given, so grid lines come first.
 */
final class Paper {
  /** Pixels between the plot and the edge of the sheet. */
  record Margins(int top, int right, int bottom, int left) {}

  private static final double HALF_A_PIXEL = 0.5;
  private static final int MARKER_SIZE = 7;
  private static final int SIDE_LINE = 14;
  private static final Color NOTHING = new Color(0, 0, 0, 0);

  private final int width;
  private final int height;
  private final Margins margins;
  private final Range x;
  private final Range y;
  private final XYChart chart;
  private final LabelPlacer placer;
  private final List<Note> notes = new ArrayList<>();
  private final List<LabelPlacer.Wish> unplaced = new ArrayList<>();

  Paper(int width, int height, Margins margins, Range x, Range y) {
    this.width = width;
    this.height = height;
    this.margins = margins;
    this.x = x;
    this.y = y;
    chart = new XYChart(plotWidth(), plotHeight());
    bare(chart.getStyler());
    placer =
        new LabelPlacer(
            new Note.Box(
                margins.left, margins.top, width - margins.right, height - margins.bottom));
  }

  private void bare(XYStyler styler) {
    styler.setLocale(Locale.ROOT);
    styler.setChartPadding(0).setPlotContentSize(1).setPlotBorderVisible(false);
    styler.setPlotMargin(0).setLegendVisible(false).setChartTitleVisible(false);
    styler.setAxisTicksVisible(false).setAxisTitlesVisible(false);
    styler.setAxisTicksLineVisible(false).setAxisTicksMarksVisible(false);
    styler.setPlotGridLinesVisible(false).setPlotTicksMarksVisible(false);
    styler.setChartBackgroundColor(NOTHING).setPlotBackgroundColor(NOTHING);
    styler.setMarkerSize(MARKER_SIZE);
    styler.setXAxisMin(x.min()).setXAxisMax(x.max());
    styler.setYAxisMin(y.min()).setYAxisMax(y.max());
  }

  int width() {
    return width;
  }

  int height() {
    return height;
  }

  Margins margins() {
    return margins;
  }

  Range x() {
    return x;
  }

  Range y() {
    return y;
  }

  int plotWidth() {
    return width - margins.left - margins.right;
  }

  int plotHeight() {
    return height - margins.top - margins.bottom;
  }

  XYChart chart() {
    return chart;
  }

  /** Pixels from the left edge of the sheet. */
  double px(double valueX) {
    return margins.left + (valueX - x.min()) / x.length() * plotWidth();
  }

  /** Pixels from the top edge of the sheet. */
  double py(double valueY) {
    return margins.top + (y.max() - valueY) / y.length() * plotHeight();
  }

  /** The x at a pixel, counted from the left edge of the sheet. */
  double xAt(double px) {
    return x.min() + (px - margins.left) / plotWidth() * x.length();
  }

  /** The y at a pixel, counted from the top edge of the sheet. */
  double yAt(double py) {
    return y.max() - (py - margins.top) / plotHeight() * y.length();
  }

  // ---- axes

  /** Lines at dates, where x counts days since 1970: months where these are enough. */
  void gridDates() {
    List<LocalDate> ticks =
        Ticks.dates(
            LocalDate.ofEpochDay((long) Math.ceil(x().min())),
            LocalDate.ofEpochDay((long) Math.floor(x().max())));
    boolean months = ticks.stream().allMatch(date -> date.getDayOfMonth() == 1);
    gridX(
        ticks.stream().mapToDouble(date -> (double) date.toEpochDay()).toArray(),
        ticks.stream().map(date -> date.toString().substring(0, months ? 7 : 10)).toList());
  }

  /** Vertical grid lines with labels below the plot, left out where they would touch. */
  void gridX(double[] at, List<String> labels) {
    double[][] lines = segments(at, y, false);
    series("grid x", lines[0], lines[1], House.GRID, House.HAIR);
    labelsBelow(at, labels, 6);
  }

  private void labelsBelow(double[] at, List<String> labels, double gap) {
    double free = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < at.length; i++) {
      Note label =
          Note.at(
              px(at[i]),
              height - margins.bottom + 17,
              Note.Anchor.MIDDLE,
              labels.get(i),
              House.GREY,
              House.SMALL);
      if (label.box().left() > free) {
        notes.add(label);
        free = label.box().right() + gap;
      }
    }
  }

  /** Horizontal grid lines with labels left of the plot. */
  void gridY(double[] at, List<String> labels) {
    double[][] lines = segments(at, x, true);
    series("grid y", lines[0], lines[1], House.GRID, House.HAIR);
    for (int i = 0; i < at.length; i++) {
      labelY(at[i], labels.get(i), House.GREY);
    }
  }

  /** A label left of the plot, cut where it is too long. */
  void labelY(double at, String label, Color colour) {
    String cut = Words.fit(label, House.SMALL, margins.left - 12.0);
    notes.add(Note.at(margins.left - 8, py(at) + 4, Note.Anchor.END, cut, colour, House.SMALL));
  }

  /** The heading of the texts right of the plot. */
  void headRight(String text) {
    double left = width - margins.right + 8.0;
    notes.add(Note.at(left, margins.top - 12, Note.Anchor.START, text, House.INK, House.SMALL));
  }

  /** A text right of the plot. */
  void labelRight(double at, String label, Color colour) {
    double left = width - margins.right + 8.0;
    notes.add(Note.at(left, py(at) + 4, Note.Anchor.START, label, colour, House.SMALL));
  }

  /**
   * A text right of the plot, at what it names.
   *
   * @param at where that is on the y axis
   */
  record Side(double at, String text, Color colour) {}

  /** Texts right of the plot, the lowest first, moved up where they would touch. */
  void labelsRight(List<Side> sides) {
    double free = Double.POSITIVE_INFINITY;
    for (Side side : sides) {
      double place = Math.min(py(side.at()), free);
      labelRight(yAt(place), side.text(), House.forText(side.colour()));
      free = place - SIDE_LINE;
    }
  }

  /** Names below the plot at x of 0, 1, 2 and on, as many as there is room for. */
  void namesX(List<String> names) {
    labelsBelow(IntStream.range(0, names.size()).asDoubleStream().toArray(), names, 8);
  }

  /** The base line of the plot. */
  void baseLine() {
    series(
        "base line",
        new double[] {x.min(), x.max()},
        new double[] {y.min(), y.min()},
        House.AXIS,
        House.CURVE);
  }

  /** What the x axis shows, with its unit, below the labels. */
  void titleX(String title) {
    notes.add(
        Note.at(
            margins.left + plotWidth() / 2.0,
            height - margins.bottom + 37,
            Note.Anchor.MIDDLE,
            title,
            House.INK,
            House.TEXT));
  }

  /** What the y axis shows, with its unit, above the plot at the left: nobody turns the head. */
  void titleY(String title) {
    String cut = Words.fit(title, House.TEXT, width - margins.right - 12.0);
    notes.add(Note.at(8, margins.top - 12, Note.Anchor.START, cut, House.INK, House.TEXT));
  }

  // ---- marks

  /** A line through points; NaN in y breaks it. */
  void line(String name, double[] xs, double[] ys, Color colour, BasicStroke stroke) {
    Guard.sameLength(xs, ys);
    boolean[] keep = visiblyApart(xs, ys);
    double[] keptX = kept(xs, keep);
    double[] keptY = kept(ys, keep);
    for (int i = 1; i < keptX.length; i++) {
      if (!Double.isNaN(keptY[i]) && !Double.isNaN(keptY[i - 1])) {
        placer.avoidLine(name, px(keptX[i - 1]), py(keptY[i - 1]), px(keptX[i]), py(keptY[i]));
      }
    }
    series(name, keptX, keptY, colour, stroke);
  }

  /** A straight line across the plot at one x. */
  void upright(String name, double at, Color colour, BasicStroke stroke) {
    line(name, new double[] {at, at}, new double[] {y.min(), y.max()}, colour, stroke);
  }

  /** A straight line across the plot at one y. */
  void level(String name, double at, Color colour, BasicStroke stroke) {
    line(name, new double[] {x.min(), x.max()}, new double[] {at, at}, colour, stroke);
  }

  /** Points; those that would fall on the one before are left out. */
  void points(String name, double[] xs, double[] ys, Color colour, Marker marker) {
    Guard.sameLength(xs, ys);
    boolean[] keep = visiblyApart(xs, ys);
    double[] keptX = kept(xs, keep);
    double[] keptY = kept(ys, keep);
    for (int i = 0; i < keptX.length; i++) {
      placer.avoidPoint(name, px(keptX[i]), py(keptY[i]));
    }
    XYSeries series = chart.addSeries(name, keptX, keptY);
    series.setXYSeriesRenderStyle(XYSeriesRenderStyle.Scatter);
    series.setMarker(marker);
    series.setMarkerColor(colour);
    series.setLineColor(colour);
    series.setLineStyle(House.THIN);
  }

  /** The area between two curves over the same x. */
  void band(String name, double[] xs, double[] lower, double[] upper, Color fill) {
    Guard.sameLength(xs, lower);
    Guard.sameLength(xs, upper);
    double[] aroundX = new double[2 * xs.length];
    double[] aroundY = new double[2 * xs.length];
    for (int i = 0; i < xs.length; i++) {
      int back = aroundX.length - 1 - i;
      aroundX[i] = xs[i];
      aroundX[back] = xs[i];
      aroundY[i] = upper[i];
      aroundY[back] = lower[i];
    }
    boolean[] keep = visiblyApart(aroundX, aroundY);
    area(name, kept(aroundX, keep), kept(aroundY, keep), fill);
  }

  /** A filled rectangle. */
  void bar(String name, Range across, Range up, Color fill) {
    area(
        name,
        new double[] {across.min(), across.max(), across.max(), across.min()},
        new double[] {up.max(), up.max(), up.min(), up.min()},
        fill);
  }

  /** A rectangle of a row: from where to where, and the middle of the row. */
  record Block(Range across, double level) {}

  /**
   * Filled rectangles of one height and colour, as one broken line as thick as they are tall: many
   * cells stay few bytes.
   */
  void blocks(String name, List<Block> blocks, double pixelsTall, Color fill) {
    double[] xs = new double[3 * blocks.size()];
    double[] ys = new double[xs.length];
    for (int i = 0; i < blocks.size(); i++) {
      Block block = blocks.get(i);
      xs[3 * i] = block.across().min();
      xs[3 * i + 1] = block.across().max();
      xs[3 * i + 2] = block.across().max();
      ys[3 * i] = block.level();
      ys[3 * i + 1] = block.level();
      ys[3 * i + 2] = Double.NaN;
    }
    series(name, xs, ys, fill, House.ofWidth((float) pixelsTall));
  }

  private void area(String name, double[] xs, double[] ys, Color fill) {
    XYSeries series = chart.addSeries(name, xs, ys);
    series.setXYSeriesRenderStyle(XYSeriesRenderStyle.PolygonArea);
    series.setMarker(SeriesMarkers.NONE);
    series.setFillColor(fill);
    series.setLineColor(NOTHING);
    series.setLineStyle(House.HAIR);
  }

  private void series(String name, double[] xs, double[] ys, Color colour, BasicStroke stroke) {
    XYSeries series = chart.addSeries(name, xs, ys);
    series.setXYSeriesRenderStyle(XYSeriesRenderStyle.Line);
    series.setMarker(SeriesMarkers.NONE);
    series.setLineColor(colour);
    series.setLineStyle(stroke);
  }

  // ---- text

  /** Text at a fixed place. */
  void note(Note note) {
    notes.add(note);
  }

  /** Text at the best of several places, chosen when everything is drawn. */
  void label(String series, List<Note> places) {
    unplaced.add(new LabelPlacer.Wish(series, places));
  }

  /** All text, labels placed. */
  List<Note> notes() {
    for (LabelPlacer.Wish wish : unplaced) {
      notes.add(placer.place(wish));
    }
    unplaced.clear();
    return List.copyOf(notes);
  }

  /** Places beside a curve, right of it and left of it, from its end to its beginning. */
  List<Note> beside(double[] xs, double[] ys, String text, Color colour) {
    List<Note> places = new ArrayList<>();
    int steps = 24;
    for (int i = steps; i >= 0; i--) {
      int at = (int) Math.round((xs.length - 1) * (double) i / steps);
      double left = px(xs[at]);
      double base = py(ys[at]) + 4;
      if (x.holds(xs[at]) && y.holds(ys[at])) {
        for (double rise : new double[] {0, 10, 20}) {
          places.add(Note.at(left - 9, base - rise, Note.Anchor.END, text, colour, House.TEXT));
          places.add(Note.at(left + 9, base + rise, Note.Anchor.START, text, colour, House.TEXT));
        }
        places.add(Note.at(left + 9, base - 14, Note.Anchor.START, text, colour, House.TEXT));
        places.add(Note.at(left, base - 14, Note.Anchor.MIDDLE, text, colour, House.TEXT));
        places.add(Note.at(left, base + 18, Note.Anchor.MIDDLE, text, colour, House.TEXT));
      }
    }
    if (places.isEmpty()) {
      double right = (double) width - margins.right - 6;
      places.add(Note.at(right, margins.top + 14, Note.Anchor.END, text, colour, House.TEXT));
    }
    return places;
  }

  /** How one row of a key looks and what it says. */
  record Entry(String text, House.Look look, boolean withLine) {}

  /** What the marks of several crossing lines mean, in the emptier of two corners of the plot. */
  void key(List<Entry> entries) {
    int row = 18;
    double room =
        entries.stream().mapToDouble(e -> Words.width(e.text(), House.TEXT)).max().orElse(0) + 48;
    double tall = row * entries.size() + 8.0;
    double right = (double) width - margins.right - 4;
    double bottom = (double) height - margins.bottom - 6;
    Note.Box lower = new Note.Box(right - room, bottom - tall, right, bottom);
    double left = margins.left + 8.0;
    double top = margins.top + 4.0;
    Note.Box upper = new Note.Box(left, top, left + room, top + tall);
    Note.Box box = placer.covered(lower) <= placer.covered(upper) ? lower : upper;
    for (int i = 0; i < entries.size(); i++) {
      entry(entries.get(i), box.left() + 4, box.top() + 12 + row * i);
    }
  }

  private void entry(Entry entry, double left, double middle) {
    House.Look look = entry.look();
    if (entry.withLine()) {
      double[] ends = {xAt(left), xAt(left + 32)};
      double[] level = {yAt(middle), yAt(middle)};
      line("key line " + entry.text(), ends, level, look.colour(), look.stroke());
    }
    double[] centre = {xAt(left + 16)};
    double[] level = {yAt(middle)};
    points("key point " + entry.text(), centre, level, look.colour(), look.marker());
    Color dark = House.forText(look.colour());
    note(Note.at(left + 40, middle + 4, Note.Anchor.START, entry.text(), dark, House.TEXT));
  }

  /** The picture. */
  Picture picture(String title, String alternative, List<String> columns, List<List<String>> rows) {
    String svg = SvgWriter.write(this, title, alternative);
    return new Picture(svg, title, alternative, columns, rows);
  }

  // ---- points too close to see

  /** Which points are at least half a pixel from the last one kept; ends and breaks always are. */
  private boolean[] visiblyApart(double[] xs, double[] ys) {
    boolean[] keep = new boolean[xs.length];
    int last = -1;
    for (int i = 0; i < xs.length; i++) {
      keep[i] =
          last < 0
              || i == xs.length - 1
              || !(apart(xs, ys, last, i) < HALF_A_PIXEL)
              || Double.isNaN(ys[Math.min(i + 1, xs.length - 1)]);
      if (keep[i]) {
        last = i;
      }
    }
    return keep;
  }

  private double apart(double[] xs, double[] ys, int i, int j) {
    return Math.hypot(px(xs[i]) - px(xs[j]), py(ys[i]) - py(ys[j]));
  }

  private static double[] kept(double[] values, boolean[] keep) {
    double[] result = new double[values.length];
    int n = 0;
    for (int i = 0; i < values.length; i++) {
      if (keep[i]) {
        result[n++] = values[i];
      }
    }
    return Arrays.copyOf(result, n);
  }

  /** Straight pieces across a range, with breaks between, as x and y. */
  private static double[][] segments(double[] at, Range across, boolean level) {
    double[] fixed = new double[3 * at.length];
    double[] moving = new double[3 * at.length];
    for (int i = 0; i < at.length; i++) {
      for (int k = 0; k < 3; k++) {
        fixed[3 * i + k] = at[i];
        moving[3 * i + k] = k == 0 ? across.min() : across.max();
      }
      if (level) {
        fixed[3 * i + 2] = Double.NaN;
      } else {
        moving[3 * i + 2] = Double.NaN;
      }
    }
    return level ? new double[][] {moving, fixed} : new double[][] {fixed, moving};
  }
}
