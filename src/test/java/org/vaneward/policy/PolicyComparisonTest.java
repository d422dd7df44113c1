package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.model.LifeDraws;
import org.vaneward.policy.PolicyComparison.Row;
import org.vaneward.policy.PolicyComparison.Rule;

/** Rules compared over the same draws. */
class PolicyComparisonTest {

  @Test
  void eachRuleCostsWhatItsFormulaSays() {
    DrawnCostModel model = pump(0.15);
    Map<Rule, Row> rows = rows(model, Optional.of(new Policy.Practice(List.of(2800.0), 1)));
    DrawnRun run = DrawnRun.fromNew(model.first(PolicyComparison.DRAWS));
    Row full = row(rows, Rule.FULL_REBUILD);
    assertEquals(ExpectedCost.of(model, 0.9).best().costPerHour(), full.cost().estimate(), 1e-9);
    assertEquals(0, full.more().estimate());
    // Over the draws compared it may cost a little more or less; every rule is moved by as much.
    double moved =
        full.cost().estimate() - run.expectedCostPerHour(full.intervalHours().orElseThrow());
    Row mend = row(rows, Rule.MEND_BETWEEN);
    Row threshold = row(rows, Rule.THRESHOLD);
    double blocks = 0;
    double thresholds = 0;
    double never = 0;
    for (int d = 0; d < PolicyComparison.DRAWS; d++) {
      CostModel one = model.at(d);
      BlockCost block = BlockCost.of(one);
      blocks += block.costPerHour(mend.intervalHours().orElseThrow()) / PolicyComparison.DRAWS;
      never += block.runToFailureCostPerHour() / PolicyComparison.DRAWS;
      thresholds +=
          ThresholdCost.of(one)
                  .costPerHour(
                      threshold.thresholdHours().orElseThrow(),
                      threshold.intervalHours().orElseThrow())
              / PolicyComparison.DRAWS;
    }
    assertEquals(blocks + moved, mend.cost().estimate(), 1e-9);
    assertEquals(thresholds + moved, threshold.cost().estimate(), 1e-9);
    assertEquals(never + moved, row(rows, Rule.TO_FAILURE_MEND).cost().estimate(), 1e-9);
    assertEquals(
        run.expectedCostPerHour(Double.POSITIVE_INFINITY) + moved,
        row(rows, Rule.TO_FAILURE_REBUILD).cost().estimate(),
        1e-9);
    assertEquals(
        run.expectedCostPerHour(2800) + moved, row(rows, Rule.PRACTICE).cost().estimate(), 0.01);
  }

  @Test
  void whereLivesAreKnownTheThresholdRuleIsCheapest() {
    Map<Rule, Row> rows = rows(pump(0), Optional.empty());
    Row threshold = row(rows, Rule.THRESHOLD);
    for (Row row : rows.values()) {
      assertTrue(threshold.cost().estimate() <= row.cost().estimate() * (1 + 1e-6), row.toString());
    }
    assertEquals(5, rows.size());
    assertTrue(threshold.chanceCheaper() == 1 && threshold.more().estimate() < 0);
  }

  @Test
  void aPumpThatNothingStopsHasNothingToMend() {
    DrawnRisk vanes =
        new DrawnRisk(
            "vane-set", "vanes", draws(new SplittableRandom(3), 2.5, 0.1, 9000), 0, 0, false, 0.4);
    DrawnCostModel model = new DrawnCostModel(900, List.of(vanes));
    assertEquals(2, rows(model, Optional.empty()).size());
  }

  private static Row row(Map<Rule, Row> rows, Rule rule) {
    return Optional.ofNullable(rows.get(rule)).orElseThrow();
  }

  private static Map<Rule, Row> rows(DrawnCostModel model, Optional<Policy> practice) {
    Map<Rule, Row> rows = new EnumMap<>(Rule.class);
    PolicyComparison.of(model, ExpectedCost.of(model, 0.9).best(), practice, new Renewals(), 0.9, 1)
        .rows()
        .forEach(row -> rows.put(row.rule(), row));
    return rows;
  }

  private static DrawnCostModel pump(double spread) {
    SplittableRandom random = new SplittableRandom(41);
    LifeDraws seal = draws(random, 1.74, spread, 5500);
    LifeDraws bearing = draws(random, 2.1, spread, 16_000);
    LifeDraws vanes = draws(random, 2.5, spread, 9000);
    return new DrawnCostModel(
        1900,
        List.of(
            new DrawnRisk("seal-inboard", "seal", seal, 6100, 5500, true, 0),
            new DrawnRisk("seal-outboard", "seal", seal, 6100, 5500, true, 0),
            new DrawnRisk("bearing-inboard", "bearing", bearing, 4800, 4000, true, 0),
            new DrawnRisk("vane-set", "vanes", vanes, 0, 0, false, 0.2)));
  }

  private static LifeDraws draws(
      SplittableRandom random, double shape, double spread, double scale) {
    double[] shapes = new double[50];
    double[] scales = new double[50];
    for (int i = 0; i < 50; i++) {
      shapes[i] = shape * Math.exp(spread * (2 * random.nextDouble() - 1));
      scales[i] = scale * Math.exp(spread * (2 * random.nextDouble() - 1));
    }
    return LifeDraws.of(shapes, scales);
  }
}
