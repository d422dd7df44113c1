package org.vaneward.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Mean number of failures of a pump by its running, one line for each of several groups. */
public final class MeanFailures {
  /** So many lines have a colour and limits of their own; the others are grey. */
  private static final int COLOURED = House.LOOKS.size();

  private static final double BAND = 0.10;

  /**
   * The mean number at one running.
   *
   * @param hours running, at least 0
   * @param mean mean number of failures by then, at least 0
   * @param lower lower limit
   * @param upper upper limit
   */
  public record Point(double hours, double mean, double lower, double upper) {
    /**
     * A point.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Point {
      Guard.notNegative("running hours", hours);
      Guard.notNegative("a mean number", mean);
      Guard.notNegative("a lower limit", lower);
      Guard.notNegative("an upper limit", upper);
    }
  }

  /**
   * One group.
   *
   * @param label its name
   * @param points running ascending, not empty
   * @param pumps pumps in it
   */
  public record Line(String label, List<Point> points, int pumps) {
    /**
     * A line.
     *
     * @throws IllegalArgumentException when there are no points or they do not ascend
     */
    public Line {
      points = List.copyOf(points);
      Guard.notEmpty("points", points);
      Guard.ascending("running", points.stream().mapToDouble(Point::hours).toArray());
    }

    Point last() {
      return points.get(points.size() - 1);
    }
  }

  private MeanFailures() {}

  /**
   * Draws the lines; the first few have a colour and limits.
   *
   * @param component the component that fails
   * @param confidence confidence of the limits, in (0, 1)
   * @throws IllegalArgumentException when there are no lines or a name repeats
   */
  public static Picture draw(
      String title, String component, List<Line> lines, double confidence, AgeUnit unit) {
    Guard.share("a confidence", confidence);
    List<List<String>> rows = new ArrayList<>();
    for (Line line : lines) {
      for (Point p : line.points()) {
        rows.add(
            List.of(
                line.label(),
                Words.plain(Math.rint(p.hours())),
                Words.number(p.mean()),
                Words.number(p.lower()),
                Words.number(p.upper())));
      }
    }
    return paper(component, lines, confidence, unit)
        .picture(
            title,
            inWords(component, lines, unit),
            List.of(
                "product",
                "running, " + unit.symbol(),
                "failures per pump",
                "lower limit",
                "upper limit"),
            rows);
  }

  private static String inWords(String component, List<Line> lines, AgeUnit unit) {
    List<String> said =
        lines.stream()
            .map(
                line ->
                    line.label()
                        + " "
                        + Words.number(line.last().mean())
                        + " after "
                        + Words.age(line.last().hours(), unit))
            .toList();
    return "Mean number of failures of "
        + component
        + " a pump has had by its running: "
        + Words.some(said, 7)
        + ". A steeper line fails more often; one that bends upwards, ever more often.";
  }

  static Paper paper(String component, List<Line> lines, double confidence, AgeUnit unit) {
    Guard.notEmpty("lines", lines);
    Guard.distinct("names", lines.stream().map(Line::label).toList());
    double longest = lines.stream().mapToDouble(line -> line.last().hours()).max().orElse(1);
    double highest = lines.stream().mapToDouble(line -> line.last().mean()).max().orElse(1);
    Range running = new Range(0, longest > 0 ? longest * 1.04 : 1);
    Range means = new Range(0, highest > 0 ? highest * 1.18 : 1);
    Paper paper =
        new Paper(House.WIDTH, House.HEIGHT, new Paper.Margins(34, 26, 50, 56), running, means);
    double[] across = Ticks.linear(0, running.max(), 8);
    paper.gridX(across, Arrays.stream(across).mapToObj(Words::plain).toList());
    double[] up = Ticks.linear(0, means.max(), 6);
    paper.gridY(up, Arrays.stream(up).mapToObj(Words::plain).toList());
    paper.baseLine();
    paper.titleX("running on the product, " + unit.words());
    paper.titleY(component + ": failures per pump, with " + Words.percent(confidence) + " limits");
    for (int i = lines.size() - 1; i >= 0; i--) {
      line(paper, lines.get(i), i, means.max());
    }
    return paper;
  }

  private static void line(Paper paper, Line line, int place, double highest) {
    boolean own = place < COLOURED;
    Color colour = own ? House.LOOKS.get(place).colour() : House.AXIS;
    double[] x = stairsX(line);
    String name = "line " + place;
    if (own) {
      double[] lower = line.points().stream().mapToDouble(Point::lower).toArray();
      double[] upper =
          line.points().stream().mapToDouble(p -> Math.min(p.upper(), highest)).toArray();
      paper.band(name + " limits", x, stairs(lower), stairs(upper), House.tint(colour, BAND));
    }
    double[] y = stairs(line.points().stream().mapToDouble(Point::mean).toArray());
    paper.line(name, x, y, colour, own ? House.LOOKS.get(place).stroke() : House.THIN);
    String text = line.label() + " (" + Words.counted(line.pumps(), "pump", "pumps") + ")";
    paper.label(name, paper.beside(x, y, text, own ? House.forText(colour) : House.GREY));
  }

  /** Corners of the stairs, from no failures at no running. */
  private static double[] stairsX(Line line) {
    int n = line.points().size();
    double[] x = new double[2 * n + 1];
    for (int i = 0; i < n; i++) {
      x[2 * i + 1] = line.points().get(i).hours();
      x[2 * i + 2] = line.points().get(i).hours();
    }
    return x;
  }

  private static double[] stairs(double[] levels) {
    double[] y = new double[2 * levels.length + 1];
    for (int i = 0; i < levels.length; i++) {
      y[2 * i + 1] = i == 0 ? 0 : levels[i - 1];
      y[2 * i + 2] = levels[i];
    }
    return y;
  }
}
