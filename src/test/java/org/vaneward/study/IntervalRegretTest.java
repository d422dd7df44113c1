package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.vaneward.study.IntervalRegret.Belief;
import org.vaneward.study.IntervalRegret.Case;
import org.vaneward.study.IntervalRegret.Summary;

/** The advised interval against the oracle's, on a few fleets of each scenario. */
class IntervalRegretTest {
  private static final int DRAWS = 250;

  @Test
  void theAdvisedIntervalCostsLittleMoreThanTheOracles() {
    List<Case> cases = new ArrayList<>();
    cases.addAll(IntervalRegret.cases(Path.of("seeds/depots-plain.json"), 1, 4, DRAWS));
    cases.addAll(IntervalRegret.cases(Path.of("seeds/depots-six.json"), 5, 2, DRAWS));
    cases.addAll(IntervalRegret.cases(Path.of("seeds/small-terminal.json"), 7, 6, DRAWS));
    assertTrue(cases.size() >= 120, "intervals: " + cases.size());
    for (Case c : cases) {
      for (double regret : c.regret().values()) {
        assertTrue(regret > -1e-9, "nothing is cheaper than the oracle's: " + regret);
      }
    }
    Summary advised = IntervalRegret.byCase(cases, Belief.EXPECTED);
    assertTrue(advised.median() <= 0.03, "median: " + advised);
    assertTrue(IntervalRegret.byPump(cases, Belief.EXPECTED).median() <= 0.03);
    Summary own = IntervalRegret.byCase(cases, Belief.OWN_FIT);
    assertTrue(advised.mean() <= own.mean(), "pooled: " + advised + ", own fits: " + own);
    assertTrue(advised.mean() <= IntervalRegret.byCase(cases, Belief.TOGETHER).mean());
  }

  /** Where services have few failures and wear out alike, leaning is what pooling is for. */
  @Test
  void withFewFailuresPoolingPays() {
    List<Case> few =
        IntervalRegret.cases(Path.of("seeds/depots-plain.json"), 21, 4, DRAWS).stream()
            .filter(c -> c.failures() <= 3 && c.trueShape() > 2)
            .toList();
    assertTrue(few.size() >= 10, "intervals: " + few.size());
    double pooled = IntervalRegret.byCase(few, Belief.EXPECTED).mean();
    double own = IntervalRegret.byCase(few, Belief.OWN_FIT).mean();
    assertTrue(pooled < 0.75 * own, "pooled " + pooled + ", own fits " + own);
  }
}
