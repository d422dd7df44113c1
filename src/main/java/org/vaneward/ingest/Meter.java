package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.RowRef;

/** One hour meter of a pump, from the day it was fitted to the day it was replaced. */
final class Meter {
  private final long firstDay;
  private long lastDay = Long.MAX_VALUE;
  private List<Point> points = new ArrayList<>();
  private List<Point> stops = new ArrayList<>();

  /** A meter fitted on {@code firstDay}. */
  Meter(long firstDay) {
    this.firstDay = firstDay;
  }

  /** Which hours of a row a point shows. */
  enum Role {
    /** A plain reading. */
    READING,
    /** The first reading of a meter just fitted. */
    NEW,
    /** The last reading of a meter just taken off. */
    OLD,
    /** The hours stated at an opening. */
    STOP
  }

  /**
   * What the meter showed on a day.
   *
   * @param source index of the row among those of its kind
   */
  record Point(Role role, int source, long day, double hours, RowRef row) {
    /** {@code "1200 read on 2024-01-31 (readings.csv, line 4)"}. */
    String shown() {
      return Where.hours(hours)
          + " read on "
          + LocalDate.ofEpochDay(day)
          + " ("
          + Where.of(row)
          + ")";
    }
  }

  /** A point that cannot be right beside the others. */
  record Misfit(Point point, String reason) {}

  void add(Point point) {
    points.add(point);
  }

  /** The meter was taken off on {@code day}. */
  void endOn(long day) {
    lastDay = day;
  }

  long firstDay() {
    return firstDay;
  }

  long lastDay() {
    return lastDay;
  }

  /** Whether nothing is known of what it showed. */
  boolean unknown() {
    return points.isEmpty() && stops.isEmpty();
  }

  /** Drops the fewest readings that leave the others possible, and says which and why. */
  List<Misfit> settle() {
    List<Misfit> misfits = new ArrayList<>();
    points = kept(points, misfits);
    return misfits;
  }

  /** The same for hours stated at openings that fit the readings each for itself. */
  List<Misfit> settleStops() {
    List<Misfit> misfits = new ArrayList<>();
    stops = kept(stops, misfits);
    return misfits;
  }

  /** Takes {@code hours} as what the meter showed on the day it was fitted. */
  void startAt(double hours, Point instead) {
    points.add(0, new Point(instead.role(), instead.source(), instead.day(), hours, instead.row()));
  }

  /** The first point; there is one after {@link #settle()} unless nothing was read at all. */
  Optional<Point> first() {
    return points.isEmpty() ? Optional.empty() : Optional.of(points.get(0));
  }

  /** Takes in the hours stated at an opening. */
  void addStop(Point stop) {
    stops.add(stop);
  }

  /** Why the meter cannot have shown {@code hours} on {@code day}; empty when it can. */
  Optional<String> conflict(long day, double hours) {
    int from = firstNotBefore(day);
    int to = firstNotBefore(day + 1);
    for (int i = from; i < to; i++) {
      if (Math.abs(points.get(i).hours() - hours) > 24) {
        return Optional.of("more than a day's hours away from " + points.get(i).shown());
      }
    }
    Optional<String> low = from == 0 ? Optional.empty() : behind(points.get(from - 1), day, hours);
    return low.isPresent() || to == points.size() ? low : ahead(points.get(to), day, hours);
  }

  private static Optional<String> behind(Point before, long day, double hours) {
    if (hours < before.hours()) {
      return Optional.of("fall below " + before.shown());
    }
    return MeterChain.tooFast(before.day(), before.hours(), day, hours)
        ? Optional.of("would be more than 24 a day since " + before.shown())
        : Optional.empty();
  }

  private static Optional<String> ahead(Point after, long day, double hours) {
    if (hours > after.hours()) {
      return Optional.of("lie above " + after.shown());
    }
    return MeterChain.tooFast(day, hours, after.day(), after.hours())
        ? Optional.of("would be more than 24 a day until " + after.shown())
        : Optional.empty();
  }

  private int firstNotBefore(long day) {
    int low = 0;
    int high = points.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (points.get(middle).day() < day) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static List<Point> kept(List<Point> points, List<Misfit> misfits) {
    long[] days = points.stream().mapToLong(Point::day).toArray();
    double[] hours = points.stream().mapToDouble(Point::hours).toArray();
    boolean[] kept = MeterChain.longest(days, hours);
    int[] nextKept = new int[kept.length + 1];
    nextKept[kept.length] = -1;
    for (int i = kept.length - 1; i >= 0; i--) {
      nextKept[i] = kept[i] ? i : nextKept[i + 1];
    }
    List<Point> left = new ArrayList<>(points.size());
    for (int i = 0; i < kept.length; i++) {
      if (kept[i]) {
        left.add(points.get(i));
      } else {
        misfits.add(
            misfit(
                points.get(i),
                left,
                nextKept[i] < 0 ? List.of() : List.of(points.get(nextKept[i]))));
      }
    }
    return left;
  }

  private static Misfit misfit(Point point, List<Point> before, List<Point> after) {
    Optional<String> reason =
        before.isEmpty()
            ? Optional.empty()
            : behind(before.get(before.size() - 1), point.day(), point.hours());
    if (reason.isEmpty() && !after.isEmpty()) {
      reason = ahead(after.get(0), point.day(), point.hours());
    }
    return new Misfit(point, reason.orElse("do not go with the hours around them"));
  }

  /** Hours a day, from the first point to the last; empty when they are of one day. */
  OptionalDouble hoursPerDay() {
    Point[] all = all();
    if (all.length == 0) {
      return OptionalDouble.empty();
    }
    long days = all[all.length - 1].day() - all[0].day();
    double hours = all[all.length - 1].hours() - all[0].hours();
    return days > 0 && hours >= 0
        ? OptionalDouble.of(Math.min(24, hours / days))
        : OptionalDouble.empty();
  }

  /** The latest point, of readings and openings together. */
  Optional<Point> latest() {
    Point[] all = all();
    return all.length == 0 ? Optional.empty() : Optional.of(all[all.length - 1]);
  }

  private Point[] all() {
    List<Point> all = new ArrayList<>(points);
    all.addAll(stops);
    Point[] sorted = all.toArray(new Point[0]);
    Arrays.sort(sorted, Comparator.comparingLong(Point::day).thenComparingDouble(Point::hours));
    return sorted;
  }
}
