package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.life.PumpState;

/** What a shop does, from openings made by a rule that is known. Pumps and hours are invented. */
class ShopPracticeTest {
  private static final LocalDate DAY = LocalDate.of(2024, 5, 6);

  @Test
  void countsOpeningsAndHours() {
    List<OpeningMade> openings =
        List.of(
            opening("A", Reason.STOP, false, 1500, "seal"),
            opening("A", Reason.STOP, true, 3000, "bearing"),
            opening("A", Reason.PLANNED, true, 5000, ""),
            opening("B", Reason.INSPECTION, false, 800, ""),
            opening("other", Reason.PLANNED, true, 900, ""));
    ShopPractice practice = ShopPractice.of(List.of(pump("A", 700), pump("B", 2000)), openings);
    assertEquals(2, practice.pumps());
    assertEquals(3000 + 5000 + 700 + 2000, practice.hours());
    assertEquals(1, practice.planned());
    assertEquals(Map.of("seal", 1, "bearing", 1), practice.stops());
    assertEquals(0.5, practice.fullShare());
    assertFalse(practice.enough());
  }

  @Test
  void findsTheRuleAgainThatMadeTheOpenings() {
    SplittableRandom random = new SplittableRandom(51);
    List<OpeningMade> openings = new ArrayList<>();
    List<PumpState> pumps = new ArrayList<>();
    for (int p = 0; p < 400; p++) {
      String name = "P" + p;
      // A fifth of the pumps get no planned rebuild; the others one at 5,500 to 6,500 hours.
      double planned = p % 5 == 0 ? 1e9 : 5500 + 1000 * random.nextDouble();
      double failure = 9000 * Math.pow(-Math.log1p(-random.nextDouble()), 1 / 1.7);
      if (failure < planned) {
        openings.add(opening(name, Reason.STOP, random.nextDouble() < 0.6, failure, "seal"));
        if (!openings.get(openings.size() - 1).full()) {
          pumps.add(pump(name, failure + 10));
          continue;
        }
      } else {
        openings.add(opening(name, Reason.PLANNED, true, planned, ""));
      }
      pumps.add(pump(name, 100));
    }
    ShopPractice practice = ShopPractice.of(pumps, openings);
    assertTrue(practice.enough());
    assertEquals(0.6, practice.fullShare(), 0.08);
    assertEquals(0.2, practice.neverShare(), 0.06);
    assertEquals(5500 + 1000 * 0.5 / 0.8, practice.intervalQuantile(0.5).orElseThrow(), 90);
    assertTrue(practice.intervalQuantile(0.95).isEmpty());
    assertTrue(practice.rule().isPresent());
  }

  @Test
  void aRunWhoseStartIsNotOnRecordSaysNothingOfTheInterval() {
    OpeningMade late =
        new OpeningMade(
            "A",
            DAY,
            Optional.empty(),
            Reason.PLANNED,
            true,
            Optional.empty(),
            OptionalDouble.of(400),
            false);
    ShopPractice practice = ShopPractice.of(List.of(pump("A", 100)), List.of(late));
    assertEquals(500, practice.hours());
    assertEquals(1, practice.planned());
    assertEquals(1, practice.neverShare());
  }

  @Test
  void aShopThatOnlyMendsHasNoRuleToSimulate() {
    ShopPractice practice =
        ShopPractice.of(
            List.of(pump("A", 4000)), List.of(opening("A", Reason.STOP, false, 900, "seal")));
    assertTrue(practice.rule().isEmpty());
    assertEquals(0, practice.fullShare());
    assertEquals(1, ShopPractice.of(List.of(pump("A", 4000)), List.of()).fullShare());
  }

  private static OpeningMade opening(
      String pump, Reason reason, boolean full, double since, String by) {
    return new OpeningMade(
        pump,
        DAY,
        Optional.empty(),
        reason,
        full,
        by.isEmpty() ? Optional.empty() : Optional.of(by),
        OptionalDouble.of(since),
        true);
  }

  private static PumpState pump(String name, double sinceRebuild) {
    return new PumpState(
        name,
        "North",
        Optional.empty(),
        Map.of(),
        Optional.empty(),
        OptionalDouble.of(40),
        Optional.empty(),
        OptionalDouble.of(40),
        OptionalDouble.empty(),
        Optional.of(DAY),
        OptionalDouble.of(sinceRebuild),
        true,
        0,
        Optional.empty());
  }
}
