package org.vaneward.review.failure;

/**
 * How a fleet's failures are to be reviewed.
 *
 * @param confidence of two-sided limits, between 0 and 1
 * @param falseShare share of false findings the list may hold on average, between 0 and 1
 * @param early share of the life expected in its service within which a failure is early, between 0
 *     and 1
 * @param repeat the same for failures one after the other in a position
 * @param seed of the draws behind the question of periods
 */
public record ReviewQuestion(
    double confidence, double falseShare, double early, double repeat, long seed) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when a share is not between 0 and 1
   */
  public ReviewQuestion {
    share("confidence", confidence);
    share("share of false findings", falseShare);
    share("share of the expected life", early);
    share("share of the expected life", repeat);
  }

  private static void share(String what, double value) {
    if (!(value > 0 && value < 1)) {
      throw new IllegalArgumentException("a " + what + " is between 0 and 1, not " + value);
    }
  }

  /**
   * Limits of 90%, a tenth of the findings false, early in the first quarter, repeats by the half.
   */
  public static ReviewQuestion defaults() {
    return new ReviewQuestion(0.90, 0.10, 0.25, 0.5, 1);
  }

  /** A copy with limits of another confidence. */
  public ReviewQuestion withConfidence(double other) {
    return new ReviewQuestion(other, falseShare, early, repeat, seed);
  }

  /** A copy with another share of false findings. */
  public ReviewQuestion withFalseShare(double other) {
    return new ReviewQuestion(confidence, other, early, repeat, seed);
  }

  /** A copy with another share of the expected life for repeats. */
  public ReviewQuestion withRepeat(double other) {
    return new ReviewQuestion(confidence, falseShare, early, other, seed);
  }

  /** A copy with another seed. */
  public ReviewQuestion withSeed(long other) {
    return new ReviewQuestion(confidence, falseShare, early, repeat, other);
  }
}
