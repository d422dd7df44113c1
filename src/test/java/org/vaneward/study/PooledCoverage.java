package org.vaneward.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.pooling.PartialPooling;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * How often the limits of pooled fits hold the truth, over fleets whose shape is drawn between 0.8
 * and 4, whose services' log scales differ by a standard deviation drawn between 0.05 and 0.9, and
 * whose services have 4 to 16 lives each, about half of them censored. Run as a program, it prints
 * the table.
 */
public final class PooledCoverage {
  private static final List<Integer> SERVICES = List.of(4, 8, 12);
  private static final double SHARE = 0.10;
  private static final int DRAWS = 1000;

  private PooledCoverage() {}

  /** Limits seen and how many of them hold the truth. */
  static final class Count {
    final int services;
    int fleets;
    int refused;
    int groups;
    int failures;
    int fewFailures;
    int fewHeld;
    int scaleHeld;
    int ageHeld;
    int shapeHeld;
    int betweenHeld;
    int shapesBetweenHeld;

    Count(int services) {
      this.services = services;
    }
  }

  /** Draws {@code fleets} fleets for each number of services. */
  static List<Count> count(int fleets, long seed) {
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(seed);
    List<Count> counts = new ArrayList<>();
    for (int services : SERVICES) {
      Count count = new Count(services);
      for (int i = 0; i < fleets; i++) {
        fleet(rng, count);
      }
      counts.add(count);
    }
    return counts;
  }

  private static void fleet(UniformRandomProvider rng, Count count) {
    ZigguratSampler.NormalizedGaussian normal = ZigguratSampler.NormalizedGaussian.of(rng);
    double shape = 0.8 * Math.pow(5, rng.nextDouble());
    double between = 0.05 + 0.85 * rng.nextDouble();
    double shapesBetween = 0.5 * rng.nextDouble();
    List<Weibull> truth = new ArrayList<>();
    List<Observations> groups = new ArrayList<>();
    for (int s = 0; s < count.services; s++) {
      Weibull own =
          new Weibull(
              shape * Math.exp(shapesBetween * normal.sample()),
              1000 * Math.exp(between * normal.sample()));
      truth.add(own);
      groups.add(service(rng, own, 4 + rng.nextInt(13)));
    }
    PoolingSettings settings =
        PoolingSettings.defaults()
            .withDraws(DRAWS)
            .withSeed(rng.nextLong())
            .withShares(List.of(SHARE));
    count.fleets++;
    if (PartialPooling.fit(groups, settings) instanceof PooledFit.Fitted fit) {
      count.betweenHeld += holds(fit.betweenSd(), between);
      count.shapesBetweenHeld += holds(fit.shapesBetweenSd(), shapesBetween);
      compare(fit, truth, count);
    } else {
      count.refused++;
    }
  }

  /** Lives whose observation ends at an age drawn so that about half have failed by then. */
  private static Observations service(UniformRandomProvider rng, Weibull truth, int lives) {
    Observations.Builder group = Observations.builder();
    for (int i = 0; i < lives; i++) {
      double age = truth.inverseSurvival(1 - rng.nextDouble());
      double end = 1000 * 1.6 * (0.05 + 0.95 * rng.nextDouble());
      if (age <= end) {
        group.addFailure(0, age, 1);
      } else {
        group.addRightCensored(0, end, 1);
      }
    }
    return group.build();
  }

  private static void compare(PooledFit.Fitted fit, List<Weibull> truth, Count count) {
    for (int s = 0; s < truth.size(); s++) {
      PooledFit.Group group = fit.groups().get(s);
      int held = holds(group.scale(), truth.get(s).scale());
      count.groups++;
      count.failures += (int) group.failures();
      count.scaleHeld += held;
      count.shapeHeld += holds(group.shape(), truth.get(s).shape());
      count.ageHeld += holds(group.quantiles().get(0).age(), truth.get(s).quantile(SHARE));
      if (group.failures() <= 2) {
        count.fewFailures++;
        count.fewHeld += held;
      }
    }
  }

  private static int holds(Estimate estimate, double truth) {
    return estimate.lower() <= truth && truth <= estimate.upper() ? 1 : 0;
  }

  /** The counts as a table. */
  static String table(List<Count> counts) {
    StringBuilder text = new StringBuilder();
    text.append(
        "services  fleets  refused  failures/service  scale  scale, 0-2 failures  10% life  shape"
            + "  sd of scales  sd of shapes\n");
    for (Count c : counts) {
      int fits = c.fleets - c.refused;
      text.append(
          String.format(
              Locale.ROOT,
              "%8d %7d %8d %17.1f %5.1f%% %19.1f%% %8.1f%% %5.1f%% %12.1f%% %12.1f%%\n",
              c.services,
              c.fleets,
              c.refused,
              c.failures / (double) c.groups,
              100.0 * c.scaleHeld / c.groups,
              100.0 * c.fewHeld / c.fewFailures,
              100.0 * c.ageHeld / c.groups,
              100.0 * c.shapeHeld / c.groups,
              100.0 * c.betweenHeld / fits,
              100.0 * c.shapesBetweenHeld / fits));
    }
    return text.toString();
  }

  /** Prints the table; the number of fleets for each number of services is 200 unless given. */
  public static void main(String[] args) {
    System.out.print(table(count(args.length > 0 ? Integer.parseInt(args[0]) : 200, 1)));
  }
}
