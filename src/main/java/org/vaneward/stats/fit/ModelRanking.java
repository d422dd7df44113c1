package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.vaneward.stats.fit.LifeFit.Fitted;

/**
 * Fits of one group of lives ranked by Akaike's criterion with the small-sample term.
 *
 * <p>A fit with too few lives for that criterion (n at most k + 1) comes after those that have it:
 * the term grows without bound as n falls to k + 1. A rank says which family describes these lives
 * best, not that it describes them well. Differences under 2 are commonly read as no difference to
 * speak of (common practice; K. P. Burnham and D. R. Anderson, Model Selection and Multimodel
 * Inference, 2002, ch. 2, from memory).
 *
 * @param ranked best first
 * @param leftOut those without a fit
 */
public record ModelRanking(List<Ranked> ranked, List<LifeFit.NotEstimable> leftOut) {
  /**
   * A fit in its place.
   *
   * @param fit the fit
   * @param aicc the criterion; empty when there are too few lives for it
   * @param difference from the least criterion; empty when there is none
   * @param weight Akaike weight among the fits that have the criterion: exp(-difference / 2), the
   *     weights summing to 1; 0 for those that have none
   */
  public record Ranked(Fitted fit, OptionalDouble aicc, OptionalDouble difference, double weight) {}

  public ModelRanking {
    ranked = List.copyOf(ranked);
    leftOut = List.copyOf(leftOut);
  }

  /**
   * Ranks fits.
   *
   * @param fits of the same lives
   * @throws IllegalArgumentException when they differ in the number of lives or failures
   */
  public static ModelRanking of(List<? extends LifeFit> fits) {
    List<Fitted> fitted = new ArrayList<>();
    List<LifeFit.NotEstimable> leftOut = new ArrayList<>();
    for (LifeFit fit : fits) {
      if (fit.lives() != fits.get(0).lives() || fit.failures() != fits.get(0).failures()) {
        throw new IllegalArgumentException(
            "fits of the same lives can be ranked, not of "
                + fits.get(0).lives()
                + " and "
                + fit.lives());
      }
      if (fit instanceof Fitted f) {
        fitted.add(f);
      } else if (fit instanceof LifeFit.NotEstimable none) {
        leftOut.add(none);
      }
    }
    fitted.sort(Comparator.comparingDouble(ModelRanking::criterion).thenComparing(Fitted::aic));
    return new ModelRanking(weighed(fitted), leftOut);
  }

  private static double criterion(Fitted fit) {
    return fit.aicc().orElse(Double.POSITIVE_INFINITY);
  }

  private static List<Ranked> weighed(List<Fitted> fitted) {
    double total = 0;
    for (Fitted fit : fitted) {
      total += likelihood(fit, fitted.get(0));
    }
    List<Ranked> ranked = new ArrayList<>();
    for (Fitted fit : fitted) {
      OptionalDouble aicc = fit.aicc();
      OptionalDouble difference =
          aicc.isPresent()
              ? OptionalDouble.of(aicc.getAsDouble() - criterion(fitted.get(0)))
              : OptionalDouble.empty();
      double weight = total > 0 ? likelihood(fit, fitted.get(0)) / total : 0;
      ranked.add(new Ranked(fit, aicc, difference, weight));
    }
    return ranked;
  }

  private static double likelihood(Fitted fit, Fitted best) {
    return fit.aicc().isPresent() ? Math.exp((criterion(best) - criterion(fit)) / 2) : 0;
  }
}
