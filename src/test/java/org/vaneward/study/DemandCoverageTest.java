package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The study of {@link DemandCoverage}, on few fleets in every build. */
class DemandCoverageTest {
  private static final int FLEETS = 40;

  /** Within three standard errors of the 80% foretold. */
  @Test
  void whatComesLiesWithinWhatWasForetold() {
    List<Map<String, DemandCoverage.Case>> cases =
        DemandCoverage.cases(Path.of("seeds/small-terminal.json"), 9001, FLEETS);
    double error = Math.sqrt(0.8 * 0.2 / FLEETS);
    for (String name : cases.get(0).keySet()) {
      double mid = DemandCoverage.shares(cases, name)[1];
      assertTrue(Math.abs(mid - 0.8) < 3 * error, name + ": " + mid);
    }
  }
}
