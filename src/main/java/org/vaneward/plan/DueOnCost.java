package org.vaneward.plan;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.policy.DrawnRisk;
import org.vaneward.policy.DrawnRun;
import org.vaneward.policy.RunOn;
import org.vaneward.policy.UncertainAdvice;
import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;

/** When cost alone would have one pump rebuilt, and what waiting costs, over the draws. */
final class DueOnCost {
  /** Draws whose own due days give the range: enough for its 5% and 95% points to some days. */
  private static final int RANGE_DRAWS = 80;

  private final Kinds.Costed costed;
  private final Usage usage;
  private final double[] ages;
  private final int weeks;
  private final DrawnRun run;
  private final double g;
  private final double week;

  DueOnCost(Kinds.Costed costed, Usage usage, double[] ages, int weeks) {
    this.costed = costed;
    this.usage = usage;
    this.ages = ages;
    this.weeks = weeks;
    this.run = DrawnRun.fromAges(costed.model(), ages);
    this.g = costed.advice().costPerHour();
    this.week = usage.perWeek().orElseThrow();
  }

  CostSide costSide() {
    RunOn runOn = RunOn.best(run, g);
    OptionalDouble waiting = OptionalDouble.of(run.expectedExtraCost(week, g));
    Optional<WeeklyCost> byWeek = Optional.of(byWeek(runOn));
    List<String> notPrevented = costed.advice().notPrevented();
    if (runOn.dueHours().isEmpty()) {
      return CostSide.none(
          "at the ages of its parts, running to the next failure is cheapest",
          waiting,
          byWeek,
          notPrevented);
    }
    double due = runOn.dueHours().getAsDouble();
    Optional<LocalDate> date = usage.day(due);
    if (date.isEmpty()) {
      return CostSide.none(
          "at its usage it is not due within a hundred years", waiting, byWeek, notPrevented);
    }
    double late =
        due > 0
            ? run.expectedExtraCost(due + week, g) - run.expectedExtraCost(due, g)
            : waiting.getAsDouble();
    return new CostSide(
        date,
        runOn.window().flatMap(w -> usage.day(w.fromHours())),
        runOn.window().flatMap(w -> w.toHours().stream().boxed().findFirst()).flatMap(usage::day),
        Optional.empty(),
        driver(Math.max(due, 0)),
        waiting,
        OptionalDouble.of(late),
        range(due),
        due < 0 ? Optional.of(riskRun(due)) : Optional.empty(),
        byWeek,
        notPrevented);
  }

  private WeeklyCost byWeek(RunOn runOn) {
    double due = runOn.dueHours().orElse(Double.MAX_VALUE);
    double least = due > 0 ? run.expectedExtraCost(due, g) : 0;
    return WeeklyCost.of(
        usage.asOf(),
        weeks,
        days -> days > 0 ? run.expectedExtraCost(days / 7 * week, g) - least : -least);
  }

  /** The position that asks most for a rebuild, among those whose failures it prevents. */
  private Optional<CostSide.Driver> driver(double hours) {
    UncertainAdvice advice = costed.advice();
    double[] asks = run.marginalByPosition(Math.max(hours, Double.MIN_NORMAL));
    int most = -1;
    for (int i = 0; i < asks.length; i++) {
      DrawnRisk risk = costed.model().positions().get(i);
      boolean prevented = !advice.notPrevented().contains(risk.component());
      if (prevented && (most < 0 || asks[i] > asks[most])) {
        most = i;
      }
    }
    if (most < 0) {
      return Optional.empty();
    }
    DrawnRisk risk = costed.model().positions().get(most);
    return Optional.of(new CostSide.Driver(risk.position(), ages[most], risk.life().quantile(0.5)));
  }

  /**
   * Each draw's own due day, at a usage drawn beside it: evenly spaced quantiles of its spread, in
   * an order of their own.
   */
  private Optional<DateRange> range(double due) {
    int n = Math.min(RANGE_DRAWS, run.draws());
    if (n < 2) {
      return Optional.empty();
    }
    double ahead = usage.relativeSd(Math.max(0, due) / week * 7);
    double[] places = shuffled(n);
    double[] days = new double[n];
    for (int d = 0; d < n; d++) {
      OptionalDouble own = RunOn.dueIn(run, d, costed.leastByDraw().get(d));
      double hours = own.orElse(Double.POSITIVE_INFINITY);
      double rate = week * Math.exp(ahead * Quantiles.normal(places[d]));
      // What has been run is known; only the time ahead depends on the usage.
      days[d] = 7 * hours / (hours > 0 ? rate : week);
    }
    Estimate limits = DrawLimits.of(0, days, costed.confidence());
    return usage
        .day(limits.lower() / 7 * week)
        .map(
            earliest ->
                new DateRange(
                    earliest,
                    limits.upper() < Double.POSITIVE_INFINITY
                        ? usage.day(limits.upper() / 7 * week)
                        : Optional.empty()));
  }

  /**
   * Shares between 0 and 1, evenly spaced, in the order of the fractional parts of multiples of a
   * number.
   */
  private static double[] shuffled(int n) {
    double[] places = new double[n];
    for (int i = 0; i < n; i++) {
      double place = (i + 1) * 0.6180339887498949;
      places[i] = place - Math.floor(place);
    }
    double[] sorted = places.clone();
    Arrays.sort(sorted);
    for (int i = 0; i < n; i++) {
      places[i] = (Arrays.binarySearch(sorted, places[i]) + 0.5) / n;
    }
    return places;
  }

  /** What has been risked since the due day: the same run, from the ages the parts had then. */
  private RiskRun riskRun(double due) {
    double[] then = Arrays.stream(ages).map(age -> Math.max(0, age + due)).toArray();
    DrawnRun since = DrawnRun.fromAges(costed.model(), then);
    return new RiskRun(1 - since.expectedSurvival(-due), since.expectedExtraCost(-due, g));
  }
}
