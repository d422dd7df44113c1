package org.vaneward.chart;

import java.time.LocalDate;
import java.time.Period;
import java.util.ArrayList;
import java.util.List;

/** Where grid lines stand. */
final class Ticks {
  private static final double[] FEW = {1, 2, 5};
  private static final double[] MANY = {1, 1.5, 2, 3, 4, 5, 7};
  private static final int[] MONTH_STEPS = {1, 2, 3, 6, 12, 24, 60, 120};

  private Ticks() {}

  /** Multiples of 1, 2 or 5 times a power of ten inside a range, at most {@code most} of them. */
  static double[] linear(double min, double max, int most) {
    double step = step(max - min, most);
    long from = (long) Math.ceil(min / step - 1e-9);
    long to = (long) Math.floor(max / step + 1e-9);
    double[] ticks = new double[(int) (to - from + 1)];
    for (int i = 0; i < ticks.length; i++) {
      // rounded to the step's digits: 3 * 0.1 would print as 0.30000000000000004
      ticks[i] = step < 1 ? (from + i) / Math.rint(1 / step) : (from + i) * step;
    }
    return ticks;
  }

  /** The smallest 1-2-5 step that cuts a length into at most {@code most} pieces. */
  static double step(double length, int most) {
    double least = length / most;
    double decade = Math.pow(10, Math.floor(Math.log10(least)));
    for (double digit : FEW) {
      if (digit * decade >= least * (1 - 1e-9)) {
        return digit * decade;
      }
    }
    return 10 * decade;
  }

  /**
   * Round values on a logarithmic axis: 1-2-5, or finer ones where fewer than four of these fall
   * in, or evenly spaced ones on an axis shorter than that needs.
   */
  static double[] logarithmic(double min, double max) {
    double[] ticks = decades(min, max, FEW);
    if (ticks.length < 4) {
      ticks = decades(min, max, MANY);
    }
    return ticks.length < 4 ? linear(min, max, 7) : ticks;
  }

  private static double[] decades(double min, double max, double[] digits) {
    List<Double> ticks = new ArrayList<>();
    int first = (int) Math.floor(Math.log10(min));
    int last = (int) Math.floor(Math.log10(max));
    for (int decade = first; decade <= last; decade++) {
      for (double digit : digits) {
        double tick = digit * Math.pow(10, decade);
        if (tick >= min * (1 - 1e-9) && tick <= max * (1 + 1e-9)) {
          ticks.add(tick);
        }
      }
    }
    return ticks.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** Firsts of months, or Mondays of a short span, inside a range; at most about eight. */
  static List<LocalDate> dates(LocalDate from, LocalDate to) {
    long days = to.toEpochDay() - from.toEpochDay();
    return days < 100 ? mondays(from, to, days < 56 ? 1 : 2) : months(from, to, days);
  }

  private static List<LocalDate> mondays(LocalDate from, LocalDate to, int weeks) {
    LocalDate monday = from.plusDays((8 - from.getDayOfWeek().getValue()) % 7);
    return monday.datesUntil(to.plusDays(1), Period.ofWeeks(weeks)).toList();
  }

  private static List<LocalDate> months(LocalDate from, LocalDate to, long days) {
    int step = MONTH_STEPS[MONTH_STEPS.length - 1];
    for (int candidate : MONTH_STEPS) {
      if (days / (30.4 * candidate) <= 8) {
        step = candidate;
        break;
      }
    }
    List<LocalDate> ticks = new ArrayList<>();
    long month = Math.floorDiv(from.getYear() * 12L + from.getMonthValue() - 1, step) * step;
    LocalDate tick = firstOf(month);
    while (!tick.isAfter(to)) {
      if (!tick.isBefore(from)) {
        ticks.add(tick);
      }
      month += step;
      tick = firstOf(month);
    }
    return ticks;
  }

  private static LocalDate firstOf(long monthNumber) {
    return LocalDate.of(
        (int) Math.floorDiv(monthNumber, 12), (int) Math.floorMod(monthNumber, 12L) + 1, 1);
  }
}
