package org.vaneward.backtest;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * A stretch of history to forecast.
 *
 * @param origin last day of which anything is known
 * @param end last day of the stretch, after the origin
 */
public record Span(LocalDate origin, LocalDate end) {
  /** Months of a stretch: half a year. */
  public static final int MONTHS = 6;

  /** Checks. */
  public Span {
    if (!end.isAfter(origin)) {
      throw new IllegalArgumentException("a stretch ends after it begins: " + origin + ", " + end);
    }
  }

  /** Half-years that end on {@code asOf}, none beginning before {@code first}, in order of time. */
  static List<Span> halfYears(LocalDate first, LocalDate asOf) {
    List<Span> spans = new ArrayList<>();
    // From the day after, so that ends of months stay ends of months.
    LocalDate next = asOf.plusDays(1);
    LocalDate end = asOf;
    for (int k = 1; ; k++) {
      LocalDate origin = next.minusMonths((long) MONTHS * k).minusDays(1);
      if (origin.isBefore(first)) {
        Collections.reverse(spans);
        return spans;
      }
      spans.add(new Span(origin, end));
      end = origin;
    }
  }

  /** How many of the last of these follow one another without a gap. */
  static int unbroken(List<Span> spans) {
    int count = Math.min(1, spans.size());
    while (count < spans.size()
        && spans
            .get(spans.size() - count - 1)
            .end()
            .equals(spans.get(spans.size() - count).origin())) {
      count++;
    }
    return count;
  }

  /** Whether a day lies in it. */
  public boolean contains(LocalDate day) {
    return day.isAfter(origin) && !day.isAfter(end);
  }

  /** Its length, days. */
  public long days() {
    return ChronoUnit.DAYS.between(origin, end);
  }
}
