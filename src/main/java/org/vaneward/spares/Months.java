package org.vaneward.spares;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The calendar months ahead. They start on the day after the day of record; where that is not the
 * first of a month, the first month and the last are parts of months.
 */
public final class Months {
  private final List<YearMonth> months;
  private final int[] ofDay;

  private Months(List<YearMonth> months, int[] ofDay) {
    this.months = List.copyOf(months);
    this.ofDay = ofDay;
  }

  /** So many months from the day after {@code asOf}. */
  static Months of(LocalDate asOf, int count) {
    // Counted from the first day ahead: a day of record at a month's end gives whole months.
    LocalDate end = asOf.plusDays(1).plusMonths(count).minusDays(1);
    int days = (int) ChronoUnit.DAYS.between(asOf, end);
    int[] ofDay = new int[days + 1];
    List<YearMonth> months = new ArrayList<>();
    for (int d = 1; d <= days; d++) {
      YearMonth month = YearMonth.from(asOf.plusDays(d));
      if (months.isEmpty() || !months.get(months.size() - 1).equals(month)) {
        months.add(month);
      }
      ofDay[d] = months.size() - 1;
    }
    return new Months(months, ofDay);
  }

  /** The months. */
  public List<YearMonth> all() {
    return months;
  }

  /** Whether only a part of a month is among the days. */
  boolean isPart(int month) {
    long days = Arrays.stream(ofDay).skip(1).filter(m -> m == month).count();
    return days < months.get(month).lengthOfMonth();
  }

  /** Days from the day of record to the end of the last month. */
  public int days() {
    return ofDay.length - 1;
  }

  /** The month of a moment in (0, days], counted in days from the end of the day of record. */
  int at(double moment) {
    return ofDay[Math.max(1, (int) Math.ceil(moment))];
  }
}
