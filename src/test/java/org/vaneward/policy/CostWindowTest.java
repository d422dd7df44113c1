package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Round the least of t / 100 + 100 / t, which is 2 at 100, allowing 1% more. */
class CostWindowTest {
  private static final double CEILING = 2.02;

  /** u + 1 / u = 2.02 in hundreds of hours. */
  private static final double FROM = 100 * (1.01 - Math.sqrt(1.01 * 1.01 - 1));

  private static final double TO = 100 * (1.01 + Math.sqrt(1.01 * 1.01 - 1));

  private static double cost(double hours) {
    return hours / 100 + 100 / hours;
  }

  private static Window window(double never, double... grid) {
    double[] value = Arrays.stream(grid).map(CostWindowTest::cost).toArray();
    return new CostWindow(CostWindowTest::cost, grid, value, CEILING).around(100, 50, never);
  }

  @Test
  void endsWhereTheCostCrossesTheCeiling() {
    Window window = window(10, 40, 80, 95, 105, 110, 130, 500);
    assertEquals(FROM, window.fromHours(), 1e-9);
    assertEquals(TO, window.toHours().orElseThrow(), 1e-9);
  }

  @Test
  void goesOnPastTheGridAsLongAsTheCostAllows() {
    assertEquals(TO, window(10, 40, 90, 110).toHours().orElseThrow(), 1e-9);
  }

  @Test
  void hasNoEndWhereRunningToFailureCostsNoMore() {
    assertTrue(window(CEILING, 40, 90, 110).toHours().isEmpty());
    double[] grid = {50, 200};
    CostWindow flat = new CostWindow(t -> 1, grid, new double[] {1, 1}, CEILING);
    assertTrue(flat.around(100, 50, 10).toHours().isEmpty());
  }

  /** No interval shorter than what the planned cost alone allows can be within. */
  @Test
  void beginsAtTheLatestWherePlannedRebuildsAloneCostTheCeiling() {
    assertEquals(50 / CEILING, window(10, 90, 110).fromHours(), 1e-12);
  }
}
