package org.vaneward.study;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.vaneward.stats.Estimate;
import org.vaneward.study.KnownTruthFleet.Kind;
import org.vaneward.study.KnownTruthFleet.Life;
import org.vaneward.study.KnownTruthFleet.Quantity;
import org.vaneward.study.KnownTruthFleet.Way;

/**
 * What many fleets of known truth come to, as tables. Fleets with planted causes of early failure
 * are told apart: their parts do not all have the life the scenario states.
 */
public final class KnownTruthSummary {
  /** Limits of 90% are to hold the truth about so often. */
  private static final double LEAST_HELD = 0.87;

  private static final double MOST_HELD = 0.93;

  /** Greatest number of failures in each line of the table by failures. */
  private static final int[] FAILURES = {0, 3, 10, 20, 50, Integer.MAX_VALUE};

  /** The same of failures in a whole fleet. */
  private static final int[] FLEET_FAILURES = {5, 15, 40, 100, 300, Integer.MAX_VALUE};

  /** The median regret is to be no more. */
  private static final double MOST_REGRET = 0.03;

  /** Fleets from which on that is aimed for. */
  private static final int REGRET_FROM_PUMPS = 50;

  private static final List<String> REGRET_HEADS =
      List.of(
          "plain: median",
          "90%",
          "mean",
          "fixed: median",
          "90%",
          "mean",
          "pooled: median",
          "90%",
          "mean");

  private static final String NONE = "–";

  private final List<KnownTruthFleet> all;
  private final List<KnownTruthFleet> clean;
  private final List<KnownTruthFleet> planted;

  KnownTruthSummary(List<KnownTruthFleet> fleets) {
    all = List.copyOf(fleets);
    clean = some(all, fleet -> !fleet.key().scenario().equals(KnownTruthStudy.PLANTED));
    planted = some(all, fleet -> fleet.key().scenario().equals(KnownTruthStudy.PLANTED));
  }

  /**
   * A share or a mean over lives of many fleets, with its standard error: what is summed is summed
   * within each fleet first, since the services of a fleet share pumps, shop and fits.
   *
   * @param value the share or mean; not a number when nothing was counted
   * @param error its standard error
   * @param count of what
   */
  record Clustered(double value, double error, double count) {
    static Clustered of(
        List<KnownTruthFleet> fleets,
        ToDoubleFunction<KnownTruthFleet> sum,
        ToDoubleFunction<KnownTruthFleet> count) {
      double[] sums = fleets.stream().mapToDouble(sum).toArray();
      double[] counts = fleets.stream().mapToDouble(count).toArray();
      double n = Arrays.stream(counts).sum();
      double value = Arrays.stream(sums).sum() / n;
      double squares = 0;
      for (int i = 0; i < sums.length; i++) {
        double off = sums[i] - value * counts[i];
        squares += off * off;
      }
      double correction = sums.length / (sums.length - 1.0);
      return new Clustered(value, Math.sqrt(squares * correction) / n, n);
    }

    /** In percent. */
    String percent() {
      return count > 0 ? String.format(Locale.ROOT, "%.1f ± %.1f", 100 * value, 100 * error) : NONE;
    }

    String plain() {
      return count > 0 ? String.format(Locale.ROOT, "%+.3f ± %.3f", value, error) : NONE;
    }

    /** Outside what is aimed for. */
    boolean outside() {
      return count > 0 && (value < LEAST_HELD || value > MOST_HELD);
    }

    /** Outside what is aimed for by more than chance makes likely. */
    boolean missed() {
      return count > 0 && (value + 2 * error < LEAST_HELD || value - 2 * error > MOST_HELD);
    }
  }

  private static <T> List<T> some(List<T> all, Predicate<T> keep) {
    return all.stream().filter(keep).toList();
  }

  private static List<KnownTruthFleet> cell(List<KnownTruthFleet> fleets, int pumps, int years) {
    return some(fleets, f -> f.key().pumps() == pumps && f.key().years() == years);
  }

  // ---- what is counted

  /** Share of limits that hold the truth. */
  static Clustered held(
      List<KnownTruthFleet> fleets, Predicate<Life> lives, Way way, Quantity... quantities) {
    return Clustered.of(
        fleets,
        fleet -> sum(fleet, lives, life -> held(life, way, quantities)),
        fleet -> sum(fleet, lives, life -> life.fit(way).isPresent() ? quantities.length : 0));
  }

  private static double sum(
      KnownTruthFleet fleet, Predicate<Life> lives, ToDoubleFunction<Life> what) {
    return fleet.lives().stream().filter(lives).mapToDouble(what).sum();
  }

  private static double held(Life life, Way way, Quantity... quantities) {
    return life.fit(way).stream()
        .flatMapToDouble(
            fit ->
                Arrays.stream(quantities).mapToDouble(q -> holds(fit.of(q), life.truth(q)) ? 1 : 0))
        .sum();
  }

  private static boolean holds(Estimate estimate, double truth) {
    return estimate.lower() <= truth && truth <= estimate.upper();
  }

  /** Mean of log(estimate / truth). */
  static Clustered bias(
      List<KnownTruthFleet> fleets, Predicate<Life> lives, Way way, Quantity quantity) {
    return Clustered.of(
        fleets,
        fleet ->
            sum(
                fleet,
                lives,
                life ->
                    life.fit(way)
                        .map(fit -> Math.log(fit.of(quantity).estimate() / life.truth(quantity)))
                        .orElse(0.0)),
        fleet -> sum(fleet, lives, life -> life.fit(way).isPresent() ? 1 : 0));
  }

  private static Clustered without(List<KnownTruthFleet> fleets, Predicate<Life> lives, Way way) {
    return Clustered.of(
        fleets,
        fleet -> sum(fleet, lives, life -> life.fit(way).isPresent() ? 0 : 1),
        fleet -> sum(fleet, lives, life -> 1));
  }

  /** Regrets of pumps; empty when there is no pump. */
  static IntervalRegret.Summary regret(
      List<KnownTruthFleet> fleets, Predicate<Kind> kinds, Way way) {
    return IntervalRegret.Summary.of(
        fleets.stream()
            .flatMap(fleet -> fleet.kinds().stream())
            .filter(kinds)
            .flatMapToDouble(
                kind -> Arrays.stream(new double[kind.pumps()]).map(x -> kind.regret(way)))
            .toArray());
  }

  private static Clustered meanRegret(
      List<KnownTruthFleet> fleets, Predicate<Kind> kinds, Way way) {
    return Clustered.of(
        fleets,
        fleet ->
            fleet.kinds().stream()
                .filter(kinds)
                .mapToDouble(kind -> kind.pumps() * kind.regret(way))
                .sum(),
        fleet -> fleet.kinds().stream().filter(kinds).mapToDouble(Kind::pumps).sum());
  }

  // ---- tables

  /** All tables, with headings. */
  public String markdown() {
    return "## How often 90% limits hold the truth\n\n"
        + coverage()
        + "\n## Where limits fall short\n\n"
        + parts()
        + "\n## How far off estimates are\n\n"
        + biases()
        + "\n## What the advised interval costs beyond the best\n\n"
        + regrets()
        + "\n"
        + regretsByFailures()
        + "\n## Fleets with planted causes\n\n"
        + plantedCoverage()
        + "\n"
        + plantedRegrets();
  }

  /** Scenarios without planted causes, a line for each size and span. */
  public String coverage() {
    return coverage(clean);
  }

  /** The same of scenarios with planted causes. */
  public String plantedCoverage() {
    return coverage(planted);
  }

  /** Mean log ratios of estimates and truth, a line for each size and span. */
  public String biases() {
    return biases(clean);
  }

  /** What advised intervals cost beyond the best, a line for each size and span. */
  public String regrets() {
    return regrets(clean);
  }

  /** The same of scenarios with planted causes. */
  public String plantedRegrets() {
    return regrets(planted);
  }

  private static String coverage(List<KnownTruthFleet> fleets) {
    return table(
        fleets,
        List.of(
            "plain: scale",
            "shape",
            "10% life",
            "fixed: scale",
            "10% life",
            "pooled: scale",
            "shape",
            "10% life",
            "all three"),
        some -> {
          List<String> texts = new ArrayList<>(held(some, life -> true, Way.PLAIN));
          texts.add(held(some, life -> true, Way.FIXED, Quantity.SCALE).percent());
          texts.add(held(some, life -> true, Way.FIXED, Quantity.TENTH).percent());
          texts.addAll(held(some, life -> true, Way.POOLED));
          texts.add(held(some, life -> true, Way.POOLED, Quantity.values()).percent());
          return texts;
        });
  }

  private static List<String> held(List<KnownTruthFleet> fleets, Predicate<Life> lives, Way way) {
    return Arrays.stream(Quantity.values())
        .map(quantity -> held(fleets, lives, way, quantity).percent())
        .toList();
  }

  private static String biases(List<KnownTruthFleet> fleets) {
    return table(
        fleets,
        List.of(
            "no plain fit, %",
            "plain: scale",
            "shape",
            "10% life",
            "fixed: scale",
            "10% life",
            "pooled: scale",
            "shape",
            "10% life"),
        some -> {
          List<String> texts = new ArrayList<>();
          texts.add(without(some, life -> true, Way.PLAIN).percent());
          for (Way way : Way.values()) {
            for (Quantity quantity : Quantity.values()) {
              if (way != Way.FIXED || quantity != Quantity.SHAPE) {
                texts.add(bias(some, life -> true, way, quantity).plain());
              }
            }
          }
          return texts;
        });
  }

  private static String regrets(List<KnownTruthFleet> fleets) {
    return table(fleets, REGRET_HEADS, some -> regretTexts(some, kind -> true));
  }

  private static List<String> regretTexts(List<KnownTruthFleet> fleets, Predicate<Kind> kinds) {
    List<String> texts = new ArrayList<>();
    for (Way way : Way.values()) {
      IntervalRegret.Summary summary = regret(fleets, kinds, way);
      texts.add(String.format(Locale.ROOT, "%.2f", 100 * summary.median()));
      texts.add(String.format(Locale.ROOT, "%.1f", 100 * summary.ninetieth()));
      texts.add(meanRegret(fleets, kinds, way).percent());
    }
    return texts;
  }

  /** Regrets by how many failures of all parts a fleet has on record. */
  public String regretsByFailures() {
    StringBuilder text = new StringBuilder();
    List<String> head = new ArrayList<>(List.of("failures in the fleet", "fleets"));
    head.addAll(REGRET_HEADS);
    text.append(line(head)).append(line(head.stream().map(h -> "---:").toList()));
    int from = 0;
    for (int to : FLEET_FAILURES) {
      int least = from;
      List<KnownTruthFleet> some =
          some(clean, fleet -> failures(fleet) >= least && failures(fleet) <= to);
      if (!some.isEmpty()) {
        List<String> texts =
            new ArrayList<>(List.of(range(from, to), Integer.toString(some.size())));
        texts.addAll(regretTexts(some, kind -> true));
        text.append(line(texts));
      }
      from = to + 1;
    }
    return text.toString();
  }

  private static double failures(KnownTruthFleet fleet) {
    return sum(fleet, life -> true, Life::failures);
  }

  private static String range(int from, int to) {
    return to == Integer.MAX_VALUE ? from + " or more" : to == 0 ? "none" : from + " to " + to;
  }

  private static String table(
      List<KnownTruthFleet> fleets,
      List<String> heads,
      Function<List<KnownTruthFleet>, List<String>> row) {
    StringBuilder text = new StringBuilder();
    List<String> head = new ArrayList<>(List.of("pumps", "years", "fleets"));
    head.addAll(heads);
    text.append(line(head)).append(line(head.stream().map(h -> "---:").toList()));
    for (int pumps : KnownTruthStudy.PUMPS) {
      for (int years : KnownTruthStudy.YEARS) {
        List<KnownTruthFleet> some = cell(fleets, pumps, years);
        if (!some.isEmpty()) {
          List<String> texts =
              new ArrayList<>(
                  List.of(
                      String.format(Locale.ROOT, "%,d", pumps),
                      Integer.toString(years),
                      Integer.toString(some.size())));
          texts.addAll(row.apply(some));
          text.append(line(texts));
        }
      }
    }
    return text.toString();
  }

  private static String line(List<String> texts) {
    return "| " + String.join(" | ", texts) + " |\n";
  }

  // ---- for the report

  /**
   * Scenarios without planted causes as a small JSON document, an object for each size and span:
   * the share of limits that decisions rest on that held the true scale, shape and 10% life, and
   * the regret of the intervals advised.
   */
  public String json() {
    List<String> cells = new ArrayList<>();
    for (int pumps : KnownTruthStudy.PUMPS) {
      for (int years : KnownTruthStudy.YEARS) {
        List<KnownTruthFleet> some = cell(clean, pumps, years);
        if (!some.isEmpty()) {
          cells.add(json(pumps, years, some));
        }
      }
    }
    return String.format(
        Locale.ROOT,
        "{\n  \"fleets\": %d,\n  \"confidence\": 0.9,\n  \"cells\": [\n    %s\n  ]\n}\n",
        clean.size(),
        String.join(",\n    ", cells));
  }

  private static String json(int pumps, int years, List<KnownTruthFleet> fleets) {
    IntervalRegret.Summary regret = regret(fleets, kind -> true, Way.POOLED);
    return String.format(
        Locale.ROOT,
        "{\"pumps\":%d,\"years\":%d,\"fleets\":%d,\"scale\":%.3f,\"shape\":%.3f,\"tenth\":%.3f,"
            + "\"median\":%.4f,\"ninetieth\":%.3f}",
        pumps,
        years,
        fleets.size(),
        held(fleets, life -> true, Way.POOLED, Quantity.SCALE).value(),
        held(fleets, life -> true, Way.POOLED, Quantity.SHAPE).value(),
        held(fleets, life -> true, Way.POOLED, Quantity.TENTH).value(),
        regret.median(),
        regret.ninetieth());
  }

  // ---- where limits fall short

  /** Coverage by what may matter, fleets without planted causes. */
  public String parts() {
    StringBuilder text = new StringBuilder();
    List<String> head =
        List.of(
            "lives",
            "limits",
            "plain: scale",
            "shape",
            "10% life",
            "pooled: scale",
            "shape",
            "10% life",
            "log(pooled scale / true)");
    text.append(line(head)).append(line(head.stream().map(h -> "---:").toList()));
    text.append(part("all", life -> true));
    for (String component : List.of("seal", "bearing", "vanes")) {
      text.append(
          part(
              component + ", usual shape",
              life -> life.component().equals(component) && life.usual()));
    }
    text.append(failures("another shape", life -> !life.usual()));
    text.append(part("usual shape, beside another", pools(KnownTruthSummary::mixed), Life::usual));
    text.append(part("usual shape, no other there", pools(pool -> !mixed(pool)), Life::usual));
    text.append(failures("usual shape", Life::usual));
    return text.toString();
  }

  /** Some lives, and the same by number of failures. */
  private String failures(String name, Predicate<Life> lives) {
    StringBuilder text = new StringBuilder(part(name, lives));
    int from = 0;
    for (int to : FAILURES) {
      int least = from;
      text.append(
          part(
              "- with failures: " + range(from, to),
              life -> lives.test(life) && life.failures() >= least && life.failures() <= to));
      from = to + 1;
    }
    return text.toString();
  }

  /** The fleets with the lives of those components only whose pools are to be kept. */
  private List<KnownTruthFleet> pools(Predicate<List<Life>> keep) {
    return clean.stream()
        .map(
            fleet -> {
              Map<String, List<Life>> pools =
                  fleet.lives().stream().collect(Collectors.groupingBy(Life::component));
              List<Life> kept = pools.values().stream().filter(keep).flatMap(List::stream).toList();
              return new KnownTruthFleet(fleet.key(), kept, fleet.kinds());
            })
        .toList();
  }

  /** Whether not all services of a component have one shape. */
  private static boolean mixed(List<Life> pool) {
    return pool.stream().anyMatch(life -> !life.usual());
  }

  private String part(String name, Predicate<Life> lives) {
    return part(name, clean, lives);
  }

  private static String part(String name, List<KnownTruthFleet> fleets, Predicate<Life> lives) {
    List<String> texts =
        new ArrayList<>(
            List.of(
                name,
                String.format(
                    Locale.ROOT,
                    "%,.0f",
                    held(fleets, lives, Way.POOLED, Quantity.SCALE).count())));
    texts.addAll(held(fleets, lives, Way.PLAIN));
    texts.addAll(held(fleets, lives, Way.POOLED));
    texts.add(bias(fleets, lives, Way.POOLED, Quantity.SCALE).plain());
    return line(texts);
  }

  /**
   * How many sizes and spans are off what is aimed for, pooled and plain: limits, and the median
   * regret of large fleets; those off by more than two standard errors with their figures.
   */
  public String missed() {
    StringBuilder text = new StringBuilder();
    for (Way way : List.of(Way.POOLED, Way.PLAIN)) {
      for (Quantity quantity : Quantity.values()) {
        text.append(missed(way, quantity));
      }
      text.append(
          String.format(
              Locale.ROOT,
              "- median regret, %s, from %d pumps on: %d of %d above%n",
              words(way),
              REGRET_FROM_PUMPS,
              cells()
                  .filter(cell -> cell.get(0).key().pumps() >= REGRET_FROM_PUMPS)
                  .filter(cell -> regret(cell, kind -> true, way).median() > MOST_REGRET)
                  .count(),
              cells().filter(cell -> cell.get(0).key().pumps() >= REGRET_FROM_PUMPS).count()));
    }
    return text.toString();
  }

  private Stream<List<KnownTruthFleet>> cells() {
    return KnownTruthStudy.PUMPS.stream()
        .flatMap(pumps -> KnownTruthStudy.YEARS.stream().map(years -> cell(clean, pumps, years)))
        .filter(cell -> !cell.isEmpty());
  }

  private String missed(Way way, Quantity quantity) {
    List<String> clear = new ArrayList<>();
    long outside = 0;
    for (List<KnownTruthFleet> cell : cells().toList()) {
      Clustered held = held(cell, life -> true, way, quantity);
      outside += held.outside() ? 1 : 0;
      if (held.missed()) {
        clear.add(
            String.format(
                Locale.ROOT,
                "%,d pumps, %d years: %s",
                cell.get(0).key().pumps(),
                cell.get(0).key().years(),
                held.percent()));
      }
    }
    return String.format(
        Locale.ROOT,
        "- limits of the %s, %s: %d of %d outside, %d clearly%s%n",
        words(quantity),
        words(way),
        outside,
        cells().count(),
        clear.size(),
        clear.isEmpty() ? "" : " (" + String.join("; ", clear) + ")");
  }

  private static String words(Quantity quantity) {
    return switch (quantity) {
      case SCALE -> "scale";
      case SHAPE -> "shape";
      case TENTH -> "10% life";
    };
  }

  private static String words(Way way) {
    return way.name().toLowerCase(Locale.ROOT);
  }

  // ---- in sentences

  /** Fleets with and without planted causes. */
  public int fleets(boolean withPlanted) {
    return withPlanted ? planted.size() : clean.size();
  }

  /** The share of pooled limits that hold, scale, shape and 10% life, each in percent. */
  public String pooledHeld() {
    return heldText(life -> true, Way.POOLED);
  }

  /** The same of plain limits. */
  public String plainHeld() {
    return heldText(life -> true, Way.PLAIN);
  }

  /** The same of pooled limits of services of another shape. */
  public String otherHeld() {
    return heldText(life -> !life.usual(), Way.POOLED);
  }

  /** The same of services of the usual shape, in pools where one has another. */
  public String besideAnotherHeld() {
    return heldText(pools(KnownTruthSummary::mixed), Life::usual, Way.POOLED);
  }

  /** The same where all have one shape. */
  public String oneShapeHeld() {
    return heldText(pools(pool -> !mixed(pool)), Life::usual, Way.POOLED);
  }

  /** How many services have another shape, of how many. */
  public String others() {
    return String.format(
        Locale.ROOT,
        "%,d of %,d",
        clean.stream().flatMap(fleet -> fleet.lives().stream()).filter(l -> !l.usual()).count(),
        clean.stream().mapToInt(fleet -> fleet.lives().size()).sum());
  }

  private String heldText(Predicate<Life> lives, Way way) {
    return heldText(clean, lives, way);
  }

  private static String heldText(List<KnownTruthFleet> fleets, Predicate<Life> lives, Way way) {
    return Arrays.stream(Quantity.values())
        .map(
            quantity ->
                String.format(
                    Locale.ROOT, "%.1f%%", 100 * held(fleets, lives, way, quantity).value()))
        .collect(Collectors.joining(", "));
  }
}
