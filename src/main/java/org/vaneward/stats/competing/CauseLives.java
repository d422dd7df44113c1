package org.vaneward.stats.competing;

import java.util.List;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;

/**
 * Lives that end by one of several causes, with the cause of each failure: immutable.
 *
 * <p>A row that failed, at a known age or within an interval, has a cause; a right-censored one has
 * {@link #NONE}. A failure whose cause nobody knows cannot be entered: leave it out, or end the
 * life at its age as right-censored, and say so.
 */
public final class CauseLives {
  /** The cause of a life that has not failed. */
  public static final int NONE = -1;

  private final Observations lives;
  private final int[] cause;
  private final List<String> names;

  private CauseLives(Observations lives, int[] cause, List<String> names) {
    this.lives = lives;
    this.cause = cause;
    this.names = names;
  }

  /**
   * Lives with their causes.
   *
   * @param lives the lives
   * @param cause for each row the place of its cause among the names, or {@link #NONE}. Not
   *     modified.
   * @param names of the causes
   * @throws IllegalArgumentException when there is not one cause for each row, a cause has no name,
   *     a failure has no cause or a right-censored life has one
   */
  public static CauseLives of(Observations lives, int[] cause, List<String> names) {
    if (cause.length != lives.size()) {
      throw new IllegalArgumentException(
          "causes are given for " + cause.length + " rows of " + lives.size());
    }
    for (int i = 0; i < cause.length; i++) {
      if (!(cause[i] >= NONE && cause[i] < names.size())) {
        throw new IllegalArgumentException(
            "a cause is from " + NONE + " to " + (names.size() - 1) + ", not " + cause[i]);
      }
      if (lives.isRightCensored(i) != (cause[i] == NONE)) {
        throw new IllegalArgumentException(
            "row "
                + (i + 1)
                + (lives.isRightCensored(i)
                    ? " has not failed but has cause " + cause[i]
                    : " has failed without a cause"));
      }
    }
    return new CauseLives(lives, cause.clone(), List.copyOf(names));
  }

  /** The lives, whatever ended them. */
  public Observations lives() {
    return lives;
  }

  /** Place of the cause of row {@code i} among the names; {@link #NONE} when it has not failed. */
  public int cause(int i) {
    return cause[i];
  }

  /** Names of the causes. */
  public List<String> names() {
    return names;
  }

  /** Number of causes. */
  public int causes() {
    return names.size();
  }

  /**
   * The lives as one cause sees them: a failure by another cause right-censored at its age, an
   * interval failure by another cause right-censored at the start of its interval, where the life
   * was last seen. That takes a little exposure away (a life whose interval starts at its entry
   * drops out), so the cause's hazard comes out no lower than it is.
   *
   * @param k place of the cause
   * @throws IllegalArgumentException when there is no such cause
   */
  public Observations forCause(int k) {
    if (!(k >= 0 && k < names.size())) {
      throw new IllegalArgumentException(
          "a cause is from 0 to " + (names.size() - 1) + ", not " + k);
    }
    Observations.Builder builder = Observations.builder();
    for (int i = 0; i < cause.length; i++) {
      Observation life = lives.get(i);
      if (cause[i] == k || cause[i] == NONE) {
        builder.add(life);
      } else if (lives.lower(i) > lives.entry(i)) {
        builder.addRightCensored(lives.entry(i), lives.lower(i), lives.count(i));
      }
    }
    return builder.build();
  }

  /** Whether some failures are known only to lie in an interval. */
  public boolean hasIntervals() {
    for (int i = 0; i < cause.length; i++) {
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        return true;
      }
    }
    return false;
  }

  /** Failures by cause {@code k}, counts summed. */
  public double failures(int k) {
    double sum = 0;
    for (int i = 0; i < cause.length; i++) {
      if (cause[i] == k) {
        sum += lives.count(i);
      }
    }
    return sum;
  }
}
