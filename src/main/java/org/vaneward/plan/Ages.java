package org.vaneward.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The age of the part in each position. Where its fitting is not on record, it is taken as old as
 * the running since the last full rebuild, which renews every position; else as the running since
 * the records begin, for none of them renews it, so it is at least that old. Each such assumption
 * is put into words.
 */
public final class Ages {
  private final PumpNow pump;
  private final Usage usage;
  private final Map<String, OptionalDouble> known = new LinkedHashMap<>();
  private final Map<String, String> assumptions = new LinkedHashMap<>();

  /** The ages of the parts in {@code pump}. */
  public Ages(PumpNow pump, Usage usage) {
    this.pump = pump;
    this.usage = usage;
    for (PartNow part : pump.parts()) {
      known.put(part.position(), part.ageHours());
    }
  }

  /** The age at {@code position}; empty when nothing is known to take it from. */
  public OptionalDouble at(String position) {
    OptionalDouble age = known.getOrDefault(position, OptionalDouble.empty());
    return age.isPresent() ? age : assumed(position);
  }

  /** Ages at all of {@code positions}; empty when one of them is not known. */
  public Optional<List<Double>> at(List<String> positions) {
    List<Double> ages = new ArrayList<>();
    for (String position : positions) {
      OptionalDouble age = at(position);
      if (age.isEmpty()) {
        return Optional.empty();
      }
      ages.add(age.getAsDouble());
    }
    return Optional.of(ages);
  }

  /** What was assumed so far, one sentence for each position. */
  public List<String> assumptions() {
    return List.copyOf(assumptions.values());
  }

  private OptionalDouble assumed(String position) {
    OptionalDouble sinceRebuild = pump.hoursSinceRebuild();
    if (sinceRebuild.isPresent()) {
      note(
          position,
          sinceRebuild.getAsDouble(),
          pump.lastRebuild().isPresent() ? "the last full rebuild" : "the records begin");
      return sinceRebuild;
    }
    OptionalDouble sinceStart =
        pump.inServiceSince().map(usage::since).orElse(OptionalDouble.empty());
    sinceStart.ifPresent(age -> note(position, age, "the records begin"));
    return sinceStart;
  }

  private void note(String position, double age, String since) {
    assumptions.put(
        position,
        "the age of "
            + position
            + " is not on record: taken as "
            + Words.amount(age, usage.unit())
            + ", the running since "
            + since);
  }
}
