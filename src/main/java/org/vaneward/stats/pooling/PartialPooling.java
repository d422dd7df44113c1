package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.pooling.PooledFit.Diagnostics;
import org.vaneward.stats.pooling.PooledFit.Fitted;
import org.vaneward.stats.pooling.PooledFit.Group;
import org.vaneward.stats.pooling.PooledFit.NotEstimable;

/**
 * Weibull lives of several groups whose log shapes and log scales are each drawn from a normal
 * distribution: a group with many failures keeps to its own, one with few leans on the others.
 *
 * <p>Log scale of group s is m + u and its log shape b + w, with u and w normal, mean 0, standard
 * deviations tau and sigma, independent. Each u is integrated out by adaptive Gauss–Hermite
 * quadrature, each w by sums over values so integrated; what is left, (m, tau, b, sigma) with the
 * priors of {@link PoolingSettings.Priors}, is integrated on a lattice, and draws are taken from it
 * by rejection: there is no chain that could fail to converge. (A. Gelman and others, Bayesian Data
 * Analysis, 3rd edition 2013, ch. 5, from memory.)
 */
public final class PartialPooling {
  /** Failures from which on a shape without an upper limit in the data is refused. */
  private static final int TOO_MANY_AT_ONE_AGE = 3;

  private PartialPooling() {}

  /**
   * Fits the groups.
   *
   * @param groups lives by group; one group is enough, and any of them may be empty
   * @param settings confidence, draws, seed, shares and priors
   * @return the posterior; not estimable without a failure in any group
   */
  public static PooledFit fit(List<Observations> groups, PoolingSettings settings) {
    double failures = 0;
    for (Observations group : groups) {
      failures += group.failures();
    }
    if (!(failures > 0)) {
      return new NotEstimable(groups.isEmpty() ? "no groups" : "no failures in any group");
    }
    Hyper hyper = new Hyper(groups, settings.priors(), settings.precision());
    if (Arrays.stream(hyper.groups).noneMatch(g -> g.exposed)) {
      return new NotEstimable("no life was seen to run: nothing keeps the scale from 0");
    }
    if (failures >= TOO_MANY_AT_ONE_AGE && risesWithShape(hyper)) {
      return new NotEstimable(
          "in each group all failures are at one age and nothing ran longer: no shape is too large");
    }
    Optional<Lattice> lattice = Lattice.of(hyper);
    if (lattice.isEmpty()) {
      return new NotEstimable("the posterior could not be integrated to the accuracy asked for");
    }
    return new Sampler(hyper, lattice.get(), settings.seed())
        .draw(settings.draws())
        .map(sample -> fitted(hyper, lattice.get(), sample, settings))
        .orElseGet(() -> new NotEstimable("the effective sample size is too small"));
  }

  private static boolean risesWithShape(Hyper hyper) {
    return Arrays.stream(hyper.groups).allMatch(GroupLikelihood::risesWithShape);
  }

  private static PooledFit fitted(
      Hyper hyper, Lattice lattice, Sampler.Sample sample, PoolingSettings settings) {
    Draws draws = sample.draws();
    Summary summary = new Summary(settings.confidence());
    List<Group> results = new ArrayList<>();
    for (int s = 0; s < hyper.groups.length; s++) {
      results.add(group(hyper.groups[s], draws, s, sample.fleetShare()[s], settings));
    }
    return new Fitted(
        results,
        summary.onLogScale(logs(draws.populationShapes())),
        summary.onLogScale(logs(draws.populationScales())),
        summary.onLogScale(logs(draws.newGroupShapes())),
        summary.onLogScale(logs(draws.newGroupScales())),
        summary.plain(draws.betweenSds()),
        summary.plain(draws.shapesBetweenSds()),
        draws,
        settings.confidence(),
        new Diagnostics(
            lattice.points(),
            lattice.mostNodes(),
            lattice.nodesChange(),
            sample.effective() * draws.size(),
            sample.acceptance(),
            lattice.logMarginal()));
  }

  private static Group group(
      GroupLikelihood lives, Draws draws, int place, double fleetShare, PoolingSettings settings) {
    Summary summary = new Summary(settings.confidence());
    double[] logShape = logs(draws.shapes(place));
    double[] logScale = logs(draws.scales(place));
    List<Quantile> quantiles = new ArrayList<>();
    for (double p : settings.shares()) {
      quantiles.add(new Quantile(p, summary.onLogScale(logAges(logScale, logShape, p))));
    }
    return new Group(
        summary.onLogScale(logShape),
        summary.onLogScale(logScale),
        quantiles,
        lives.lives,
        lives.failures,
        fleetShare);
  }

  /** Log of the age by which the share p has failed, draw by draw. */
  private static double[] logAges(double[] logScale, double[] logShape, double p) {
    double logHazard = Math.log(-Math.log1p(-p));
    double[] logs = new double[logScale.length];
    for (int i = 0; i < logs.length; i++) {
      logs[i] = logScale[i] + logHazard * Math.exp(-logShape[i]);
    }
    return logs;
  }

  private static double[] logs(double[] x) {
    return Arrays.stream(x).map(Math::log).toArray();
  }
}
