package org.vaneward.stats.bootstrap;

import java.util.OptionalDouble;
import org.apache.commons.rng.UniformRandomProvider;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.numeric.Roots;

/**
 * Draws samples like the lives at hand from a distribution fitted to them: the same number of
 * lives, watched in the same way.
 *
 * <ul>
 *   <li>Each life keeps its entry age a; its age at failure is drawn conditional on having reached
 *       it, by S(t) = S(a) u.
 *   <li>A right-censored life keeps its censoring age.
 *   <li>Of a life that failed, the age at which it would have been censored is not known. It is
 *       drawn from the product limit of the censoring ages, conditional on being no less than the
 *       age at failure; where that curve does not come down to 0, the rest are never censored, as
 *       none is in a complete sample.
 *   <li>A life that failed in (l, u] goes on being looked at every u - l, before and after u, and
 *       for the last time when it is censored; what is recorded is the pair of looks around the
 *       failure. Where every interval starts at its entry age, no life was looked at twice: then it
 *       is looked at once, at u, and is right-censored there when good.
 *   <li>A right-censored life that fails in a draw is recorded as one of the lives that failed,
 *       picked at random, was: exactly, or by looks as far apart as that life's, counted back from
 *       its own censoring age.
 *   <li>A row of count n is n lives, each drawn for itself; what remains of a count that is not
 *       whole is one life with that count.
 * </ul>
 *
 * <p>Assumed: the end of observation has nothing to do with the life, nor with when the life
 * entered; entry ages, looks and censoring ages are as good as planned beforehand. (B. Efron,
 * Journal of the American Statistical Association 76, 1981, 312–319, for censoring drawn from its
 * own product limit; A. C. Davison and D. V. Hinkley, Bootstrap Methods and their Application,
 * 1997, section 3.5, for keeping the known censoring ages; both from memory.)
 *
 * <p>Immutable; draws may run on several threads, each with its own generator.
 */
public final class ParametricSampler {
  /** Most lives that are drawn one by one. */
  public static final double MOST_LIVES = 1e6;

  /** Survival below which the age is looked for by its logarithm. */
  private static final double DEEP = 1e-290;

  private static final double LARGEST_LOG_AGE = 709;

  private final Observations lives;
  private final LifeDistribution law;
  private final CensoringCurve censoring;
  private final Looks looks;
  private final double[] logReached;
  private final double[] reached;

  /** Of a right-censored row the chance to be good at its censoring age. */
  private final double[] good;

  /** Of a row that failed the cumulative hazard of censoring before its age at failure. */
  private final double[] passed;

  private ParametricSampler(Observations lives, LifeDistribution law) {
    this.lives = lives;
    this.law = law;
    censoring = CensoringCurve.of(lives);
    looks = Looks.of(lives);
    int n = lives.size();
    logReached = new double[n];
    reached = new double[n];
    good = new double[n];
    passed = new double[n];
    for (int i = 0; i < n; i++) {
      logReached[i] = law.logSurvival(lives.entry(i));
      reached[i] = Math.exp(logReached[i]);
      if (lives.isRightCensored(i)) {
        good[i] = Math.exp(law.logSurvival(lives.lower(i)) - logReached[i]);
      } else {
        passed[i] = censoring.before(lives.upper(i));
      }
    }
  }

  /**
   * A sampler.
   *
   * @param lives whose number and whose way of being watched is kept
   * @param law from which ages at failure are drawn
   * @throws IllegalArgumentException when there are more than {@link #MOST_LIVES} lives
   */
  public static ParametricSampler of(Observations lives, LifeDistribution law) {
    if (!(lives.lives() <= MOST_LIVES)) {
      throw new IllegalArgumentException(
          "at most 1000000 lives are drawn one by one, not " + lives.lives());
    }
    return new ParametricSampler(lives, law);
  }

  /** One sample. Lives right-censored alike come as one row with their count. */
  public Observations draw(UniformRandomProvider random) {
    Observations.Builder sample = Observations.builder();
    for (int i = 0; i < lives.size(); i++) {
      if (lives.isRightCensored(i)) {
        drawCensored(i, random, sample);
      } else {
        for (double left = lives.count(i); left > 0; left--) {
          double age = age(i, open(random));
          looks.record(i, age, censored(i, random), Math.min(left, 1), sample);
        }
      }
    }
    return sample.build();
  }

  private void drawCensored(int i, UniformRandomProvider random, Observations.Builder sample) {
    double stillGood = 0;
    double end = lives.lower(i);
    for (double left = lives.count(i); left > 0; left--) {
      double u = open(random);
      double count = Math.min(left, 1);
      if (u < good[i]) {
        stillGood += count;
      } else {
        int like = looks.allExact() ? i : looks.pick(random.nextDouble());
        looks.recordLike(like, i, Math.min(age(i, u), end), count, sample);
      }
    }
    if (stillGood > 0) {
      sample.addRightCensored(lives.entry(i), end, stillGood);
    }
  }

  private double censored(int i, UniformRandomProvider random) {
    return censoring.reaches(passed[i] - Math.log(open(random)));
  }

  /** Age that the share {@code u} of those that reached the entry age outlives. */
  private double age(int i, double u) {
    double share = reached[i] * u;
    double age = share > DEEP ? law.inverseSurvival(share) : deep(i, logReached[i] + Math.log(u));
    double least = Math.max(Math.nextUp(lives.entry(i)), Double.MIN_NORMAL);
    return Math.max(least, Math.min(age, Double.MAX_VALUE));
  }

  private double deep(int i, double logShare) {
    double from = Math.log(Math.max(lives.entry(i), Double.MIN_NORMAL));
    OptionalDouble logAge =
        Roots.between(x -> law.logSurvival(Math.exp(x)) - logShare, from, LARGEST_LOG_AGE);
    return logAge.isPresent() ? Math.exp(logAge.getAsDouble()) : lives.entry(i);
  }

  /** A number in (0, 1), neither end included. */
  private static double open(UniformRandomProvider random) {
    return ((random.nextLong() >>> 12) + 0.5) * 0x1p-52;
  }
}
