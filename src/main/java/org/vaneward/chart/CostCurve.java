package org.vaneward.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** What planned rebuilds at an interval cost, by interval: where the minimum is and how flat. */
public final class CostCurve {
  private static final double MOST_OF_LEAST = 2.5;
  private static final double FARTHEST_LEVEL = 4;

  /**
   * A point of the curve.
   *
   * @param intervalHours planned interval in running hours, positive
   * @param costPerThousandHours cost per 1,000 running hours, at least 0
   * @param lower its lower limit, at least 0
   * @param upper its upper limit, at least the lower one
   */
  public record Point(
      double intervalHours, double costPerThousandHours, double lower, double upper) {
    /**
     * A point.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Point {
      Guard.positive("an interval in hours", intervalHours);
      Guard.notNegative("a cost", costPerThousandHours);
      Guard.notNegative("a lower limit of a cost", lower);
      if (!(upper >= lower)) {
        throw new IllegalArgumentException(
            "an upper limit of a cost is at least the lower, not " + upper + " above " + lower);
      }
    }

    /** A point that is certain. */
    public Point(double intervalHours, double costPerThousandHours) {
      this(intervalHours, costPerThousandHours, costPerThousandHours, costPerThousandHours);
    }
  }

  /**
   * The cheapest interval.
   *
   * @param least the minimum
   * @param fromHours shortest interval that costs hardly more
   * @param toHours longest interval that costs hardly more, at least {@code fromHours}; may be
   *     infinite
   * @param tolerance how much more "hardly more" is, as a share, for instance 0.02
   */
  public record Optimum(Point least, double fromHours, double toHours, double tolerance) {
    /**
     * An optimum.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Optimum {
      Guard.positive("the start of a window in hours", fromHours);
      Guard.share("a tolerance", tolerance);
      if (!(fromHours <= least.intervalHours() && toHours >= least.intervalHours())) {
        throw new IllegalArgumentException(
            "a window holds its optimum "
                + least.intervalHours()
                + ", not so "
                + fromHours
                + " to "
                + toHours);
      }
    }
  }

  /**
   * An interval that must not be passed.
   *
   * @param label why
   * @param hours the interval in running hours, positive
   */
  public record Limit(String label, double hours) {
    /**
     * A limit.
     *
     * @throws IllegalArgumentException when the hours are not positive and finite
     */
    public Limit {
      Guard.positive("a limit in hours", hours);
    }
  }

  /**
   * What is drawn.
   *
   * @param currency currency of the costs, as in the records
   * @param curve the curve, intervals ascending; two points at least
   * @param optimum the cheapest interval; empty where running to failure is cheapest
   * @param runToFailure cost per 1,000 running hours without planned rebuilds
   * @param limits intervals that must not be passed; may be empty
   * @param unit what intervals are counted in
   */
  public record Input(
      String currency,
      List<Point> curve,
      Optional<Optimum> optimum,
      double runToFailure,
      List<Limit> limits,
      AgeUnit unit) {
    /**
     * An input.
     *
     * @throws IllegalArgumentException when the curve is too short or does not ascend, or the cost
     *     of running to failure is not positive and finite
     */
    public Input {
      curve = List.copyOf(curve);
      limits = List.copyOf(limits);
      if (curve.size() < 2) {
        throw new IllegalArgumentException("a curve has at least 2 points, not " + curve.size());
      }
      Guard.ascending("intervals", curve.stream().mapToDouble(Point::intervalHours).toArray());
      Guard.positive("the cost of running to failure", runToFailure);
      Guard.distinct("labels of limits", limits.stream().map(Limit::label).toList());
    }

    /** With the currency, where there is one. */
    String money(double cost) {
      return (currency.isEmpty() ? "" : currency + " ") + Words.number(cost);
    }

    double leastCost() {
      double drawn =
          curve.stream().mapToDouble(Point::costPerThousandHours).min().orElse(runToFailure);
      return optimum.map(o -> Math.min(drawn, o.least().costPerThousandHours())).orElse(drawn);
    }
  }

  private CostCurve() {}

  /** Draws the curve. */
  public static Picture draw(String title, Input input) {
    return paper(input)
        .picture(
            title,
            inWords(input),
            List.of(
                "planned interval, " + input.unit().symbol(),
                costAxis(input),
                "lower limit",
                "upper limit"),
            table(input));
  }

  private static String costAxis(Input input) {
    return "cost per 1,000 "
        + input.unit().words()
        + (input.currency().isEmpty() ? "" : ", " + input.currency());
  }

  static Paper paper(Input input) {
    Range hours = hours(input);
    Range costs = costs(input);
    double[] levels = Ticks.linear(0, costs.max(), 8);
    List<String> labels = Arrays.stream(levels).mapToObj(Words::plain).toList();
    double widest = labels.stream().mapToDouble(l -> Words.width(l, House.SMALL)).max().orElse(0);
    int left = (int) Math.max(44, Math.ceil(widest) + 20);
    Paper paper =
        new Paper(House.WIDTH, House.HEIGHT, new Paper.Margins(34, 26, 50, left), hours, costs);
    if (input.optimum().isPresent()) {
      window(paper, input.optimum().get(), hours, costs);
    }
    double[] at = Ticks.linear(hours.min(), hours.max(), 8);
    paper.gridX(at, Arrays.stream(at).mapToObj(Words::plain).toList());
    paper.gridY(levels, labels);
    paper.baseLine();
    paper.titleX("planned interval, " + input.unit().words());
    paper.titleY(costAxis(input));
    runToFailure(paper, input, hours, costs);
    limits(paper, input, hours, costs);
    curve(paper, input);
    return paper;
  }

  private static void window(Paper paper, Optimum optimum, Range hours, Range costs) {
    double from = hours.clamp(optimum.fromHours());
    double to = hours.clamp(optimum.toHours());
    if (from < to) {
      paper.bar("window", new Range(from, to), costs, House.tint(House.GREEN, 0.14));
      Range box = new Range(paper.px(from), paper.px(to));
      String text = "within " + Words.percent(optimum.tolerance());
      List<Note> places = new ArrayList<>();
      for (double rise : new double[] {10, 30, 50}) {
        double base = paper.py(costs.min()) - rise;
        places.add(windowNote((box.min() + box.max()) / 2, base, Note.Anchor.MIDDLE, text));
        places.add(windowNote(box.max() + 6, base, Note.Anchor.START, text));
        places.add(windowNote(box.min() - 6, base, Note.Anchor.END, text));
      }
      paper.label("window", places);
    }
  }

  private static Note windowNote(double x, double base, Note.Anchor anchor, String text) {
    return Note.at(x, base, anchor, text, House.forText(House.GREEN), House.SMALL);
  }

  private static void runToFailure(Paper paper, Input input, Range hours, Range costs) {
    double level = input.runToFailure();
    String text = "run to failure: " + input.money(level);
    double right = paper.px(hours.max()) - 4;
    double left = paper.px(hours.min()) + 4;
    if (costs.holds(level)) {
      paper.level("run to failure", level, House.GREY, House.DASHED);
      double base = paper.py(level);
      List<Note> places = new ArrayList<>();
      for (double y : new double[] {base - 9, base + 17}) {
        places.add(Note.at(right, y, Note.Anchor.END, text, House.GREY, House.TEXT));
      }
      for (double y : new double[] {base - 9, base + 17}) {
        places.add(
            Note.at((left + right) / 2, y, Note.Anchor.MIDDLE, text, House.GREY, House.TEXT));
        places.add(Note.at(left, y, Note.Anchor.START, text, House.GREY, House.TEXT));
      }
      paper.label("run to failure", places);
    } else {
      paper.label(
          "run to failure",
          List.of(
              Note.at(
                  right,
                  paper.py(costs.max()) + 14,
                  Note.Anchor.END,
                  text + " (above this scale)",
                  House.GREY,
                  House.TEXT)));
    }
  }

  private static void limits(Paper paper, Input input, Range hours, Range costs) {
    for (Limit limit : input.limits()) {
      if (hours.holds(limit.hours())) {
        paper.upright("limit " + limit.label(), limit.hours(), House.INK, House.THIN);
        paper.label(
            "limit " + limit.label(),
            limitPlaces(
                paper,
                limit.hours(),
                costs,
                Words.fit(limit.label(), House.SMALL, 170)
                    + ": "
                    + Words.age(limit.hours(), input.unit())));
      }
    }
  }

  private static List<Note> limitPlaces(Paper paper, double hours, Range costs, String text) {
    List<Note> places = new ArrayList<>();
    for (int line = 0; line < 14; line++) {
      double base = paper.py(costs.max()) + 14 + 20 * line;
      double at = paper.px(hours);
      places.add(Note.at(at + 5, base, Note.Anchor.START, text, House.INK, House.SMALL));
      places.add(Note.at(at - 5, base, Note.Anchor.END, text, House.INK, House.SMALL));
    }
    return places;
  }

  private static void curve(Paper paper, Input input) {
    double[] x = input.curve().stream().mapToDouble(Point::intervalHours).toArray();
    double[] y = input.curve().stream().mapToDouble(Point::costPerThousandHours).toArray();
    if (input.curve().stream().anyMatch(p -> p.upper() > p.lower())) {
      paper.band(
          "limits",
          x,
          input.curve().stream().mapToDouble(Point::lower).toArray(),
          input.curve().stream().mapToDouble(Point::upper).toArray(),
          House.tint(House.BLUE, 0.13));
    }
    paper.line("cost", x, y, House.BLUE, House.CURVE);
    if (input.optimum().isEmpty()) {
      return;
    }
    Point least = input.optimum().get().least();
    double[] at = {least.intervalHours()};
    double[] up = {least.costPerThousandHours()};
    paper.points("least", at, up, House.BLUE, House.LOOKS.get(0).marker());
    String text = Words.age(at[0], input.unit()) + ": " + input.money(up[0]);
    double px = paper.px(at[0]);
    double py = paper.py(up[0]);
    List<Note> places = new ArrayList<>();
    for (double off : new double[] {22, 32, 44, -12, -22, -34}) {
      places.add(leastNote(px, py + off, Note.Anchor.MIDDLE, text));
      places.add(leastNote(px + 8, py + off, Note.Anchor.START, text));
      places.add(leastNote(px - 5, py + off, Note.Anchor.END, text));
    }
    paper.label("cost", places);
  }

  private static Note leastNote(double x, double base, Note.Anchor anchor, String text) {
    return Note.at(x, base, anchor, text, House.forText(House.BLUE), House.TEXT).asBold();
  }

  private static Range hours(Input input) {
    return new Range(0, input.curve().get(input.curve().size() - 1).intervalHours());
  }

  /**
   * Costs from nothing, so that a flat minimum looks flat, to somewhat above what matters: the
   * curve goes through the roof at short intervals and is cut there.
   */
  private static Range costs(Input input) {
    double least = input.leastCost();
    double level = input.runToFailure();
    double top = MOST_OF_LEAST * least;
    if (level <= FARTHEST_LEVEL * least) {
      top = Math.max(top, 1.2 * level);
    }
    double highest =
        input.curve().stream().mapToDouble(Point::costPerThousandHours).max().orElse(level);
    double reach = Math.max(highest, level <= FARTHEST_LEVEL * least ? level : 0) * 1.2;
    double max = Math.min(top, reach);
    return new Range(0, max > 0 ? max : 1.2 * level);
  }

  private static String inWords(Input input) {
    String start = "Cost per 1,000 " + input.unit().words() + " against planned interval. ";
    String level = input.money(input.runToFailure());
    String found =
        input
            .optimum()
            .map(
                o ->
                    "Cheapest at "
                        + Words.age(o.least().intervalHours(), input.unit())
                        + " with "
                        + input.money(o.least().costPerThousandHours())
                        + ", against "
                        + level
                        + " when run to failure; within "
                        + Words.percent(o.tolerance())
                        + " "
                        + window(o, input.unit())
                        + ".")
            .orElse("Running to failure is cheapest, at " + level + ".");
    List<String> limits =
        input.limits().stream()
            .map(l -> l.label() + " at " + Words.age(l.hours(), input.unit()))
            .toList();
    boolean certain = input.curve().stream().allMatch(p -> p.upper() == p.lower());
    String band = certain ? "" : " The band is where the cost may lie, lives being uncertain.";
    return start + found + band + (limits.isEmpty() ? "" : " Limits: " + Words.list(limits) + ".");
  }

  private static String window(Optimum optimum, AgeUnit unit) {
    String from = "from " + Words.age(optimum.fromHours(), unit);
    return Double.isFinite(optimum.toHours())
        ? from + " to " + Words.age(optimum.toHours(), unit)
        : from + " on";
  }

  private static List<List<String>> table(Input input) {
    List<List<String>> rows = new ArrayList<>();
    for (Point point : input.curve()) {
      rows.add(
          List.of(
              Words.plain(Math.rint(point.intervalHours())),
              Words.number(point.costPerThousandHours()),
              Words.number(point.lower()),
              Words.number(point.upper())));
    }
    return rows;
  }
}
