package org.vaneward.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.function.Supplier;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.Refits;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.regression.Covariates;
import org.vaneward.stats.regression.RegressionFit;

/**
 * One job on the first rows of a lives table, timed cold and warm, for the script that runs R on
 * the same rows. Prints {@code job,n,cold,best,median,answers…} in seconds; reading is not timed.
 */
final class BesideR {
  private static final double SECONDS_WARM = 4;
  private static final int FEWEST = 7;

  private BesideR() {}

  /** Arguments: the lives table, the job's name, how many rows or refits. */
  public static void main(String[] args) throws IOException {
    int n = Integer.parseInt(args[2]);
    boolean refits = args[1].startsWith("bootstrap");
    Table table = Table.read(Path.of(args[0]), refits ? 50 : n);
    Observations lives = table.lives();
    String line =
        switch (args[1]) {
          case "weibull_fit" -> time(() -> Jobs.weibullFit(lives), BesideR::answer);
          case "weibull_fit_profile" -> time(() -> Jobs.weibullProfile(lives), BesideR::answer);
          case "weibull_regression_12_levels" ->
              time(() -> Jobs.regression(lives, table.services()), BesideR::answer);
          case "kaplan_meier" -> time(() -> Jobs.productLimit(lives), BesideR::answer);
          case "bootstrap_2000_refits_of_50" -> time(() -> Jobs.refits(lives, n), BesideR::answer);
          default -> throw new IllegalArgumentException("no job is named " + args[1]);
        };
    System.out.println(args[1] + "," + n + "," + line);
  }

  private interface Answer<T> {
    String of(T result);
  }

  private static <T> String time(Supplier<T> job, Answer<T> answer) {
    long start = System.nanoTime();
    T first = job.get();
    double cold = (System.nanoTime() - start) / 1e9;
    double[] warm = new double[10_000];
    int runs = 0;
    while (runs < FEWEST
        || (runs < warm.length && System.nanoTime() - start < SECONDS_WARM * 1e9)) {
      long from = System.nanoTime();
      T again = job.get();
      warm[runs++] = (System.nanoTime() - from) / 1e9;
      if (!answer.of(again).equals(answer.of(first))) {
        throw new IllegalStateException("another answer: " + answer.of(again));
      }
    }
    // The first half warms up.
    double[] late = Arrays.copyOfRange(warm, runs / 2, runs);
    Arrays.sort(late);
    return String.format(
        Locale.ROOT, "%.6f,%.6f,%.6f,%s", cold, late[0], late[late.length / 2], answer.of(first));
  }

  private static String answer(Fitted fit) {
    return String.format(
        Locale.ROOT,
        "%.9f,%.6f,%.6f",
        fit.weibull().shape(),
        fit.weibull().scale(),
        fit.logLikelihood());
  }

  private static String answer(ProductLimit curve) {
    return String.format(Locale.ROOT, "%.9f", curve.survivalAt(5000).orElse(Double.NaN));
  }

  private static String answer(RegressionFit.Fitted fit) {
    return String.format(Locale.ROOT, "%.9f,%.6f", fit.shape().estimate(), fit.logLikelihood());
  }

  private static String answer(Refits refits) {
    return refits.fitted().size() + " of " + refits.replicates();
  }

  /** The rows read. */
  private record Table(Observations lives, Covariates services) {
    static Table read(Path file, int n) throws IOException {
      Observations.Builder lives = Observations.builder();
      String[] services = new String[n];
      try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
        reader.readLine();
        for (int i = 0; i < n; i++) {
          String[] cells = reader.readLine().split(",", -1);
          double age = Double.parseDouble(cells[1]);
          if (cells[2].isEmpty()) {
            lives.addRightCensored(0, age, 1);
          } else {
            lives.addFailure(0, age, 1);
          }
          services[i] = cells[4];
        }
      }
      return new Table(
          lives.build(), Covariates.builder(n).categorical("service", services).build());
    }
  }
}
