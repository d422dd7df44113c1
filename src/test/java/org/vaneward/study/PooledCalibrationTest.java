package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.vaneward.study.PooledCalibration.Centre;
import org.vaneward.study.PooledCalibration.Quantity;
import org.vaneward.study.PooledCalibration.Ranks;
import org.vaneward.study.PooledCalibration.Spoil;

/** Ranks of the truth among posterior draws, over fewer data sets than the full run. */
class PooledCalibrationTest {
  private static final int DATA_SETS = 200;
  private static final long FIRST = 50_001;

  private static final Spoil NOTHING = (quantity, draw, middle) -> draw;

  private static final Set<Quantity> SCALES =
      EnumSet.of(Quantity.TYPICAL, Quantity.FIRST, Quantity.TENTH, Quantity.UNSEEN);

  /** Scales half as long again. */
  private static final Spoil LONGER =
      (quantity, draw, middle) -> SCALES.contains(quantity) ? draw + Math.log(1.5) : draw;

  /** Too sure. */
  private static final Spoil NARROWER = (quantity, draw, middle) -> middle + 0.6 * (draw - middle);

  /** Draws that are right pass at 1%; draws that are wrong do not. */
  @Test
  void ranksAreUniformAndThoseAmongWrongDrawsAreNot() {
    List<Ranks> ranks =
        PooledCalibration.ranks(
            Centre.STATED, FIRST, DATA_SETS, List.of(NOTHING, LONGER, NARROWER));
    Ranks right = ranks.get(0);
    assertEquals(DATA_SETS, right.dataSets());
    assertTrue(right.refused() < DATA_SETS / 20, "refused: " + right.refused());
    assertEquals(List.of(), right.rejected(), () -> PooledCalibration.table(right));
    for (Quantity quantity : Quantity.values()) {
      assertEquals(DATA_SETS - right.refused(), Arrays.stream(right.bins(quantity)).sum());
    }
    assertEquals(
        EnumSet.of(Quantity.FIRST, Quantity.TENTH),
        EnumSet.copyOf(
            ranks.get(1).rejected().stream()
                .filter(q -> q == Quantity.FIRST || q == Quantity.TENTH)
                .toList()),
        () -> PooledCalibration.table(ranks.get(1)));
    assertEquals(
        EnumSet.allOf(Quantity.class),
        EnumSet.copyOf(ranks.get(2).rejected()),
        () -> PooledCalibration.table(ranks.get(2)));
  }

  /** A centre worked out from the lives is no prior; with one so wide it does not show here. */
  @Test
  void aCentreFromTheLivesDoesNotShow() {
    Ranks ranks = PooledCalibration.ranks(Centre.FROM_LIVES, FIRST, DATA_SETS / 2);
    assertEquals(List.of(), ranks.rejected(), () -> PooledCalibration.table(ranks));
  }
}
