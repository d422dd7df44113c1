package org.vaneward.report;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.PumpNow;
import org.vaneward.policy.LifeLookup;

/**
 * All that the dates and intervals of a fleet's pumps rest on: what the report's page needs to
 * answer questions by itself.
 *
 * @param settings what {@code fleet.json} says
 * @param pumps the pumps in service
 * @param lives what is believed of lives, for each component in each service of those pumps
 * @param confidence of limits, between 0 and 1
 */
public record PlanInputs(
    FleetSettings settings, List<PumpNow> pumps, List<Known> lives, double confidence) {
  public PlanInputs {
    pumps = List.copyOf(pumps);
    lives = List.copyOf(lives);
  }

  /**
   * What is believed of the life of a component in pumps of a service.
   *
   * @param component its name
   * @param service the service asked for; empty for pumps whose service is not on record
   * @param model the model that holds there, which may be that of a service never seen
   */
  public record Known(String component, Optional<Service> service, LifeModel model) {}

  /** What the plan of an analysed fleet rests on. */
  public static PlanInputs of(FleetAnalysis analysis) {
    Set<Optional<Service>> services = new LinkedHashSet<>();
    analysis.pumps().forEach(pump -> services.add(pump.service()));
    List<Known> lives = new ArrayList<>();
    for (Component component : analysis.fleetSettings().components()) {
      String name = component.component();
      for (Optional<Service> service : services) {
        analysis
            .models()
            .find(name, service)
            .ifPresent(model -> lives.add(new Known(name, service, model)));
      }
    }
    return new PlanInputs(
        analysis.fleetSettings(), analysis.pumps(), lives, analysis.settings().confidence());
  }

  /** Where decisions get these lives. */
  LifeLookup lookup() {
    return (component, service) ->
        lives.stream()
            .filter(known -> known.component().equals(component))
            .filter(known -> known.service().equals(service))
            .map(Known::model)
            .findFirst();
  }
}
