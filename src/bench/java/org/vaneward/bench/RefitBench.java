package org.vaneward.bench;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.Refits;

/** Many fits of few lives. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(2)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
@State(Scope.Benchmark)
public class RefitBench {
  /** How many fits. */
  @Param({"2000"})
  public int times;

  private final Observations fifty = Lives.draw(50, new int[50]);

  /** {@link Jobs#refits}. */
  @Benchmark
  public Refits refits() {
    return Jobs.refits(fifty, times);
  }
}
