package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.io.JsonFields;
import org.vaneward.model.FamilyFit;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.fit.SmallSampleBias;
import org.vaneward.stats.fit.SmallSampleBias.Corrected;
import org.vaneward.stats.goodness.GoodnessOfFit.Statistic;
import org.vaneward.stats.goodness.GoodnessOfFit.Tested;
import org.vaneward.stats.mixture.MixtureFit;
import org.vaneward.stats.nonparametric.ProductLimit;

/** How far a fit can be relied on: in sentences, and as keys of a JSON document. */
final class CheckFields {
  /** The curve alone is asked for, not its limits. */
  private static final double ANY_CONFIDENCE = 0.90;

  private CheckFields() {}

  /** The sentences, the verdict first. */
  static List<String> words(FamilyFit fit) {
    List<String> sentences = new ArrayList<>();
    sentences.add(fit.verdict());
    ProductLimit.of(fit.observations(), ANY_CONFIDENCE)
        .zeroTooSoon()
        .ifPresent(
            age ->
                sentences.add(
                    "The product limit falls to 0 at age "
                        + Words.significant(age)
                        + ", where all of the few lives then under observation had failed, though"
                        + " others lived longer: trust the fitted curve before it."));
    fit.noLimits().ifPresent(why -> sentences.add("No limits by bootstrap: " + why + "."));
    corrected(fit)
        .ifPresent(
            c ->
                sentences.add(
                    "With few failures a fitted shape is too high on average; without that bias it"
                        + " would be "
                        + Words.number(c.unbiasedShape())
                        + "."));
    fit.mixture().ifPresent(m -> sentences.add(mixture(m)));
    return sentences;
  }

  private static String mixture(MixtureFit mixture) {
    if (mixture instanceof MixtureFit.Fitted m) {
      return "Two Weibulls: "
          + Words.percent(m.law().share())
          + " with shape "
          + Words.number(m.law().first().shape())
          + " and scale "
          + Words.significant(m.law().first().scale())
          + ", the rest with shape "
          + Words.number(m.law().second().shape())
          + " and scale "
          + Words.significant(m.law().second().scale())
          + "; AIC "
          + Words.number(m.aic())
          + " against "
          + Words.number(m.single().aic())
          + " of one.";
    }
    return "Two Weibulls are not estimable: " + ((MixtureFit.NotEstimable) mixture).reason() + ".";
  }

  /** The same for programs. */
  static JsonFields fields(FamilyFit fit) {
    return new JsonFields()
        .with(
            "small_sample",
            corrected(fit)
                .map(
                    c ->
                        new JsonFields().with("shape", c.unbiasedShape()).with("source", c.note())))
        .with("exponential_inside_weibull", fit.exponentialInside().map(CheckFields::test))
        .with("goodness", goodness(fit).map(CheckFields::statistic))
        .with("verdict", fit.verdict());
  }

  private static JsonFields statistic(Statistic statistic) {
    return new JsonFields().with("statistic", statistic.value()).with("p", statistic.p());
  }

  /** The Anderson–Darling distance, where it was tested. */
  static Optional<Statistic> goodness(FamilyFit fit) {
    return fit.goodness()
        .flatMap(
            test ->
                test instanceof Tested tested
                    ? Optional.of(tested.andersonDarling())
                    : Optional.empty());
  }

  static JsonFields test(LikelihoodRatio test) {
    return new JsonFields()
        .with("statistic", test.statistic())
        .with("df", test.degreesOfFreedom())
        .with("p", test.p());
  }

  private static Optional<Corrected> corrected(FamilyFit fit) {
    Optional<SmallSampleBias> bias = fit.smallSample();
    return bias.isPresent() && bias.get() instanceof Corrected c
        ? Optional.of(c)
        : Optional.empty();
  }
}
