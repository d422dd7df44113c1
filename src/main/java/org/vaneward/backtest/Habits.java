package org.vaneward.backtest;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Service;
import org.vaneward.life.Life;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Lives;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.life.PumpState;
import org.vaneward.policy.ShopPractice;

/**
 * How the shop works, as its records show: when it plans, what it does at a stop, when it fits a
 * kit, how often it notices a failure that does not announce itself. Shares of few cases lean
 * towards a half by one case (the prior of Jeffreys).
 */
final class Habits {
  private final List<PumpState> states;
  private final Openings openings;
  private final ShopPractice whole;
  private final Map<Optional<Service>, double[]> intervals = new HashMap<>();

  /** Chance that a stop brings a full rebuild. */
  final double fullAtStop;

  /** Chance of a kit at a planned rebuild, a full rebuild after a stop, a mended stop. */
  final double kitPlanned;

  final double kitFull;
  final double kitMended;
  private final Map<String, Double> noticed = new HashMap<>();

  Habits(Lives lives, Openings openings) {
    this.states = lives.pumps();
    this.openings = openings;
    this.whole = ShopPractice.of(states, openings.all());
    Share full = new Share();
    Share planned = new Share();
    Share stopped = new Share();
    Share mended = new Share();
    for (OpeningMade opening : openings.all()) {
      boolean kit = openings.usedKit(opening);
      if (opening.reason() == Reason.PLANNED) {
        planned.add(kit);
      } else if (openings.isStop(opening)) {
        full.add(opening.full());
        (opening.full() ? stopped : mended).add(kit);
      }
    }
    fullAtStop = full.share();
    kitPlanned = planned.share();
    kitFull = stopped.share();
    kitMended = mended.share();
    Map<String, Share> noticing = new HashMap<>();
    for (Life life : lives.lives()) {
      if (life.hasFailed()) {
        noticing
            .computeIfAbsent(life.component(), c -> new Share())
            .add(life.end() instanceof LifeEnd.Failed);
      }
    }
    noticing.forEach((component, share) -> noticed.put(component, share.share()));
  }

  /** So many of so many. */
  private static final class Share {
    private int yes;
    private int all;

    void add(boolean one) {
      all++;
      yes += one ? 1 : 0;
    }

    double share() {
      return (yes + 0.5) / (all + 1);
    }
  }

  /** Chance that a failure of a component that does not announce it is noticed at once. */
  double noticed(String component) {
    return noticed.getOrDefault(component, 0.5);
  }

  /**
   * Intervals at which pumps of a service are planned, each as likely as another, in rising order;
   * those of the whole fleet where the service has few openings. Infinite where none is.
   */
  double[] intervals(Optional<Service> service) {
    return intervals.computeIfAbsent(service, this::practice);
  }

  private double[] practice(Optional<Service> service) {
    ShopPractice own =
        ShopPractice.of(
            states.stream().filter(s -> s.service().equals(service)).toList(), openings.all());
    List<Double> found = (own.enough() ? own : whole).intervals();
    return found.stream().mapToDouble(Double::doubleValue).sorted().toArray();
  }

  /**
   * The interval by which half of the shop's planned runs had ended; empty when none is planned.
   */
  OptionalDouble usualInterval() {
    double[] finite =
        whole.intervals().stream()
            .mapToDouble(Double::doubleValue)
            .filter(x -> x < Double.POSITIVE_INFINITY)
            .toArray();
    return finite.length == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(finite[finite.length / 2]);
  }
}
