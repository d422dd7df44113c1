package org.vaneward.bench;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** What no fit of the same lives can do without, on one thread. */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(2)
@Warmup(iterations = 4, time = 1)
@Measurement(iterations = 5, time = 1)
@State(Scope.Benchmark)
public class FloorBench {
  private double[] ages = new double[0];

  /** The ages as an array. */
  @Setup
  public void ages(Lives lives) {
    ages = new double[lives.n];
    for (int i = 0; i < ages.length; i++) {
      ages[i] = lives.observations().lower(i);
    }
  }

  /** A logarithm for each life. */
  @Benchmark
  public double logarithms() {
    double sum = 0;
    for (double age : ages) {
      sum += Math.log(age);
    }
    return sum;
  }

  /** An exponential for each life. */
  @Benchmark
  public double exponentials() {
    double sum = 0;
    for (double age : ages) {
      sum += Math.exp(-1e-4 * age);
    }
    return sum;
  }

  /** Eight bytes read and eight written for each life. */
  @Benchmark
  public double[] copy() {
    return ages.clone();
  }
}
