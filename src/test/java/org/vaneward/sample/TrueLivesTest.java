package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.sample.Samples.cell;
import static org.vaneward.sample.Samples.rows;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.Service;
import org.vaneward.stats.distribution.Weibull;

/**
 * Drawn lives, and the lives one reads back out of the records, follow the scenario's truth. Each
 * check is a test at level 0.001 on a fixed seed: a right sampler would fail it for one seed in a
 * thousand.
 */
class TrueLivesTest {
  /** Two-sided Kolmogorov limit for sqrt(n) D at 0.001: sqrt(-ln(0.001 / 2) / 2). */
  private static final double KOLMOGOROV_LIMIT = Math.sqrt(-Math.log(0.001 / 2) / 2);

  /** Two-sided normal limit at 0.001. */
  private static final double NORMAL_LIMIT = 3.291;

  @ParameterizedTest
  @ValueSource(strings = {"seal", "bearing", "vanes"})
  void drawnLivesFollowTheTrueWeibull(String component) {
    Scenario scenario = Scenario.read(Samples.PLAIN);
    double[] shares =
        FleetSampler.draw(scenario).drawnLives().stream()
            .filter(life -> life.component().equals(component))
            .mapToDouble(
                life ->
                    scenario
                        .trueLife(component, new Service(life.product(), life.duty()))
                        .failed(life.lifeHours()))
            .sorted()
            .toArray();
    double distance = 0;
    int n = shares.length;
    for (int i = 0; i < n; i++) {
      distance =
          Math.max(distance, Math.max(shares[i] - i / (double) n, (i + 1.0) / n - shares[i]));
    }
    assertTrue(n >= 300, "lives: " + n);
    assertTrue(Math.sqrt(n) * distance < KOLMOGOROV_LIMIT, "distance " + distance + " of " + n);
  }

  /**
   * Failures counted in the written tables against the sum of true cumulative hazards over all
   * running ages in them: the difference is a martingale, so its square is expected to be that sum.
   */
  @ParameterizedTest
  @ValueSource(strings = {"seal", "bearing"})
  void failuresOnRecordMatchTheTrueHazard(String component) {
    Scenario scenario = Scenario.read(Samples.PLAIN);
    double failures = 0;
    double expected = 0;
    for (long seed = 1; seed <= 5; seed++) {
      Tally tally = tally(scenario, FleetSampler.draw(scenario.withSeed(seed)), component);
      failures += tally.failures();
      expected += tally.expected();
    }
    double score = (failures - expected) / Math.sqrt(expected);
    assertTrue(failures >= 200, "failures: " + failures);
    assertTrue(Math.abs(score) < NORMAL_LIMIT, failures + " failures, expected " + expected);
  }

  private record Tally(int failures, double expected) {}

  private static Tally tally(Scenario scenario, SampledFleet fleet, String component) {
    Set<String> left = new TreeSet<>();
    scenario.serviceChanges().forEach(change -> left.add(change.pump()));
    Map<String, Weibull> lives = new HashMap<>();
    for (Map<String, String> row : rows(fleet, "services.csv")) {
      Service service = new Service(cell(row, "product"), cell(row, "duty"));
      lives.put(cell(row, "pump"), scenario.trueLife(component, service));
    }
    for (Map<String, String> row : rows(fleet, "pumps.csv")) {
      if (!cell(row, "records_from").isEmpty()) {
        left.add(cell(row, "pump"));
      }
    }
    lives.keySet().removeAll(left);
    Map<String, List<Map<String, String>>> findings =
        rows(fleet, "findings.csv").stream()
            .collect(Collectors.groupingBy(row -> cell(row, "rebuild")));
    Map<String, Double> fittedAt = new HashMap<>();
    int failures = 0;
    double expected = 0;
    for (Map<String, String> opening : rows(fleet, "rebuilds.csv")) {
      Weibull life = lives.get(cell(opening, "pump"));
      double hours = Double.parseDouble(cell(opening, "hours"));
      for (Map<String, String> f : findings.getOrDefault(cell(opening, "rebuild"), List.of())) {
        if (life != null
            && cell(f, "position").startsWith(component)
            && cell(f, "action").equals("renewed")) {
          String key = cell(opening, "pump") + cell(f, "position");
          double age = hours - fittedAt.getOrDefault(key, 0.0);
          boolean startUp = !cell(opening, "note").isEmpty();
          failures += cell(f, "as_found").equals("failed") && !startUp ? 1 : 0;
          expected += life.cumulativeHazard(age);
          fittedAt.put(key, hours);
        }
      }
    }
    return new Tally(failures, expected + stillRunning(fleet, lives, fittedAt, component));
  }

  private static double stillRunning(
      SampledFleet fleet,
      Map<String, Weibull> lives,
      Map<String, Double> fittedAt,
      String component) {
    Map<String, Double> last = new HashMap<>();
    for (String file : List.of("readings.csv", "rebuilds.csv")) {
      for (Map<String, String> row : rows(fleet, file)) {
        last.merge(cell(row, "pump"), Double.parseDouble(cell(row, "hours")), Math::max);
      }
    }
    double expected = 0;
    for (Map.Entry<String, Weibull> entry : lives.entrySet()) {
      for (String side : List.of("-inboard", "-outboard")) {
        double from = fittedAt.getOrDefault(entry.getKey() + component + side, 0.0);
        double to = last.getOrDefault(entry.getKey(), 0.0);
        expected += entry.getValue().cumulativeHazard(to - from);
      }
    }
    return expected;
  }

  @Test
  void plantedCausesShowInTheRecords() {
    SampledFleet fleet = Samples.draw(Samples.SIX);
    Map<String, String> crewOf =
        rows(fleet, "rebuilds.csv").stream()
            .collect(Collectors.toMap(r -> cell(r, "rebuild"), r -> cell(r, "crew")));
    Map<String, Integer> fitted = new HashMap<>();
    for (Map<String, String> f : rows(fleet, "findings.csv")) {
      if (cell(f, "position").startsWith("seal") && cell(f, "action").equals("renewed")) {
        fitted.merge(crewGroup(crewOf.getOrDefault(cell(f, "rebuild"), "")), 1, Integer::sum);
      }
    }
    Map<String, Integer> leaked = new HashMap<>();
    for (Map<String, String> r : rows(fleet, "rebuilds.csv")) {
      if (cell(r, "note").contains("start-up")) {
        leaked.merge(crewGroup(cell(r, "crew")), 1, Integer::sum);
      }
    }
    double contract =
        leaked.getOrDefault("contract", 0) / (double) fitted.getOrDefault("contract", 1);
    double others = leaked.getOrDefault("others", 0) / (double) fitted.getOrDefault("others", 1);
    assertTrue(contract > 3 * others, contract + " against " + others);

    // The worsening pump's factors multiply the lot's; second sheets repeat a part.
    Set<String> leftOut =
        rows(fleet, "rebuilds.csv").stream()
            .filter(r -> cell(r, "pump").equals("FW-P07") || cell(r, "rebuild").endsWith("-2"))
            .map(r -> cell(r, "rebuild"))
            .collect(Collectors.toSet());
    long onRecord =
        rows(fleet, "findings.csv").stream()
            .filter(f -> cell(f, "lot").equals("S2021-1R"))
            .filter(f -> !leftOut.contains(cell(f, "rebuild")))
            .count();
    long drawn =
        fleet.drawnLives().stream()
            .filter(life -> life.lifeFactor() == 0.4 && !life.pump().equals("FW-P07"))
            .count();
    assertTrue(onRecord >= 20, "parts of the bad lot: " + onRecord);
    assertTrue(drawn >= onRecord, drawn + " drawn, " + onRecord + " on record");

    List<Double> worsening =
        fleet.drawnLives().stream()
            .filter(life -> life.pump().equals("FW-P07") && life.component().equals("bearing"))
            .map(SampledFleet.DrawnLife::lifeFactor)
            .toList();
    assertEquals(1.0, worsening.get(0));
    assertEquals(0.35, worsening.get(worsening.size() - 1));
    assertEquals(3, fleet.truth().causes().size());
  }

  private static String crewGroup(String crew) {
    return crew.equals("contract crew") ? "contract" : "others";
  }

  @Test
  void truthListsEveryComponentInEveryService() {
    Scenario scenario = Scenario.read(Samples.SIX);
    Truth truth = Sample.draw(Samples.SIX, OptionalLong.empty()).truth();
    assertEquals(0, truth.lifetimes().size() % 3);
    for (Truth.Lifetime life : truth.lifetimes()) {
      assertEquals(
          scenario.trueLife(life.component(), new Service(life.product(), life.duty())),
          new Weibull(life.shape(), life.scale()));
    }
    assertEquals(
        new Weibull(2.1, 8500 * 0.85 * 0.9),
        scenario.trueLife("seal", new Service("petrol", "unloading")));
    assertEquals(
        new Weibull(1.0, 5000), scenario.trueLife("seal", new Service("LPG", "unloading")));
  }
}
