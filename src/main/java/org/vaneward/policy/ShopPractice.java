package org.vaneward.policy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.life.PumpState;
import org.vaneward.stats.Observations;
import org.vaneward.stats.nonparametric.ProductLimit;

/**
 * What a shop does with some of its pumps, as its records show it.
 *
 * <p>Pumps run from full rebuild to full rebuild. A run that a failure or the day of record ended
 * would have gone on to a planned rebuild later, so the intervals at which the shop plans are the
 * product-limit estimate with such runs censored; what it leaves over is pumps that get none. Runs
 * whose start is not on record count towards hours and openings only.
 *
 * @param pumps pumps with such records
 * @param hours running observed, in the fleet's clock
 * @param planned planned rebuilds
 * @param stops unplanned stops, by component; blank where the records do not say which
 * @param fullAtStop unplanned stops that became a full rebuild
 * @param intervals intervals at which rebuilds are planned, at {@value #POINTS} even shares;
 *     infinite where none is
 */
public record ShopPractice(
    int pumps,
    double hours,
    int planned,
    Map<String, Integer> stops,
    int fullAtStop,
    List<Double> intervals) {
  /** Shares of the intervals given. */
  public static final int POINTS = 40;

  /** Openings below which a group says too little of a practice. */
  public static final int ENOUGH_OPENINGS = 10;

  public ShopPractice {
    stops = Map.copyOf(stops);
    intervals = List.copyOf(intervals);
  }

  /**
   * The practice with some pumps.
   *
   * @param states the pumps
   * @param openings their openings, others left out
   */
  public static ShopPractice of(List<PumpState> states, List<OpeningMade> openings) {
    Map<String, List<OpeningMade>> byPump = new TreeMap<>();
    states.forEach(state -> byPump.put(state.pump(), new ArrayList<>()));
    for (OpeningMade opening : openings) {
      Optional.ofNullable(byPump.get(opening.pump())).ifPresent(list -> list.add(opening));
    }
    Tally tally = new Tally();
    for (PumpState state : states) {
      tally.pump(state, byPump.getOrDefault(state.pump(), List.of()));
    }
    return new ShopPractice(
        states.size(),
        tally.hours,
        tally.planned,
        tally.stops,
        tally.fullAtStop,
        tally.intervals());
  }

  /** Unplanned stops. */
  public int unplanned() {
    return stops.values().stream().mapToInt(Integer::intValue).sum();
  }

  /** Whether there are openings enough to speak of a practice. */
  public boolean enough() {
    return planned + unplanned() >= ENOUGH_OPENINGS;
  }

  /** Share of unplanned stops that became a full rebuild; 1 when there was none. */
  public double fullShare() {
    return unplanned() == 0 ? 1 : (double) fullAtStop / unplanned();
  }

  /** Interval by which the share {@code p} of runs gets a planned rebuild; empty when less do. */
  public OptionalDouble intervalQuantile(double p) {
    double found = intervals.get((int) Math.min(POINTS - 1L, Math.round(p * POINTS - 0.5)));
    return found < Double.POSITIVE_INFINITY ? OptionalDouble.of(found) : OptionalDouble.empty();
  }

  /** Share of runs that no planned rebuild would end. */
  public double neverShare() {
    return (double) intervals.stream().filter(x -> x == Double.POSITIVE_INFINITY).count() / POINTS;
  }

  /** The rule this comes to; empty when pumps are never rebuilt in full. */
  public Optional<Policy> rule() {
    Policy rule = new Policy.Practice(intervals, fullShare());
    return rule.rebuildsInTheEnd() ? Optional.of(rule) : Optional.empty();
  }

  private static final class Tally {
    private final Observations.Builder runs = Observations.builder();
    private final Map<String, Integer> stops = new TreeMap<>();
    private double hours;
    private int planned;
    private int fullAtStop;

    void pump(PumpState state, List<OpeningMade> openings) {
      for (OpeningMade opening : openings) {
        count(opening);
        if (opening.full() && opening.sinceRebuild().isPresent()) {
          ends(
              opening.sinceRebuild().getAsDouble(),
              opening.fromNew(),
              opening.reason() == Reason.PLANNED);
        }
      }
      state.ageSinceFullRebuild().ifPresent(age -> ends(age, state.countsFromNew(), false));
    }

    private void count(OpeningMade opening) {
      if (opening.reason() == Reason.PLANNED) {
        planned++;
      } else if (opening.reason() == Reason.STOP) {
        stops.merge(opening.stoppedBy().orElse(""), 1, Integer::sum);
        fullAtStop += opening.full() ? 1 : 0;
      }
    }

    private void ends(double length, boolean fromNew, boolean asPlanned) {
      hours += length;
      if (!fromNew || !(length > 0)) {
        return;
      }
      if (asPlanned) {
        runs.addFailure(0, length, 1);
      } else {
        runs.addRightCensored(0, length, 1);
      }
    }

    List<Double> intervals() {
      Observations all = runs.build();
      double[] at = new double[POINTS];
      Arrays.fill(at, Double.POSITIVE_INFINITY);
      if (all.failures() > 0) {
        int i = 0;
        for (ProductLimit.Point point : ProductLimit.of(all, 0.9).points()) {
          while (i < POINTS && 1 - point.survival() >= (i + 0.5) / POINTS - 1e-12) {
            at[i++] = point.age();
          }
        }
      }
      return Arrays.stream(at).boxed().toList();
    }
  }
}
