package org.vaneward.life;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Kit;

/**
 * Which components a kit renews.
 *
 * <p>A kit covers a component when it holds a part of the component's name; upper and lower case
 * and a final plural {@code s} make no difference, so {@code vane} in a kit is for the component
 * {@code vanes}. One part is enough for all positions: a kit that holds fewer than the pump has is
 * topped up with loose parts. A kit that the fleet's settings do not list is taken to cover every
 * component.
 */
public final class KitCoverage {
  private final Map<String, Kit> kits = new HashMap<>();

  /** The coverage of the given kits. */
  public KitCoverage(List<Kit> kits) {
    kits.forEach(kit -> this.kits.put(kit.kit(), kit));
  }

  /** Whether the kit of the given number renews a component. */
  public boolean covers(String kitNumber, Component component) {
    Optional<Kit> kit = Optional.ofNullable(kits.get(kitNumber));
    return kit.isEmpty() || covers(kit.get(), component);
  }

  /** Whether the settings list a kit of the given number. */
  public boolean lists(String kitNumber) {
    return kits.containsKey(kitNumber);
  }

  /** Whether a kit holds parts for a component. */
  public static boolean covers(Kit kit, Component component) {
    return kit.contents().entrySet().stream()
        .anyMatch(part -> part.getValue() > 0 && isPartOf(part.getKey(), component));
  }

  /** Whether a part name, as kits, prices and needs use it, means the part of a component. */
  public static boolean isPartOf(String part, Component component) {
    return singular(part).equals(singular(component.component()));
  }

  private static String singular(String name) {
    String lower = name.strip().toLowerCase(Locale.ROOT);
    return lower.length() > 1 && lower.endsWith("s")
        ? lower.substring(0, lower.length() - 1)
        : lower;
  }
}
