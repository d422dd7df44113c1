package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Limits of pooled fits against the truth that drew the lives. */
class PooledCoverageTest {
  /**
   * Thirty fleets of each size, so 720 services: services of a fleet share its draws, so the count
   * scatters more than 720 independent ones would, by about 1.5 percentage points.
   */
  @Test
  void limitsHoldAsOftenAsTheySay() {
    int groups = 0;
    int scale = 0;
    int age = 0;
    int shape = 0;
    for (PooledCoverage.Count c : PooledCoverage.count(30, 5)) {
      assertEquals(0, c.refused);
      groups += c.groups;
      scale += c.scaleHeld;
      age += c.ageHeld;
      shape += c.shapeHeld;
    }
    within(0.86, 0.94, scale, groups, "scale");
    within(0.86, 0.94, age, groups, "10% life");
    within(0.86, 0.94, shape, groups, "shape");
  }

  private static void within(double low, double high, int held, int of, String what) {
    double share = held / (double) of;
    assertTrue(share >= low && share <= high, what + ": " + held + " of " + of);
  }
}
