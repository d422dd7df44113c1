package org.vaneward.stats.mixture;

/**
 * What to ask of a mixture fit. Defaults: limits of confidence 0.90, 12 seeded random starts beside
 * the fixed ones, no bootstrap, at least 10 failures in all and 3 for each component.
 *
 * @param confidence of two-sided limits, between 0 and 1
 * @param randomStarts random starts beside the fixed ones, at least 0
 * @param bootstrapReplicates samples drawn for the likelihood-ratio test; 0 for no test
 * @param seed of the random starts and of the bootstrap
 * @param leastFailures failures below which no mixture is looked for, at least 5: as many as there
 *     are parameters (the default of 10 is two for each parameter, from judgement)
 * @param leastComponentFailures failures, weighted by the chance of belonging to a component, on
 *     which each component must rest; at least 1.5 (the default of 3 is from judgement)
 */
public record MixtureSettings(
    double confidence,
    int randomStarts,
    int bootstrapReplicates,
    long seed,
    double leastFailures,
    double leastComponentFailures) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when a number is out of its range
   */
  public MixtureSettings {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    if (randomStarts < 0) {
      throw new IllegalArgumentException("random starts are at least 0, not " + randomStarts);
    }
    if (bootstrapReplicates < 0) {
      throw new IllegalArgumentException("replicates are at least 0, not " + bootstrapReplicates);
    }
    if (!(leastFailures >= 5 && leastFailures < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a mixture needs at least 5 failures, so the least is no less, not " + leastFailures);
    }
    if (!(leastComponentFailures >= 1.5 && leastComponentFailures < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a component needs at least 1.5 failures, so the least is no less, not "
              + leastComponentFailures);
    }
  }

  /** The defaults. */
  public static MixtureSettings defaults() {
    return new MixtureSettings(0.90, 12, 0, 271828, 10, 3);
  }

  /** A copy with limits of another confidence. */
  public MixtureSettings withConfidence(double other) {
    return new MixtureSettings(
        other, randomStarts, bootstrapReplicates, seed, leastFailures, leastComponentFailures);
  }

  /** A copy with another number of random starts. */
  public MixtureSettings withRandomStarts(int other) {
    return new MixtureSettings(
        confidence, other, bootstrapReplicates, seed, leastFailures, leastComponentFailures);
  }

  /** A copy with a likelihood-ratio test by so many bootstrap samples. */
  public MixtureSettings withBootstrap(int replicates) {
    return new MixtureSettings(
        confidence, randomStarts, replicates, seed, leastFailures, leastComponentFailures);
  }

  /** A copy with another seed. */
  public MixtureSettings withSeed(long other) {
    return new MixtureSettings(
        confidence,
        randomStarts,
        bootstrapReplicates,
        other,
        leastFailures,
        leastComponentFailures);
  }

  /** A copy with other least numbers of failures, in all and for each component. */
  public MixtureSettings withLeast(double failures, double componentFailures) {
    return new MixtureSettings(
        confidence, randomStarts, bootstrapReplicates, seed, failures, componentFailures);
  }
}
