package org.vaneward.chart;

import java.awt.Color;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.IsoFields;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.stream.IntStream;

/**
 * The workshop's calendar: a row for each site, a column for each week, in each cell the number of
 * rebuilds booked, darker where more. At the foot stand the bookings of each week against what the
 * workshop can do in it, and by how much it is over. Weeks in which the workshop is closed are
 * grey. A long calendar goes on in a second map below the first.
 */
public final class CalendarMap {
  /** More weeks than this are too many for one picture. */
  public static final int MOST_WEEKS = 53;

  /** More sites than this are too many for one picture. */
  public static final int MOST_SITES = 40;

  /** Weeks in one map: more columns than this would be too narrow for numbers. */
  private static final int COLUMNS = 27;

  /** So many columns have their room even where there are fewer weeks. */
  private static final int LEAST_COLUMNS = 12;

  private static final int LINE = 17;
  private static final int RIGHT = 44;
  private static final int TOP = 34;
  private static final int BOTTOM = 6;
  private static final int LEAST_SIZE = 8;
  private static final int MOST_NAMED = 5;
  private static final double GAP = 0.05;
  private static final int GAP_PIXELS = 2;

  /** Lines of a map above the sites: Mondays and numbers of weeks. */
  private static final double HEAD = 2.1;

  /** Lines of the bars at the foot, the air above them included. */
  private static final double LOAD = 2.8;

  private static final double LOAD_BARS = 2.3;
  private static final double BETWEEN_MAPS = 1.2;

  private static final String CLOSED_MARK = "×";
  private static final Color CLOSED = new Color(222, 222, 222);

  /**
   * One week.
   *
   * @param monday its Monday
   * @param capacity rebuilds the workshop can do in it, at least 0; empty where nothing limits them
   * @param closed whether the workshop is closed
   */
  public record Week(LocalDate monday, OptionalInt capacity, boolean closed) {
    /**
     * A week.
     *
     * @throws IllegalArgumentException when the day is no Monday or the capacity is negative
     */
    public Week {
      if (monday.getDayOfWeek() != DayOfWeek.MONDAY) {
        throw new IllegalArgumentException(
            "a week starts on a Monday, not on " + monday + ", a " + monday.getDayOfWeek());
      }
      capacity.ifPresent(c -> Guard.notNegative("a capacity", c));
    }

    /** As ISO 8601 writes it. */
    String iso() {
      return String.format(
          Locale.ROOT, "%d-W%02d", monday.get(IsoFields.WEEK_BASED_YEAR), number());
    }

    int number() {
      return monday.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR);
    }

    /** By how many rebuilds it is over what can be done. */
    int over(int booked) {
      return Math.max(0, booked - (closed ? 0 : capacity.orElse(booked)));
    }
  }

  /**
   * One site.
   *
   * @param site its name
   * @param rebuilds rebuilds booked in each week, at least 0
   */
  public record Site(String site, List<Integer> rebuilds) {
    /**
     * A site.
     *
     * @throws IllegalArgumentException when a number is negative
     */
    public Site {
      rebuilds = List.copyOf(rebuilds);
      rebuilds.forEach(count -> Guard.notNegative("a number of rebuilds", count));
    }
  }

  /** What is drawn. */
  private record Bookings(List<Week> weeks, List<Site> sites) {
    Bookings {
      Guard.notEmpty("weeks", weeks);
      Guard.notEmpty("sites", sites);
      Guard.distinct("sites", sites.stream().map(Site::site).toList());
      atMost("weeks", MOST_WEEKS, weeks.size());
      atMost("sites", MOST_SITES, sites.size());
      for (int i = 1; i < weeks.size(); i++) {
        LocalDate next = weeks.get(i - 1).monday().plusWeeks(1);
        if (!weeks.get(i).monday().equals(next)) {
          throw new IllegalArgumentException(
              "weeks follow one another: " + next + ", not " + weeks.get(i).monday());
        }
      }
      for (Site site : sites) {
        if (site.rebuilds().size() != weeks.size()) {
          throw new IllegalArgumentException(
              site.site() + " has " + weeks.size() + " weeks, not " + site.rebuilds().size());
        }
      }
    }

    int booked(int week) {
      return sites.stream().mapToInt(site -> site.rebuilds().get(week)).sum();
    }

    int over(int week) {
      return weeks.get(week).over(booked(week));
    }

    boolean anyOver() {
      return IntStream.range(0, weeks.size()).anyMatch(week -> over(week) > 0);
    }

    boolean anyCapacity() {
      return weeks.stream().anyMatch(week -> week.capacity().isPresent());
    }

    boolean anyClosed() {
      return weeks.stream().anyMatch(Week::closed);
    }

    int maps() {
      return (weeks.size() + COLUMNS - 1) / COLUMNS;
    }

    /** Weeks of each map; the last may have fewer. */
    int columns() {
      return (weeks.size() + maps() - 1) / maps();
    }

    /** Most rebuilds of a site in a week. */
    int most() {
      return sites.stream()
          .flatMap(site -> site.rebuilds().stream())
          .mapToInt(n -> n)
          .max()
          .orElse(0);
    }

    /** The highest bar or capacity at the foot. */
    int highest() {
      int highest = 1;
      for (int week = 0; week < weeks.size(); week++) {
        highest = Math.max(highest, booked(week));
        highest = Math.max(highest, weeks.get(week).capacity().orElse(0));
      }
      return highest;
    }

    /** Lines of numbers below the bars. */
    int footLines() {
      return 1 + (anyCapacity() || anyClosed() ? 1 : 0) + (anyOver() ? 1 : 0);
    }

    double linesOfMap() {
      return HEAD + sites.size() + LOAD + footLines();
    }
  }

  /** One of the maps: where it starts and which weeks are its own. */
  private record OneMap(Paper paper, Bookings bookings, int index, int size) {
    int first() {
      return index * bookings.columns();
    }

    int end() {
      return Math.min(bookings.weeks().size(), first() + bookings.columns());
    }

    /** The level so many lines below the start of the map. */
    double at(double lines) {
      return -(index * (bookings.linesOfMap() + BETWEEN_MAPS) + lines);
    }

    double level(int site) {
      return at(HEAD + site + 0.5);
    }

    double loadBase() {
      return at(HEAD + bookings.sites().size() + LOAD);
    }

    double foot(int line) {
      return at(HEAD + bookings.sites().size() + LOAD + 0.6 + line);
    }

    /** At least four, more where a date needs more room. */
    int weeksBetweenDates() {
      double wide = paper.plotWidth() / paper.x().length();
      double room = Words.width("2000-00-00", House.SMALL) + 6;
      return (int) Math.max(4, Math.ceil(room / wide));
    }

    Range column(int week) {
      return new Range(week - first() + GAP, week - first() + 1 - GAP);
    }

    /** A number in the column of a week. */
    void number(int week, double level, String text, Color colour) {
      paper.note(centred(week, level, text, colour));
    }

    Note centred(int week, double level, String text, Color colour) {
      double x = paper.px(week - first() + 0.5);
      double base = paper.py(level) + Math.rint(0.36 * size);
      return Note.at(x, base, Note.Anchor.MIDDLE, text, colour, size);
    }

    /** Right end of the sums, beside the widest map. */
    double sumRight() {
      return paper.px(bookings.columns()) + RIGHT - 8;
    }

    void sum(double level, int from) {
      double right = sumRight();
      String text = Words.plain(from);
      paper.note(
          Note.at(right, paper.py(level) + 4, Note.Anchor.END, text, House.GREY, House.SMALL));
    }
  }

  private CalendarMap() {}

  private static void atMost(String what, int most, int given) {
    if (given > most) {
      throw new IllegalArgumentException(
          "at most " + most + " " + what + " fit one picture, not " + given);
    }
  }

  /**
   * Draws the sites from top to bottom as given.
   *
   * @param weeks one after the other, without a gap, at most {@value #MOST_WEEKS}
   * @param sites at least one and at most {@value #MOST_SITES}, each with a number for each week
   * @throws IllegalArgumentException when there are none or too many, weeks do not follow one
   *     another, a site repeats or has not one number for each week
   */
  public static Picture draw(String title, List<Week> weeks, List<Site> sites) {
    Bookings bookings = new Bookings(List.copyOf(weeks), List.copyOf(sites));
    List<String> columns =
        new ArrayList<>(List.of("week", "Monday", "rebuilds booked", "capacity", "over by"));
    bookings.sites().forEach(site -> columns.add(site.site()));
    return paper(weeks, sites).picture(title, inWords(bookings), columns, table(bookings));
  }

  static Paper paper(List<Week> weeks, List<Site> sites) {
    Bookings bookings = new Bookings(List.copyOf(weeks), List.copyOf(sites));
    double lines =
        bookings.maps() * (bookings.linesOfMap() + BETWEEN_MAPS)
            - BETWEEN_MAPS
            + (bookings.anyClosed() ? 1.4 : 0.3);
    Paper paper =
        new Paper(
            House.WIDTH,
            TOP + (int) Math.ceil(lines * LINE) + BOTTOM,
            new Paper.Margins(TOP, RIGHT, BOTTOM, left(bookings)),
            new Range(0, Math.max(LEAST_COLUMNS, bookings.columns())),
            new Range(-lines, 0));
    int size = numberSize(paper, bookings);
    for (int index = 0; index < bookings.maps(); index++) {
      map(new OneMap(paper, bookings, index, size));
    }
    paper.note(
        Note.at(
            8, 20, Note.Anchor.START, "rebuilds booked, by site and week", House.INK, House.TEXT));
    if (bookings.anyClosed()) {
      String closed = "grey, " + CLOSED_MARK + ": the workshop is closed";
      double base = paper.height() - BOTTOM - 4.0;
      paper.note(Note.at(paper.px(0), base, Note.Anchor.START, closed, House.GREY, House.SMALL));
    }
    return paper;
  }

  private static int left(Bookings bookings) {
    double widest =
        bookings.sites().stream()
            .mapToDouble(site -> Words.width(site.site(), House.SMALL))
            .max()
            .orElse(0);
    // at least what the names of the foot need
    return (int) Math.max(112, Math.min(150, Math.ceil(widest) + 16));
  }

  private static int numberSize(Paper paper, Bookings bookings) {
    List<String> numbers = new ArrayList<>(List.of("00"));
    for (int week = 0; week < bookings.weeks().size(); week++) {
      numbers.add("+" + bookings.over(week));
      numbers.add(Integer.toString(bookings.booked(week)));
      numbers.add(Integer.toString(bookings.weeks().get(week).capacity().orElse(0)));
    }
    // bold letters are wider
    double room = 0.92 * paper.plotWidth() / paper.x().length() - 1;
    return Words.largest(numbers, room, House.SMALL, LEAST_SIZE);
  }

  private static void map(OneMap map) {
    closed(map);
    head(map);
    rules(map);
    cells(map);
    load(map);
    foot(map);
  }

  /** Grey from the first site to the last number at the foot. */
  private static void closed(OneMap map) {
    for (int week = map.first(); week < map.end(); week++) {
      if (map.bookings().weeks().get(week).closed()) {
        Range up = new Range(map.foot(map.bookings().footLines() - 1) - 0.5, map.at(HEAD));
        double column = week - map.first();
        map.paper().bar("closed " + week, new Range(column, column + 1), up, CLOSED);
      }
    }
  }

  private static void head(OneMap map) {
    Paper paper = map.paper();
    paper.labelY(map.at(0.5), "Monday", House.GREY);
    paper.labelY(map.at(1.5), "ISO week", House.GREY);
    for (int week = map.first(); week < map.end(); week++) {
      int column = week - map.first();
      if (column % map.weeksBetweenDates() == 0) {
        String monday = map.bookings().weeks().get(week).monday().toString();
        double base = paper.py(map.at(0.5)) + 4;
        double x = paper.px(column) + 2;
        Note note = Note.at(x, base, Note.Anchor.START, monday, House.GREY, House.SMALL);
        if (note.box().right() < House.WIDTH) {
          paper.note(note);
        }
      }
      String number = Integer.toString(map.bookings().weeks().get(week).number());
      map.number(week, map.at(1.5), number, House.GREY);
    }
    double base = paper.py(map.at(1.5)) + 4;
    double right = map.sumRight();
    paper.note(Note.at(right, base, Note.Anchor.END, "sum", House.GREY, House.SMALL));
  }

  /** Lines between the sites, and where the Mondays are named. */
  private static void rules(OneMap map) {
    Paper paper = map.paper();
    double columns = map.end() - (double) map.first();
    for (int site = 0; site <= map.bookings().sites().size(); site++) {
      double level = map.at(HEAD + site);
      double[] levels = {level, level};
      String name = "rule " + map.index() + " " + site;
      paper.line(name, new double[] {0, columns}, levels, House.GRID, House.HAIR);
    }
    for (int column = 0; column < columns; column += map.weeksBetweenDates()) {
      double[] xs = {column, column};
      double[] levels = {map.at(0.1), map.loadBase()};
      String name = "date " + map.index() + " " + column;
      paper.line(name, xs, levels, House.GRID, House.HAIR);
    }
  }

  private static Shades.Shade shade(int rebuilds, int most) {
    int last = Shades.LIGHT_TO_DARK.size() - 1;
    double share = most == 1 ? 0.3 : (rebuilds - 1.0) / (most - 1.0);
    return Shades.LIGHT_TO_DARK.get((int) Math.rint(share * last));
  }

  private static void cells(OneMap map) {
    Bookings bookings = map.bookings();
    int most = bookings.most();
    for (Shades.Shade shade : Shades.LIGHT_TO_DARK) {
      List<Paper.Block> blocks = new ArrayList<>();
      for (int site = 0; site < bookings.sites().size(); site++) {
        for (int week = map.first(); week < map.end(); week++) {
          int rebuilds = bookings.sites().get(site).rebuilds().get(week);
          if (rebuilds > 0 && shade(rebuilds, most).equals(shade)) {
            blocks.add(new Paper.Block(map.column(week), map.level(site)));
            map.number(week, map.level(site), Integer.toString(rebuilds), shade.ink());
          }
        }
      }
      if (!blocks.isEmpty()) {
        String name = "shade " + map.index() + " " + Shades.LIGHT_TO_DARK.indexOf(shade);
        map.paper().blocks(name, blocks, LINE - (double) GAP_PIXELS, shade.fill());
      }
    }
    for (int site = 0; site < bookings.sites().size(); site++) {
      Site one = bookings.sites().get(site);
      map.paper().labelY(map.level(site), one.site(), House.INK);
      map.sum(
          map.level(site),
          one.rebuilds().subList(map.first(), map.end()).stream().mapToInt(n -> n).sum());
    }
  }

  // ---- the foot

  /** Bars of what is booked, what is over in another colour, and a line at what can be done. */
  private static void load(OneMap map) {
    double unit = LOAD_BARS / map.bookings().highest();
    double base = map.loadBase();
    for (int week = map.first(); week < map.end(); week++) {
      int booked = map.bookings().booked(week);
      int within = booked - map.bookings().over(week);
      Range across = map.column(week);
      if (within > 0) {
        Range up = new Range(base, base + within * unit);
        map.paper().bar("load " + week, across, up, House.tint(House.BLUE, 0.6));
      }
      if (booked > within) {
        Range up = new Range(base + within * unit, base + booked * unit);
        map.paper().bar("over " + week, across, up, House.tint(House.VERMILLION, 0.8));
      }
    }
    capacity(map, unit);
    Paper paper = map.paper();
    double[] ends = {0, map.end() - (double) map.first()};
    paper.line("base " + map.index(), ends, new double[] {base, base}, House.AXIS, House.THIN);
    paper.labelY(base + 1.6, "bar: booked", House.GREY);
    if (map.bookings().anyCapacity()) {
      paper.labelY(base + 0.7, "line: capacity", House.GREY);
    }
  }

  private static void capacity(OneMap map, double unit) {
    for (int week = map.first(); week < map.end(); week++) {
      Week one = map.bookings().weeks().get(week);
      if (one.capacity().isPresent() && !one.closed()) {
        double level = map.loadBase() + one.capacity().getAsInt() * unit;
        double column = week - map.first();
        double[] xs = {column, column + 1};
        double[] levels = {level, level};
        map.paper().line("capacity " + week, xs, levels, House.INK, House.CURVE);
      }
    }
  }

  private static void foot(OneMap map) {
    Bookings bookings = map.bookings();
    boolean limits = bookings.anyCapacity() || bookings.anyClosed();
    Color alarm = House.forText(House.VERMILLION);
    int overLine = limits ? 2 : 1;
    for (int week = map.first(); week < map.end(); week++) {
      map.number(week, map.foot(0), Integer.toString(bookings.booked(week)), House.INK);
      if (limits) {
        map.number(week, map.foot(1), capacity(bookings.weeks().get(week)), House.GREY);
      }
      if (bookings.over(week) > 0) {
        String over = "+" + bookings.over(week);
        map.paper().note(map.centred(week, map.foot(overLine), over, alarm).asBold());
      }
    }
    map.paper().labelY(map.foot(0), "booked", House.INK);
    map.sum(map.foot(0), IntStream.range(map.first(), map.end()).map(bookings::booked).sum());
    if (limits) {
      map.paper().labelY(map.foot(1), "capacity", House.GREY);
    }
    if (bookings.anyOver()) {
      map.paper().labelY(map.foot(overLine), "over by", alarm);
    }
  }

  private static String capacity(Week week) {
    return week.closed()
        ? CLOSED_MARK
        : week.capacity().isPresent() ? Integer.toString(week.capacity().getAsInt()) : "";
  }

  // ---- words and numbers

  private static String inWords(Bookings bookings) {
    List<Week> weeks = bookings.weeks();
    Week last = weeks.get(weeks.size() - 1);
    int all = IntStream.range(0, weeks.size()).map(bookings::booked).sum();
    return Words.counted(all, "rebuild", "rebuilds")
        + " booked at "
        + Words.counted(bookings.sites().size(), "site", "sites")
        + " from week "
        + weeks.get(0).iso()
        + " (Monday "
        + weeks.get(0).monday()
        + ") to "
        + last.iso()
        + ". "
        + over(bookings)
        + closed(bookings);
  }

  private static String over(Bookings bookings) {
    List<String> over = new ArrayList<>();
    for (int week = 0; week < bookings.weeks().size(); week++) {
      if (bookings.over(week) > 0) {
        over.add(bookings.weeks().get(week).iso() + " by " + bookings.over(week));
      }
    }
    if (over.isEmpty()) {
      return bookings.anyCapacity() ? "No week is over capacity." : "No capacity is set.";
    }
    return "Over capacity: " + Words.some(over, MOST_NAMED) + ".";
  }

  private static String closed(Bookings bookings) {
    List<String> closed = bookings.weeks().stream().filter(Week::closed).map(Week::iso).toList();
    return closed.isEmpty() ? "" : " Closed: " + Words.some(closed, MOST_NAMED) + ".";
  }

  private static List<List<String>> table(Bookings bookings) {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < bookings.weeks().size(); i++) {
      int week = i;
      Week one = bookings.weeks().get(week);
      List<String> row = new ArrayList<>();
      row.add(one.iso());
      row.add(one.monday().toString());
      row.add(Words.plain(bookings.booked(week)));
      row.add(one.closed() ? "closed" : capacity(one));
      row.add(bookings.over(week) > 0 ? Words.plain(bookings.over(week)) : "");
      bookings.sites().forEach(site -> row.add(Words.plain(site.rebuilds().get(week))));
      rows.add(row);
    }
    return rows;
  }
}
