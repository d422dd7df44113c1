package org.vaneward.spares;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.policy.PartsCost;

/**
 * How kits fit the openings of the pumps of one model: what they cover, what is topped up loose,
 * what is left over, and what other ways of buying would cost.
 *
 * @param model the model label; empty when not on record
 * @param pumps how many such pumps are in service
 * @param needs parts a full rebuild takes, by name
 * @param full the cheapest way to buy them
 * @param ways that and other ways: all loose, and each number of each kit
 * @param mends the cheapest way to buy for a failure that is only mended, by component
 */
public record KitFit(
    Optional<String> model,
    int pumps,
    Map<String, Integer> needs,
    PartsCost full,
    List<PartsCost> ways,
    Map<String, PartsCost> mends) {
  public KitFit {
    needs = Map.copyOf(needs);
    ways = List.copyOf(ways);
    mends = new TreeMap<>(mends);
  }

  /** One for each model in service, in order. */
  public static List<KitFit> of(FleetAhead fleet) {
    FleetSettings settings = fleet.settings;
    List<KitFit> fits = new ArrayList<>();
    for (int b = 0; b < fleet.models.size(); b++) {
      int book = b;
      Optional<String> model = fleet.models.get(b);
      Map<String, PartsCost> mends = new TreeMap<>();
      for (Component component : settings.components()) {
        if (component.announces()) {
          mends.put(component.component(), PartsCost.ofMending(settings, model, component));
        }
      }
      fits.add(
          new KitFit(
              model,
              (int) fleet.pumps.stream().filter(p -> p.book == book).count(),
              settings.needs(),
              PartsCost.of(settings, model),
              PartsCost.waysOf(settings, model),
              mends));
    }
    return fits;
  }
}
