package org.vaneward.chart;

import java.awt.Color;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * When to rebuild each pump next: a row for each pump on a common date axis, with its running since
 * the last rebuild, the advised date, the window in which hardly more is paid, and the date by
 * which a rebuild is mandated.
 */
public final class FleetStrip {
  /** More rows than this are too many for one picture; draw several. */
  public static final int MOST_ROWS = 40;

  private static final int ROW = 19;
  private static final int RIGHT = 132;
  private static final int LONGEST_BACK_DAYS = 180;
  private static final int MOST_NAMED = 6;
  private static final int WIDEST_TAG = 180;
  private static final int COLUMN_GAP = 16;
  private static final String NOT_KNOWN = "–";
  private static final double HALF_WINDOW = 0.2;
  private static final double WINDOW_TINT = 0.35;
  private static final Color OVERDUE = House.VERMILLION;

  /**
   * Dates between which a rebuild costs hardly more than at the best date.
   *
   * @param from first day
   * @param to last day, not before {@code from}
   */
  public record Window(LocalDate from, LocalDate to) {
    /**
     * A window.
     *
     * @throws IllegalArgumentException when it ends before it starts
     */
    public Window {
      if (to.isBefore(from)) {
        throw new IllegalArgumentException(
            "a window does not end before it starts, not so " + from + " to " + to);
      }
    }
  }

  /**
   * One pump.
   *
   * @param pump its tag
   * @param due advised date of the next rebuild, where one is advised
   * @param window dates at which it costs hardly more
   * @param mandated date by which it must be rebuilt, where there is one
   * @param hoursSinceRebuild what it has run since its last rebuild, at least 0, where known
   */
  public record Row(
      String pump,
      Optional<LocalDate> due,
      Optional<Window> window,
      Optional<LocalDate> mandated,
      OptionalDouble hoursSinceRebuild) {
    /**
     * A row.
     *
     * @throws IllegalArgumentException when the running is negative or not finite
     */
    public Row {
      hoursSinceRebuild.ifPresent(hours -> Guard.notNegative("running since a rebuild", hours));
    }

    boolean overdue(LocalDate today) {
      return due.filter(date -> date.isBefore(today)).isPresent()
          || mandated.filter(date -> date.isBefore(today)).isPresent();
    }
  }

  private FleetStrip() {}

  /**
   * Draws the rows from top to bottom as given; the running since the last rebuild has no column
   * where it is known of no pump.
   *
   * @param today the day the advice is of
   * @param horizon last day drawn; what is later has an arrow at the edge
   * @param unit what the running is counted in
   * @throws IllegalArgumentException when there are no rows, more than {@link #MOST_ROWS}, a tag
   *     repeats, or the horizon is not after today
   */
  public static Picture draw(
      String title, List<Row> rows, LocalDate today, LocalDate horizon, AgeUnit unit) {
    return paper(rows, today, horizon, unit)
        .picture(
            title,
            inWords(rows, today),
            List.of("pump", heading(unit), "next rebuild", "from", "to", "mandated by", "overdue"),
            table(rows, today));
  }

  private static String heading(AgeUnit unit) {
    return "since rebuild, " + unit.symbol();
  }

  static Paper paper(List<Row> rows, LocalDate today, LocalDate horizon, AgeUnit unit) {
    check(rows, today, horizon);
    int n = rows.size();
    int column = runColumn(rows);
    int left = leftMargin(rows, column, unit);
    MarkKey key = new MarkKey(key(rows, today), House.WIDTH - left - RIGHT);
    // above the pumps stands what the marks mean
    Paper paper =
        new Paper(
            House.WIDTH,
            64 + ROW * (n + key.height()),
            new Paper.Margins(24, RIGHT, 40, left),
            days(rows, today, horizon),
            new Range(0, n + key.height()));
    rule(paper, n, today);
    if (column > 0) {
      runHeading(paper, unit);
    }
    for (int i = 0; i < n; i++) {
      row(paper, rows.get(i), n - 0.5 - i, i, today);
      names(paper, rows.get(i), n - 0.5 - i, column, today);
    }
    key.draw(paper, paper.y().max());
    return paper;
  }

  /** Pixels the running since rebuild needs, 0 where no pump has any. */
  private static int runColumn(List<Row> rows) {
    if (rows.stream().allMatch(row -> row.hoursSinceRebuild().isEmpty())) {
      return 0;
    }
    double widest =
        rows.stream().mapToDouble(row -> Words.width(run(row), House.SMALL)).max().orElse(0);
    return (int) Math.ceil(widest) + COLUMN_GAP;
  }

  private static int leftMargin(List<Row> rows, int column, AgeUnit unit) {
    double tags =
        rows.stream().mapToDouble(row -> Words.width(row.pump(), House.SMALL)).max().orElse(0);
    double names = Math.max(60, Math.min(WIDEST_TAG, Math.ceil(tags) + 16));
    // the heading stands over both columns
    double heading = column == 0 ? 0 : Math.ceil(Words.width(heading(unit), House.SMALL)) + 16;
    return (int) Math.max(names + column, heading);
  }

  private static String run(Row row) {
    return row.hoursSinceRebuild().isPresent()
        ? Words.plain(Math.rint(row.hoursSinceRebuild().getAsDouble()))
        : NOT_KNOWN;
  }

  private static void runHeading(Paper paper, AgeUnit unit) {
    Paper.Margins margins = paper.margins();
    paper.note(
        Note.at(
            margins.left() - 8.0,
            margins.top() - 12.0,
            Note.Anchor.END,
            heading(unit),
            House.INK,
            House.SMALL));
  }

  /** The tag and, right of it, the running since rebuild. */
  private static void names(Paper paper, Row row, double level, int column, LocalDate today) {
    Color colour = row.overdue(today) ? House.forText(OVERDUE) : House.INK;
    double right = paper.margins().left() - 8.0;
    double base = paper.py(level) + 4;
    String tag = Words.fit(row.pump(), House.SMALL, right - column - 4);
    paper.note(Note.at(right - column, base, Note.Anchor.END, tag, colour, House.SMALL));
    if (column > 0) {
      paper.note(Note.at(right, base, Note.Anchor.END, run(row), House.GREY, House.SMALL));
    }
  }

  private static void check(List<Row> rows, LocalDate today, LocalDate horizon) {
    Guard.notEmpty("pumps", rows);
    Guard.distinct("pumps", rows.stream().map(Row::pump).toList());
    if (rows.size() > MOST_ROWS) {
      throw new IllegalArgumentException(
          "at most " + MOST_ROWS + " pumps fit one picture, not " + rows.size());
    }
    if (!horizon.isAfter(today)) {
      throw new IllegalArgumentException("a horizon is after today " + today + ", not " + horizon);
    }
  }

  /** Days shown, by number since 1970: dates given, but none long ago or past the horizon. */
  private static Range days(List<Row> rows, LocalDate today, LocalDate horizon) {
    long first = today.toEpochDay();
    long last = today.toEpochDay() + 28;
    for (Row row : rows) {
      for (LocalDate date : dates(row)) {
        first = Math.min(first, date.toEpochDay());
        // one far date would squeeze all others
        last = date.isAfter(horizon) ? last : Math.max(last, date.toEpochDay());
      }
    }
    first = Math.max(first, today.toEpochDay() - LONGEST_BACK_DAYS);
    double air = Math.max(2, (last - first) * 0.03);
    return new Range(first - air, last + air);
  }

  private static List<LocalDate> dates(Row row) {
    List<LocalDate> dates = new ArrayList<>();
    row.due().ifPresent(dates::add);
    row.mandated().ifPresent(dates::add);
    row.window().ifPresent(window -> dates.addAll(List.of(window.from(), window.to())));
    return dates;
  }

  private static void rule(Paper paper, int n, LocalDate today) {
    Range days = paper.x();
    paper.gridDates();
    for (int i = 1; i < n; i += 2) {
      paper.bar("stripe " + i, days, new Range(n - 1 - i, n - i), House.tint(House.AXIS, 0.09));
    }
    paper.baseLine();
    double now = day(today);
    paper.line("today", new double[] {now, now}, new double[] {0, n}, House.INK, House.DOTTED);
    String text = "today " + today;
    double half = Words.width(text, House.SMALL) / 2;
    // left of the plot is a heading
    boolean early = paper.px(now) - half < paper.margins().left();
    paper.note(
        Note.at(
            paper.px(now),
            paper.margins().top() - 12,
            early ? Note.Anchor.START : Note.Anchor.MIDDLE,
            text,
            House.INK,
            House.SMALL));
    paper.headRight("next rebuild");
  }

  private static void row(Paper paper, Row row, double level, int index, LocalDate today) {
    Range days = paper.x();
    boolean overdue = row.overdue(today);
    Color colour = overdue ? OVERDUE : House.BLUE;
    if (row.window().isPresent()) {
      double from = days.clamp(day(row.window().get().from()));
      double to = days.clamp(day(row.window().get().to()) + 1);
      if (from < to) {
        window(paper, "window " + index, new Range(from, to), level, colour);
      }
    }
    if (row.mandated().isPresent() && days.holds(day(row.mandated().get()))) {
      mandated(paper, "mandated " + index, day(row.mandated().get()), level);
    }
    if (row.due().isPresent()) {
      double day = day(row.due().get());
      double shown = days.clamp(day);
      Marker marker = overdue ? SeriesMarkers.TRIANGLE_UP : SeriesMarkers.CIRCLE;
      if (shown == day) {
        paper.points("due " + index, new double[] {day}, new double[] {level}, colour, marker);
      } else {
        beyond(paper, day < shown, level, colour);
      }
    }
    String said = row.due().map(LocalDate::toString).orElse("none advised");
    paper.labelRight(
        level, overdue ? said + " overdue" : said, overdue ? House.forText(OVERDUE) : House.INK);
  }

  private static void window(Paper paper, String name, Range days, double level, Color colour) {
    paper.bar(
        name,
        days,
        new Range(level - HALF_WINDOW, level + HALF_WINDOW),
        House.tint(colour, WINDOW_TINT));
  }

  private static void mandated(Paper paper, String name, double day, double level) {
    paper.line(
        name,
        new double[] {day, day},
        new double[] {level - 0.36, level + 0.36},
        House.INK,
        House.HEAVY);
  }

  /** An arrow at the edge for a date that is not on the axis. */
  private static void beyond(Paper paper, boolean earlier, double level, Color colour) {
    Range days = paper.x();
    double x = paper.px(earlier ? days.min() : days.max()) + (earlier ? 2 : -2);
    paper.note(
        Note.at(
            x,
            paper.py(level) + 4,
            earlier ? Note.Anchor.START : Note.Anchor.END,
            earlier ? "◄" : "►",
            colour,
            House.SMALL));
  }

  /** What the marks mean; only those that are there. */
  private static List<MarkKey.Entry> key(List<Row> rows, LocalDate today) {
    List<MarkKey.Entry> key = new ArrayList<>();
    key.add(MarkKey.point("advised", House.BLUE, SeriesMarkers.CIRCLE));
    if (rows.stream().anyMatch(row -> row.overdue(today))) {
      key.add(MarkKey.point("overdue", OVERDUE, SeriesMarkers.TRIANGLE_UP));
    }
    if (rows.stream().anyMatch(row -> row.window().isPresent())) {
      key.add(MarkKey.bar("costs hardly more", House.tint(House.BLUE, WINDOW_TINT), HALF_WINDOW));
    }
    if (rows.stream().anyMatch(row -> row.mandated().isPresent())) {
      key.add(MarkKey.upright("mandated limit", House.INK, House.HEAVY));
    }
    return key;
  }

  /** The day's number on the axis, exact. */
  private static double day(LocalDate date) {
    return (double) date.toEpochDay();
  }

  private static String inWords(List<Row> rows, LocalDate today) {
    List<String> overdue = rows.stream().filter(row -> row.overdue(today)).map(Row::pump).toList();
    String first =
        rows.stream()
            .filter(row -> row.due().isPresent() && !row.overdue(today))
            .min(Comparator.comparing(row -> row.due().orElseThrow()))
            .map(row -> " Next is " + row.pump() + " on " + row.due().orElseThrow() + ".")
            .orElse("");
    return "Next rebuild of "
        + Words.counted(rows.size(), "pump", "pumps")
        + " on a date axis, seen from "
        + today
        + ": "
        + late(overdue)
        + first;
  }

  private static String late(List<String> overdue) {
    if (overdue.isEmpty()) {
      return "none is overdue.";
    }
    String verb = overdue.size() == 1 ? "overdue is " : "overdue are ";
    return verb + Words.some(overdue, MOST_NAMED) + ".";
  }

  private static List<List<String>> table(List<Row> rows, LocalDate today) {
    List<List<String>> table = new ArrayList<>();
    for (Row row : rows) {
      table.add(
          List.of(
              row.pump(),
              row.hoursSinceRebuild().isPresent() ? run(row) : "",
              row.due().map(LocalDate::toString).orElse(""),
              row.window().map(window -> window.from().toString()).orElse(""),
              row.window().map(window -> window.to().toString()).orElse(""),
              row.mandated().map(LocalDate::toString).orElse(""),
              row.overdue(today) ? "overdue" : ""));
    }
    return table;
  }
}
