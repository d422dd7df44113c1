package org.vaneward.study;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.life.UsageRate;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.model.ServiceModels;
import org.vaneward.plan.CalendarRequest;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpNow;
import org.vaneward.policy.LifeLookup;
import org.vaneward.report.FleetLives;
import org.vaneward.sample.Truth;
import org.vaneward.spares.DemandRequest;
import org.vaneward.spares.Figures;
import org.vaneward.spares.FleetAhead;
import org.vaneward.spares.Line;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;
import org.vaneward.spares.Rule;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * How often what comes lies between the P10 and the P90 foretold. Fleets are drawn whose true lives
 * are known; each is fitted, planned and lived forward from its records, then lived forward once
 * more with the true lives, under the same plan and from the same parts of the same age, as much as
 * such pumps truly run.
 *
 * <p>A count that has its own P10 or P90 with some chance lies within more often than 80 in 100.
 * The mid share counts a count on the edge by half, which takes that out on average.
 *
 * <p>Run as a program, it prints a table; progress goes to standard error.
 */
public final class DemandCoverage {
  private static final int FIRST_SEED = 5001;
  private static final int MONTHS = 24;
  private static final int FUTURES = 4000;
  private static final int PLAN_DRAWS = 20;
  private static final int PLAN_WEEKS = 26;

  /** Spread of the mean of 24 months that differ by 0.12, as the scenarios have them. */
  private static final double TRUE_SPREAD = 0.12 / Math.sqrt(MONTHS);

  private DemandCoverage() {}

  /**
   * One number of one fleet.
   *
   * @param came what came
   * @param foretold what was foretold
   */
  record Case(double came, Figures foretold) {
    boolean within() {
      return came >= foretold.p10() && came <= foretold.p90();
    }

    boolean onEdge() {
      return came == foretold.p10() || came == foretold.p90();
    }
  }

  /** What is looked at, by name, in one drawn fleet. */
  static Map<String, Case> cases(Path scenario, long seed) {
    return DrawnFleet.look(scenario, seed, DemandCoverage::cases);
  }

  private static Map<String, Case> cases(Path folder, Truth truth) {
    FleetLives fleet = FleetLives.read(folder);
    ServiceModels models =
        ServiceModels.of(
            LivesTable.of(fleet.lives()),
            PoolingSettings.defaults().withDraws(ServiceModels.DRAWS).withSeed(truth.seed()));
    List<PumpNow> pumps = PumpNow.of(fleet.records().fleet(), fleet.lives());
    Plan plan =
        Plan.of(
            fleet.settings(),
            pumps,
            fewDraws(models),
            Plan.CONFIDENCE,
            new CalendarRequest(PLAN_WEEKS, List.of()),
            said -> {});
    Outlook foretold =
        Outlook.of(
            FleetAhead.of(fleet.settings(), pumps, plan, models::find, MONTHS),
            Rule.PLAN,
            new DemandRequest(MONTHS, FUTURES, 1),
            said -> {});
    List<PumpNow> truly = pumps.stream().map(DemandCoverage::trueUsage).toList();
    Outlook came =
        Outlook.of(
            FleetAhead.of(fleet.settings(), truly, plan, oracle(truth), MONTHS),
            Rule.PLAN,
            new DemandRequest(MONTHS, 1, truth.seed() + 77),
            said -> {});
    Map<String, Case> cases = new LinkedHashMap<>();
    for (Line line : List.of(Line.UNPLANNED, Line.PLANNED, new Line(Line.Kind.FITTED, "seal"))) {
      cases.put(
          line.kind().words() + " " + line.name(),
          new Case(came.counts(line).mean(), foretold.counts(line)));
    }
    cases.put("money", new Case(came.money(Spending.ALL).mean(), foretold.money(Spending.ALL)));
    return cases;
  }

  /** What the plan rests on here: which plan it is does not matter, and more takes minutes. */
  private static LifeLookup fewDraws(ServiceModels models) {
    return (component, service) ->
        models
            .find(component, service)
            .map(
                m ->
                    new LifeModel(
                        m.component(),
                        m.service(),
                        m.weibull(),
                        m.shape(),
                        m.scale(),
                        m.basis(),
                        m.fromOthers(),
                        m.lives(),
                        m.failures(),
                        m.draws().first(PLAN_DRAWS)));
  }

  private static PumpNow trueUsage(PumpNow p) {
    Optional<UsageRate> usage =
        p.hoursPerWeek().isPresent()
            ? Optional.of(known(p.hoursPerWeek().getAsDouble()))
            : Optional.empty();
    return new PumpNow(
        p.pump(),
        p.site(),
        p.model(),
        p.service(),
        p.hoursPerWeek(),
        usage,
        p.lastRebuild(),
        p.inServiceSince(),
        p.hoursSinceRebuild(),
        p.parts());
  }

  /** A rate whose mean over the months ahead is spread as truly, the past leaving no doubt. */
  private static UsageRate known(double perWeek) {
    int many = 1_000_000;
    double blocks = MONTHS * 365.25 / 12 / 7 / UsageRate.BLOCK_WEEKS;
    double blockSd = TRUE_SPREAD * Math.sqrt(blocks) * perWeek;
    return new UsageRate(perWeek, OptionalDouble.of(blockSd), many);
  }

  private static LifeLookup oracle(Truth truth) {
    Map<String, LifeModel> made = new LinkedHashMap<>();
    for (Truth.Lifetime life : truth.lifetimes()) {
      made.put(
          life.component() + new Service(life.product(), life.duty()),
          known(life.component(), new Weibull(life.shape(), life.scale())));
    }
    return (component, service) ->
        service.flatMap(s -> Optional.ofNullable(made.get(component + s)));
  }

  private static LifeModel known(String component, Weibull life) {
    Estimate any = new Estimate(1, 1, 1);
    return new LifeModel(
        component,
        Optional.empty(),
        life,
        any,
        any,
        LifeModel.Basis.OWN_FAILURES,
        0,
        0,
        0,
        LifeDraws.certain(life));
  }

  /** Cases of many fleets, one after another on each thread. */
  static List<Map<String, Case>> cases(Path scenario, long firstSeed, int fleets) {
    AtomicInteger done = new AtomicInteger();
    return IntStream.range(0, fleets)
        .parallel()
        .mapToObj(
            i -> {
              Map<String, Case> found = cases(scenario, firstSeed + i);
              int now = done.incrementAndGet();
              if (now % 20 == 0) {
                System.err.println(now + " of " + fleets + " fleets");
              }
              return found;
            })
        .toList();
  }

  /** Share of the fleets in which a number lies within, and with those on the edge by half. */
  static double[] shares(List<Map<String, Case>> cases, String name) {
    double within = 0;
    double edge = 0;
    for (Map<String, Case> fleet : cases) {
      Case one = Optional.ofNullable(fleet.get(name)).orElseThrow();
      within += one.within() ? 1 : 0;
      edge += one.onEdge() ? 1 : 0;
    }
    return new double[] {within / cases.size(), (within - edge / 2) / cases.size()};
  }

  private static double share(List<Map<String, Case>> cases, String name, boolean above) {
    List<Case> of = new ArrayList<>();
    cases.forEach(c -> of.add(Optional.ofNullable(c.get(name)).orElseThrow()));
    return of.stream()
            .filter(c -> above ? c.came() > c.foretold().p90() : c.came() < c.foretold().p10())
            .count()
        / (double) of.size();
  }

  /** Prints the table; fleets of each scenario, 200 unless given, then the scenarios. */
  public static void main(String[] args) {
    int fleets = args.length > 0 ? Integer.parseInt(args[0]) : 200;
    List<String> scenarios =
        args.length > 1
            ? List.of(args).subList(1, args.length)
            : List.of("small-terminal", "depots-plain");
    System.out.println("| scenario | fleets | number | below | within P10-P90 | mid | above |");
    System.out.println("| --- | ---: | --- | ---: | ---: | ---: | ---: |");
    for (String scenario : scenarios) {
      List<Map<String, Case>> cases =
          cases(Path.of("seeds", scenario + ".json"), FIRST_SEED, fleets);
      for (String name : cases.get(0).keySet()) {
        double[] shares = shares(cases, name);
        System.out.printf(
            Locale.ROOT,
            "| %s | %d | %s | %.1f%% | %.1f%% | %.1f%% | %.1f%% |%n",
            scenario,
            fleets,
            name,
            100 * share(cases, name, false),
            100 * shares[0],
            100 * shares[1],
            100 * share(cases, name, true));
      }
    }
  }
}
