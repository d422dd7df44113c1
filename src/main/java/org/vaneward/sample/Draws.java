package org.vaneward.sample;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.apache.commons.rng.SplittableUniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;

/** Random draws whose results are the same on every machine: StrictMath throughout. */
final class Draws {
  private final SplittableUniformRandomProvider source;

  private Draws(SplittableUniformRandomProvider source) {
    this.source = source;
  }

  static Draws seeded(long seed) {
    return new Draws((SplittableUniformRandomProvider) RandomSource.L64_X128_MIX.create(seed));
  }

  /** A stream of its own; children are made in order, before anything else is drawn. */
  Draws split() {
    return new Draws(source.split());
  }

  boolean chance(double probability) {
    return source.nextDouble() < probability;
  }

  double uniform(double from, double to) {
    return from + (to - from) * source.nextDouble();
  }

  int below(int bound) {
    return source.nextInt(bound);
  }

  /** Mean 1; never 0. */
  double exponential() {
    return Math.max(Double.MIN_NORMAL, -StrictMath.log1p(-source.nextDouble()));
  }

  /** Median 1; {@code spread} is the standard deviation of its log. */
  double lognormal(double spread) {
    double radius = StrictMath.sqrt(2 * exponential());
    double angle = 2 * Math.PI * source.nextDouble();
    return StrictMath.exp(spread * radius * StrictMath.cos(angle));
  }

  LocalDate day(LocalDate from, LocalDate to) {
    return from.plusDays(source.nextInt((int) ChronoUnit.DAYS.between(from, to) + 1));
  }

  <T> T pick(List<T> all) {
    return all.get(source.nextInt(all.size()));
  }

  <T> T pick(List<T> all, ToDoubleFunction<T> weight) {
    double left = source.nextDouble() * all.stream().mapToDouble(weight).sum();
    for (T candidate : all) {
      left -= weight.applyAsDouble(candidate);
      if (left < 0) {
        return candidate;
      }
    }
    return all.get(all.size() - 1);
  }
}
