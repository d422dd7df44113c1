package org.vaneward.chart;

import java.awt.Color;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * The history of one pump on a date axis: a row for each position with a bar for each part's time
 * in it and a mark for what ended it, lines where the pump was opened, what it pumped, and when it
 * is to be rebuilt next.
 */
public final class PumpTimeLine {
  /** More positions than this are too many for one picture. */
  public static final int MOST_POSITIONS = 40;

  private static final int ROW = 19;
  private static final int TOP = 24;
  private static final int BOTTOM = 40;
  private static final int RIGHT = 124;
  private static final int LONGEST_AHEAD_YEARS = 3;
  private static final int SERVICE_LANES = 3;
  private static final int MOST_NAMED = 4;
  private static final double HALF_BAR = 0.26;
  private static final double HALF_WINDOW = 0.2;
  private static final double PART_TINT = 0.35;
  private static final double WINDOW_TINT = 0.35;

  /** What ended a part's time in its position. */
  public enum End {
    /** It failed, and the pump stopped for it. */
    STOPPED("failed, stopped the pump"),
    /** It had failed when somebody looked. */
    FOUND("found failed"),
    /** It was taken out while good. */
    GOOD("taken out while good"),
    /** Nothing yet. */
    IN_PLACE("still in place");

    private final String words;

    End(String words) {
      this.words = words;
    }

    private Color colour() {
      return switch (this) {
        case STOPPED -> House.VERMILLION;
        case FOUND -> House.PURPLE;
        case GOOD -> House.GREEN;
        case IN_PLACE -> House.BLUE;
      };
    }

    private Marker marker() {
      return switch (this) {
        case STOPPED -> SeriesMarkers.TRIANGLE_UP;
        case FOUND -> SeriesMarkers.DIAMOND;
        case GOOD -> SeriesMarkers.CIRCLE;
        case IN_PLACE -> SeriesMarkers.NONE;
      };
    }
  }

  /**
   * A part's time in its position.
   *
   * @param from the day it was put in
   * @param to the day it came out; today for one still in place; not before {@code from}
   * @param end what ended it
   */
  public record Span(LocalDate from, LocalDate to, End end) {
    /**
     * A part's time.
     *
     * @throws IllegalArgumentException when it ends before it starts
     */
    public Span {
      if (to.isBefore(from)) {
        throw new IllegalArgumentException(
            "a part does not come out before it is in, not so " + from + " to " + to);
      }
    }
  }

  /**
   * One position.
   *
   * @param position its name
   * @param spans the parts it has held, in any order; none where none is recorded
   */
  public record Position(String position, List<Span> spans) {
    /** Copies. */
    public Position {
      spans = List.copyOf(spans);
    }
  }

  /**
   * The pump was opened.
   *
   * @param date the day
   * @param planned whether it was planned
   */
  public record Opening(LocalDate date, boolean planned) {}

  /**
   * What the pump pumps from a day on.
   *
   * @param from first day
   * @param product what it pumps
   */
  public record Service(LocalDate from, String product) {}

  /**
   * The next rebuild.
   *
   * @param best the day advised, where one is
   * @param window days at which it costs hardly more
   * @param mandated the day by which it must be
   */
  public record Next(
      Optional<LocalDate> best, Optional<FleetStrip.Window> window, Optional<LocalDate> mandated) {}

  /**
   * What is drawn.
   *
   * @param pump its tag
   * @param today the day this is seen from
   * @param positions rows from top to bottom, at least one and at most {@link #MOST_POSITIONS}
   * @param openings days it was opened, in any order
   * @param services what it pumped, in any order
   * @param next the next rebuild
   */
  public record Input(
      String pump,
      LocalDate today,
      List<Position> positions,
      List<Opening> openings,
      List<Service> services,
      Next next) {
    /**
     * An input.
     *
     * @throws IllegalArgumentException when there are no positions or too many, one repeats, or
     *     something recorded is after today
     */
    public Input {
      positions = List.copyOf(positions);
      openings = openings.stream().sorted(Comparator.comparing(Opening::date)).toList();
      services = services.stream().sorted(Comparator.comparing(Service::from)).toList();
      Guard.notEmpty("positions", positions);
      Guard.distinct("positions", positions.stream().map(Position::position).toList());
      if (positions.size() > MOST_POSITIONS) {
        throw new IllegalArgumentException(
            "at most " + MOST_POSITIONS + " positions fit one picture, not " + positions.size());
      }
      recorded(positions, openings, services)
          .filter(date -> date.isAfter(today))
          .findFirst()
          .ifPresent(
              date -> {
                throw new IllegalArgumentException(
                    "what is recorded was before today " + today + ", not on " + date);
              });
    }

    private static Stream<LocalDate> recorded(
        List<Position> positions, List<Opening> openings, List<Service> services) {
      Stream<LocalDate> parts =
          positions.stream()
              .flatMap(position -> position.spans().stream())
              .flatMap(span -> Stream.of(span.from(), span.to()));
      Stream<LocalDate> others =
          Stream.concat(openings.stream().map(Opening::date), services.stream().map(Service::from));
      return Stream.concat(parts, others);
    }

    LocalDate first() {
      return recorded(positions, openings, services).min(Comparator.naturalOrder()).orElse(today);
    }

    /** The last date ahead that is not far off: one far date would squeeze all others. */
    LocalDate last() {
      LocalDate farthest = today.plusYears(LONGEST_AHEAD_YEARS);
      return Stream.of(next.best(), next.mandated(), next.window().map(FleetStrip.Window::to))
          .flatMap(Optional::stream)
          .filter(date -> date.isAfter(today) && !date.isAfter(farthest))
          .max(Comparator.naturalOrder())
          .orElse(today);
    }

    long ended(End end) {
      return positions.stream()
          .flatMap(position -> position.spans().stream())
          .filter(span -> span.end() == end)
          .count();
    }

    long opened(boolean planned) {
      return openings.stream().filter(opening -> opening.planned() == planned).count();
    }
  }

  /** Levels of the rows below the positions and above them. */
  private record Levels(int positions, int services, int key, boolean mandated) {
    /** Rows below the positions: opened, next rebuild, and what is mandated. */
    int below() {
      return mandated ? 3 : 2;
    }

    double opened() {
      return below() - 0.5;
    }

    double next() {
      return below() - 1.5;
    }

    double limit() {
      return 0.5;
    }

    double position(int index) {
      return below() + positions - index - 0.5;
    }

    /** Upper edge of the positions. */
    double ceiling() {
      return (double) below() + positions;
    }

    double service(int lane) {
      return ceiling() + services - lane - 0.5;
    }

    double top() {
      return ceiling() + services + key;
    }
  }

  /** A product's name in one of the lanes above the positions. */
  private record Placed(Service service, int lane, String text) {}

  private PumpTimeLine() {}

  /** Draws the history. */
  public static Picture draw(String title, Input input) {
    return paper(input)
        .picture(title, inWords(input), List.of("row", "from", "to", "what"), table(input));
  }

  static Paper paper(Input input) {
    int left = left(input);
    Range days = days(input);
    List<Placed> placed = placed(input, days, left);
    MarkKey key = new MarkKey(key(input), House.WIDTH - left - RIGHT, RIGHT - 8);
    int lanes = placed.stream().mapToInt(p -> p.lane() + 1).max().orElse(0);
    Levels levels =
        new Levels(
            input.positions().size(), lanes, key.height(), input.next().mandated().isPresent());
    Paper paper =
        new Paper(
            House.WIDTH,
            TOP + BOTTOM + (int) Math.ceil(ROW * levels.top()),
            new Paper.Margins(TOP, RIGHT, BOTTOM, left),
            days,
            new Range(0, levels.top()));
    rule(paper, input, levels);
    services(paper, placed, levels);
    openings(paper, input, levels);
    for (int i = 0; i < input.positions().size(); i++) {
      position(paper, input, i, levels);
    }
    ahead(paper, input, levels);
    key.draw(paper, levels.top());
    return paper;
  }

  private static int left(Input input) {
    double widest =
        input.positions().stream()
            .mapToDouble(p -> Words.width(p.position(), House.SMALL))
            .max()
            .orElse(0);
    // at least what the names of the other rows need
    return (int) Math.max(98, Math.min(180, Math.ceil(widest) + 16));
  }

  /** From the first record to the last date ahead. */
  private static Range days(Input input) {
    double first = day(input.first());
    double last = day(input.last());
    double air = Math.max(10, (last - first) * 0.03);
    return new Range(first - air, last + air);
  }

  // ---- the sheet

  private static void rule(Paper paper, Input input, Levels levels) {
    Range days = paper.x();
    paper.gridDates();
    double ceiling = levels.ceiling();
    for (double level : new double[] {levels.below(), ceiling}) {
      double[] across = {days.min(), days.max()};
      double[] at = {level, level};
      paper.line("edge " + level, across, at, House.GRID, House.THIN);
    }
    paper.baseLine();
    double now = day(input.today());
    double[] up = {0, levels.ceiling() + levels.services()};
    paper.line("today", new double[] {now, now}, up, House.INK, House.DOTTED);
    todayLabel(paper, input.today());
    paper.headRight("in place, days");
  }

  /** Above the line where that does not meet the heading of the column at the right. */
  private static void todayLabel(Paper paper, LocalDate today) {
    String text = "today " + today;
    double end = paper.width() - (double) RIGHT;
    double half = Words.width(text, House.SMALL) / 2;
    double x = paper.px(day(today));
    Note.Anchor anchor = x + half > end ? Note.Anchor.END : Note.Anchor.MIDDLE;
    paper.note(Note.at(x, TOP - 12.0, anchor, text, House.INK, House.SMALL));
  }

  private static List<MarkKey.Entry> key(Input input) {
    List<MarkKey.Entry> key = new ArrayList<>();
    for (End end : List.of(End.STOPPED, End.FOUND, End.GOOD)) {
      if (input.ended(end) > 0) {
        key.add(MarkKey.point(end.words, end.colour(), end.marker()));
      }
    }
    if (input.ended(End.IN_PLACE) > 0) {
      key.add(MarkKey.bar("no mark: " + End.IN_PLACE.words, partFill(), HALF_BAR));
    }
    if (input.opened(true) > 0) {
      key.add(MarkKey.upright("planned opening", House.GREY, House.THIN));
    }
    if (input.opened(false) > 0) {
      key.add(MarkKey.upright("unplanned opening", House.VERMILLION, House.DASHED));
    }
    if (input.next().window().isPresent()) {
      Color fill = House.tint(House.BLUE, WINDOW_TINT);
      key.add(MarkKey.bar("costs hardly more", fill, HALF_WINDOW));
    }
    return key;
  }

  private static Color partFill() {
    return House.tint(House.AXIS, PART_TINT);
  }

  // ---- services

  /** Names that find room in a lane from their day on; the others stand in the table only. */
  private static List<Placed> placed(Input input, Range days, int left) {
    double perDay = (House.WIDTH - left - RIGHT) / days.length();
    double end = House.WIDTH - 8.0;
    double[] free = new double[SERVICE_LANES];
    Arrays.fill(free, Double.NEGATIVE_INFINITY);
    List<Placed> placed = new ArrayList<>();
    for (Service service : input.services()) {
      double x = left + (day(service.from()) - days.min()) * perDay;
      int lane = 0;
      while (lane < SERVICE_LANES && free[lane] > x) {
        lane++;
      }
      if (lane < SERVICE_LANES) {
        String text = Words.fit(service.product(), House.SMALL, Math.min(160, end - x - 6));
        free[lane] = x + 4 + Words.width(text, House.SMALL) + 8;
        placed.add(new Placed(service, lane, text));
      }
    }
    return placed;
  }

  private static void services(Paper paper, List<Placed> placed, Levels levels) {
    for (int i = 0; i < placed.size(); i++) {
      Placed one = placed.get(i);
      double x = day(one.service().from());
      double level = levels.service(one.lane());
      double[] down = {level + 0.4, levels.ceiling()};
      paper.line("service " + i, new double[] {x, x}, down, House.AXIS, House.THIN);
      double base = paper.py(level) + 4;
      paper.note(
          Note.at(paper.px(x) + 4, base, Note.Anchor.START, one.text(), House.INK, House.SMALL)
              .veiled());
    }
    if (!placed.isEmpty()) {
      paper.labelY(levels.service(0), "pumps", House.GREY);
    }
  }

  // ---- what was

  private static void openings(Paper paper, Input input, Levels levels) {
    paper.labelY(levels.opened(), "opened", House.GREY);
    for (int i = 0; i < input.openings().size(); i++) {
      Opening opening = input.openings().get(i);
      double x = day(opening.date());
      double[] up = {levels.opened() - 0.4, levels.ceiling()};
      paper.line(
          "opening " + i,
          new double[] {x, x},
          up,
          opening.planned() ? House.GREY : House.VERMILLION,
          opening.planned() ? House.THIN : House.DASHED);
    }
    String cut = Words.fit(counted(input), House.SMALL, RIGHT - 12.0);
    paper.labelRight(levels.opened(), cut, House.GREY);
  }

  private static String counted(Input input) {
    if (input.openings().isEmpty()) {
      return "never";
    }
    long unplanned = input.opened(false);
    String of = unplanned == 0 ? "all planned" : unplanned + " unplanned";
    return input.openings().size() + ", " + of;
  }

  private static void position(Paper paper, Input input, int index, Levels levels) {
    Position position = input.positions().get(index);
    double level = levels.position(index);
    paper.labelY(level, position.position(), House.INK);
    parts(paper, position, "parts " + index, level);
    // a failure that stopped the pump lies on top where marks are close
    for (End end : List.of(End.GOOD, End.FOUND, End.STOPPED)) {
      ends(paper, position, end, "end " + index + " " + end.words, level);
    }
    inPlace(position)
        .ifPresent(
            span -> {
              long days = ChronoUnit.DAYS.between(span.from(), input.today());
              paper.labelRight(level, Words.plain((double) days), House.INK);
            });
  }

  private static void parts(Paper paper, Position position, String name, double level) {
    // a pixel of air, so that one part ends where the next begins
    double gap = paper.x().length() / paper.plotWidth();
    List<Paper.Block> parts =
        position.spans().stream()
            .filter(span -> day(span.from()) < day(span.to()) - gap)
            .map(span -> new Range(day(span.from()), day(span.to()) - gap))
            .map(days -> new Paper.Block(days, level))
            .toList();
    if (!parts.isEmpty()) {
      paper.blocks(name, parts, 2 * HALF_BAR * ROW, partFill());
    }
  }

  private static Optional<Span> inPlace(Position position) {
    return position.spans().stream().filter(span -> span.end() == End.IN_PLACE).findFirst();
  }

  private static void ends(Paper paper, Position position, End end, String name, double level) {
    double[] xs =
        position.spans().stream()
            .filter(span -> span.end() == end)
            .mapToDouble(span -> day(span.to()))
            .sorted()
            .toArray();
    if (xs.length > 0) {
      double[] ys = new double[xs.length];
      Arrays.fill(ys, level);
      paper.points(name, xs, ys, end.colour(), end.marker());
    }
  }

  // ---- what is to come

  private static void ahead(Paper paper, Input input, Levels levels) {
    Next next = input.next();
    paper.labelY(levels.next(), "next rebuild", House.INK);
    next.window().ifPresent(window -> window(paper, window, levels.next()));
    boolean late = next.best().filter(date -> date.isBefore(input.today())).isPresent();
    next.best()
        .ifPresent(
            date -> {
              Color colour = late ? House.VERMILLION : House.BLUE;
              Marker marker = late ? SeriesMarkers.TRIANGLE_UP : SeriesMarkers.CIRCLE;
              if (!beyond(paper, date, levels.next(), colour)) {
                double[] x = {day(date)};
                paper.points("next", x, new double[] {levels.next()}, colour, marker);
              }
            });
    said(paper, levels.next(), next.best().map(LocalDate::toString).orElse("none advised"), late);
    next.mandated().ifPresent(date -> mandated(paper, input, date, levels.limit()));
  }

  private static void window(Paper paper, FleetStrip.Window window, double level) {
    double from = paper.x().clamp(day(window.from()));
    double to = paper.x().clamp(day(window.to()) + 1);
    if (from < to) {
      Range up = new Range(level - HALF_WINDOW, level + HALF_WINDOW);
      paper.bar("window", new Range(from, to), up, House.tint(House.BLUE, WINDOW_TINT));
    }
  }

  private static void mandated(Paper paper, Input input, LocalDate date, double level) {
    paper.labelY(level, "mandated by", House.INK);
    if (!beyond(paper, date, level, House.INK)) {
      double[] x = {day(date), day(date)};
      double[] up = {level - 0.36, level + 0.36};
      paper.line("mandated", x, up, House.INK, House.HEAVY);
    }
    said(paper, level, date.toString(), date.isBefore(input.today()));
  }

  private static void said(Paper paper, double level, String text, boolean late) {
    Color colour = late ? House.forText(House.VERMILLION) : House.INK;
    paper.labelRight(level, late ? text + " past" : text, colour);
  }

  /** An arrow at the edge for a date that is not on the axis; whether there is one. */
  private static boolean beyond(Paper paper, LocalDate date, double level, Color colour) {
    if (paper.x().holds(day(date))) {
      return false;
    }
    boolean earlier = day(date) < paper.x().min();
    double x = paper.px(earlier ? paper.x().min() : paper.x().max()) + (earlier ? 2 : -2);
    Note.Anchor anchor = earlier ? Note.Anchor.START : Note.Anchor.END;
    String arrow = earlier ? "◄" : "►";
    paper.note(Note.at(x, paper.py(level) + 4, anchor, arrow, colour, House.SMALL));
    return true;
  }

  /** The day's number on the axis, exact. */
  private static double day(LocalDate date) {
    return (double) date.toEpochDay();
  }

  // ---- words and numbers

  private static String inWords(Input input) {
    return "History of "
        + input.pump()
        + " from "
        + input.first()
        + " to "
        + input.today()
        + ": "
        + openedInWords(input)
        + ". Parts: "
        + endsInWords(input)
        + "."
        + pumped(input)
        + aheadInWords(input.next());
  }

  private static String openedInWords(Input input) {
    return input.openings().isEmpty()
        ? "not opened"
        : "opened "
            + Words.counted(input.openings().size(), "time", "times")
            + ", "
            + input.opened(false)
            + " unplanned";
  }

  private static String endsInWords(Input input) {
    List<String> ends = new ArrayList<>();
    for (End end : End.values()) {
      if (input.ended(end) > 0) {
        ends.add(input.ended(end) + " " + end.words);
      }
    }
    return ends.isEmpty() ? "none recorded" : Words.list(ends);
  }

  private static String pumped(Input input) {
    List<String> services =
        input.services().stream().map(s -> s.product() + " from " + s.from()).toList();
    return services.isEmpty() ? "" : " It pumped " + Words.some(services, MOST_NAMED) + ".";
  }

  private static String aheadInWords(Next next) {
    String best = next.best().map(date -> " Next rebuild " + date).orElse(" No rebuild is advised");
    String window =
        next.window().map(w -> ", hardly dearer from " + w.from() + " to " + w.to()).orElse("");
    String mandated = next.mandated().map(date -> ", mandated by " + date).orElse("");
    return best + window + mandated + ".";
  }

  private static List<List<String>> table(Input input) {
    List<List<String>> rows = new ArrayList<>();
    for (Service service : input.services()) {
      rows.add(List.of("pumps", service.from().toString(), "", service.product()));
    }
    for (Position position : input.positions()) {
      for (Span span : position.spans()) {
        boolean ended = span.end() != End.IN_PLACE;
        String to = ended ? span.to().toString() : "";
        rows.add(List.of(position.position(), span.from().toString(), to, span.end().words));
      }
    }
    for (Opening opening : input.openings()) {
      String kind = opening.planned() ? "planned" : "unplanned";
      rows.add(List.of("opened", opening.date().toString(), "", kind));
    }
    Next next = input.next();
    next.best().ifPresent(day -> rows.add(List.of("next rebuild", day.toString(), "", "advised")));
    next.window()
        .ifPresent(
            w ->
                rows.add(
                    List.of(
                        "next rebuild",
                        w.from().toString(),
                        w.to().toString(),
                        "costs hardly more")));
    next.mandated()
        .ifPresent(day -> rows.add(List.of("next rebuild", "", day.toString(), "mandated by")));
    return rows;
  }
}
