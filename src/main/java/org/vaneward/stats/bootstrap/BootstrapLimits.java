package org.vaneward.stats.bootstrap;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Limits of any quantity of a fitted distribution by the parametric bootstrap: samples like the
 * lives are drawn from the fit ({@link ParametricSampler}) and fitted again.
 *
 * <p>Limits are bias-corrected and accelerated percentiles (B. Efron, Journal of the American
 * Statistical Association 82, 1987, 171–185; from memory). With z the normal quantile of the
 * confidence, z0 that of the share of refits below the estimate and a the acceleration, the limits
 * are the refits' quantiles at the shares
 *
 * <pre>
 *   Phi(z0 + (z0 -+ z) / (1 - a (z0 -+ z)))
 * </pre>
 *
 * <p>The acceleration is a sixth of the skewness of the fits with one life left out, a life without
 * which there is no fit passed over. It takes a fit for each row and falls as one over the root of
 * the number of lives; beyond {@value #MOST_LEFT_OUT} rows it is taken as 0. Limits found so hardly
 * not depend on the scale a quantity is written on, and need no name for it. Percentiles without
 * the acceleration, and reflection on the log scale, miss more often on one side than on the other
 * in small or heavily censored samples.
 *
 * <p>Refits that are not estimable are left out and counted. Since they are those with the fewest
 * failures, there are no limits at all when more than the share {@link #MOST_NOT_ESTIMABLE} is
 * such.
 */
public final class BootstrapLimits {
  /** Share of refits without a result beyond which there are no limits. */
  public static final double MOST_NOT_ESTIMABLE = 0.05;

  /** Fewest replicates. */
  public static final int FEWEST_REPLICATES = 100;

  /** Rows beyond which none is left out in turn. */
  static final int MOST_LEFT_OUT = 5000;

  private final LifeDistribution fitted;
  private final Refits refits;
  private final double confidence;
  private final Optional<String> refusal;
  private final List<LeftOut> leftOut;

  private BootstrapLimits(
      LifeDistribution fitted,
      Refits refits,
      double confidence,
      Optional<String> refusal,
      List<LeftOut> leftOut) {
    this.fitted = fitted;
    this.refits = refits;
    this.confidence = confidence;
    this.refusal = refusal;
    this.leftOut = leftOut;
  }

  /** The fit without one life, of which there are {@code count} alike. */
  private record LeftOut(LifeDistribution fit, double count) {}

  /**
   * Draws and fits. Same seed, same limits, on any number of threads.
   *
   * @param lives the lives that were fitted
   * @param fitted their fit
   * @param refit how they were fitted
   * @param replicates how many samples to draw, at least {@link #FEWEST_REPLICATES}; 2000 are
   *     enough for limits of 90% or 95%
   * @param seed of the draws
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when replicates or confidence are out of their range
   */
  public static BootstrapLimits of(
      Observations lives,
      LifeDistribution fitted,
      Refit refit,
      int replicates,
      long seed,
      double confidence) {
    if (!(replicates >= FEWEST_REPLICATES)) {
      throw new IllegalArgumentException(
          "replicates are at least " + FEWEST_REPLICATES + ", not " + replicates);
    }
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    if (!(lives.lives() <= ParametricSampler.MOST_LIVES)) {
      Refits none = new Refits(List.of(), 0);
      return new BootstrapLimits(
          fitted, none, confidence, Optional.of("too many lives to draw one by one"), List.of());
    }
    ParametricSampler sampler = ParametricSampler.of(lives, fitted);
    Refits refits =
        Refits.of(Replicates.of(replicates, seed, random -> refit.fit(sampler.draw(random))));
    Optional<String> refusal = refusal(refits);
    return new BootstrapLimits(
        fitted,
        refits,
        confidence,
        refusal,
        refusal.isPresent() ? List.of() : leftOut(lives, refit));
  }

  private static Optional<String> refusal(Refits refits) {
    return refits.notEstimable() <= MOST_NOT_ESTIMABLE * refits.replicates()
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT,
                "%d of %d samples drawn like these lives have no fit",
                refits.notEstimable(),
                refits.replicates()));
  }

  private static List<LeftOut> leftOut(Observations lives, Refit refit) {
    if (lives.size() > MOST_LEFT_OUT) {
      return List.of();
    }
    return IntStream.range(0, lives.size())
        .parallel()
        .mapToObj(
            i ->
                refit
                    .fit(Rows.without(lives, i))
                    .map(fit -> new LeftOut(fit, Math.max(1, lives.count(i)))))
        .toList()
        .stream()
        .flatMap(Optional::stream)
        .toList();
  }

  /** Confidence of the two-sided limits. */
  public double confidence() {
    return confidence;
  }

  /** How many samples were drawn. */
  public int replicates() {
    return refits.replicates();
  }

  /** How many of them had no fit. */
  public int notEstimable() {
    return refits.notEstimable();
  }

  /** Why there are no limits of anything, in one short phrase; empty when there are. */
  public Optional<String> refusal() {
    return refusal;
  }

  /** Fits of the samples that have one, in the order drawn. */
  public List<LifeDistribution> refits() {
    return refits.fitted();
  }

  /**
   * The quantity of the fit with its limits.
   *
   * @param quantity a number of a distribution, such as a parameter, an age by which a share has
   *     failed, a survival or the mean
   * @return empty when there is a {@link #refusal}, when the quantity is not a number in some refit
   *     or does not vary, and when a limit lies beyond what so many replicates can tell
   */
  public Optional<Estimate> limits(ToDoubleFunction<LifeDistribution> quantity) {
    double[] drawn = refits.fitted().stream().mapToDouble(quantity).sorted().toArray();
    double estimate = quantity.applyAsDouble(fitted);
    // NaN sorts behind all numbers
    if (refusal.isPresent()
        || Double.isNaN(estimate)
        || Double.isNaN(drawn[drawn.length - 1])
        || drawn[0] == drawn[drawn.length - 1]) {
      return Optional.empty();
    }
    double z0 = Quantiles.normal(shareBelow(drawn, estimate));
    double a = acceleration(quantity);
    double z = Quantiles.twoSidedNormal(confidence);
    double low = quantile(drawn, share(z0, z0 - z, a));
    double high = quantile(drawn, share(z0, z0 + z, a));
    return low <= high ? Optional.of(new Estimate(estimate, low, high)) : Optional.empty();
  }

  /** Share of refits below the estimate, ties half; kept off 0 and 1. */
  private static double shareBelow(double[] drawn, double estimate) {
    double below = 0;
    for (double value : drawn) {
      below += value < estimate ? 1 : value == estimate ? 0.5 : 0;
    }
    return (below + 0.5) / (drawn.length + 1);
  }

  private static double share(double z0, double z, double a) {
    double stretch = 1 - a * z;
    return stretch > 0 ? Quantiles.normalShare(z0 + z / stretch) : Double.NaN;
  }

  private double acceleration(ToDoubleFunction<LifeDistribution> quantity) {
    double[] values = leftOut.stream().map(LeftOut::fit).mapToDouble(quantity).toArray();
    double sum = 0;
    double lives = 0;
    for (int i = 0; i < values.length; i++) {
      lives += leftOut.get(i).count();
      sum += leftOut.get(i).count() * values[i];
    }
    double squares = 0;
    double cubes = 0;
    for (int i = 0; i < values.length; i++) {
      double gap = sum / lives - values[i];
      squares += leftOut.get(i).count() * gap * gap;
      cubes += leftOut.get(i).count() * gap * gap * gap;
    }
    double a = cubes / (6 * squares * Math.sqrt(squares));
    return Math.abs(a) < Double.POSITIVE_INFINITY ? a : 0;
  }

  /** Quantile of ordered numbers, between two of them in proportion; NaN beyond the ends. */
  private static double quantile(double[] sorted, double share) {
    double place = share * (sorted.length + 1) - 1;
    if (!(place >= 0 && place <= sorted.length - 1)) {
      return Double.NaN;
    }
    int low = (int) place;
    double rest = place - low;
    return rest == 0 || sorted[low] == sorted[low + 1]
        ? sorted[low]
        : (1 - rest) * sorted[low] + rest * sorted[low + 1];
  }
}
