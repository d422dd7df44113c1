package org.vaneward.model;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.LifeFit;
import org.vaneward.stats.goodness.GoodnessOfFit;
import org.vaneward.stats.goodness.Verdict;
import org.vaneward.stats.mixture.MixtureFit;

/** What the checks of a fit come to, in one sentence. */
final class FitVerdict {
  private FitVerdict() {}

  static String sentence(
      LifeFit.Fitted fit,
      List<LifeFit> all,
      Optional<LikelihoodRatio> ageing,
      Optional<GoodnessOfFit> goodness,
      Optional<MixtureFit> mixture) {
    Verdict verdict = Verdict.on(name(fit.family()), fit.failures());
    if (goodness.isPresent()) {
      verdict = verdict.withGoodness(goodness.get());
    }
    if (ageing.isPresent()) {
      verdict = verdict.withAgeing(fit.parameter("shape").estimate(), ageing.get().p());
    }
    for (LifeFit other : all) {
      if (other.family() != fit.family() && other instanceof LifeFit.Fitted rival) {
        OptionalDouble above = difference(rival, fit);
        if (above.isPresent()) {
          verdict = verdict.withOther(name(rival.family()), above.getAsDouble());
        }
      }
    }
    if (mixture.isPresent() && mixture.get() instanceof MixtureFit.Fitted two) {
      Optional<MixtureFit.Bootstrap> test = two.ratio().bootstrap();
      verdict = test.isPresent() ? verdict.withMixtureP(test.get().p()) : verdict;
    }
    return verdict.sentence();
  }

  private static OptionalDouble difference(LifeFit.Fitted rival, LifeFit.Fitted fit) {
    return rival.aicc().isPresent() && fit.aicc().isPresent()
        ? OptionalDouble.of(rival.aicc().getAsDouble() - fit.aicc().getAsDouble())
        : OptionalDouble.empty();
  }

  /** As it is written in a sentence: Weibull is a man's name. */
  private static String name(Family family) {
    return family == Family.WEIBULL ? "Weibull" : family.word();
  }
}
