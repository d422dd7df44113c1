package org.vaneward.stats.mixture;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.mixture.MixtureFit.Bootstrap;
import org.vaneward.stats.mixture.MixtureFit.Component;
import org.vaneward.stats.mixture.MixtureFit.Fitted;
import org.vaneward.stats.mixture.MixtureFit.NotEstimable;
import org.vaneward.stats.mixture.MixtureFit.Proof;
import org.vaneward.stats.mixture.MixtureFit.Ratio;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.SpdMatrix;

/**
 * Fits a mixture of two Weibulls by maximum likelihood: exact, right-censored and interval lives,
 * delayed entry, counts.
 *
 * <p>S(t) = p S1(t) + (1 - p) S2(t). From many starts (cuts of the failures at their quantiles, two
 * spreads about one scale, seeded random ones) some EM steps are taken and then Newton's method
 * climbs the likelihood itself in (logit p, log shapes, log scales), analytic derivatives and all.
 * An end counts as a maximum with its proof only: gradient of at most 1e-8 per failure, a further
 * Newton step below 1e-9, observed information positive definite.
 *
 * <p>The likelihood of a mixture has no bound: a component that closes on one failure raises it
 * without end. Such ends are recognised by the effective number of distinct failure ages on which a
 * component rests (below 1.5), by a shape that grows without end, or by fewer failures than {@link
 * MixtureSettings#leastComponentFailures}, and left out; reported is the best interior maximum (G.
 * McLachlan and D. Peel, Finite Mixture Models, 2000, sections 3.8–3.10, from memory). With delayed
 * entry the likelihood is conditional on the mixture's survival to entry; the EM steps count the
 * lives that were never seen.
 *
 * <p>A mixture describes; that the plot bends does not say why.
 */
public final class WeibullMixture {
  private WeibullMixture() {}

  /** Fits a mixture. */
  public static MixtureFit fit(Observations lives, MixtureSettings settings) {
    return inOrder(Rows.sorted(lives), settings);
  }

  private static MixtureFit inOrder(Observations lives, MixtureSettings settings) {
    double n = lives.lives();
    double failures = lives.failures();
    WeibullFit one = WeibullFitter.fit(lives, Search.oneWeibull(settings.confidence()));
    if (one instanceof WeibullFit.NotEstimable none) {
      return new NotEstimable(
          n, failures, "not even one Weibull: " + none.reason(), Optional.empty());
    }
    WeibullFit.Fitted single = (WeibullFit.Fitted) one;
    if (!(failures >= settings.leastFailures())) {
      return new NotEstimable(
          n,
          failures,
          "fewer than " + plain(settings.leastFailures()) + " failures",
          Optional.of(single));
    }
    Search search = Search.of(lives, single, settings);
    Optional<String> refusal = search.refusal();
    return refusal.isPresent()
        ? new NotEstimable(n, failures, refusal.get(), Optional.of(single))
        : fitted(lives, settings, search, search.best.orElseThrow());
  }

  private static String plain(double x) {
    return x == Math.rint(x) ? Long.toString((long) x) : Double.toString(x);
  }

  private static MixtureFit fitted(
      Observations lives, MixtureSettings settings, Search search, Climb.Found best) {
    MixtureLikelihood likelihood = search.likelihood;
    Point top = best.point().ordered();
    MixtureLikelihood.At d = likelihood.derivatives(top);
    Optional<SpdMatrix> information = Climb.information(d);
    if (information.isEmpty()) {
      return new NotEstimable(
          lives.lives(),
          lives.failures(),
          "no maximum of the likelihood could be proved",
          Optional.of(search.single));
    }
    double[][] covariance = information.get().inverse();
    TwoWeibulls law = top.law(likelihood.rows.centre);
    double z = Quantiles.normal((1 + settings.confidence()) / 2);
    double half = z * Math.sqrt(covariance[0][0]);
    Estimate share =
        new Estimate(
            law.share(),
            1 / (1 + Math.exp(half - top.logit())),
            1 / (1 + Math.exp(-half - top.logit())));
    return new Fitted(
        law,
        lives.lives(),
        lives.failures(),
        d.value,
        share,
        new Component(
            about(law.first().shape(), z, covariance[1][1]),
            about(law.first().scale(), z, covariance[2][2]),
            d.failures1),
        new Component(
            about(law.second().shape(), z, covariance[3][3]),
            about(law.second().scale(), z, covariance[4][4]),
            d.failures2),
        rows(covariance),
        search.single,
        ratio(lives, settings, search, d.value),
        search.starts(),
        new Proof(
            best.iterations(),
            Climb.steepest(d) / lives.failures(),
            best.step(),
            information.get().smallestEigenvalue()),
        settings.confidence());
  }

  private static Ratio ratio(
      Observations lives, MixtureSettings settings, Search search, double logLikelihood) {
    double gain = logLikelihood - search.single.logLikelihood();
    int more = MixtureFit.PARAMETERS - search.single.parameters();
    Optional<Bootstrap> bootstrap =
        settings.bootstrapReplicates() == 0
            ? Optional.empty()
            : MixtureBootstrap.test(lives, search.single.weibull(), 2 * gain, settings);
    return new Ratio(
        2 * gain, 2 * gain - 2.0 * more, 2 * gain - more * Math.log(lives.lives()), bootstrap);
  }

  private static Estimate about(double estimate, double z, double variance) {
    double factor = Math.exp(z * Math.sqrt(variance));
    return new Estimate(estimate, estimate / factor, estimate * factor);
  }

  private static List<List<Double>> rows(double[][] matrix) {
    List<List<Double>> rows = new ArrayList<>();
    for (double[] line : matrix) {
      List<Double> row = new ArrayList<>();
      for (double x : line) {
        row.add(x);
      }
      rows.add(row);
    }
    return rows;
  }

  /**
   * The chance of each row that it is of the first component, given what is known of it.
   *
   * @return one number for each row, in the order of the rows
   */
  public static double[] memberships(Observations lives, TwoWeibulls law) {
    double[] chances = new double[lives.size()];
    for (int i = 0; i < chances.length; i++) {
      chances[i] = law.firstGiven(lives.get(i));
    }
    return chances;
  }
}
