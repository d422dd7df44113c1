package org.vaneward.policy;

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
    Window window = new Window(from(hours, cost), to(hours, cost, toFailure));
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

  private double ceiling(double cost) {
    return (1 + WINDOW_SHARE) * cost;
  }

  /** Walks down from {@code hours} to where the cost first exceeds the window's. */
  private double from(double hours, double cost) {
    double inside = hours;
    for (int j = edges.length - 1; j >= 0; j--) {
      if (edges[j] < hours) {
        if (rate.costPerHour(edges[j]) > ceiling(cost)) {
          return crossing(cost, edges[j], inside);
        }
        inside = edges[j];
      }
    }
    // Below the first edge the planned cost alone is spread over ever fewer hours.
    return rate.model().plannedCost() / ceiling(cost);
  }

  private OptionalDouble to(double hours, double cost, double toFailure) {
    double inside = hours;
    for (double edge : edges) {
      if (edge > hours) {
        if (rate.costPerHour(edge) > ceiling(cost)) {
          return OptionalDouble.of(crossing(cost, inside, edge));
        }
        inside = edge;
      }
    }
    return toFailure > ceiling(cost) ? OptionalDouble.of(beyond(cost)) : OptionalDouble.empty();
  }

  /** Only for a pump that nothing stops, whose cost goes on rising past the last edge. */
  private double beyond(double cost) {
    double low = edges[edges.length - 1];
    double high = 2 * low;
    while (rate.costPerHour(high) <= ceiling(cost) && high < Double.MAX_VALUE / 4) {
      high *= 2;
    }
    return crossing(cost, low, high);
  }

  private double crossing(double cost, double low, double high) {
    return Roots.between(t -> rate.costPerHour(t) - ceiling(cost), low, high).orElse(high);
  }

  /** Running to failure is cheapest outright: its window is where the curve has come near it. */
  private Optional<Window> openEnd() {
    double last = edges[edges.length - 1];
    return Optional.of(
        new Window(from(last, rate.runToFailureCostPerHour()), OptionalDouble.empty()));
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
