package org.vaneward.report;

import java.math.BigDecimal;
import java.util.List;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.report.Page.Stop;
import org.vaneward.report.Page.WhatIfPart;

/** Questions the page answers by itself. */
final class WhatIfSection {
  private WhatIfSection() {}

  static WhatIfPart part(FleetAnalysis analysis) {
    FleetSettings settings = analysis.fleetSettings();
    return new WhatIfPart(
        settings.currency(),
        plain(settings.costs().planned()),
        stops(settings),
        settings.limits().maxIntervalMonths().isPresent()
            ? Integer.toString(settings.limits().maxIntervalMonths().getAsInt())
            : "",
        settings.clock() == Clock.HOURS,
        PlanPacket.write(PlanInputs.of(analysis)),
        Embedded.script("what-if.js"));
  }

  private static List<Stop> stops(FleetSettings settings) {
    return settings.components().stream()
        .filter(Component::announces)
        .map(Component::component)
        .map(
            name ->
                new Stop(
                    name,
                    plain(
                        settings.costs().unplanned().getOrDefault(name, new OpeningCost(0, 0, 0)))))
        .toList();
  }

  /** A number as a form's field takes it. */
  private static String plain(OpeningCost cost) {
    return new BigDecimal(Double.toString(cost.total())).stripTrailingZeros().toPlainString();
  }
}
