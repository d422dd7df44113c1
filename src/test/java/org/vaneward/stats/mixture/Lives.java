package org.vaneward.stats.mixture;

import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;

/** Samples for the tests of mixtures, and their likelihood by the plain definition. */
final class Lives {
  static final TwoWeibulls LAW = new TwoWeibulls(0.3, new Weibull(0.9, 800), new Weibull(4, 5000));

  private Lives() {}

  /** Lives of all kinds: a third enter late, a third are looked at now and then only. */
  static Observations mixed(int n, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Observations.Builder lives = Observations.builder();
    int seen = 0;
    while (seen < n) {
      Weibull kind = random.nextDouble() < LAW.share() ? LAW.first() : LAW.second();
      double age = kind.quantile(random.nextDouble(1e-12, 1));
      double entry = random.nextInt(3) == 0 ? random.nextDouble(0, 3000) : 0;
      double end = random.nextDouble(3500, 9000);
      if (age <= entry) {
        continue;
      }
      seen++;
      if (age > end) {
        lives.addRightCensored(entry, end, 1);
      } else if (random.nextInt(3) == 0) {
        double from = entry + 400 * Math.floor((age - entry) / 400);
        lives.add(new Interval(entry, from, from + 400, 1));
      } else {
        lives.addFailure(entry, age, 1);
      }
    }
    return lives.build();
  }

  static Observations failures(double... ages) {
    Observations.Builder lives = Observations.builder();
    for (double age : ages) {
      lives.addFailure(0, age, 1);
    }
    return lives.build();
  }

  static Observations single(Weibull law, int n, double end, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age = law.quantile(random.nextDouble(1e-12, 1));
      if (age > end) {
        lives.addRightCensored(0, end, 1);
      } else {
        lives.addFailure(0, age, 1);
      }
    }
    return lives.build();
  }

  /** Sum of log f, log S and log (S - S), each less log S(entry), as the formula stands. */
  static double logLikelihood(Observations lives, TwoWeibulls law) {
    ToDoubleFunction<Double> alive =
        t ->
            law.share() * Math.exp(-Math.pow(t / law.first().scale(), law.first().shape()))
                + (1 - law.share())
                    * Math.exp(-Math.pow(t / law.second().scale(), law.second().shape()));
    double sum = 0;
    for (Observation o : lives.asList()) {
      double chance;
      if (o instanceof Exact x) {
        chance =
            law.share() * density(law.first(), x.age())
                + (1 - law.share()) * density(law.second(), x.age());
      } else if (o instanceof RightCensored x) {
        chance = alive.applyAsDouble(x.age());
      } else {
        Interval x = (Interval) o;
        chance = alive.applyAsDouble(x.lower()) - alive.applyAsDouble(x.upper());
      }
      sum += o.count() * (Math.log(chance) - Math.log(alive.applyAsDouble(o.entry())));
    }
    return sum;
  }

  private static double density(Weibull law, double t) {
    double b = law.shape();
    double r = t / law.scale();
    return b / law.scale() * Math.pow(r, b - 1) * Math.exp(-Math.pow(r, b));
  }

  static Observation scaled(Observation o, double by) {
    if (o instanceof Exact x) {
      return new Exact(x.entry() * by, x.age() * by, x.count());
    }
    if (o instanceof RightCensored x) {
      return new RightCensored(x.entry() * by, x.age() * by, x.count());
    }
    Interval x = (Interval) o;
    return new Interval(x.entry() * by, x.lower() * by, x.upper() * by, x.count());
  }
}
