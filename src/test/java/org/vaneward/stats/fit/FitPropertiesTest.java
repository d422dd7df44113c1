package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.Fitted;

/**
 * Properties of a Weibull fit over all kinds of lives at once, with the likelihood written down
 * here once more by its plain definition. Fixed seeds.
 */
class FitPropertiesTest {
  private static Fitted fitted(Observations lives) {
    return assertInstanceOf(Fitted.class, WeibullFitter.fit(lives, FitSettings.defaults()));
  }

  /** Exact, right-censored, interval and left-censored lives, some entering late, some counted. */
  private static Observations lives(double shape, double scale, int n, long seed) {
    Weibull law = new Weibull(shape, scale);
    SplittableRandom random = new SplittableRandom(seed);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age = law.quantile(random.nextDouble(1e-9, 1));
      double entry = i % 4 == 1 ? age * random.nextDouble(0.1, 0.9) : 0;
      double count = i % 5 == 2 ? 3 : 1;
      switch (i % 6) {
        case 0, 1, 2 -> lives.add(new Exact(entry, age, count));
        case 3 -> lives.add(new RightCensored(entry, entry + (age - entry) * 0.7, count));
        case 4 -> lives.add(new Interval(entry, entry + (age - entry) * 0.6, age * 1.2, count));
        default -> lives.add(new Interval(entry, entry, age * 1.5, count));
      }
    }
    return lives.build();
  }

  /** Sum of log f, log S and log (S - S), each less log S(entry). */
  private static double logLikelihood(Observations lives, double shape, double scale) {
    double sum = 0;
    for (Observation o : lives.asList()) {
      double log;
      if (o instanceof Exact x) {
        log =
            Math.log(shape / x.age())
                + shape * Math.log(x.age() / scale)
                - hazard(x.age(), shape, scale);
      } else if (o instanceof RightCensored x) {
        log = -hazard(x.age(), shape, scale);
      } else {
        Interval x = (Interval) o;
        double from = hazard(x.lower(), shape, scale);
        log = -from + Math.log(-Math.expm1(from - hazard(x.upper(), shape, scale)));
      }
      sum += o.count() * (log + hazard(o.entry(), shape, scale));
    }
    return sum;
  }

  private static double hazard(double age, double shape, double scale) {
    return Math.pow(age / scale, shape);
  }

  @ParameterizedTest
  @CsvSource({"0.2, 1e3", "0.8, 1e-6", "1, 1", "2.5, 5e3", "10, 1e6", "50, 1e3"})
  void noneOfAThousandNeighboursIsBetter(double shape, double scale) {
    Observations lives = lives(shape, scale, 60, 101);
    Fitted fit = fitted(lives);
    double b = fit.weibull().shape();
    double eta = fit.weibull().scale();
    double top = logLikelihood(lives, b, eta);
    assertEquals(top, fit.logLikelihood(), 1e-10 * (1 + Math.abs(top)));
    SplittableRandom random = new SplittableRandom(102);
    double slack = 1e-11 * (1 + Math.abs(top));
    int worse = 0;
    for (int i = 0; i < 1000; i++) {
      double by = Math.pow(10, random.nextDouble(-5, 0));
      double otherShape = b * Math.exp(random.nextDouble(-by, by));
      double otherScale = eta * Math.exp(random.nextDouble(-by, by) / b);
      double other = logLikelihood(lives, otherShape, otherScale);
      assertTrue(other <= top + slack, () -> otherShape + " " + otherScale + ": " + other);
      worse += other < top - 1e-9 ? 1 : 0;
    }
    assertTrue(worse > 500, "clearly worse: " + worse);
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e-12, 1e-3, 8766, 1e12})
  void theUnitMovesTheScaleAndTheLikelihoodByItsLogOnly(double unit) {
    Observations lives = lives(1.7, 900, 60, 103);
    Fitted a = fitted(lives);
    Fitted b = fitted(scaled(lives, unit));
    close(a.weibull().shape(), b.weibull().shape(), 1e-9);
    close(a.weibull().scale() * unit, b.weibull().scale(), 1e-9);
    close(a.shape().lower(), b.shape().lower(), 1e-9);
    close(a.shape().upper(), b.shape().upper(), 1e-9);
    close(a.scale().lower() * unit, b.scale().lower(), 1e-9);
    close(a.scale().upper() * unit, b.scale().upper(), 1e-9);
    for (int i = 0; i < a.quantiles().size(); i++) {
      close(a.quantiles().get(i).age().upper() * unit, b.quantiles().get(i).age().upper(), 1e-8);
    }
    double exact = 0;
    for (int i = 0; i < lives.size(); i++) {
      exact += lives.isExact(i) ? lives.count(i) : 0;
    }
    assertEquals(a.logLikelihood() - exact * Math.log(unit), b.logLikelihood(), 1e-8);
  }

  private static Observations scaled(Observations lives, double by) {
    Observations.Builder scaled = Observations.builder();
    for (Observation o : lives.asList()) {
      if (o instanceof Exact x) {
        scaled.add(new Exact(x.entry() * by, x.age() * by, x.count()));
      } else if (o instanceof RightCensored x) {
        scaled.add(new RightCensored(x.entry() * by, x.age() * by, x.count()));
      } else if (o instanceof Interval x) {
        scaled.add(new Interval(x.entry() * by, x.lower() * by, x.upper() * by, x.count()));
      }
    }
    return scaled.build();
  }

  private static void close(double expected, double got, double relative) {
    assertEquals(expected, got, relative * Math.abs(expected));
  }

  /** Many spans for each life, ends of neighbouring spans falling together. */
  @Test
  void aLifeCutIntoManySpansIsTheOneLife() {
    Observations lives = lives(2.2, 900, 40, 104);
    Observations.Builder spans = Observations.builder();
    for (Observation o : lives.asList()) {
      double entry = o.entry();
      double end =
          o instanceof Exact x
              ? x.age()
              : o instanceof RightCensored x ? x.age() : ((Interval) o).lower();
      double from = entry;
      for (int k = 1; k < 10; k++) {
        double to = entry + (end - entry) * k / 10;
        if (to > from && to < end) {
          spans.addRightCensored(from, to, o.count());
          from = to;
        }
      }
      if (o instanceof Exact x) {
        spans.add(new Exact(from, x.age(), x.count()));
      } else if (o instanceof RightCensored x) {
        spans.add(new RightCensored(from, x.age(), x.count()));
      } else if (o instanceof Interval x) {
        spans.add(new Interval(from, x.lower(), x.upper(), x.count()));
      }
    }
    Fitted whole = fitted(lives);
    Fitted cut = fitted(spans.build());
    assertTrue(cut.lives() > 3 * whole.lives());
    close(whole.weibull().shape(), cut.weibull().shape(), 1e-9);
    close(whole.weibull().scale(), cut.weibull().scale(), 1e-9);
    close(whole.shape().lower(), cut.shape().lower(), 1e-8);
    assertEquals(whole.logLikelihood(), cut.logLikelihood(), 1e-8);
  }

  /** As an interval shrinks, the fit nears the exact one as fast as the interval. */
  @Test
  void intervalsThatShrinkTendToTheExactFit() {
    Observations exact = exactLives(0);
    Fitted limit = fitted(exact);
    double before = Double.POSITIVE_INFINITY;
    for (double width : new double[] {1e-1, 1e-2, 1e-3, 1e-4, 1e-6, 1e-9}) {
      Fitted fit = fitted(exactLives(width));
      double off = Math.abs(Math.log(fit.weibull().shape() / limit.weibull().shape()));
      assertTrue(off <= Math.max(before / 5, 1e-9), width + ": " + off);
      assertEquals(limit.weibull().scale(), fit.weibull().scale(), width * limit.weibull().scale());
      before = off;
    }
  }

  private static Observations exactLives(double width) {
    SplittableRandom random = new SplittableRandom(105);
    Observations.Builder lives = Observations.builder();
    Weibull law = new Weibull(3, 1000);
    for (int i = 0; i < 40; i++) {
      double age = law.quantile(random.nextDouble(1e-9, 1));
      if (i % 4 == 0) {
        lives.addRightCensored(0, age * 0.8, 1);
      } else if (width == 0) {
        lives.addFailure(i % 3 == 0 ? age / 2 : 0, age, 1);
      } else {
        lives.add(
            new Interval(
                i % 3 == 0 ? age / 2 : 0, age * (1 - width / 2), age * (1 + width / 2), 1));
      }
    }
    return lives.build();
  }

  /** Seven rows of count 1 are one of count 7, and so are a half and six and a half. */
  @Test
  void countsOnlyAddUp() {
    Observations once = lives(1.4, 50, 30, 106);
    Observations.Builder seven = Observations.builder();
    Observations.Builder parts = Observations.builder();
    for (Observation o : once.asList()) {
      seven.add(times(o, 7 * o.count()));
      parts.add(times(o, 0.5 * o.count()));
      parts.add(times(o, 6.5 * o.count()));
    }
    Fitted a = fitted(seven.build());
    Fitted b = fitted(parts.build());
    Fitted one = fitted(once);
    close(a.weibull().shape(), b.weibull().shape(), 1e-10);
    close(a.weibull().shape(), one.weibull().shape(), 1e-10);
    close(7 * one.logLikelihood(), a.logLikelihood(), 1e-10);
    close(one.covariance().shapeShape() / 7, b.covariance().shapeShape(), 1e-8);
  }

  private static Observation times(Observation o, double count) {
    if (o instanceof Exact x) {
      return new Exact(x.entry(), x.age(), count);
    }
    if (o instanceof RightCensored x) {
      return new RightCensored(x.entry(), x.age(), count);
    }
    Interval x = (Interval) o;
    return new Interval(x.entry(), x.lower(), x.upper(), count);
  }
}
