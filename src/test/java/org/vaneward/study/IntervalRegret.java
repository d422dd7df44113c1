package org.vaneward.study;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel;
import org.vaneward.model.ServiceModels;
import org.vaneward.policy.LifeLookup;
import org.vaneward.report.FleetLives;
import org.vaneward.sample.Truth;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * What not knowing the lives costs: the advised interval against the one that an oracle who knows
 * the true lives would choose. The regret is the true long-run cost per hour at the advised
 * interval over the least there is, less 1; running to failure counts as an interval.
 *
 * <p>Run as a program, it draws fleets of every scenario and prints a table; progress goes to
 * standard error.
 */
public final class IntervalRegret {
  private static final List<String> SCENARIOS =
      List.of("depots-plain", "depots-six", "small-terminal");

  /** Seeds below it were looked at while the method was chosen. */
  private static final int FIRST_SEED = 1001;

  /** Greatest number of seal failures in each line of the second table. */
  private static final int[] FAILURES = {0, 3, 10, 20, Integer.MAX_VALUE};

  private IntervalRegret() {}

  /** What the interval is advised on. */
  enum Belief {
    /** One fit to all services together. */
    TOGETHER("all services together"),
    /** Each service's own fit; all together where it has none. */
    OWN_FIT("own fit"),
    /** The middle of the pooled posterior. */
    MIDDLE("pooled, middle"),
    /** The pooled posterior, its expected cost. */
    EXPECTED("pooled, expected cost");

    private final String words;

    Belief(String words) {
      this.words = words;
    }
  }

  /**
   * Pumps of one model in one service of one fleet.
   *
   * @param pumps how many
   * @param failures seal failures in the service
   * @param trueShape of the seal
   * @param regret by belief
   */
  record Case(int pumps, double failures, double trueShape, Map<Belief, Double> regret) {
    Case {
      regret = Map.copyOf(regret);
    }

    double regret(Belief belief) {
      return Optional.ofNullable(regret.get(belief)).orElseThrow();
    }
  }

  /** The cases of one drawn fleet. */
  static List<Case> cases(Path scenario, long seed, int draws) {
    return DrawnFleet.look(scenario, seed, (folder, truth) -> cases(folder, truth, draws));
  }

  private static List<Case> cases(Path folder, Truth truth, int draws) {
    FleetLives fleet = FleetLives.read(folder);
    LivesTable table = LivesTable.of(fleet.lives());
    ServiceModels models =
        ServiceModels.of(table, PoolingSettings.defaults().withDraws(draws).withSeed(truth.seed()));
    Map<Belief, LifeLookup> beliefs = beliefs(table, models);
    List<Case> cases = new ArrayList<>();
    LifeLookup oracle = OracleCost.oracle(truth);
    OracleCost.kinds(fleet)
        .forEach(
            (kind, pumps) -> {
              double failures =
                  models.find("seal", kind.service()).map(LifeModel::failures).orElse(0.0);
              double shape = oracle.find("seal", kind.service()).orElseThrow().weibull().shape();
              OracleCost cost = OracleCost.of(fleet.settings(), kind, oracle);
              Map<Belief, Double> regret = new LinkedHashMap<>();
              beliefs.forEach((belief, lives) -> regret.put(belief, cost.regret(lives)));
              cases.add(new Case(pumps, failures, shape, regret));
            });
    return cases;
  }

  private static Map<Belief, LifeLookup> beliefs(LivesTable table, ServiceModels models) {
    FitSettings settings = FitSettings.defaults();
    Map<Belief, LifeLookup> beliefs = new LinkedHashMap<>();
    beliefs.put(Belief.TOGETHER, OracleCost.together(table, settings));
    beliefs.put(Belief.OWN_FIT, OracleCost.own(table, settings));
    beliefs.put(
        Belief.MIDDLE,
        (component, service) ->
            models
                .find(component, service)
                .map(m -> OracleCost.known(component, service, m.weibull())));
    beliefs.put(Belief.EXPECTED, models::find);
    return beliefs;
  }

  /** Regrets of many cases, or of many pumps. */
  record Summary(double median, double ninetieth, double mean) {
    static Summary of(double[] regrets) {
      double[] sorted = regrets.clone();
      Arrays.sort(sorted);
      return new Summary(
          sorted[sorted.length / 2],
          sorted[sorted.length * 9 / 10],
          Arrays.stream(sorted).average().orElseThrow());
    }
  }

  static Summary byCase(List<Case> cases, Belief belief) {
    return Summary.of(cases.stream().mapToDouble(c -> c.regret(belief)).toArray());
  }

  static Summary byPump(List<Case> cases, Belief belief) {
    return Summary.of(
        cases.stream()
            .flatMapToDouble(c -> IntStream.range(0, c.pumps()).mapToDouble(i -> c.regret(belief)))
            .toArray());
  }

  /** Draws {@code fleets} fleets of a scenario, from seed {@code first} on, on all cores. */
  static List<Case> cases(Path scenario, int first, int fleets, int draws) {
    AtomicInteger done = new AtomicInteger();
    return IntStream.range(first, first + fleets)
        .parallel()
        .mapToObj(
            seed -> {
              List<Case> cases = cases(scenario, seed, draws);
              System.err.printf(
                  Locale.ROOT, "%s: %d of %d%n", scenario, done.incrementAndGet(), fleets);
              return cases;
            })
        .toList()
        .stream()
        .flatMap(List::stream)
        .toList();
  }

  private static String line(String name, List<Case> cases, Belief belief) {
    Summary each = byCase(cases, belief);
    Summary pump = byPump(cases, belief);
    return String.format(
        Locale.ROOT,
        "%-28s %7.2f%% %6.1f%% %6.2f%% %9.2f%% %6.1f%% %6.2f%%%n",
        name,
        100 * each.median(),
        100 * each.ninetieth(),
        100 * each.mean(),
        100 * pump.median(),
        100 * pump.ninetieth(),
        100 * pump.mean());
  }

  private static String table(String scenario, int fleets, List<Case> cases) {
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(
            Locale.ROOT, "%s: %d fleets, %,d intervals%n", scenario, fleets, cases.size()));
    text.append("                             each interval once       weighted by pumps\n");
    text.append("                              median    90%   mean      median    90%   mean\n");
    for (Belief belief : Belief.values()) {
      text.append(line(belief.words, cases, belief));
    }
    return text.append('\n').toString();
  }

  private static String byFailures(String title, List<Case> cases) {
    StringBuilder text = new StringBuilder();
    text.append(title).append('\n');
    text.append("seal failures   intervals  together  own fit  middle  expected cost\n");
    int from = 0;
    for (int to : FAILURES) {
      int least = from;
      Predicate<Case> within = c -> c.failures() >= least && c.failures() <= to;
      List<Case> some = cases.stream().filter(within).toList();
      if (!some.isEmpty()) {
        text.append(
            String.format(
                Locale.ROOT,
                "%-15s %9d %8.1f%% %7.1f%% %6.1f%% %13.1f%%%n",
                to == 0 ? "none" : to == Integer.MAX_VALUE ? from + " or more" : from + " to " + to,
                some.size(),
                100 * byCase(some, Belief.TOGETHER).mean(),
                100 * byCase(some, Belief.OWN_FIT).mean(),
                100 * byCase(some, Belief.MIDDLE).mean(),
                100 * byCase(some, Belief.EXPECTED).mean()));
      }
      from = to + 1;
    }
    return text.append('\n').toString();
  }

  /** Prints the tables; the number of fleets of each scenario is 100 unless given. */
  public static void main(String[] args) {
    int fleets = args.length > 0 ? Integer.parseInt(args[0]) : 100;
    List<Case> all = new ArrayList<>();
    for (String scenario : SCENARIOS) {
      Path file = Path.of("seeds", scenario + ".json");
      List<Case> cases = cases(file, FIRST_SEED, fleets, ServiceModels.DRAWS);
      System.out.print(table(scenario, fleets, cases));
      all.addAll(cases);
    }
    double usual = all.stream().mapToDouble(Case::trueShape).max().orElseThrow();
    System.out.print(
        byFailures(
            "mean regret where the true shape is that of most services",
            all.stream().filter(c -> c.trueShape() == usual).toList()));
    System.out.print(
        byFailures(
            "mean regret where it is 1.0 or 1.2 and that of most services 2.1",
            all.stream().filter(c -> c.trueShape() < usual).toList()));
  }
}
