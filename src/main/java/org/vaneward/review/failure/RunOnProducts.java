package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.vaneward.fleet.Service;
import org.vaneward.life.Life;
import org.vaneward.life.Life.LifeSpan;
import org.vaneward.stats.recurrence.EventHistories;

/**
 * Each pump's failures of one component by its running on a product: a unit is an unbroken stretch
 * of a pump on a product, its age the running since the stretch began or the records started.
 */
final class RunOnProducts {
  /** Counts this close are the same: what subtraction leaves. */
  private static final double SAME = 1e-6;

  private final Map<String, List<Unit>> units = new TreeMap<>();

  /** A pump on a product from one count to another. */
  private static final class Unit {
    private final double from;
    private double to;
    private final List<Double> failures = new ArrayList<>();

    Unit(double from, double to) {
      this.from = from;
      this.to = to;
    }
  }

  private record Span(double from, double to) {}

  RunOnProducts(List<Life> lives, String component) {
    Map<String, Map<String, List<Span>>> spans = new HashMap<>();
    Map<String, Map<String, List<Double>>> failures = new HashMap<>();
    for (Life life : lives) {
      if (life.component().equals(component)) {
        for (LifeSpan span : life.spans()) {
          at(spans, product(span), life.pump())
              .add(
                  new Span(
                      life.fittedAtCount() + span.fromAge(), life.fittedAtCount() + span.toAge()));
        }
        if (life.hasFailed()) {
          LifeSpan last = life.spans().get(life.spans().size() - 1);
          at(failures, product(last), life.pump()).add(life.fittedAtCount() + life.end().age());
        }
      }
    }
    spans.forEach(
        (product, byPump) ->
            byPump.forEach(
                (pump, list) ->
                    units
                        .computeIfAbsent(product, p -> new ArrayList<>())
                        .addAll(stretches(list, at(failures, product, pump)))));
  }

  private static String product(LifeSpan span) {
    return span.service().map(Service::product).orElse("");
  }

  private static <T> List<T> at(Map<String, Map<String, List<T>>> map, String one, String other) {
    return map.computeIfAbsent(one, k -> new TreeMap<>())
        .computeIfAbsent(other, k -> new ArrayList<>());
  }

  private static List<Unit> stretches(List<Span> spans, List<Double> failures) {
    spans.sort(Comparator.comparingDouble(Span::from));
    List<Unit> units = new ArrayList<>();
    for (Span span : spans) {
      Unit last =
          units.isEmpty() ? new Unit(0, Double.NEGATIVE_INFINITY) : units.get(units.size() - 1);
      if (span.from() > last.to + SAME) {
        units.add(new Unit(span.from(), span.to()));
      } else {
        last.to = Math.max(last.to, span.to());
      }
    }
    for (double failure : failures) {
      units.stream()
          .filter(u -> failure > u.from && failure <= u.to + SAME)
          .findFirst()
          .ifPresent(u -> u.failures.add(Math.min(failure, u.to)));
    }
    return units;
  }

  /** The pumps on one product. */
  EventHistories on(String product) {
    return histories(units.getOrDefault(product, List.of()));
  }

  /** The pumps on all products but one. */
  EventHistories elsewhere(String product) {
    List<Unit> others = new ArrayList<>();
    units.forEach(
        (name, list) -> {
          if (!name.equals(product)) {
            others.addAll(list);
          }
        });
    return histories(others);
  }

  private static EventHistories histories(List<Unit> units) {
    EventHistories.Builder builder = EventHistories.builder();
    for (Unit unit : units) {
      if (unit.to > unit.from) {
        builder.addUnit(
            0,
            unit.failures.stream().mapToDouble(at -> at - unit.from).toArray(),
            unit.to - unit.from);
      }
    }
    return builder.truncation(EventHistories.Truncation.TIME).build();
  }
}
