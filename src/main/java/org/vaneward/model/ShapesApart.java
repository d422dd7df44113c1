package org.vaneward.model;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.CommonShapeFit;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * Which groups' own failures rule out the shape that the others share.
 *
 * <p>Each group's shape is held against the one the others have in common (likelihood ratio of a
 * shape for the group and one for the rest against one for all, chi-square with 1 degree of
 * freedom). The group with the smallest p stands apart when that p is below {@value #AGAINST}; the
 * rest are then looked at again, since one odd group bends what the others seem to share.
 *
 * <p>The p-values are not adjusted for looking at many groups: this is no finding to be reported
 * but a choice between two models, and the two mistakes do not cost the same. A group set apart by
 * chance plans on its own failures, which were many enough to tell a shape. A group left in
 * although its parts do not wear out is rebuilt too early for good. {@code
 * docs/methods/decisions.md} has what a wrong shape costs.
 */
final class ShapesApart {
  /** Chance of so large a likelihood ratio below which a group stands apart. */
  static final double AGAINST = 0.05;

  private static final FitSettings QUICK =
      FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of());

  private final List<Observations> groups;

  /** Log-likelihood of each group at its own best shape; none where it has no fit of its own. */
  private final List<OptionalDouble> own;

  private ShapesApart(List<Observations> groups) {
    this.groups = groups;
    this.own = groups.stream().map(ShapesApart::ownLogLikelihood).toList();
  }

  /** Places of the groups that stand apart, the clearest case first. */
  static List<Integer> of(List<Observations> groups) {
    ShapesApart search = new ShapesApart(groups);
    List<Integer> sharing = new ArrayList<>(IntStream.range(0, groups.size()).boxed().toList());
    List<Integer> apart = new ArrayList<>();
    OptionalInt odd = search.oddest(sharing);
    while (odd.isPresent()) {
      sharing.remove((Integer) odd.getAsInt());
      apart.add(odd.getAsInt());
      odd = search.oddest(sharing);
    }
    return apart;
  }

  private OptionalInt oddest(List<Integer> sharing) {
    OptionalDouble together = common(sharing);
    int oddest = -1;
    double least = AGAINST;
    for (int group : sharing) {
      if (together.isPresent() && own.get(group).isPresent()) {
        OptionalDouble rest = common(sharing.stream().filter(other -> other != group).toList());
        if (rest.isPresent()) {
          double separate = own.get(group).getAsDouble() + rest.getAsDouble();
          double p = LikelihoodRatio.of(separate, together.getAsDouble(), 1).p();
          if (p < least) {
            least = p;
            oddest = group;
          }
        }
      }
    }
    return oddest < 0 ? OptionalInt.empty() : OptionalInt.of(oddest);
  }

  private static OptionalDouble ownLogLikelihood(Observations group) {
    return WeibullFitter.fit(group, QUICK) instanceof WeibullFit.Fitted fit
        ? OptionalDouble.of(fit.logLikelihood())
        : OptionalDouble.empty();
  }

  private OptionalDouble common(List<Integer> some) {
    List<Observations> lives = some.stream().map(groups::get).toList();
    return CommonShapeFit.fit(lives, QUICK) instanceof CommonShape.Fitted fit
        ? OptionalDouble.of(fit.logLikelihood())
        : OptionalDouble.empty();
  }
}
