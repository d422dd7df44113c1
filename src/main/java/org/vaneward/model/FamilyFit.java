package org.vaneward.model;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.LifeFit;
import org.vaneward.stats.fit.SmallSampleBias;
import org.vaneward.stats.goodness.GoodnessOfFit;
import org.vaneward.stats.mixture.MixtureFit;

/**
 * The fit of one family to one group of lives, and how far it can be relied on.
 *
 * @param group the columns that make the group, in the order asked for, with its values
 * @param lives number of lives, spans of one life counted once
 * @param observations what was fitted
 * @param fit the fit, or why there is none
 * @param noLimits why the bootstrap refuses limits; empty when it does not or was not asked
 * @param survival at the ages asked for, in their order; empty without a fit
 * @param exponentialInside does the failure rate depend on age at all; of a Weibull fit
 * @param goodness does the family fit; empty when not asked for
 * @param smallSample the bias of a fitted shape; empty where it is beside the point
 * @param mixture two Weibulls; empty when not asked for
 * @param verdict what to make of the fit, in one sentence
 */
public record FamilyFit(
    Map<String, String> group,
    double lives,
    Observations observations,
    LifeFit fit,
    Optional<String> noLimits,
    List<Estimate> survival,
    Optional<LikelihoodRatio> exponentialInside,
    Optional<GoodnessOfFit> goodness,
    Optional<SmallSampleBias> smallSample,
    Optional<MixtureFit> mixture,
    String verdict) {
  public FamilyFit {
    survival = List.copyOf(survival);
  }

  /** A group that has no fit. */
  static FamilyFit without(
      Map<String, String> group, double lives, Observations observations, LifeFit fit) {
    return new FamilyFit(
        group,
        lives,
        observations,
        fit,
        Optional.empty(),
        List.of(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        "");
  }
}
