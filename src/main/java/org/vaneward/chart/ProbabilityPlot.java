package org.vaneward.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.distribution.Weibull;

/**
 * Lives on Weibull probability paper: the log of age against log(-log(1 - F)), on which a Weibull
 * life is a straight line whose slope is the shape. A set of points that bends is not one Weibull.
 */
public final class ProbabilityPlot {
  /** More lines than this cannot be told apart; draw one picture for each instead. */
  public static final int MOST_GROUPS = House.LOOKS.size();

  private static final double[] PAPER = {
    0.0001, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 0.9, 0.99, 0.999, 0.9999
  };
  private static final double SCALE_SHARE = 1 - Math.exp(-1);
  private static final int CURVE_PIECES = 100;

  /**
   * A failure's place on the paper.
   *
   * @param ageHours age at failure in running hours, positive
   * @param failedShare share failed by then, strictly between 0 and 1
   */
  public record Point(double ageHours, double failedShare) {
    /**
     * A point.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Point {
      Guard.positive("age in hours", ageHours);
      if (!(failedShare > 0 && failedShare < 1)) {
        throw new IllegalArgumentException(
            "a failed share is strictly between 0 and 1, not " + failedShare);
      }
    }
  }

  /**
   * One set of lives.
   *
   * @param label what they are, for instance a service
   * @param points failures by age, ascending; not empty
   * @param fitted the fitted life, where there is one
   * @param limits pointwise limits of the failed share by age, ascending; may be empty
   * @param unit what ages are counted in
   */
  public record Group(
      String label,
      List<Point> points,
      Optional<Weibull> fitted,
      List<LimitPoint> limits,
      AgeUnit unit) {
    /**
     * A set.
     *
     * @throws IllegalArgumentException when there are no points or ages do not ascend
     */
    public Group {
      points = List.copyOf(points);
      limits = List.copyOf(limits);
      Guard.notEmpty("points", points);
      Guard.ascending("ages", points.stream().mapToDouble(Point::ageHours).toArray());
      Guard.ascending("ages", limits.stream().mapToDouble(LimitPoint::ageHours).toArray());
    }

    String described() {
      return described(label);
    }

    /** The label cut to fit in the picture, and the fit whole. */
    String brief() {
      return described(Words.fit(label, House.TEXT, 190));
    }

    private String described(String name) {
      return fitted
          .map(
              life ->
                  name
                      + ": shape "
                      + Words.number(life.shape())
                      + ", scale "
                      + Words.age(life.scale(), unit))
          .orElse(name + ": no fit");
    }
  }

  private ProbabilityPlot() {}

  /**
   * Draws one to {@link #MOST_GROUPS} sets of lives.
   *
   * @throws IllegalArgumentException when there are none, too many, or labels repeat
   */
  public static Picture draw(String title, List<Group> groups) {
    Paper paper = paper(groups);
    List<String> said = groups.stream().map(ProbabilityPlot::inWords).toList();
    String alternative =
        "Weibull probability plot, percent failed against age in "
            + unit(groups).words()
            + ". "
            + String.join("; ", said)
            + ". Points near the straight line support the fit.";
    return paper.picture(
        title,
        alternative,
        List.of("group", "age, " + unit(groups).symbol(), "failed share"),
        table(groups));
  }

  static Paper paper(List<Group> groups) {
    Guard.notEmpty("groups", groups);
    Guard.distinct("labels", groups.stream().map(Group::label).toList());
    if (groups.size() > MOST_GROUPS) {
      throw new IllegalArgumentException(
          "at most " + MOST_GROUPS + " groups fit one picture, not " + groups.size());
    }
    Range ages = ages(groups);
    Range shares = shares(groups);
    Paper paper =
        new Paper(
            House.WIDTH,
            House.HEIGHT,
            new Paper.Margins(34, 26, 50, 56),
            new Range(Math.log10(ages.min()), Math.log10(ages.max())),
            new Range(height(shares.min()), height(shares.max())));
    rule(paper, ages, shares, unit(groups));
    for (int i = 0; i < groups.size(); i++) {
      band(paper, groups.get(i), House.LOOKS.get(i), ages);
    }
    for (int i = 0; i < groups.size(); i++) {
      draw(paper, groups.get(i), House.LOOKS.get(i), ages, shares, groups.size() == 1);
    }
    if (groups.size() > 1) {
      paper.key(entries(groups));
    }
    return paper;
  }

  /** Lines that cross leave no room where a label is plainly one's own: they get a key. */
  private static AgeUnit unit(List<Group> groups) {
    return groups.get(0).unit();
  }

  private static List<Paper.Entry> entries(List<Group> groups) {
    List<Paper.Entry> entries = new ArrayList<>();
    for (int i = 0; i < groups.size(); i++) {
      Group group = groups.get(i);
      entries.add(new Paper.Entry(group.brief(), House.LOOKS.get(i), group.fitted().isPresent()));
    }
    return entries;
  }

  private static void rule(Paper paper, Range ages, Range shares, AgeUnit unit) {
    double[] hours = Ticks.logarithmic(ages.min(), ages.max());
    paper.gridX(log10(hours), Arrays.stream(hours).mapToObj(Words::plain).toList());
    double[] lines = Arrays.stream(PAPER).filter(shares::holds).toArray();
    paper.gridY(
        Arrays.stream(lines).map(ProbabilityPlot::height).toArray(),
        Arrays.stream(lines).mapToObj(Words::percent).toList());
    if (shares.holds(SCALE_SHARE)) {
      // the age at which a fitted line crosses this level is its scale
      paper.level("scale level", height(SCALE_SHARE), House.AXIS, House.DOTTED);
      paper.labelY(height(SCALE_SHARE), "63.2%", House.GREY);
    }
    paper.baseLine();
    paper.titleX("age, " + unit.words() + " (logarithmic)");
    paper.titleY("failed (Weibull scale)");
  }

  private static void band(Paper paper, Group group, House.Look look, Range ages) {
    List<LimitPoint> inside =
        group.limits().stream().filter(limit -> ages.holds(limit.ageHours())).toList();
    if (inside.size() > 1) {
      paper.band(
          "limits " + group.label(),
          log10(inside.stream().mapToDouble(LimitPoint::ageHours).toArray()),
          inside.stream().mapToDouble(limit -> height(limit.lower())).toArray(),
          inside.stream().mapToDouble(limit -> height(limit.upper())).toArray(),
          House.tint(look.colour(), 0.12));
    }
  }

  private static void draw(
      Paper paper, Group group, House.Look look, Range ages, Range shares, boolean alone) {
    double[] at = log10(group.points().stream().mapToDouble(Point::ageHours).toArray());
    double[] up = group.points().stream().mapToDouble(p -> height(p.failedShare())).toArray();
    paper.points("points " + group.label(), at, up, look.colour(), look.marker());
    String owner = "points " + group.label();
    double[][] named = {at, up};
    if (group.fitted().isPresent()) {
      double[][] line = line(group.fitted().get(), ages, shares);
      if (line[0].length > 1) {
        owner = "fit " + group.label();
        named = line;
        paper.line(owner, line[0], line[1], look.colour(), look.stroke());
      }
    }
    if (alone) {
      Color dark = House.forText(look.colour());
      paper.label(owner, paper.beside(named[0], named[1], group.brief(), dark));
    }
  }

  /** The fitted line where it crosses the paper. */
  private static double[][] line(Weibull life, Range ages, Range shares) {
    double from = Math.max(ages.min(), life.quantile(shares.min()));
    double to = Math.min(ages.max(), life.quantile(shares.max()));
    if (!(from < to)) {
      return new double[2][0];
    }
    double[] at = new double[CURVE_PIECES + 1];
    double[] up = new double[CURVE_PIECES + 1];
    for (int i = 0; i <= CURVE_PIECES; i++) {
      double log = Math.log(from) + (Math.log(to) - Math.log(from)) * i / CURVE_PIECES;
      at[i] = log / Math.log(10);
      up[i] = life.shape() * (log - Math.log(life.scale()));
    }
    return new double[][] {at, up};
  }

  /** Ages shown: the points with some air, and the scales unless they are far off. */
  private static Range ages(List<Group> groups) {
    double min = Double.POSITIVE_INFINITY;
    double max = 0;
    for (Group group : groups) {
      min = Math.min(min, group.points().get(0).ageHours());
      max = Math.max(max, group.points().get(group.points().size() - 1).ageHours());
    }
    double seen = max;
    for (Group group : groups) {
      double scale = group.fitted().map(Weibull::scale).orElse(seen);
      max = Math.max(max, Math.min(scale, 2.5 * seen));
    }
    return new Range(min / 1.35, max * 1.35);
  }

  /** Shares shown: from the paper's line at or below the lowest point to the one above all. */
  private static Range shares(List<Group> groups) {
    double min = 0.5;
    double max = 0.9;
    for (Group group : groups) {
      for (Point point : group.points()) {
        min = Math.min(min, point.failedShare());
        max = Math.max(max, point.failedShare());
      }
    }
    double from = PAPER[0];
    double to = PAPER[PAPER.length - 1];
    for (double line : PAPER) {
      from = line < 0.95 * min ? line : from;
    }
    for (int i = PAPER.length - 1; i >= 0; i--) {
      to = PAPER[i] > max + 0.02 * (1 - max) ? PAPER[i] : to;
    }
    return new Range(Math.min(from, min), Math.max(to, max));
  }

  /** log(-log(1 - share)), with shares at the ends held to what the paper can show. */
  private static double height(double share) {
    double held = Math.max(1e-9, Math.min(1 - 1e-9, share));
    return Math.log(-Math.log1p(-held));
  }

  private static double[] log10(double[] values) {
    return Arrays.stream(values).map(Math::log10).toArray();
  }

  private static String inWords(Group group) {
    return group.described()
        + " ("
        + Words.counted(group.points().size(), "point", "points")
        + ", ages "
        + Words.plain(Math.rint(group.points().get(0).ageHours()))
        + " to "
        + Words.age(group.points().get(group.points().size() - 1).ageHours(), group.unit())
        + ")";
  }

  private static List<List<String>> table(List<Group> groups) {
    List<List<String>> rows = new ArrayList<>();
    for (Group group : groups) {
      for (Point point : group.points()) {
        rows.add(
            List.of(
                group.label(),
                Words.plain(Math.rint(point.ageHours())),
                Words.share(point.failedShare())));
      }
    }
    return rows;
  }
}
