package org.vaneward.backtest;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.life.InstalledPart;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;
import org.vaneward.plan.PumpNow;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * Everything worked out from what was known on one day.
 *
 * @param span the half-year that was ahead
 * @param fleet the records as they stood
 * @param lives their lives
 * @param openings their openings
 * @param models what was believed of lives
 * @param pumps the pumps in service
 * @param habits how the shop worked
 */
record Then(
    Span span,
    Fleet fleet,
    Lives lives,
    Openings openings,
    ServiceModels models,
    List<PumpNow> pumps,
    Habits habits) {

  /**
   * What was known at the origin of {@code span}.
   *
   * @param asRead the records as they would have been read that day
   * @param records all records, for which pumps there were
   */
  static Then of(Fleet asRead, Fleet records, Span span, PoolingSettings pooling) {
    Fleet fleet = KnownThen.on(asRead, records, span.origin());
    Lives lives = LifeBuilder.build(fleet);
    Openings openings = new Openings(fleet, lives);
    return new Then(
        span,
        fleet,
        lives,
        openings,
        ServiceModels.of(LivesTable.of(lives), pooling),
        PumpNow.of(fleet, lives),
        new Habits(lives, openings));
  }

  FleetSettings settings() {
    return fleet.settings();
  }

  /** The first component that stops pumps and of which no life was known yet. */
  Optional<String> missing() {
    return settings().components().stream()
        .filter(FleetSettings.Component::announces)
        .map(FleetSettings.Component::component)
        .filter(c -> models.find(c, Optional.empty()).isEmpty())
        .findFirst();
  }

  /** The parts in each pump, by pump and position. */
  Map<String, Map<String, InstalledPart>> parts() {
    Map<String, Map<String, InstalledPart>> parts = new HashMap<>();
    for (InstalledPart part : lives.parts()) {
      parts.computeIfAbsent(part.pump(), p -> new HashMap<>()).put(part.position(), part);
    }
    return parts;
  }
}
