package org.vaneward.stats.bootstrap;

import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.apache.commons.rng.SplittableUniformRandomProvider;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;

/**
 * Runs a task again and again, each time with a generator of its own.
 *
 * <p>The generators are split off in order before any task starts, and results come back in that
 * order: one seed gives the same results on any number of threads.
 */
public final class Replicates {
  private Replicates() {}

  /**
   * The results, one for each replicate, in order.
   *
   * @param replicates how many, positive
   * @param seed of the generator the others are split from
   * @param task called from several threads
   * @throws IllegalArgumentException when there are none to run
   */
  public static <T> List<T> of(
      int replicates, long seed, Function<? super UniformRandomProvider, ? extends T> task) {
    if (!(replicates > 0)) {
      throw new IllegalArgumentException("replicates are at least 1, not " + replicates);
    }
    SplittableUniformRandomProvider root =
        (SplittableUniformRandomProvider) RandomSource.L64_X128_MIX.create(seed);
    UniformRandomProvider[] children = new UniformRandomProvider[replicates];
    for (int i = 0; i < replicates; i++) {
      children[i] = root.split();
    }
    return IntStream.range(0, replicates)
        .parallel()
        .<T>mapToObj(i -> task.apply(children[i]))
        .toList();
  }
}
