package org.vaneward.policy;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.numeric.Roots;

/**
 * The interval of least long-run cost.
 *
 * <p>Every place where the slope turns from falling to rising between panel edges is refined and
 * the cheapest taken, so a curve of several valleys is searched whole; running to failure is always
 * among the choices.
 */
public final class IntervalSearch {
  /** Cost above the least that the window allows. */
  public static final double WINDOW_SHARE = 0.02;

  /** Saving, as a share of the run-to-failure cost, below which no interval is advised. */
  public static final double LEAST_SAVING = 1e-9;

  private final CostRate rate;
  private final double[] edges;

  private IntervalSearch(CostRate rate) {
    this.rate = rate;
    this.edges = rate.run().edges();
  }

  /** The advice for {@code model}. */
  public static IntervalAdvice best(CostModel model) {
    return best(CostRate.of(model));
  }

  /** The advice for the model of {@code rate}. */
  public static IntervalAdvice best(CostRate rate) {
    return new IntervalSearch(rate).search();
  }

  private IntervalAdvice search() {
    double toFailure = rate.runToFailureCostPerHour();
    OptionalDouble cheapest = cheapestValley();
    if (cheapest.isEmpty()) {
      return none(toFailure, Optional.empty());
    }
    double hours = cheapest.getAsDouble();
    double cost = rate.costPerHour(hours);
    if (!(toFailure - cost >= LEAST_SAVING * toFailure)) {
      return none(toFailure, openEnd());
    }
    Window window = window(hours, cost, toFailure);
    return new IntervalAdvice(
        OptionalDouble.of(hours),
        cost,
        toFailure,
        Optional.of(window),
        rate.run().survival(hours),
        Optional.empty());
  }

  private IntervalAdvice none(double toFailure, Optional<Window> window) {
    return new IntervalAdvice(
        OptionalDouble.empty(), toFailure, toFailure, window, 0, Optional.of(reason()));
  }

  private OptionalDouble cheapestValley() {
    double best = Double.NaN;
    double least = Double.POSITIVE_INFINITY;
    double before = rate.slopeSign(edges[0]);
    for (int j = 1; j < edges.length; j++) {
      double here = rate.slopeSign(edges[j]);
      if (before < 0 && here >= 0) {
        double at = Roots.between(rate::slopeSign, edges[j - 1], edges[j]).orElse(edges[j]);
        double cost = rate.costPerHour(at);
        if (cost < least) {
          least = cost;
          best = at;
        }
      }
      before = here;
    }
    return Double.isNaN(best) ? OptionalDouble.empty() : OptionalDouble.of(best);
  }

  private Window window(double hours, double cost, double toFailure) {
    double[] value = Arrays.stream(edges).map(rate::costPerHour).toArray();
    return new CostWindow(rate::costPerHour, edges, value, (1 + WINDOW_SHARE) * cost)
        .around(hours, rate.model().plannedCost(), toFailure);
  }

  /** Running to failure is cheapest outright: its window is where the curve has come near it. */
  private Optional<Window> openEnd() {
    double never = rate.runToFailureCostPerHour();
    double from = window(edges[edges.length - 1], never, never).fromHours();
    return Optional.of(new Window(from, OptionalDouble.empty()));
  }

  private NoInterval reason() {
    var positions = rate.model().positions();
    double planned = rate.model().plannedCost();
    boolean anyHidden = positions.stream().anyMatch(r -> r.hiddenCostPerHour() > 0);
    boolean anyDearer =
        positions.stream().anyMatch(r -> r.announces() && r.unplannedCost() > planned);
    boolean anyRises = positions.stream().anyMatch(r -> r.announces() && Ageing.rises(r.life()));
    if (anyDearer && !anyRises) {
      return NoInterval.HAZARDS_DO_NOT_RISE;
    }
    return anyDearer || anyHidden ? NoInterval.SAVING_NEGLIGIBLE : NoInterval.STOPS_COST_NO_MORE;
  }
}
