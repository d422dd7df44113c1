package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

/** The page on pooling shows the table that the study prints. */
class PriorSensitivityTest {
  @Test
  void thePageShowsTheTable() throws IOException {
    String page = Files.readString(Path.of("docs", "methods", "pooling.md"));
    String table = PriorSensitivity.table();
    assertTrue(page.contains("```\n" + table + "```"), () -> "the page does not show\n" + table);
  }

  /** Eight failures speak louder than any of the priors. */
  @Test
  void theWellKnownServiceHardlyMoves() {
    Priors p = Priors.defaults();
    double plain = scale(p);
    assertEquals(1, scale(p.withShapeLogSd(2 * p.shapeLogSd())) / plain, 0.03);
    assertEquals(1, scale(p.withScaleLogSd(2 * p.scaleLogSd())) / plain, 0.03);
    assertEquals(1, scale(p.withShapesBetweenScale(2 * p.shapesBetweenScale())) / plain, 0.03);
    assertEquals(1, scale(p.withBetweenScale(2 * p.betweenScale())) / plain, 0.05);
  }

  private static double scale(Priors priors) {
    return PriorSensitivity.fit(priors).groups().get(5).scale().estimate();
  }
}
