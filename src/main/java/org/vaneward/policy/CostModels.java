package org.vaneward.policy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeModel;

/**
 * Cost models from a fleet's settings and life models.
 *
 * <p>A planned rebuild costs its labour, downtime and parts; an unplanned stop the labour, downtime
 * and clean-up of the component that failed, and the parts: all of them when the pump is then
 * rebuilt in full, the failed one and what every opening uses up when it is only mended. Labour and
 * downtime of a stop are those stated, whatever is done then. A visit to the site is no part of it:
 * the calendar counts visits, for rebuilds may share one.
 */
public final class CostModels {
  private CostModels() {}

  /** A cost model, or why there is none. */
  public sealed interface Outcome permits Available, NotAvailable {
    /** What is not known and therefore left out, one sentence each. */
    List<String> notKnown();
  }

  /**
   * A cost model.
   *
   * @param model the model, with what is believed of each life
   * @param parts what the parts of a rebuild cost, and how they are bought
   * @param lives the life models it rests on
   * @param notKnown what is left out for want of knowledge
   */
  public record Available(
      DrawnCostModel model, PartsCost parts, List<LifeModel> lives, List<String> notKnown)
      implements Outcome {
    public Available {
      lives = List.copyOf(lives);
      notKnown = List.copyOf(notKnown);
    }
  }

  /**
   * No cost model.
   *
   * @param reason why, a clause
   * @param notKnown what else is not known
   */
  public record NotAvailable(String reason, List<String> notKnown) implements Outcome {
    public NotAvailable {
      notKnown = List.copyOf(notKnown);
    }
  }

  /**
   * The cost model of pumps of one model in one service.
   *
   * @param model the pumps' model label; empty when not on record
   * @param service what they do; empty when not on record
   * @param lives where to find life models
   */
  public static Outcome forService(
      FleetSettings settings, Optional<String> model, Optional<Service> service, LifeLookup lives) {
    return new Builder(settings, model, service, lives).build();
  }

  private static final class Builder {
    private final FleetSettings settings;
    private final Optional<String> model;
    private final Optional<Service> service;
    private final LifeLookup lookup;
    private final PartsCost parts;
    private final List<DrawnRisk> risks = new ArrayList<>();
    private final List<LifeModel> lives = new ArrayList<>();
    private final List<String> notKnown = new ArrayList<>();
    private final List<String> missing = new ArrayList<>();

    Builder(
        FleetSettings settings,
        Optional<String> model,
        Optional<Service> service,
        LifeLookup lookup) {
      this.settings = settings;
      this.model = model;
      this.service = service;
      this.lookup = lookup;
      this.parts = PartsCost.of(settings, model);
    }

    Outcome build() {
      if (settings.needs().isEmpty()) {
        notKnown.add("fleet.json has no needs: parts are left out of the cost of every rebuild");
      }
      for (String part : parts.unpriced()) {
        notKnown.add(part + " has no price: it is left out of the cost of every rebuild");
      }
      double planned = settings.costs().planned().total() + parts.cost();
      if (!(planned > 0)) {
        missing.add("a planned rebuild has no cost in fleet.json (costs.planned, kits, parts)");
      }
      settings.components().forEach(this::add);
      if (!missing.isEmpty()) {
        return new NotAvailable(String.join("; ", missing), notKnown);
      }
      if (risks.isEmpty()) {
        return new NotAvailable("no component has a known life and a known cost", notKnown);
      }
      return new Available(new DrawnCostModel(planned, risks), parts, lives, notKnown);
    }

    private void add(Component component) {
      String name = component.component();
      Optional<LifeModel> found = lookup.find(name, service);
      if (found.isEmpty()) {
        notKnown.add("no failure of " + name + " is on record anywhere: its risk is left out");
        return;
      }
      if (component.announces()) {
        addAnnouncing(component, found.get());
      } else {
        addHidden(component, found.get());
      }
    }

    private void addAnnouncing(Component component, LifeModel life) {
      String name = component.component();
      Map<String, OpeningCost> unplanned = settings.costs().unplanned();
      OpeningCost cost = unplanned.getOrDefault(name, new OpeningCost(0, 0, 0));
      if (!(cost.total() > 0)) {
        missing.add(
            "fleet.json has no cost of an unplanned stop by " + name + " (costs.unplanned)");
        return;
      }
      lives.add(life);
      PartsCost mend = PartsCost.ofMending(settings, model, component);
      for (String position : component.positions()) {
        risks.add(
            new DrawnRisk(
                position,
                name,
                life.draws(),
                cost.total() + parts.cost(),
                cost.total() + mend.cost(),
                true,
                0));
      }
    }

    private void addHidden(Component component, LifeModel life) {
      String name = component.component();
      double perHour = settings.costs().hiddenPerHour().getOrDefault(name, 0.0);
      if (!(perHour > 0)) {
        notKnown.add(
            "fleet.json has no cost of running on failed "
                + name
                + " (costs.hidden): it is left out of the cost");
      } else if (settings.clock() == Clock.DAYS) {
        // Ages are in days, and how many hours of a day the pump runs is not known here.
        notKnown.add(
            String.format(
                Locale.ROOT,
                "ages are in days: the cost of running on failed %s is counted for 24 hours a day",
                name));
        perHour *= 24;
      }
      lives.add(life);
      for (String position : component.positions()) {
        risks.add(new DrawnRisk(position, name, life.draws(), 0, 0, false, perHour));
      }
    }
  }
}
