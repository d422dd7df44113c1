package org.vaneward.policy;

import java.util.List;

/**
 * A rule for when to open a pump, and what to do then. Intervals count from the last full rebuild.
 */
public sealed interface Policy {
  /**
   * Full rebuild at the interval or at the first failure, whichever comes first.
   *
   * @param intervalHours positive; infinite for running to failure
   */
  record FullRebuild(double intervalHours) implements Policy {
    /** Checks. */
    public FullRebuild {
      positive(intervalHours);
    }
  }

  /**
   * Full rebuild at the interval; before, only what failed is renewed.
   *
   * @param intervalHours positive; infinite for mending for ever
   */
  record MendBetween(double intervalHours) implements Policy {
    /** Checks. */
    public MendBetween {
      positive(intervalHours);
    }
  }

  /**
   * Full rebuild at the interval or at the first failure past the threshold; before, only what
   * failed is renewed.
   *
   * @param thresholdHours finite, not negative, at most the interval
   * @param intervalHours positive; infinite for no planned rebuild
   */
  record Threshold(double thresholdHours, double intervalHours) implements Policy {
    /** Checks. */
    public Threshold {
      positive(intervalHours);
      if (!(thresholdHours >= 0
          && thresholdHours < Double.POSITIVE_INFINITY
          && thresholdHours <= intervalHours)) {
        throw new IllegalArgumentException(
            "a threshold lies from 0 to the interval of " + intervalHours + ": " + thresholdHours);
      }
    }
  }

  /**
   * What a shop does: planned rebuilds at intervals of their own, and a full rebuild at some
   * failures.
   *
   * @param intervalsHours intervals, each as likely as another; an infinite one stands for a
   *     rebuild that is never planned
   * @param fullShare chance that a failure brings a full rebuild
   */
  record Practice(List<Double> intervalsHours, double fullShare) implements Policy {
    /** Checks and copies. */
    public Practice {
      intervalsHours = List.copyOf(intervalsHours);
      intervalsHours.forEach(Policy::positive);
      if (intervalsHours.isEmpty() || !(fullShare >= 0 && fullShare <= 1)) {
        throw new IllegalArgumentException(
            "a practice has an interval and a share from 0 to 1, not "
                + intervalsHours.size()
                + " intervals and "
                + fullShare);
      }
    }
  }

  private static void positive(double hours) {
    if (!(hours > 0)) {
      throw new IllegalArgumentException("an interval is positive, not " + hours);
    }
  }

  /** Whether pumps under this rule are always rebuilt in full in the end. */
  default boolean rebuildsInTheEnd() {
    if (this instanceof MendBetween mend) {
      return mend.intervalHours() < Double.POSITIVE_INFINITY;
    }
    if (this instanceof Practice practice) {
      double longest = practice.intervalsHours().stream().mapToDouble(x -> x).max().orElse(0);
      return practice.fullShare() > 0 || longest < Double.POSITIVE_INFINITY;
    }
    return true;
  }
}
