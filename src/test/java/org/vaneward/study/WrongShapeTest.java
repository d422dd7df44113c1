package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** What a wrong shape costs: why a service whose parts do not wear out must not be pooled. */
class WrongShapeTest {
  @Test
  void theTrueShapeCostsNothing() {
    assertEquals(0, WrongShape.regret(2.1, 2.1), 1e-9);
    assertEquals(0, WrongShape.regret(1.0, 1.0), 1e-9);
  }

  @Test
  void aFlatterTruthCostsMuchASteeperOneLittle() {
    assertTrue(WrongShape.regret(2.1, 1.0) > 0.1);
    assertTrue(WrongShape.regret(2.1, 4.0) < 0.005);
  }

  /** Nor must a service be taken for one that does not wear out. */
  @Test
  void missingWearCostsMuch() {
    assertTrue(WrongShape.regret(1.0, 2.1) > 0.1);
  }
}
