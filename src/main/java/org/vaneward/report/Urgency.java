package org.vaneward.report;

import java.time.LocalDate;
import org.vaneward.plan.PumpPlan;

/** How pressing a pump's next rebuild is on the day of record, from the most pressing down. */
enum Urgency {
  /** A limit, mandated or on the chance of failure, is past. */
  PAST_LIMIT("past a limit"),
  /** The window of least cost is past. */
  LATE("late"),
  /** The best day is past or today, the window is not. */
  DUE_NOW("due now"),
  /** The best day is yet to come, within 90 days. */
  SOON("soon"),
  /** Later, or never planned. */
  LATER("later");

  /** How far ahead the first page looks. */
  static final int SOON_DAYS = 90;

  private final String words;

  Urgency(String words) {
    this.words = words;
  }

  String words() {
    return words;
  }

  static Urgency of(PumpPlan pump, LocalDate asOf) {
    if (pump.pastLimit()) {
      return PAST_LIMIT;
    }
    if (pump.nextRebuild().date().isEmpty()) {
      return LATER;
    }
    if (pump.nextRebuild().to().filter(to -> to.isBefore(asOf)).isPresent()) {
      return LATE;
    }
    LocalDate date = pump.nextRebuild().date().get();
    if (!date.isAfter(asOf)) {
      return DUE_NOW;
    }
    return date.isAfter(asOf.plusDays(SOON_DAYS)) ? LATER : SOON;
  }

  /** Whether the pump is among those to open in the next 90 days. */
  boolean isDue() {
    return this != LATER;
  }
}
