package org.vaneward.stats;

import java.util.SplittableRandom;

/**
 * Random numbers by place: what is drawn for one unit in one future depends on the seed and on both
 * numbers alone, so that the same seed gives the same on any number of threads and in any order.
 */
public final class Streams {
  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private static final long OTHER = 0xD1B54A32D192ED03L;

  private Streams() {}

  /** The random numbers of {@code unit} in {@code future}, both counted from 0. */
  public static SplittableRandom of(long seed, long future, long unit) {
    return new SplittableRandom(mixed(ofFuture(seed, future) + OTHER * (unit + 1)));
  }

  private static long ofFuture(long seed, long future) {
    return mixed(seed + GOLDEN * (future + 1));
  }

  /** Spreads numbers that follow one another over all numbers there are: SplitMix64's finish. */
  private static long mixed(long z) {
    long y = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    y = (y ^ (y >>> 27)) * 0x94D049BB133111EBL;
    return y ^ (y >>> 31);
  }
}
