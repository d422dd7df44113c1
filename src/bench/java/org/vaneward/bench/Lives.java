package org.vaneward.bench;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.regression.Covariates;

/**
 * Lives of twelve services, drawn as those of the R timings are: shape 1.8, scales from 5,150 to
 * 12,420, watched for a time uniform between 1,000 and 12,000, ages to three decimals.
 */
@State(Scope.Benchmark)
public class Lives {
  private static final List<String> SERVICES =
      IntStream.rangeClosed(1, 12).mapToObj(i -> "service-" + i).toList();

  /** How many. */
  @Param({"10000", "100000", "1000000"})
  public int n;

  private Observations observations = Observations.builder().build();
  private Covariates services = Covariates.none(0);

  /** Draws them, with a fixed seed. */
  @Setup
  public void draw() {
    int[] service = new int[n];
    observations = draw(n, service);
    String[] names = new String[n];
    for (int i = 0; i < n; i++) {
      names[i] = SERVICES.get(service[i]);
    }
    services = Covariates.builder(n).categorical("service", names).build();
  }

  Observations observations() {
    return observations;
  }

  Covariates services() {
    return services;
  }

  /**
   * Lives, and which service each ran in.
   *
   * @param service filled in
   */
  static Observations draw(int n, int[] service) {
    SplittableRandom random = new SplittableRandom(41);
    Observations.Builder builder = Observations.builder();
    for (int i = 0; i < n; i++) {
      service[i] = random.nextInt(SERVICES.size());
      double scale = 8000 * Math.exp(0.08 * (service[i] - 5.5));
      double age = new Weibull(1.8, scale).quantile(1 - random.nextDouble());
      double watched = 1000 + 11000 * random.nextDouble();
      double seen = Math.max(Math.rint(Math.min(age, watched) * 1000) / 1000, 0.001);
      if (age <= watched) {
        builder.addFailure(0, seen, 1);
      } else {
        builder.addRightCensored(0, seen, 1);
      }
    }
    return builder.build();
  }
}
