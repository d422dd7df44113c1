package org.vaneward.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Costs;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.io.BadInputException;
import org.vaneward.life.UsageRate;

/**
 * A question to a fleet: what if a rebuild cost so much, a stop so much, rebuilds were mandated so
 * often, the pumps ran so much more? What is not asked about stays as {@code fleet.json} and the
 * records say.
 *
 * @param planned labour, downtime and clean-up of a planned rebuild together, parts excluded
 * @param unplanned the same of an unplanned stop, by the component that causes it
 * @param mandatedMonths longest time allowed between rebuilds
 * @param usage running, as a multiple of what it is; 1 leaves it
 */
public record WhatIf(
    OptionalDouble planned,
    Map<String, Double> unplanned,
    OptionalInt mandatedMonths,
    double usage) {

  /** The longest mandated interval that makes sense to ask about: a century. */
  public static final int MOST_MONTHS = 1200;

  private static final OpeningCost NOTHING = new OpeningCost(0, 0, 0);

  /**
   * A question.
   *
   * @throws BadInputException when a cost is negative or not finite, the months are not 1 to
   *     {@value #MOST_MONTHS}, or the usage is not above 0 and finite; the message is for people
   */
  public WhatIf {
    unplanned = Map.copyOf(unplanned);
    planned.ifPresent(cost -> cost("a planned rebuild", cost));
    new TreeMap<>(unplanned).forEach((name, cost) -> cost("a stop by " + name, cost));
    if (mandatedMonths.isPresent()
        && (mandatedMonths.getAsInt() < 1 || mandatedMonths.getAsInt() > MOST_MONTHS)) {
      throw new BadInputException(
          "a mandated limit is 1 to " + MOST_MONTHS + " months, not " + mandatedMonths.getAsInt());
    }
    if (!(usage > 0 && usage < Double.POSITIVE_INFINITY)) {
      throw new BadInputException(
          "usage is a multiple above 0 of what it is, such as 1.2, not " + usage);
    }
  }

  private static void cost(String what, double cost) {
    if (!(cost >= 0 && cost < Double.POSITIVE_INFINITY)) {
      throw new BadInputException(what + " costs 0 or more, not " + cost);
    }
  }

  /** Nothing asked: everything as recorded. */
  public static WhatIf asRecorded() {
    return new WhatIf(OptionalDouble.empty(), Map.of(), OptionalInt.empty(), 1);
  }

  /** Whether anything is asked. */
  public boolean isAsked() {
    return !equals(asRecorded());
  }

  /**
   * The settings as the question has them.
   *
   * @throws BadInputException when a component is named that does not stop a pump, or a usage is
   *     asked of a fleet whose ages are in days; the message is for people
   */
  public FleetSettings of(FleetSettings settings) {
    check(settings);
    Map<String, OpeningCost> stops = new HashMap<>(settings.costs().unplanned());
    unplanned.forEach(
        (name, cost) -> stops.put(name, scaled(stops.getOrDefault(name, NOTHING), cost)));
    OpeningCost rebuild =
        planned.isPresent()
            ? scaled(settings.costs().planned(), planned.getAsDouble())
            : settings.costs().planned();
    return settings
        .withCosts(new Costs(rebuild, stops, settings.costs().hiddenPerHour()))
        .withLimits(
            new Limits(
                mandatedMonths.isPresent() ? mandatedMonths : settings.limits().maxIntervalMonths(),
                settings.limits().maxFailureProbability()));
  }

  private void check(FleetSettings settings) {
    List<String> known =
        settings.components().stream()
            .filter(FleetSettings.Component::announces)
            .map(FleetSettings.Component::component)
            .toList();
    for (String name : new TreeMap<>(unplanned).keySet()) {
      if (!known.contains(name)) {
        throw new BadInputException(
            "no failure of " + name + " stops a pump; those that do: " + String.join(", ", known));
      }
    }
    if (usage != 1 && settings.clock() == FleetSettings.Clock.DAYS) {
      throw new BadInputException(
          "ages of this fleet are in days, which pass whatever the pumps run: usage changes"
              + " nothing");
    }
  }

  /** The same shares of another total; all labour where nothing was stated. */
  private static OpeningCost scaled(OpeningCost cost, double total) {
    if (!(cost.total() > 0)) {
      return new OpeningCost(total, 0, 0);
    }
    double factor = total / cost.total();
    return new OpeningCost(
        cost.labour() * factor, cost.downtime() * factor, cost.cleanUp() * factor);
  }

  /** The pumps as the question has them: their usage from the day of record on. */
  public List<PumpNow> of(List<PumpNow> pumps) {
    return usage == 1 ? pumps : pumps.stream().map(this::of).toList();
  }

  private PumpNow of(PumpNow pump) {
    return pump.withUsage(
        pump.hoursPerWeek().isPresent()
            ? OptionalDouble.of(usage * pump.hoursPerWeek().getAsDouble())
            : OptionalDouble.empty(),
        pump.usage()
            .map(
                rate ->
                    new UsageRate(
                        usage * rate.perWeek(),
                        rate.blockSd().isPresent()
                            ? OptionalDouble.of(usage * rate.blockSd().getAsDouble())
                            : OptionalDouble.empty(),
                        rate.blocks())));
  }

  /** What is asked, in words for a planner; empty when nothing is. */
  public String words() {
    return String.join("; ", clauses());
  }

  private List<String> clauses() {
    List<String> clauses = new ArrayList<>();
    planned.ifPresent(
        cost -> clauses.add("a planned rebuild cost " + Words.number(cost) + " beside its parts"));
    new TreeMap<>(unplanned)
        .forEach(
            (name, cost) ->
                clauses.add(
                    "a stop by " + name + " cost " + Words.number(cost) + " beside its parts"));
    mandatedMonths.ifPresent(
        months ->
            clauses.add(
                "rebuilds were mandated every "
                    + months
                    + (months == 1 ? " month" : " months")
                    + " (a question, not a permission)"));
    if (usage != 1) {
      clauses.add("the pumps ran " + Words.number(usage) + " times what they do");
    }
    return clauses;
  }
}
