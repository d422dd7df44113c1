package org.vaneward.spares;

/** A pump as the futures see it: plain numbers, times in days from the day of record. */
final class PumpAhead {
  /** Row of its site, of its product and of its recipes. */
  final int site;

  final int product;
  final int book;

  /** Running in a day in the fleet's clock, and its spread as a share over the horizon. */
  final double perDay;

  final double relativeSd;

  /** Positions whose failure stops the pump: row of the life, of the component, age. */
  final int[] stopperLife;

  final int[] stopperComponent;
  final double[] stopperAge;

  /** Positions whose failure nobody notices until the pump is opened. */
  final int[] hiddenLife;

  final double[] hiddenAge;

  /** Day of the next planned rebuild; infinite when none is planned. */
  final double firstDay;

  /** Last day any limit allows it; infinite without one. */
  final double latestDay;

  /** Interval from one full rebuild to the next; infinite when none is planned. */
  final double interval;

  /** The longest the ceilings on failure allow; infinite without one. */
  final double mostInterval;

  /** Row of the visit booked for that rebuild, which others may share; -1 when it is not booked. */
  final int visit;

  PumpAhead(
      int[] rows,
      double[] usage,
      int[] stopperLife,
      int[] stopperComponent,
      double[] stopperAge,
      int[] hiddenLife,
      double[] hiddenAge,
      double[] days,
      double[] intervals) {
    this.site = rows[0];
    this.product = rows[1];
    this.book = rows[2];
    this.visit = rows[3];
    this.perDay = usage[0];
    this.relativeSd = usage[1];
    this.stopperLife = stopperLife;
    this.stopperComponent = stopperComponent;
    this.stopperAge = stopperAge;
    this.hiddenLife = hiddenLife;
    this.hiddenAge = hiddenAge;
    this.firstDay = days[0];
    this.latestDay = days[1];
    this.interval = intervals[0];
    this.mostInterval = intervals[1];
  }
}
