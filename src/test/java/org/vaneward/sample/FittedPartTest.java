package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.vaneward.stats.distribution.Weibull;

class FittedPartTest {
  private static FittedPart part(Weibull life, double factor, double budget) {
    return new FittedPart(100, life, factor, budget, 1.5, false, "L1");
  }

  @Test
  void failsWhenTheHazardBudgetIsSpent() {
    FittedPart part = part(new Weibull(2, 1000), 0.5, 4);
    // (t / 500)^2 = 4
    assertEquals(1000, part.failureAgeHours(), 1e-9);
    assertEquals(1100, part.stopsPumpAt(true), 1e-9);
    assertEquals(Double.POSITIVE_INFINITY, part.stopsPumpAt(false));
    assertFalse(part.hasFailedBy(1099.9));
    assertTrue(part.hasFailedBy(part.stopsPumpAt(true)));
  }

  @Test
  void aChangeOfServiceKeepsTheAgeAndSwitchesTheHazard() {
    FittedPart part = part(new Weibull(2, 1000), 1, 1);
    part.changeService(600, new Weibull(2, 2000));
    // 0.25 is spent by age 500; 0.75 = (t^2 - 500^2) / 2000^2
    assertEquals(Math.sqrt(0.75 * 4e6 + 25e4), part.failureAgeHours(), 1e-9);
    part.changeService(1100, new Weibull(1, 100));
    // 0.25 + 0.1875 are spent by age 1000; the rest at 1 / 100 an hour
    assertEquals(1000 + 100 * (1 - 0.25 - 0.1875), part.failureAgeHours(), 1e-9);
  }

  @Test
  void aFailedPartIsNotRevivedByAnotherService() {
    FittedPart part = part(new Weibull(2, 1000), 1, 1);
    part.changeService(1200, new Weibull(2, 9000));
    assertEquals(1000, part.failureAgeHours(), 1e-9);
  }

  @Test
  void wearReachesTheLimitAtTheFailureAndNeverShrinks() {
    FittedPart part = part(new Weibull(3, 1000), 1, 1);
    assertEquals(0, part.wearMm(100), 1e-12);
    assertEquals(0.75, part.wearMm(600), 1e-12);
    part.changeService(600, new Weibull(3, 4000));
    assertEquals(0.75, part.wearMm(600), 1e-12);
    double fails = part.stopsPumpAt(true);
    assertEquals(1.5, part.wearMm(fails), 1e-9);
    double before = 0;
    for (double hours = 100; hours < 3 * fails; hours += 50) {
      assertTrue(part.wearMm(hours) >= before);
      before = part.wearMm(hours);
    }
    assertEquals(3, before, 1e-12);
  }
}
