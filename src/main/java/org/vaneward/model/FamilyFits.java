package org.vaneward.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.life.LivesTable;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.Refit;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.LifeFit;
import org.vaneward.stats.fit.LifeFits;
import org.vaneward.stats.fit.SmallSampleBias;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.goodness.GoodnessOfFit;
import org.vaneward.stats.mixture.MixtureFit;
import org.vaneward.stats.mixture.MixtureSettings;
import org.vaneward.stats.mixture.WeibullMixture;

/**
 * Fits of the groups of a lives table, each on its own, with the checks that go with them.
 *
 * @param fits one for each group and family, groups in order of their texts
 * @param comparison of the groups, where there are several
 */
public record FamilyFits(List<FamilyFit> fits, Optional<GroupComparison> comparison) {
  /** From so many failures on the bias of a shape is beside the point: under 2%. */
  private static final double MANY_FAILURES = 100;

  /** Samples for the test of a mixture, each of which is a search from many starts. */
  private static final int MIXTURE_DRAWS = 199;

  private static final double MOST_TESTED_FOR_MIXTURE = 2000;

  public FamilyFits {
    fits = List.copyOf(fits);
  }

  /**
   * Fits every group.
   *
   * @throws org.vaneward.io.BadInputException when there is no such column
   */
  public static FamilyFits of(LivesTable table, FitQuestion question) {
    Map<List<String>, LivesTable> groups = table.groupBy(question.by());
    List<FamilyFit> fits = new ArrayList<>();
    groups.forEach(
        (values, lives) ->
            fits.addAll(group(GroupNames.of(question.by(), values), lives, question)));
    return new FamilyFits(
        fits,
        groups.size() > 1
            ? Optional.of(
                GroupComparison.of(groups.values(), question.strata(), question.settings()))
            : Optional.empty());
  }

  private static List<FamilyFit> group(
      Map<String, String> group, LivesTable lives, FitQuestion question) {
    Observations observations = lives.observations();
    List<LifeFit> all = new ArrayList<>();
    for (Family family : question.families()) {
      all.add(LifeFits.fit(family, observations, settings(family, question)));
    }
    List<FamilyFit> fits = new ArrayList<>();
    for (LifeFit fit : all) {
      fits.add(
          fit instanceof LifeFit.Fitted fitted
              ? checked(group, lives.lives(), observations, fitted, all, question)
              : FamilyFit.without(group, lives.lives(), observations, fit));
    }
    return fits;
  }

  /** A stated shape is one of the Weibull family; the others have none to state. */
  private static FitSettings settings(Family family, FitQuestion question) {
    return family == Family.WEIBULL ? question.settings() : question.settings().withFreeShape();
  }

  private static FamilyFit checked(
      Map<String, String> group,
      double lives,
      Observations observations,
      LifeFit.Fitted fit,
      List<LifeFit> all,
      FitQuestion question) {
    Optional<BootstrappedFit> drawn =
        question.bootstrapLimits()
            ? Optional.of(BootstrappedFit.of(fit, observations, question))
            : Optional.empty();
    boolean free = fit.family() == Family.WEIBULL && question.settings().fixedShape().isEmpty();
    Optional<LikelihoodRatio> ageing =
        free ? LifeFits.exponentialInsideWeibull(observations) : Optional.empty();
    Optional<GoodnessOfFit> goodness = goodness(fit, observations, question);
    Optional<MixtureFit> mixture =
        free && question.mixture()
            ? Optional.of(mixture(observations, question))
            : Optional.empty();
    return new FamilyFit(
        group,
        lives,
        observations,
        drawn.map(BootstrappedFit::fit).orElse(fit),
        drawn.flatMap(d -> d.limits().refusal()),
        survival(fit, drawn, observations, question),
        ageing,
        goodness,
        free && fit.failures() < MANY_FAILURES ? bias(observations) : Optional.empty(),
        mixture,
        FitVerdict.sentence(fit, all, ageing, goodness, mixture));
  }

  private static Optional<SmallSampleBias> bias(Observations lives) {
    FitSettings lean = FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of());
    return WeibullFitter.fit(lives, lean) instanceof WeibullFit.Fitted fit
        ? Optional.of(SmallSampleBias.of(lives, fit))
        : Optional.empty();
  }

  private static List<Estimate> survival(
      LifeFit.Fitted fit,
      Optional<BootstrappedFit> drawn,
      Observations lives,
      FitQuestion question) {
    if (drawn.isPresent()) {
      return question.ages().stream().map(drawn.get()::survival).toList();
    }
    double[] ages = question.ages().stream().mapToDouble(age -> age).toArray();
    return LifeFits.survival(lives, fit, ages);
  }

  private static Optional<GoodnessOfFit> goodness(
      LifeFit.Fitted fit, Observations lives, FitQuestion question) {
    int draws = question.drawsFor(fit.lives());
    if (draws == 0) {
      return Optional.empty();
    }
    return Optional.of(
        GoodnessOfFit.test(
            lives, fit.distribution(), refit(fit, question), draws, question.seed()));
  }

  /** How a sample drawn like the lives is fitted as they were. */
  static Refit refit(LifeFit.Fitted fit, FitQuestion question) {
    FitSettings lean =
        settings(fit.family(), question).withLimits(LimitMethod.WALD).withShares(List.of());
    return sample ->
        LifeFits.fit(fit.family(), sample, lean) instanceof LifeFit.Fitted again
            ? Optional.of(again.distribution())
            : Optional.empty();
  }

  private static MixtureFit mixture(Observations lives, FitQuestion question) {
    int draws = lives.lives() <= MOST_TESTED_FOR_MIXTURE ? question.drawsFor(lives.lives()) : 0;
    return WeibullMixture.fit(
        lives,
        MixtureSettings.defaults()
            .withConfidence(question.settings().confidence())
            .withSeed(question.seed())
            .withBootstrap(Math.min(draws, MIXTURE_DRAWS)));
  }
}
