package org.vaneward.backtest;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.policy.PartsCost;

/** What openings cost at the prices of {@code fleet.json}, parts included. */
final class Prices {
  private static final int HOURS_PER_DAY = 24;

  private final FleetSettings settings;
  private final Map<Optional<String>, Double> parts = new HashMap<>();
  private final Map<String, Double> mended = new HashMap<>();
  private final double usualStop;

  private Prices(FleetSettings settings) {
    this.settings = settings;
    this.usualStop =
        settings.costs().unplanned().values().stream()
            .mapToDouble(OpeningCost::total)
            .average()
            .orElse(0);
  }

  /** Empty where a planned rebuild or the stops of a component have no cost. */
  static Optional<Prices> of(FleetSettings settings) {
    boolean stopsCost =
        settings.components().stream()
            .filter(Component::announces)
            .map(c -> settings.costs().unplanned().get(c.component()))
            .allMatch(cost -> cost != null && cost.total() > 0);
    return settings.costs().planned().total() > 0 && stopsCost
        ? Optional.of(new Prices(settings))
        : Optional.empty();
  }

  double planned(Optional<String> model) {
    return settings.costs().planned().total() + full(model);
  }

  /** A stop by a component; the mean of the components' costs where it is not known which. */
  double stop(Optional<String> component, boolean rebuilt, Optional<String> model) {
    double work =
        component
            .map(c -> settings.costs().unplanned().get(c))
            .map(OpeningCost::total)
            .orElse(usualStop);
    return work + (rebuilt ? full(model) : mended(component, model));
  }

  /** Each hour of the fleet's clock run on an unseen failure; a day counts as 24 hours. */
  double hidden(String component) {
    double perHour = settings.costs().hiddenPerHour().getOrDefault(component, 0.0);
    return settings.clock() == Clock.DAYS ? HOURS_PER_DAY * perHour : perHour;
  }

  private double full(Optional<String> model) {
    return parts.computeIfAbsent(model, m -> PartsCost.of(settings, m).cost());
  }

  private double mended(Optional<String> component, Optional<String> model) {
    return mended.computeIfAbsent(
        component.orElse("") + "\n" + model.orElse(""),
        key ->
            settings.components().stream()
                .filter(c -> component.filter(c.component()::equals).isPresent())
                .findFirst()
                .map(c -> PartsCost.ofMending(settings, model, c).cost())
                .orElse(0.0));
  }
}
