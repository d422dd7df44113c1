package org.vaneward.backtest;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.life.InstalledPart;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.Ages;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.Usage;

/** A pump at the origin of a half-year, as plain numbers. Ages and hours in the fleet's clock. */
final class PumpThen {
  final String pump;

  /** Running expected in the half-year, and its standard deviation as a share of it. */
  final double ahead;

  final double relativeSd;

  /** Running since the last full rebuild. */
  final double sinceRebuild;

  /** Intervals at which such pumps are planned, rising; infinite ones at the end. */
  final double[] intervals;

  private final Part[] parts;

  /** A position: what is believed of its life, its age, whether its failure is seen at once. */
  private record Part(LifeDraws life, double age, double seenGood, double noticed) {}

  private PumpThen(
      PumpNow pump, double ahead, double relativeSd, double[] intervals, List<Part> parts) {
    this.pump = pump.pump();
    this.ahead = ahead;
    this.relativeSd = relativeSd;
    this.sinceRebuild = pump.hoursSinceRebuild().orElse(0);
    this.intervals = intervals;
    this.parts = parts.toArray(Part[]::new);
  }

  /** Empty where the running ahead or the age of a part is not known. */
  static Optional<PumpThen> of(Then then, PumpNow pump, Map<String, InstalledPart> installed) {
    Usage usage = Usage.of(then.settings(), pump);
    double days = then.span().days();
    OptionalDouble ahead = usage.within(days);
    if (ahead.isEmpty()) {
      return Optional.empty();
    }
    Ages ages = new Ages(pump, usage);
    List<Part> parts = new ArrayList<>();
    for (Component component : then.settings().components()) {
      Optional<LifeModel> life = then.models().find(component.component(), pump.service());
      for (String position : component.positions()) {
        OptionalDouble age = ages.at(position);
        if (life.isPresent() && age.isEmpty()) {
          return Optional.empty();
        }
        if (life.isPresent()) {
          double seen =
              Optional.ofNullable(installed.get(position))
                  .map(InstalledPart::lastGoodAge)
                  .orElse(OptionalDouble.empty())
                  .orElse(age.getAsDouble());
          parts.add(
              new Part(
                  life.get().draws(),
                  age.getAsDouble(),
                  component.announces() ? age.getAsDouble() : seen,
                  component.announces() ? 1 : then.habits().noticed(component.component())));
        }
      }
    }
    return Optional.of(
        new PumpThen(
            pump,
            ahead.getAsDouble(),
            usage.relativeSd(days),
            then.habits().intervals(pump.service()),
            parts));
  }

  int parts() {
    return parts.length;
  }

  /**
   * Running until the part in position {@code k} stops the pump: the age reached counts, and so
   * does that a part nobody has looked at may have failed unseen already. Infinite when its failure
   * is not noticed.
   */
  double firstStop(int k, int draw, SplittableRandom random) {
    Part part = parts[k];
    double reached = part.life.cumulativeHazard(draw, part.age);
    if (part.noticed < 1) {
      double since = reached - part.life.cumulativeHazard(draw, part.seenGood);
      double unseen = -(1 - part.noticed) * Math.expm1(-since);
      double failedAlready = unseen / (unseen + Math.exp(-since));
      boolean failed = random.nextDouble() < failedAlready;
      if (random.nextDouble() >= part.noticed || failed) {
        return Double.POSITIVE_INFINITY;
      }
    }
    return Math.max(0, part.life.ageAt(draw, reached + random.nextExponential()) - part.age);
  }

  /** Running until a new part there stops the pump. */
  double freshStop(int k, int draw, SplittableRandom random) {
    Part part = parts[k];
    if (part.noticed < 1 && random.nextDouble() >= part.noticed) {
      return Double.POSITIVE_INFINITY;
    }
    return part.life.ageAt(draw, random.nextExponential());
  }

  int draws() {
    int draws = 1;
    for (Part part : parts) {
      draws = Math.max(draws, part.life.size());
    }
    return draws;
  }
}
