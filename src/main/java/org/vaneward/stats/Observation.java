package org.vaneward.stats;

/**
 * What is known of one life, or of {@code count} lives alike: failed at an age, not failed by an
 * age, or failed between two ages. Each comes under observation at an entry age and counts only
 * from there on (delayed entry, also called left truncation); entry age 0 is the usual case.
 *
 * <p>Ages are positive and finite, entry ages non-negative and below the end of the observation;
 * anything else is an {@link IllegalArgumentException} that carries the number.
 */
public sealed interface Observation {
  /** Age at which observation starts. */
  double entry();

  /** How many lives are alike. */
  double count();

  /**
   * Failed at exactly {@code age}.
   *
   * @param entry age at which observation started
   * @param age age at failure
   * @param count how many such lives
   */
  record Exact(double entry, double age, double count) implements Observation {
    public Exact {
      Checks.life(entry, age, count);
    }
  }

  /**
   * Had not failed by {@code age}, when observation ended.
   *
   * @param entry age at which observation started
   * @param age age at the end of observation
   * @param count how many such lives
   */
  record RightCensored(double entry, double age, double count) implements Observation {
    public RightCensored {
      Checks.life(entry, age, count);
    }
  }

  /**
   * Failed after {@code lower} and by {@code upper}; {@code lower} 0 means some time before {@code
   * upper}.
   *
   * @param entry age at which observation started
   * @param lower last age known not failed, at least {@code entry}
   * @param upper age by which it had failed
   * @param count how many such lives
   */
  record Interval(double entry, double lower, double upper, double count) implements Observation {
    public Interval {
      Checks.life(entry, upper, count);
      if (!(lower >= entry && lower < upper)) {
        throw new IllegalArgumentException(
            "an interval runs from the entry age "
                + entry
                + " or later to below "
                + upper
                + ", not from "
                + lower);
      }
    }
  }

  /** A life that failed at {@code age}, observed from age 0. */
  static Observation failedAt(double age) {
    return new Exact(0, age, 1);
  }

  /** A life that had not failed by {@code age}, observed from age 0. */
  static Observation rightCensoredAt(double age) {
    return new RightCensored(0, age, 1);
  }

  /** A life that failed after {@code lower} and by {@code upper}, observed from age 0. */
  static Observation failedBetween(double lower, double upper) {
    return new Interval(0, lower, upper, 1);
  }
}
