package org.vaneward.stats.competing;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Cumulative incidence of each of several causes: the share of lives that have failed by an age and
 * by that cause, while the other causes are at work too (O. O. Aalen and S. Johansen, Scandinavian
 * Journal of Statistics 5, 1978). At every age the incidences and the share that has not failed sum
 * to 1.
 *
 * <p>One minus a product limit that takes failures by other causes for suspensions is not this: it
 * answers what would be if the other causes did not exist, and is too high.
 *
 * <p>A life is at risk at ages in (entry, age]; at equal ages failures come before suspensions.
 * Standard errors are those of the infinitesimal jackknife: the root of the sum over lives of the
 * squared derivative of the incidence in the life's weight. Limits are symmetric in log(-log(1 -
 * incidence)), so that with one cause and no late entry they are those of the product limit.
 *
 * <p>Interval failures have no place here: they are left out and counted, and while any are left
 * out the incidences are too low. Work: n log n for the sorting and one pass for each cause.
 */
public final class CumulativeIncidence {
  private final double confidence;
  private final double z;
  private final double lives;
  private final double leftOut;
  private final double lastAge;
  private final double[] age;
  private final double[] eventFree;
  private final double[][] incidence;
  private final double[][] variance;

  private CumulativeIncidence(CauseSweep sweep, double confidence, double z) {
    this.confidence = confidence;
    this.z = z;
    lives = sweep.lives;
    leftOut = sweep.leftOut;
    lastAge = sweep.lastAge;
    age = sweep.age;
    eventFree = sweep.eventFree;
    incidence = sweep.incidence;
    variance = sweep.variance;
  }

  /**
   * The estimate.
   *
   * @param lives lives with causes
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when the confidence is not between 0 and 1
   */
  public static CumulativeIncidence of(CauseLives lives, double confidence) {
    double z = Quantiles.twoSidedNormal(confidence);
    return new CumulativeIncidence(new CauseSweep(lives), confidence, z);
  }

  /**
   * The incidence of one cause.
   *
   * @param share estimate with limits; limits that do not exist are 0 and 1
   * @param stdError its standard error
   */
  public record Incidence(Estimate share, double stdError) {}

  /** Number of ages at which lives failed. */
  public int size() {
    return age.length;
  }

  /** The {@code j}-th age at which lives failed, from 0. */
  public double age(int j) {
    return age[j];
  }

  /** Share that has not failed by any cause just after the {@code j}-th age. */
  public double eventFree(int j) {
    return eventFree[j];
  }

  /** Incidence of cause {@code k} just after the {@code j}-th age. */
  public Incidence incidence(int j, int k) {
    double f = incidence[k][j];
    double stdError = Math.sqrt(variance[k][j]);
    double logSurvival = Math.log1p(-f);
    if (!(f > 0 && f < 1 && stdError > 0)) {
      return new Incidence(new Estimate(f, 0, 1), stdError);
    }
    double factor = Math.exp(z * stdError / ((1 - f) * -logSurvival));
    Estimate share =
        new Estimate(f, -Math.expm1(logSurvival / factor), -Math.expm1(logSurvival * factor));
    return new Incidence(share, stdError);
  }

  /**
   * Incidence of cause {@code k} by {@code atAge}.
   *
   * @return empty beyond {@link #lastAge}, where nothing was seen, unless all have failed by then
   */
  public Optional<Incidence> incidenceAt(double atAge, int k) {
    int j = last(atAge);
    if (!seen(atAge, j)) {
      return Optional.empty();
    }
    return Optional.of(j < 0 ? new Incidence(new Estimate(0, 0, 1), 0) : incidence(j, k));
  }

  /**
   * Share that has not failed by any cause by {@code atAge}.
   *
   * @return empty beyond {@link #lastAge}, where nothing was seen, unless all have failed by then
   */
  public OptionalDouble eventFreeAt(double atAge) {
    int j = last(atAge);
    return seen(atAge, j) ? OptionalDouble.of(j < 0 ? 1 : eventFree[j]) : OptionalDouble.empty();
  }

  /**
   * The age at which all at risk have failed although lives still fail after it: with late entry,
   * when the few lives at risk early on all fail. The curves then say nothing beyond it. Empty when
   * this did not happen.
   */
  public OptionalDouble zeroTooSoon() {
    for (int j = 0; j + 1 < age.length; j++) {
      if (eventFree[j] == 0) {
        return OptionalDouble.of(age[j]);
      }
    }
    return OptionalDouble.empty();
  }

  private boolean seen(double atAge, int j) {
    return atAge <= lastAge || (j >= 0 && eventFree[j] == 0);
  }

  /** The last age with failures at or before {@code atAge}; -1 when there is none. */
  private int last(double atAge) {
    int place = Arrays.binarySearch(age, atAge);
    return place >= 0 ? place : -place - 2;
  }

  /** Of the two-sided limits. */
  public double confidence() {
    return confidence;
  }

  /** Number of lives taken in. */
  public double lives() {
    return lives;
  }

  /** Number of interval failures left out. */
  public double leftOut() {
    return leftOut;
  }

  /** Greatest age to which a life was seen to run; the curves end there; 0 without lives. */
  public double lastAge() {
    return lastAge;
  }
}
