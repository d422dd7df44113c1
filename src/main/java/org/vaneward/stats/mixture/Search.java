package org.vaneward.stats.mixture;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.mixture.Climb.End;
import org.vaneward.stats.mixture.Climb.Found;

/** Climbs from every start, and what they come to together. */
final class Search {
  /** Log-likelihoods closer than this are of the same maximum, or no gain. */
  static final double SAME = 1e-6;

  final MixtureLikelihood likelihood;
  final WeibullFit.Fitted single;
  final List<Found> ends;

  /** The best interior maximum that is better than one Weibull. */
  final Optional<Found> best;

  private Search(MixtureLikelihood likelihood, WeibullFit.Fitted single, List<Found> ends) {
    this.likelihood = likelihood;
    this.single = single;
    this.ends = ends;
    best = highest(End.MAXIMUM).filter(f -> f.value() > single.logLikelihood() + SAME);
  }

  static FitSettings oneWeibull(double confidence) {
    return FitSettings.defaults().withConfidence(confidence);
  }

  static Search of(Observations lives, WeibullFit.Fitted single, MixtureSettings settings) {
    MixtureLikelihood likelihood = new MixtureLikelihood(Rows.of(lives));
    Climb.Rules rules =
        new Climb.Rules(settings.leastComponentFailures(), Math.log(single.weibull().shape()));
    List<Found> ends =
        new StartingPoints(likelihood.rows, single.weibull())
            .all(settings.randomStarts(), settings.seed()).stream()
                .map(start -> Climb.from(start, likelihood, rules))
                .toList();
    return new Search(likelihood, single, ends);
  }

  /** The one Weibull without limits, for samples of which only the likelihood is asked. */
  static Optional<WeibullFit.Fitted> plainSingle(Observations lives) {
    WeibullFit fit =
        WeibullFitter.fit(
            lives,
            FitSettings.defaults().withLimits(WeibullFit.LimitMethod.WALD).withShares(List.of()));
    return fit instanceof WeibullFit.Fitted fitted ? Optional.of(fitted) : Optional.empty();
  }

  Optional<Found> highest(End end) {
    Found highest = null;
    for (Found f : ends) {
      if (f.end() == end && (highest == null || f.value() > highest.value())) {
        highest = f;
      }
    }
    return Optional.ofNullable(highest);
  }

  /** Twice the gain over one Weibull of the best end that closes on no failure. */
  double statistic() {
    double gain = best.map(f -> f.value() - single.logLikelihood()).orElse(0.0);
    double edge = highest(End.NEVER_FAILS).map(f -> f.value() - single.logLikelihood()).orElse(0.0);
    return 2 * Math.max(0, Math.max(gain, edge));
  }

  /** Why there is no fit; empty when there is one. */
  Optional<String> refusal() {
    double bar = best.map(Found::value).orElse(single.logLikelihood()) + SAME;
    if (above(End.NEVER_FAILS, bar)) {
      return Optional.of("a share that never fails fits better than a second Weibull");
    }
    if (above(End.FLAT, bar)) {
      return Optional.of(
          "the likelihood is flat: the shape or scale of a component cannot be told");
    }
    if (above(End.LOST, bar)) {
      return Optional.of("no maximum of the likelihood could be proved");
    }
    if (best.isPresent()) {
      return Optional.empty();
    }
    if (above(End.THIN, bar)) {
      return Optional.of("the second component rests on too few failures");
    }
    return Optional.of(
        above(End.CLOSES, bar)
            ? "the second component closes on one failure"
            : "a second component adds nothing to one Weibull");
  }

  private boolean above(End end, double bar) {
    return highest(end).filter(f -> f.value() > bar).isPresent();
  }

  MixtureFit.Starts starts() {
    double top = best.map(Found::value).orElse(Double.NaN);
    int reached = 0;
    int other = 0;
    int closed = 0;
    for (Found f : ends) {
      if (f.end() == End.MAXIMUM) {
        boolean same = Math.abs(f.value() - top) <= SAME;
        reached += same ? 1 : 0;
        other += same ? 0 : 1;
      }
      closed += f.end() == End.CLOSES || f.end() == End.THIN ? 1 : 0;
    }
    return new MixtureFit.Starts(
        ends.size(), reached, other, closed, ends.size() - reached - other - closed);
  }
}
