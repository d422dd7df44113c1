package org.vaneward.stats.competing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeout;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.competing.CumulativeIncidence.Incidence;
import org.vaneward.stats.nonparametric.ProductLimit;

class CumulativeIncidenceTest {
  /** Lives with ties, two or more causes, and late entry when asked for. */
  private static CauseLives random(int seed, int n, int causes, boolean late, double unit) {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(seed);
    Observations.Builder lives = Observations.builder();
    int[] cause = new int[n];
    for (int i = 0; i < n; i++) {
      double entry = late && i >= 5 ? random.nextInt(12) : 0;
      double end = entry + 1 + random.nextInt(20);
      int count = 1 + random.nextInt(2);
      cause[i] = random.nextInt(causes + 1) - 1;
      if (cause[i] < 0) {
        lives.addRightCensored(entry * unit, end * unit, count);
      } else {
        lives.addFailure(entry * unit, end * unit, count);
      }
    }
    return CauseLives.of(lives.build(), cause, List.of("a", "b", "c").subList(0, causes));
  }

  /**
   * By hand. Of 4 lives one fails by a at 1, one is suspended at 1, one fails by b at 2, one by a
   * at 3. At 1: F_a = 1/4, S = 3/4. At 2: two at risk, F_b = 3/4 * 1/2 = 3/8. At 3: F_a = 1/4 +
   * 3/8.
   */
  @Test
  void byHand() {
    Observations lives =
        Observations.of(
            Observation.failedAt(3),
            Observation.failedAt(1),
            Observation.rightCensoredAt(1),
            Observation.failedAt(2));
    CumulativeIncidence c =
        CumulativeIncidence.of(
            CauseLives.of(lives, new int[] {0, 0, -1, 1}, List.of("a", "b")), 0.9);
    assertEquals(3, c.size());
    assertEquals(0.25, c.incidence(0, 0).share().estimate(), 1e-15);
    assertEquals(0, c.incidence(0, 1).share().estimate());
    assertEquals(3.0 / 8, c.incidence(1, 1).share().estimate(), 1e-15);
    assertEquals(5.0 / 8, c.incidence(2, 0).share().estimate(), 1e-15);
    assertEquals(0, c.eventFree(2));
    assertEquals(0.75, c.eventFreeAt(1.5).orElseThrow(), 1e-15);
    assertEquals(0, c.eventFreeAt(4).orElseThrow());
    assertEquals(1, c.eventFreeAt(0.5).orElseThrow());
    assertEquals(0, c.incidenceAt(0.5, 0).orElseThrow().share().estimate());
    assertEquals(3, c.age(2));
    assertEquals(3, c.lastAge());
    assertEquals(0.9, c.confidence());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4, 5, 6})
  void sharesSumToOne(int seed) {
    CumulativeIncidence c = CumulativeIncidence.of(random(seed, 80, 3, seed % 2 == 0, 1), 0.9);
    assertTrue(c.size() > 10);
    for (int j = 0; j < c.size(); j++) {
      double sum = c.eventFree(j);
      for (int k = 0; k < 3; k++) {
        Estimate share = c.incidence(j, k).share();
        sum += share.estimate();
        assertTrue(share.lower() >= 0 && share.upper() <= 1);
        assertTrue(share.lower() <= share.estimate() && share.estimate() <= share.upper());
      }
      assertEquals(1, sum, 1e-14);
    }
  }

  /**
   * The definition: the sum over lives of the squared derivative in the life's weight, here by
   * central differences in the counts, ties and late entry among them.
   */
  @ParameterizedTest
  @ValueSource(ints = {11, 12, 13, 14, 15, 16})
  void standardErrorIsTheJackknife(int seed) {
    CauseLives lives = random(seed, 40, 2, seed % 2 == 0, 1);
    CumulativeIncidence c = CumulativeIncidence.of(lives, 0.9);
    double h = 1e-4;
    double[][] squares = new double[c.size()][2];
    for (int i = 0; i < lives.lives().size(); i++) {
      CumulativeIncidence up = CumulativeIncidence.of(weighted(lives, i, h), 0.9);
      CumulativeIncidence down = CumulativeIncidence.of(weighted(lives, i, -h), 0.9);
      for (int j = 0; j < c.size(); j++) {
        for (int k = 0; k < 2; k++) {
          double derivative =
              (up.incidence(j, k).share().estimate() - down.incidence(j, k).share().estimate())
                  / (2 * h);
          squares[j][k] += lives.lives().count(i) * derivative * derivative;
        }
      }
    }
    double greatest = 0;
    for (int j = 0; j < c.size(); j++) {
      for (int k = 0; k < 2; k++) {
        greatest = Math.max(greatest, c.incidence(j, k).stdError());
        assertEquals(Math.sqrt(squares[j][k]), c.incidence(j, k).stdError(), 1e-7, "age " + j);
      }
    }
    assertTrue(greatest > 0.01);
  }

  private static CauseLives weighted(CauseLives lives, int row, double more) {
    Observations all = lives.lives();
    Observations.Builder builder = Observations.builder();
    int[] cause = new int[all.size()];
    for (int i = 0; i < all.size(); i++) {
      double count = all.count(i) + (i == row ? more : 0);
      cause[i] = lives.cause(i);
      if (all.isExact(i)) {
        builder.addFailure(all.entry(i), all.upper(i), count);
      } else {
        builder.addRightCensored(all.entry(i), all.lower(i), count);
      }
    }
    return CauseLives.of(builder.build(), cause, lives.names());
  }

  /** With one cause and no late entry it is the product limit with Greenwood's error. */
  @Test
  void oneCauseIsTheProductLimit() {
    CauseLives lives = random(21, 60, 1, false, 1);
    CumulativeIncidence c = CumulativeIncidence.of(lives, 0.9);
    List<ProductLimit.Point> points = ProductLimit.of(lives.lives(), 0.9).points();
    assertEquals(points.size(), c.size());
    for (int j = 0; j < c.size(); j++) {
      ProductLimit.Point p = points.get(j);
      Incidence i = c.incidence(j, 0);
      assertEquals(p.age(), c.age(j));
      assertEquals(1 - p.survival(), i.share().estimate(), 1e-14);
      assertEquals(p.survival(), c.eventFree(j), 1e-14);
      if (p.survival() > 0) {
        assertEquals(p.stdError(), i.stdError(), 1e-13);
        assertEquals(1 - p.upper(), i.share().lower(), 1e-12);
        assertEquals(1 - p.lower(), i.share().upper(), 1e-12);
      }
    }
  }

  @Test
  void unitAndOrderDoNotMatter() {
    CauseLives lives = random(30, 70, 2, true, 1);
    CumulativeIncidence one = CumulativeIncidence.of(lives, 0.9);
    CumulativeIncidence scaled = CumulativeIncidence.of(random(30, 70, 2, true, 1e6), 0.9);
    int n = lives.lives().size();
    Observations.Builder reversed = Observations.builder();
    int[] cause = new int[n];
    for (int i = 0; i < n; i++) {
      reversed.add(lives.lives().get(n - 1 - i));
      cause[i] = lives.cause(n - 1 - i);
    }
    CumulativeIncidence other =
        CumulativeIncidence.of(CauseLives.of(reversed.build(), cause, lives.names()), 0.9);
    for (int j = 0; j < one.size(); j++) {
      assertEquals(one.incidence(j, 1), scaled.incidence(j, 1));
      assertEquals(one.incidence(j, 1).stdError(), other.incidence(j, 1).stdError(), 1e-14);
      assertEquals(one.eventFree(j), other.eventFree(j), 1e-15);
    }
  }

  /** The few at risk early on all fail: the curves stop, and say so. */
  @Test
  void allAtRiskFailEarly() {
    Observations lives =
        Observations.of(
            Observation.failedAt(1),
            new Observation.Exact(2, 5, 3),
            new Observation.RightCensored(2, 6, 4));
    CumulativeIncidence c =
        CumulativeIncidence.of(CauseLives.of(lives, new int[] {0, 1, -1}, List.of("a", "b")), 0.9);
    assertEquals(1, c.zeroTooSoon().orElseThrow());
    assertEquals(1, c.incidence(1, 0).share().estimate());
    assertEquals(0, c.incidence(1, 1).share().estimate());
    assertEquals(0, c.incidence(1, 0).stdError());
    assertEquals(new Estimate(1, 0, 1), c.incidence(1, 0).share());
  }

  @Test
  void hardData() {
    CauseLives none = CauseLives.of(Observations.builder().build(), new int[0], List.of("a"));
    CumulativeIncidence empty = CumulativeIncidence.of(none, 0.9);
    assertEquals(0, empty.size());
    assertEquals(0, empty.lastAge());
    assertTrue(empty.incidenceAt(1, 0).isEmpty());
    Observations survivors = Observations.of(new Observation.RightCensored(0, 1e9, 1e5));
    CumulativeIncidence alive =
        CumulativeIncidence.of(CauseLives.of(survivors, new int[] {-1}, List.of()), 0.9);
    assertEquals(1, alive.eventFreeAt(1e9).orElseThrow());
    assertTrue(alive.eventFreeAt(2e9).isEmpty());
    Observations one =
        Observations.of(
            Observation.failedAt(1e-3),
            new Observation.RightCensored(0, 1e9, 1e5),
            new Observation.Interval(0, 2, 3, 7));
    CumulativeIncidence rare =
        CumulativeIncidence.of(CauseLives.of(one, new int[] {1, -1, 0}, List.of("a", "b")), 0.9);
    assertEquals(7, rare.leftOut());
    double f = 1 / (1e5 + 1);
    assertEquals(f, rare.incidenceAt(5, 1).orElseThrow().share().estimate(), 1e-20);
    assertEquals(Math.sqrt(f * (1 - f) / (1e5 + 1)), rare.incidence(0, 1).stdError(), 1e-12 * f);
    assertThrows(IllegalArgumentException.class, () -> CumulativeIncidence.of(none, 90));
  }

  @Test
  void aHundredThousandLivesAreQuick() {
    int n = 100_000;
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(1);
    Observations.Builder lives = Observations.builder();
    int[] cause = new int[n];
    for (int i = 0; i < n; i++) {
      double entry = random.nextDouble();
      cause[i] = random.nextInt(4) - 1;
      double end = entry + random.nextDouble();
      if (cause[i] < 0) {
        lives.addRightCensored(entry, end, 1);
      } else {
        lives.addFailure(entry, end, 1);
      }
    }
    CauseLives all = CauseLives.of(lives.build(), cause, List.of("a", "b", "c"));
    CumulativeIncidence c =
        assertTimeout(Duration.ofSeconds(5), () -> CumulativeIncidence.of(all, 0.9));
    assertTrue(c.size() > 70_000);
  }

  @Test
  void causesFitTheRows() {
    Observations lives = Observations.of(Observation.failedAt(1), Observation.rightCensoredAt(2));
    List<String> names = List.of("a");
    assertThrows(IllegalArgumentException.class, () -> CauseLives.of(lives, new int[] {0}, names));
    assertThrows(
        IllegalArgumentException.class, () -> CauseLives.of(lives, new int[] {1, -1}, names));
    assertThrows(
        IllegalArgumentException.class, () -> CauseLives.of(lives, new int[] {-1, -1}, names));
    assertThrows(
        IllegalArgumentException.class, () -> CauseLives.of(lives, new int[] {0, 0}, names));
    assertThrows(
        IllegalArgumentException.class,
        () -> CauseLives.of(lives, new int[] {0, -1}, names).forCause(1));
  }
}
