package org.vaneward.schedule;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The last step alone, started at a poor arrangement, so that it has something to do. */
class CpSatTest {
  @Test
  void runsHere() {
    assertEquals(Optional.empty(), CpSat.missing());
  }

  /** Every arrangement of five jobs over four weeks tried. */
  @Test
  void findsTheBestOfAll() {
    SplittableRandom random = new SplittableRandom(11);
    int bettered = 0;
    for (int i = 0; i < 60; i++) {
      Core core = core(random, 5, 4, 1 + i % 2);
      int[] start = new int[5];
      Arrays.fill(start, core.after());
      double upper = core.total(start);
      BranchAndBound.Result found = CpSat.search(core, start, upper);
      double least = least(core, new int[5], 0);
      assertEquals(least, found.best().total(), 1e-6, "trial " + i);
      assertTrue(found.bound() <= least && found.bound() > least - 1e-4, "bound in trial " + i);
      bettered += found.best().total() < upper ? 1 : 0;
    }
    assertTrue(bettered > 50, "bettered " + bettered);
  }

  @Test
  void neverDearerThanItsStartAndTheSameTwice() {
    Core core = core(new SplittableRandom(3), 60, 40, 2);
    int[] start = new int[60];
    Arrays.setAll(start, j -> j % 40);
    double upper = core.total(start);
    BranchAndBound.Result found = CpSat.search(core, start, upper);
    assertTrue(found.best().total() < upper);
    assertTrue(found.bound() <= found.best().total());
    for (int w = 0; w < 40; w++) {
      int week = w;
      assertTrue(Arrays.stream(found.best().at).filter(at -> at == week).count() <= 2);
    }
    assertArrayEquals(found.best().at, CpSat.search(core, start, upper).best().at);
  }

  private static Core core(SplittableRandom random, int jobs, int weeks, int room) {
    double[][] cost = new double[jobs][weeks + 1];
    int[] site = new int[jobs];
    for (int j = 0; j < jobs; j++) {
      site[j] = random.nextInt(2);
      for (int w = 0; w < weeks; w++) {
        cost[j][w] = random.nextInt(8) == 0 ? Core.NEVER : 100 * random.nextDouble();
      }
      cost[j][weeks] = 150;
    }
    // A start that puts a job into each week in turn must be allowed.
    for (int j = 0; j < jobs; j++) {
      cost[j][j % weeks] = 140;
    }
    int[][] places = new int[2][weeks];
    Arrays.fill(places[0], room);
    double[][] visit = new double[2][weeks];
    for (double[] row : visit) {
      Arrays.fill(row, 40);
    }
    return new Core(cost, site, new int[jobs], places, visit);
  }

  private static double least(Core core, int[] at, int job) {
    if (job == at.length) {
      for (int w = 0; w < core.weeks; w++) {
        int week = w;
        if (Arrays.stream(at).filter(a -> a == week).count() > core.places[0][w]) {
          return Core.NEVER;
        }
      }
      return core.total(at);
    }
    double least = Core.NEVER;
    for (int w = 0; w <= core.weeks; w++) {
      at[job] = w;
      least = Math.min(least, least(core, at, job + 1));
    }
    return least;
  }
}
