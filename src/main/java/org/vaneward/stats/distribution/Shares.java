package org.vaneward.stats.distribution;

/** The guard of a share. Written so that NaN fails it. */
final class Shares {
  private Shares() {}

  static void check(double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + p);
    }
  }
}
