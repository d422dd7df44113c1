package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.vaneward.plan.IntervalAfter;
import org.vaneward.plan.NextRebuild;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.Bound;

/** The states a pump can be in on the day of record. */
class UrgencyTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 6, 30);

  private static Urgency of(int due, int windowEnd, boolean pastLimit) {
    return Urgency.of(
        plan(
            new NextRebuild(
                Optional.of(TODAY.plusDays(due)),
                Optional.of(TODAY.plusDays(due)),
                Optional.of(TODAY.plusDays(windowEnd))),
            pastLimit),
        TODAY);
  }

  private static PumpPlan plan(NextRebuild next, boolean pastLimit) {
    return new PumpPlan(
        "P-1",
        "North",
        Optional.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        next,
        Optional.empty(),
        new IntervalAfter(OptionalDouble.empty(), OptionalDouble.empty()),
        Bound.COST,
        Optional.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Optional.empty(),
        Optional.empty(),
        "",
        0,
        Optional.empty(),
        Optional.empty(),
        pastLimit,
        true,
        Optional.empty(),
        List.of(),
        List.of());
  }

  @Test
  void aLimitThatIsPastComesBeforeAll() {
    assertEquals(Urgency.PAST_LIMIT, of(200, 300, true));
  }

  @Test
  void lateOnceTheWindowIsPast() {
    assertEquals(Urgency.LATE, of(-30, -1, false));
    assertEquals(Urgency.DUE_NOW, of(-30, 0, false));
  }

  @Test
  void dueNowFromTheBestDayOn() {
    assertEquals(Urgency.DUE_NOW, of(0, 10, false));
    assertEquals(Urgency.SOON, of(1, 10, false));
  }

  @Test
  void soonForNinetyDays() {
    assertEquals(Urgency.SOON, of(90, 200, false));
    assertEquals(Urgency.LATER, of(91, 200, false));
  }

  @Test
  void laterWhenNothingIsPlanned() {
    assertEquals(
        Urgency.LATER,
        Urgency.of(
            plan(new NextRebuild(Optional.empty(), Optional.empty(), Optional.empty()), false),
            TODAY));
  }
}
