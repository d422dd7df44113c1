package org.vaneward.stats.mixture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.rng.SplittableUniformRandomProvider;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;

/**
 * Likelihood-ratio test of two Weibulls against one by parametric bootstrap (G. McLachlan, Applied
 * Statistics 36, 1987, 318–324, from memory): samples of the one Weibull, seen as the lives were,
 * each searched in the same way as the lives.
 *
 * <p>How the lives were seen: a life enters at its own age. One that was censored would have been
 * at that age; for one that failed, an age of censoring beyond its failure is drawn from the
 * product-limit estimate of the ages of censoring (A. C. Davison and D. V. Hinkley, Bootstrap
 * Methods and their Application, 1997, section 3.5, the conditional bootstrap, from memory). A life
 * that was looked at at the ends of an interval is looked at then again. Where no life failed at a
 * known age, one that was censored was looked at then.
 */
final class MixtureBootstrap {
  private final Observations lives;
  private final Weibull law;
  private final boolean onlyLooks;

  /** Ages of censoring, ascending, and the share of those ages beyond each. */
  private final double[] ends;

  private final double[] beyond;

  private MixtureBootstrap(Observations lives, Weibull law) {
    this.lives = lives;
    this.law = law;
    onlyLooks = IntStream.range(0, lives.size()).noneMatch(lives::isExact);
    ends =
        IntStream.range(0, lives.size())
            .filter(lives::isRightCensored)
            .mapToDouble(lives::lower)
            .distinct()
            .sorted()
            .toArray();
    beyond = beyond();
  }

  /** The test; empty when a count is not a whole number, so that no sample is like the lives. */
  static Optional<MixtureFit.Bootstrap> test(
      Observations lives, Weibull law, double statistic, MixtureSettings settings) {
    for (int i = 0; i < lives.size(); i++) {
      if (lives.count(i) != Math.rint(lives.count(i))) {
        return Optional.empty();
      }
    }
    MixtureBootstrap bootstrap = new MixtureBootstrap(lives, law);
    SplittableUniformRandomProvider source =
        (SplittableUniformRandomProvider) RandomSource.L64_X128_MIX.create(settings.seed());
    List<UniformRandomProvider> children = new ArrayList<>();
    for (int i = 0; i < settings.bootstrapReplicates(); i++) {
      children.add(source.split());
    }
    int atLeast =
        (int)
            children.parallelStream()
                .filter(rng -> bootstrap.statistic(rng, settings) >= statistic)
                .count();
    int replicates = children.size();
    return Optional.of(
        new MixtureFit.Bootstrap(replicates, atLeast, (atLeast + 1.0) / (replicates + 1.0)));
  }

  private double statistic(UniformRandomProvider rng, MixtureSettings settings) {
    Observations sample = draw(rng);
    return Search.plainSingle(sample)
        .map(single -> Search.of(sample, single, settings).statistic())
        .orElse(0.0);
  }

  Observations draw(UniformRandomProvider rng) {
    Observations.Builder sample = Observations.builder();
    for (int i = 0; i < lives.size(); i++) {
      for (long k = 0; k < lives.count(i); k++) {
        double age = ageFrom(lives.entry(i), rng);
        if (lives.isRightCensored(i)) {
          addCensorable(sample, i, age, lives.lower(i));
        } else if (lives.isExact(i)) {
          addCensorable(sample, i, age, endAfter(lives.lower(i), rng));
        } else {
          addLooked(sample, i, age);
        }
      }
    }
    return sample.build();
  }

  private double ageFrom(double entry, UniformRandomProvider rng) {
    double hazard = law.cumulativeHazard(entry) - Math.log1p(-rng.nextDouble());
    double age = law.scale() * Math.exp(Math.log(hazard) / law.shape());
    return Math.min(Math.max(age, Math.max(Math.nextUp(entry), Double.MIN_NORMAL)), 1e300);
  }

  private void addCensorable(Observations.Builder sample, int i, double age, double end) {
    if (age > end) {
      sample.addRightCensored(lives.entry(i), end, 1);
    } else if (onlyLooks) {
      sample.add(new Observation.Interval(lives.entry(i), lives.entry(i), end, 1));
    } else {
      sample.addFailure(lives.entry(i), age, 1);
    }
  }

  private void addLooked(Observations.Builder sample, int i, double age) {
    double entry = lives.entry(i);
    if (age > lives.upper(i)) {
      sample.addRightCensored(entry, lives.upper(i), 1);
    } else if (age > lives.lower(i)) {
      sample.add(new Observation.Interval(entry, lives.lower(i), lives.upper(i), 1));
    } else {
      sample.add(new Observation.Interval(entry, entry, lives.lower(i), 1));
    }
  }

  /** An age of censoring beyond an age; infinite when none was seen beyond. */
  private double endAfter(double age, UniformRandomProvider rng) {
    int at = Arrays.binarySearch(ends, age);
    int next = at >= 0 ? at + 1 : -at - 1;
    double above = next == 0 ? 1 : beyond[next - 1];
    double level = above * rng.nextDouble();
    for (int k = next; k < ends.length; k++) {
      if (beyond[k] <= level) {
        return ends[k];
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  /** Product limit of the ages of censoring: failures are what hides them. */
  private double[] beyond() {
    double[] left = new double[lives.size()];
    double[] entered = new double[lives.size()];
    double[] here = new double[ends.length];
    Integer[] byLast = new Integer[lives.size()];
    Integer[] byEntry = new Integer[lives.size()];
    for (int i = 0; i < left.length; i++) {
      boolean censored = lives.isRightCensored(i);
      // of equal ages failures come first: a failure at this age hid its censoring before
      left[i] = censored ? lives.lower(i) : Math.nextDown(lives.upper(i));
      entered[i] = lives.entry(i);
      byLast[i] = i;
      byEntry[i] = i;
      if (censored) {
        here[Arrays.binarySearch(ends, lives.lower(i))] += lives.count(i);
      }
    }
    Arrays.sort(byLast, Comparator.comparingDouble(i -> left[i]));
    Arrays.sort(byEntry, Comparator.comparingDouble(i -> entered[i]));
    double[] share = new double[ends.length];
    double product = 1;
    double risk = 0;
    int gone = 0;
    int come = 0;
    for (int k = 0; k < ends.length; k++) {
      for (; come < entered.length && entered[byEntry[come]] < ends[k]; come++) {
        risk += lives.count(byEntry[come]);
      }
      for (; gone < left.length && left[byLast[gone]] < ends[k]; gone++) {
        risk -= lives.count(byLast[gone]);
      }
      product *= Math.max(0, 1 - here[k] / risk);
      share[k] = product;
    }
    return share;
  }
}
