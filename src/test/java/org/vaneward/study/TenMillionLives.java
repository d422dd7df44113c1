package org.vaneward.study;

import java.util.Locale;
import java.util.SplittableRandom;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * Fits ten million lives, each a row of its own, a third of them entering late and half of them
 * censored, and prints what the fit says of the truth (shape 2.2, scale 9000), how long it took and
 * how much memory is in use. To be run with a heap of 2 GB.
 */
public final class TenMillionLives {
  private static final Weibull TRUTH = new Weibull(2.2, 9000);

  private TenMillionLives() {}

  static Observations draw(int lives, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Observations.Builder builder = Observations.builder();
    int seen = 0;
    while (seen < lives) {
      double age = TRUTH.quantile(random.nextDouble(1e-15, 1));
      double end = TRUTH.quantile(random.nextDouble(1e-15, 1));
      double entry = random.nextInt(3) == 0 ? random.nextDouble(0, 4000) : 0;
      if (Math.min(age, end) <= entry) {
        continue;
      }
      seen++;
      if (age <= end) {
        builder.addFailure(entry, age, 1);
      } else {
        builder.addRightCensored(entry, end, 1);
      }
    }
    return builder.build();
  }

  /** Draws, fits and prints. */
  public static void main(String[] args) {
    int lives = args.length > 0 ? Integer.parseInt(args[0]) : 10_000_000;
    long start = System.nanoTime();
    Observations rows = draw(lives, 20_240_613);
    long drawn = System.nanoTime();
    WeibullFit fit = WeibullFitter.fit(rows, FitSettings.defaults());
    double seconds = (System.nanoTime() - drawn) / 1e9;
    if (fit instanceof WeibullFit.Fitted f) {
      System.out.printf(
          Locale.ROOT,
          "%,d lives, %,.0f failures: shape %.5f (%.5f to %.5f), scale %.2f (%.2f to %.2f)%n",
          rows.size(),
          f.failures(),
          f.shape().estimate(),
          f.shape().lower(),
          f.shape().upper(),
          f.scale().estimate(),
          f.scale().lower(),
          f.scale().upper());
    } else {
      System.out.println(fit);
    }
    Runtime runtime = Runtime.getRuntime();
    System.out.printf(
        Locale.ROOT,
        "drawn in %.1f s, fitted in %.1f s, %,d MB in use of at most %,d MB%n",
        (drawn - start) / 1e9,
        seconds,
        (runtime.totalMemory() - runtime.freeMemory()) / 1_000_000,
        runtime.maxMemory() / 1_000_000);
  }
}
