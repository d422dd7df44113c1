package org.vaneward.study;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.vaneward.sample.Scenario;
import org.vaneward.sample.Scenario.Period;
import org.vaneward.sample.Scenario.PumpGroup;
import org.vaneward.sample.Scenario.Site;
import org.vaneward.sample.Scenario.Window;

/**
 * A scenario with another number of pumps and another span of records, all else as it was.
 *
 * <p>Each group of pumps keeps its share, rounded by largest remainder; groups and sites left
 * without a pump go. The records end on the same day and begin so many years before; pumps are
 * commissioned evenly over the first half, or over the first three years where that is shorter.
 * What the scenario says of a pump that is no more, or of days before the records, is dropped or
 * cut. Counts of flaws go with the number of pumps.
 */
final class ScaledScenario {
  private static final int LONGEST_COMMISSIONING_DAYS = 3 * 365;

  private final Scenario from;
  private final int pumps;
  private final Period period;
  private final List<Site> sites;
  private final Map<String, PumpGroup> named = new HashMap<>();

  private ScaledScenario(Scenario from, int pumps, int years) {
    this.from = from;
    this.pumps = pumps;
    this.period = period(from.period().asOf(), years);
    this.sites = sites();
    for (Site site : sites) {
      int number = 0;
      for (PumpGroup group : site.pumps()) {
        for (int i = 0; i < group.pumps(); i++) {
          number++;
          named.put(String.format(Locale.ROOT, "%s-P%02d", site.prefix(), number), group);
        }
      }
    }
  }

  /**
   * The scenario with {@code pumps} pumps and records over {@code years} years.
   *
   * @throws IllegalArgumentException unless both are positive
   */
  static Scenario of(Scenario scenario, int pumps, int years) {
    if (pumps < 1 || years < 1) {
      throw new IllegalArgumentException(
          "a fleet has at least one pump and one year, not " + pumps + " and " + years);
    }
    return new ScaledScenario(scenario, pumps, years).scenario();
  }

  private Scenario scenario() {
    return new Scenario(
        from.name(),
        from.story(),
        from.seed(),
        from.currency(),
        period,
        sites,
        from.models(),
        from.products(),
        from.duties(),
        from.components(),
        from.overrides(),
        from.serviceChanges().stream().filter(this::changesSomething).toList(),
        from.retirements().stream()
            .filter(r -> named.containsKey(r.pump()) && runs(r.on()))
            .toList(),
        from.shop(),
        from.practice().map(this::practice),
        from.flaws().map(this::flaws),
        from.economics());
  }

  private static Period period(LocalDate asOf, int years) {
    LocalDate start = asOf.minusYears(years);
    long half = ChronoUnit.DAYS.between(start, asOf) / 2;
    return new Period(start, start.plusDays(Math.min(half, LONGEST_COMMISSIONING_DAYS)), asOf);
  }

  private List<Site> sites() {
    int[] counts =
        largestRemainder(
            from.sites().stream()
                .flatMap(site -> site.pumps().stream())
                .mapToInt(PumpGroup::pumps)
                .toArray(),
            pumps);
    List<Site> scaled = new ArrayList<>();
    int next = 0;
    for (Site site : from.sites()) {
      List<PumpGroup> groups = new ArrayList<>();
      for (PumpGroup group : site.pumps()) {
        int count = counts[next++];
        if (count > 0) {
          groups.add(new PumpGroup(group.product(), group.duty(), group.model(), count));
        }
      }
      if (!groups.isEmpty()) {
        scaled.add(
            new Site(
                site.site(),
                site.prefix(),
                site.commissioned().flatMap(this::commissioning),
                site.recordsFrom().filter(this::runs),
                site.crews(),
                groups));
      }
    }
    return scaled;
  }

  /** Whole numbers in proportion to {@code weights}, adding up to {@code total}. */
  static int[] largestRemainder(int[] weights, int total) {
    long sum = IntStream.of(weights).asLongStream().sum();
    int[] counts = new int[weights.length];
    long[] remainders = new long[weights.length];
    int left = total;
    for (int i = 0; i < weights.length; i++) {
      counts[i] = (int) ((long) weights[i] * total / sum);
      remainders[i] = (long) weights[i] * total % sum;
      left -= counts[i];
    }
    IntStream.range(0, weights.length)
        .boxed()
        .sorted(Comparator.comparingLong((Integer i) -> -remainders[i]))
        .limit(left)
        .forEach(i -> counts[i]++);
    return counts;
  }

  /** A day on which every pump has been commissioned and the records go on. */
  private boolean runs(LocalDate day) {
    return day.isAfter(period.commissionedTo()) && day.isBefore(period.asOf());
  }

  private boolean changesSomething(Scenario.ServiceChange change) {
    PumpGroup group = named.get(change.pump());
    return group != null
        && runs(change.from())
        && !(group.product().equals(change.product()) && group.duty().equals(change.duty()));
  }

  private Optional<Window> commissioning(Window window) {
    return cut(window, period.commissionedFrom(), period.commissionedTo());
  }

  private static Optional<Window> cut(Window window, LocalDate from, LocalDate to) {
    LocalDate first = window.from().isBefore(from) ? from : window.from();
    LocalDate last = window.to().isAfter(to) ? to : window.to();
    return last.isBefore(first) ? Optional.empty() : Optional.of(new Window(first, last));
  }

  private Scenario.Practice practice(Scenario.Practice practice) {
    return new Scenario.Practice(
        practice.crew(),
        practice.badLot().flatMap(this::badLot),
        practice.worsening().filter(w -> named.containsKey(w.pump())));
  }

  private Optional<Scenario.BadLot> badLot(Scenario.BadLot lot) {
    return cut(lot.fitted(), period.commissionedFrom(), period.asOf())
        .map(
            fitted ->
                new Scenario.BadLot(
                    lot.component(),
                    lot.lot(),
                    fitted,
                    lot.share(),
                    lot.scaleFactor(),
                    lot.cause()));
  }

  private Scenario.Flaws flaws(Scenario.Flaws flaws) {
    return new Scenario.Flaws(
        flaws.missingHoursRate(),
        flaws.oddSpellingRate(),
        flaws.missingFindingRate(),
        scaled(flaws.oddProducts()),
        scaled(flaws.metersReplaced()),
        scaled(flaws.duplicateSheets()),
        scaled(flaws.fallingReadings()),
        scaled(flaws.primaryOnPlanned()),
        scaled(flaws.unknownPumps()),
        scaled(flaws.unknownPositions()),
        scaled(flaws.unknownWords()),
        scaled(flaws.openingsBeforeCommissioning()),
        scaled(flaws.unreadableDates()),
        scaled(flaws.badClearances()));
  }

  private int scaled(int count) {
    int before =
        from.sites().stream()
            .flatMap(site -> site.pumps().stream())
            .mapToInt(PumpGroup::pumps)
            .sum();
    return (int) Math.round(count * (double) pumps / before);
  }
}
