package org.vaneward.life;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Trigger;

/** The positions of every pump of a fleet, numbered in the order of the settings. */
final class PositionIndex {
  private final List<String> names = new ArrayList<>();
  private final List<Component> components = new ArrayList<>();
  private final Map<String, Integer> numbers = new HashMap<>();
  private final Map<String, Set<Trigger>> triggers = new HashMap<>();
  private final KitCoverage kits;

  PositionIndex(FleetSettings settings) {
    kits = new KitCoverage(settings.kits());
    for (Component component : settings.components()) {
      triggers.put(component.component(), matching(component));
      for (String position : component.positions()) {
        numbers.put(position, names.size());
        names.add(position);
        components.add(component);
      }
    }
  }

  int size() {
    return names.size();
  }

  String name(int position) {
    return names.get(position);
  }

  Component component(int position) {
    return components.get(position);
  }

  /** Number of a position, or -1. */
  int numberOf(String name) {
    return numbers.getOrDefault(name, -1);
  }

  KitCoverage kits() {
    return kits;
  }

  /** Whether a trigger points at a component. */
  boolean matches(Trigger trigger, Component component) {
    return triggers.getOrDefault(component.component(), Set.of()).contains(trigger);
  }

  /** The component's own triggers, else those of its name. */
  private static Set<Trigger> matching(Component component) {
    if (!component.triggers().isEmpty()) {
      return component.triggers();
    }
    return switch (component.component().toLowerCase(Locale.ROOT)) {
      case "seal", "seals" -> Set.of(Trigger.LEAK);
      case "bearing", "bearings" -> Set.of(Trigger.NOISE, Trigger.SEIZED);
      case "vane", "vanes" -> Set.of(Trigger.LOW_FLOW);
      default -> Set.of();
    };
  }
}
