package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.PumpState;
import org.vaneward.stats.renewal.CountDistribution;

/**
 * What the rivals forecast from the same records. Each knows its rate by a gamma distribution with
 * half an event to begin with, so that its forecast is as wide as the events it rests on allow.
 */
final class Rivals {
  private static final double UNKNOWN = 0.5;
  private static final double DAYS_PER_YEAR = 365.25;

  private final Then then;
  private final List<PumpThen> pumps;
  private final double ahead;

  private Rivals(Then then, List<PumpThen> pumps) {
    this.then = then;
    this.pumps = pumps;
    this.ahead = pumps.stream().mapToDouble(p -> p.ahead).sum();
  }

  /**
   * Forecasts by rival; the fixed interval is missing where none is given and the shop has planned
   * no rebuild.
   *
   * @param fixedInterval in the fleet's clock; empty for the shop's own by habit
   */
  static Map<Rival, Forecast> of(Then then, List<PumpThen> pumps, OptionalDouble fixedInterval) {
    Rivals rivals = new Rivals(then, pumps);
    Map<Rival, Forecast> all = new EnumMap<>(Rival.class);
    all.put(Rival.FLEET_RATE, rivals.fleetRate());
    double interval =
        fixedInterval.isPresent()
            ? fixedInterval.getAsDouble()
            : then.habits().usualInterval().orElse(Double.POSITIVE_INFINITY);
    if (interval < Double.POSITIVE_INFINITY) {
      all.put(Rival.FIXED_INTERVAL, rivals.fixedInterval(interval));
    }
    all.put(Rival.LAST_YEAR, rivals.lastYear());
    return all;
  }

  /** Events seen in an exposure. */
  private record Rate(double events, double exposure) {
    CountDistribution in(double ahead) {
      return CountDistribution.gammaPoisson(events + UNKNOWN, exposure, ahead);
    }

    /** Log of the chance of none. */
    double logNone(double ahead) {
      return -(events + UNKNOWN) * Math.log1p(ahead / exposure);
    }
  }

  private Forecast fleetRate() {
    Rate rate = rate(0, Double.POSITIVE_INFINITY);
    List<Double> chances = new ArrayList<>();
    pumps.forEach(p -> chances.add(-Math.expm1(rate.logNone(p.ahead))));
    return new Forecast(rate.in(ahead), chances);
  }

  private Forecast fixedInterval(double interval) {
    Rate before = rate(0, interval);
    Rate seen = rate(interval, Double.POSITIVE_INFINITY);
    // Before anyone has run past it, running past it looks like any other.
    Rate past = seen.exposure > 0 ? seen : before;
    double young = 0;
    List<Double> chances = new ArrayList<>();
    for (PumpThen pump : pumps) {
      double left = Math.min(Math.max(interval - pump.sinceRebuild, 0), pump.ahead);
      young += left;
      chances.add(-Math.expm1(before.logNone(left) + past.logNone(pump.ahead - left)));
    }
    return new Forecast(before.in(young).plus(past.in(Math.max(0, ahead - young))), chances);
  }

  /** Stops, and running, between two ages since the last full rebuild. */
  private Rate rate(double from, double to) {
    double events = 0;
    double exposure = 0;
    for (OpeningMade opening : then.openings().all()) {
      if (opening.sinceRebuild().isPresent()) {
        double age = opening.sinceRebuild().getAsDouble();
        events += then.openings().isStop(opening) && age >= from && age < to ? 1 : 0;
        exposure += opening.full() ? between(age, from, to) : 0;
      }
    }
    for (PumpState state : then.lives().pumps()) {
      exposure += between(state.ageSinceFullRebuild().orElse(0), from, to);
    }
    return new Rate(events, exposure);
  }

  private static double between(double age, double from, double to) {
    return Math.max(0, Math.min(age, to) - from);
  }

  private Forecast lastYear() {
    LocalDate since = then.span().origin().minusYears(1);
    Map<String, Integer> stops = new HashMap<>();
    for (OpeningMade opening : then.openings().all()) {
      if (then.openings().isStop(opening) && opening.date().isAfter(since)) {
        stops.merge(opening.pump(), 1, Integer::sum);
      }
    }
    int events = 0;
    for (PumpThen pump : pumps) {
      events += stops.getOrDefault(pump.pump, 0);
    }
    double share = then.span().days() / DAYS_PER_YEAR;
    // Each pump by its own year, leaning on the fleet's mean by as much as half a stop weighs.
    double weight = UNKNOWN * pumps.size() / (events + UNKNOWN);
    List<Double> chances = new ArrayList<>();
    for (PumpThen pump : pumps) {
      Rate own = new Rate(stops.getOrDefault(pump.pump, 0), weight + 1);
      chances.add(-Math.expm1(own.logNone(share)));
    }
    return new Forecast(new Rate(events, 1).in(share), chances);
  }
}
