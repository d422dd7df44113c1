package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * One pump's history as plain numbers. Days count from the first origin; counts are of the pump's
 * clock.
 */
final class Story {
  /** Count at the end of each day. */
  final double[] count;

  /** Day on which the comparison of this pump begins, and its last day. */
  final int enters;

  final int ends;

  /** Age since the last full rebuild when it begins, and on the last day. */
  final double sinceFull;

  final double sinceFullAtEnd;
  final boolean retired;
  final List<Opened> openings;

  /** By position: its lives in order of time. */
  final List<List<LifeOnRecord>> lives;

  /** By position: the component's row. */
  final int[] component;

  /** By half-year; the first are empty where the pump was not yet known. */
  final List<Optional<Advised>> advice;

  /** Costs by component row. */
  final double planned;

  final double[] stopRebuilt;
  final double[] stopMended;

  Story(
      double[] count,
      int enters,
      int ends,
      double sinceFull,
      double sinceFullAtEnd,
      boolean retired,
      List<Opened> openings,
      List<List<LifeOnRecord>> lives,
      int[] component,
      List<Optional<Advised>> advice,
      double planned,
      double[] stopRebuilt,
      double[] stopMended) {
    this.count = count;
    this.enters = enters;
    this.ends = ends;
    this.sinceFull = sinceFull;
    this.sinceFullAtEnd = sinceFullAtEnd;
    this.retired = retired;
    this.openings = openings;
    this.lives = lives;
    this.component = component;
    this.advice = advice;
    this.planned = planned;
    this.stopRebuilt = stopRebuilt;
    this.stopMended = stopMended;
  }

  /** What an opening was. */
  enum Kind {
    PLANNED,
    STOP,
    NEITHER
  }

  /**
   * An opening.
   *
   * @param cost at stated prices; 0 for what is neither
   */
  record Opened(int day, Kind kind, boolean full, double cost) {}

  /** How a life on record ended. */
  enum End {
    /** Failed at its last age, and the pump stopped. */
    FAILED,
    /** Found failed; it had failed since it was last seen good. */
    FOUND,
    /** Not known to have failed. */
    WORKING
  }

  /**
   * A part on record.
   *
   * @param from day it was fitted; before the first origin where negative
   * @param to day it was taken out, or the last day
   * @param fitted count at which it was fitted
   * @param age its age at the end
   * @param seenGood age at which it was last known not to have failed
   * @param model row of what is believed of such lives
   */
  record LifeOnRecord(
      int from, int to, double fitted, double age, double seenGood, End end, int model) {}

  /**
   * Advice for a half-year.
   *
   * @param day of the next rebuild; empty when none falls into it
   * @param interval to the rebuild after; infinite when none
   * @param model by position, row of what is believed of a new part
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Advised(Optional<Integer> day, double interval, int[] model) {}

  /** The first day by the end of which a count was reached; the last day when it never was. */
  int dayOf(double reached) {
    int at = Arrays.binarySearch(count, reached);
    return Math.min(at < 0 ? -at - 1 : at, count.length - 1);
  }

  static int day(LocalDate zero, LocalDate date) {
    return (int) (date.toEpochDay() - zero.toEpochDay());
  }
}
