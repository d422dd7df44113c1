package org.vaneward.stats.recurrence;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;

/** Histories drawn with a fixed seed. */
final class Simulated {
  private final UniformRandomProvider random;

  Simulated(long seed) {
    random = RandomSource.L64_X128_MIX.create(seed);
  }

  double uniform() {
    return 1 - random.nextDouble();
  }

  int below(int n) {
    return random.nextInt(n);
  }

  double exponential() {
    return -Math.log(uniform());
  }

  /** Events of a power-law process over (start, end]. */
  double[] powerLaw(double shape, double scale, double start, double end) {
    double[] ages = new double[16];
    int n = 0;
    double count = Math.pow(start / scale, shape);
    while (true) {
      count += exponential();
      double age = scale * Math.pow(count, 1 / shape);
      if (!(age <= end)) {
        return Arrays.copyOf(ages, n);
      }
      if (n == ages.length) {
        ages = Arrays.copyOf(ages, 2 * n);
      }
      ages[n++] = Math.max(age, Math.nextUp(start));
    }
  }

  /** Renewals with Weibull gaps, each further one longer by a factor, over (0, end]. */
  double[] renewals(double shape, double scale, double factor, double end) {
    double[] ages = new double[64];
    int n = 0;
    double age = 0;
    double gap = scale;
    while (n < ages.length) {
      age += gap * Math.pow(exponential(), 1 / shape);
      gap *= factor;
      if (!(age <= end)) {
        break;
      }
      ages[n++] = age;
    }
    return Arrays.copyOf(ages, n);
  }

  /** Power-law units with windows of their own, some from later on, and ages that tie. */
  EventHistories units(int units) {
    EventHistories.Builder builder = EventHistories.builder();
    for (int i = 0; i < units; i++) {
      double start = below(3) == 0 ? 10 * below(8) : 0;
      double end = start + 5 + below(100);
      double[] ages = powerLaw(1.4, 20, start, end);
      for (int j = 0; j < ages.length; j++) {
        ages[j] = Math.ceil(ages[j]);
      }
      builder.addUnit("u" + i, start, ages, end);
    }
    return builder.build();
  }
}
