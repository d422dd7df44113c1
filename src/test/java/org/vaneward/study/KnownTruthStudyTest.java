package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.study.KnownTruthFleet.FleetKey;
import org.vaneward.study.KnownTruthFleet.Kind;
import org.vaneward.study.KnownTruthFleet.Life;
import org.vaneward.study.KnownTruthFleet.Quantity;
import org.vaneward.study.KnownTruthFleet.Way;
import org.vaneward.study.KnownTruthSummary.Clustered;

/** The study of fleets of known truth, on a few of them. */
class KnownTruthStudyTest {
  private static final List<FleetKey> TINY =
      List.of(
          new FleetKey("small-terminal", 10, 2, 1),
          new FleetKey("small-terminal", 10, 5, 1),
          new FleetKey("small-terminal", 10, 5, 2));

  private static final int FLEETS = 6;

  /** A run that was stopped in the middle of a line ends with the same bytes. */
  @Test
  void aRunThatWasStoppedGoesOnWhereItStopped(@TempDir Path whole, @TempDir Path broken)
      throws IOException {
    KnownTruthStudy.run(whole, TINY);
    byte[] bytes = Files.readAllBytes(whole.resolve(KnownTruthStudy.FILE));
    int first = Files.readString(whole.resolve(KnownTruthStudy.FILE)).indexOf('\n');
    Path file = broken.resolve(KnownTruthStudy.FILE);
    Files.write(file, Arrays.copyOf(bytes, first + (bytes.length - first) / 3));
    KnownTruthStudy.run(broken, TINY);
    assertArrayEquals(bytes, Files.readAllBytes(file));
  }

  @Test
  void oneFleetAfterAnotherGivesTheSameBytes(@TempDir Path whole, @TempDir Path pieces)
      throws IOException {
    KnownTruthStudy.run(whole, TINY);
    for (FleetKey key : List.of(TINY.get(2), TINY.get(0), TINY.get(1))) {
      assertEquals(1, KnownTruthStudy.run(pieces, List.of(key)).size());
    }
    assertArrayEquals(
        Files.readAllBytes(whole.resolve(KnownTruthStudy.FILE)),
        Files.readAllBytes(pieces.resolve(KnownTruthStudy.FILE)));
  }

  @Test
  void aLineIsReadBackAsItWasWrittenAndAPartOfOneIsNot() {
    KnownTruthFleet fleet = KnownTruthFleet.draw(TINY.get(1));
    assertEquals(fleet, KnownTruthFleet.parse(fleet.line()).orElseThrow());
    String line = fleet.line();
    for (int end : List.of(0, 10, line.length() / 2, line.length() - 1)) {
      assertFalse(KnownTruthFleet.parse(line.substring(0, end)).isPresent());
    }
  }

  @Test
  void largeFleetsAreFewerAndSeedsAreTheirOwn() {
    List<FleetKey> design = KnownTruthStudy.design(40);
    assertEquals(design.size(), design.stream().map(FleetKey::seed).distinct().count());
    assertEquals(40, KnownTruthStudy.fleets("depots-plain", 100, 40));
    assertEquals(10, KnownTruthStudy.fleets("depots-plain", 300, 40));
    assertEquals(4, KnownTruthStudy.fleets("depots-plain", 1000, 40));
    assertEquals(10, KnownTruthStudy.fleets("depots-six", 100, 40));
    assertEquals(0, KnownTruthStudy.fleets("depots-six", 1000, 40));
  }

  /**
   * Some 300 lives with their limits, those of a fleet sharing fits: 3 points and more of scatter.
   */
  @Test
  void limitsHoldTheTruthAndTheAdvisedIntervalCostsLittle() {
    List<KnownTruthFleet> fleets =
        IntStream.rangeClosed(901, 900 + FLEETS)
            .parallel()
            .mapToObj(number -> KnownTruthFleet.draw(new FleetKey("depots-plain", 50, 10, number)))
            .toList();
    for (Way way : List.of(Way.PLAIN, Way.POOLED)) {
      Clustered held = KnownTruthSummary.held(fleets, Life::usual, way, Quantity.values());
      assertTrue(held.count() > 400, way + ": " + held);
      assertTrue(held.value() > 0.82 && held.value() < 0.97, way + ": " + held);
      assertTrue(held.error() > 0.002 && held.error() < 0.05, way + ": " + held);
    }
    for (KnownTruthFleet fleet : fleets) {
      for (Kind kind : fleet.kinds()) {
        kind.regrets().values().forEach(r -> assertTrue(r > -1e-9, () -> kind.toString()));
      }
    }
    IntervalRegret.Summary regret = KnownTruthSummary.regret(fleets, kind -> true, Way.POOLED);
    assertTrue(regret.median() <= 0.03, regret.toString());
    assertTrue(regret.mean() <= 0.05, regret.toString());

    List<KnownTruthFleet> wrong = fleets.stream().map(KnownTruthStudyTest::longerLived).toList();
    Clustered held = KnownTruthSummary.held(wrong, Life::usual, Way.POOLED, Quantity.SCALE);
    assertTrue(held.value() < 0.82, "held against a truth that is not: " + held);
  }

  /** The fleet beside a truth by which parts last half as long again. */
  private static KnownTruthFleet longerLived(KnownTruthFleet fleet) {
    return new KnownTruthFleet(
        fleet.key(),
        fleet.lives().stream()
            .map(
                life ->
                    new Life(
                        life.component(),
                        life.service(),
                        life.lives(),
                        life.failures(),
                        new Weibull(life.truth().shape(), 1.5 * life.truth().scale()),
                        life.usual(),
                        life.basis(),
                        life.fits()))
            .toList(),
        fleet.kinds());
  }

  /** Three lives of one fleet that stand or fall together count as one. */
  @Test
  void errorsGoByFleet() {
    List<KnownTruthFleet> fleets =
        IntStream.range(0, 4)
            .mapToObj(
                number ->
                    new KnownTruthFleet(
                        new FleetKey("small-terminal", 10, 2, number), List.of(), List.of()))
            .toList();
    Clustered share = Clustered.of(fleets, fleet -> fleet.key().number() < 2 ? 3 : 0, fleet -> 3);
    assertEquals(0.5, share.value());
    assertEquals(Math.sqrt(0.25 / 3), share.error(), 1e-12);
    assertEquals(12, share.count());
  }
}
