package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.PartsCost;

/**
 * What the pumps due in the next 90 days take: each a full rebuild, bought the cheapest way.
 *
 * @param pumps the pumps due, in the plan's order
 * @param kits kits by number, sorted
 * @param loose loose parts by name, sorted
 * @param cost price of those that have one
 * @param unpriced parts needed loose that have no price, sorted
 */
record DueParts(
    List<PumpPlan> pumps,
    Map<String, Draw> kits,
    Map<String, Draw> loose,
    double cost,
    List<String> unpriced) {

  /**
   * How many of something.
   *
   * @param number how many
   * @param first day the first is needed
   */
  record Draw(int number, LocalDate first) {
    static Draw merge(Draw a, Draw b) {
      return new Draw(a.number + b.number, a.first.isBefore(b.first) ? a.first : b.first);
    }
  }

  /**
   * A line of the list.
   *
   * @param item kit number or part name
   * @param kit whether it is a kit
   * @param holds what a kit holds; {@code "loose"} for a part
   * @param draw how many
   * @param price of one; empty when it has none
   * @param leadTimeDays days from order to shelf; empty without a price
   */
  record Line(
      String item,
      boolean kit,
      String holds,
      Draw draw,
      Optional<Double> price,
      Optional<Integer> leadTimeDays) {
    /** {@code "kit SK-6"}, {@code "gasket"}. */
    String name() {
      return kit ? "kit " + item : item;
    }

    Optional<Double> together() {
      return price.map(p -> p * draw.number());
    }
  }

  DueParts {
    pumps = List.copyOf(pumps);
    kits = Collections.unmodifiableMap(kits);
    loose = Collections.unmodifiableMap(loose);
    unpriced = List.copyOf(unpriced);
  }

  /** What those of {@code plans} that are due take. */
  static DueParts of(FleetSettings settings, List<PumpNow> pumps, List<PumpPlan> plans) {
    LocalDate asOf = settings.asOf();
    return take(settings, pumps, plans.stream().filter(p -> Urgency.of(p, asOf).isDue()).toList());
  }

  /** What a full rebuild of one pump takes, whenever it is due. */
  static DueParts ofOne(FleetSettings settings, List<PumpNow> pumps, PumpPlan plan) {
    return take(
        settings, pumps.stream().filter(p -> p.pump().equals(plan.pump())).toList(), List.of(plan));
  }

  private static DueParts take(FleetSettings settings, List<PumpNow> pumps, List<PumpPlan> due) {
    LocalDate asOf = settings.asOf();
    Map<String, Optional<String>> models = new HashMap<>();
    pumps.forEach(pump -> models.put(pump.pump(), pump.model()));
    SortedMap<String, Draw> kits = new TreeMap<>();
    SortedMap<String, Draw> loose = new TreeMap<>();
    SortedSet<String> unpriced = new TreeSet<>();
    double cost = 0;
    for (PumpPlan pump : due) {
      PartsCost parts = PartsCost.of(settings, models.getOrDefault(pump.pump(), Optional.empty()));
      LocalDate first = pump.scheduled().orElse(asOf);
      parts.kits().forEach((kit, n) -> kits.merge(kit, new Draw(n, first), Draw::merge));
      parts.looseParts().forEach((part, n) -> loose.merge(part, new Draw(n, first), Draw::merge));
      unpriced.addAll(parts.unpriced());
      cost += parts.cost();
    }
    return new DueParts(due, kits, loose, cost, List.copyOf(unpriced));
  }

  /** Kits in the order of {@code fleet.json}, then loose parts by name. */
  List<Line> lines(FleetSettings settings) {
    List<Line> lines = new ArrayList<>();
    for (Kit kit : settings.kits()) {
      Draw draw = kits.get(kit.kit());
      if (draw != null) {
        lines.add(
            new Line(
                kit.kit(),
                true,
                contents(kit),
                draw,
                Optional.of(kit.price()),
                Optional.of(kit.leadTimeDays())));
      }
    }
    Map<String, LoosePart> parts = new HashMap<>();
    settings.parts().forEach(p -> parts.put(p.part(), p));
    loose.forEach(
        (name, draw) -> {
          Optional<LoosePart> part = Optional.ofNullable(parts.get(name));
          lines.add(
              new Line(
                  name,
                  false,
                  "loose",
                  draw,
                  part.map(LoosePart::price),
                  part.map(LoosePart::leadTimeDays)));
        });
    return lines;
  }

  private static String contents(Kit kit) {
    List<String> words = new ArrayList<>();
    new TreeMap<>(kit.contents()).forEach((part, n) -> words.add(n + " " + part));
    return String.join(", ", words);
  }
}
