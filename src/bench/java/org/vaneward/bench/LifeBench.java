package org.vaneward.bench;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Warmup;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.regression.RegressionFit;

/** Fits and curves of many lives. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(2)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
public class LifeBench {
  /** {@link Jobs#weibullFit}. */
  @Benchmark
  public Fitted weibullFit(Lives lives) {
    return Jobs.weibullFit(lives.observations());
  }

  /** {@link Jobs#weibullProfile}. */
  @Benchmark
  public Fitted weibullProfile(Lives lives) {
    return Jobs.weibullProfile(lives.observations());
  }

  /** {@link Jobs#regression}. */
  @Benchmark
  public RegressionFit.Fitted regression12(Lives lives) {
    return Jobs.regression(lives.observations(), lives.services());
  }

  /** {@link Jobs#productLimit}. */
  @Benchmark
  public ProductLimit productLimit(Lives lives) {
    return Jobs.productLimit(lives.observations());
  }
}
