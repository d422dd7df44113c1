package org.vaneward.stats.fit;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/** What a fit of several groups with one Weibull shape comes to, or why there is none. */
public sealed interface CommonShape {
  /**
   * A checked maximum of the likelihood.
   *
   * @param shape the common shape with its limits
   * @param shapeVariance variance of log shape, from the inverse observed information
   * @param groups one for each group given, in that order
   * @param logLikelihood of the ages of the groups that carry a scale
   * @param equalShapes the test against a shape for each group; empty when there are not two groups
   *     with a scale or one of them has no fit of its own
   * @param equalShapesNote why there is no test; empty when there is one
   * @param method how the limits were made
   * @param confidence of the two-sided limits
   * @param proof how the maximum was reached and checked
   */
  record Fitted(
      Estimate shape,
      double shapeVariance,
      List<Group> groups,
      double logLikelihood,
      Optional<LikelihoodRatio> equalShapes,
      String equalShapesNote,
      LimitMethod method,
      double confidence,
      Proof proof)
      implements CommonShape {
    public Fitted {
      groups = List.copyOf(groups);
    }

    /** Sum of the groups' own maxima, with which the test compares; empty without a test. */
    public OptionalDouble logLikelihoodSeparate() {
      return equalShapes.isPresent()
          ? OptionalDouble.of(logLikelihood + equalShapes.get().statistic() / 2)
          : OptionalDouble.empty();
    }
  }

  /**
   * No finite maximum exists, or none could be proved.
   *
   * @param reason why, in one short phrase
   */
  record NotEstimable(String reason) implements CommonShape {}

  /**
   * One group.
   *
   * @param lives number of lives
   * @param failures number of failures
   * @param weibull its distribution, with the common shape; empty when its scale has no estimate
   * @param scale its scale with limits; without failures the estimate and its upper limit are
   *     infinite, and the lower limit is that of the profile likelihood
   * @param quantiles ages by which shares have failed, with limits; none without a distribution
   * @param note what is to be said of the group; empty when there is nothing
   */
  record Group(
      double lives,
      double failures,
      Optional<Weibull> weibull,
      Estimate scale,
      List<Quantile> quantiles,
      String note) {
    public Group {
      quantiles = List.copyOf(quantiles);
    }
  }
}
