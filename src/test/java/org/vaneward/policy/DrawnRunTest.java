package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.distribution.Weibull;

/** Every draw against {@link RunCost}, which is held against R; means against their draws. */
class DrawnRunTest {
  private static final double RELATIVE = 1e-8;
  private static final int DRAWS = 12;

  @Test
  void eachDrawOfANewPumpAgreesWithTheCertainRun() {
    DrawnCostModel model = pump(new SplittableRandom(1), 0.5, 12);
    DrawnRun run = DrawnRun.fromNew(model);
    for (int d = 0; d < DRAWS; d++) {
      same(run, d, RunCost.fromNew(model.at(d)));
    }
  }

  @Test
  void eachDrawOfAnAgedPumpAgreesWithTheCertainRun() {
    SplittableRandom random = new SplittableRandom(2);
    for (int pump = 0; pump < 20; pump++) {
      DrawnCostModel model = pump(random, 0.7, 5);
      double[] ages = random.doubles(5, 0, 9000).toArray();
      ages[pump % 5] = 0;
      DrawnRun run = DrawnRun.fromAges(model, ages);
      for (int d = 0; d < DRAWS; d++) {
        same(run, d, RunCost.fromAges(model.at(d), Arrays.stream(ages).boxed().toList()));
      }
    }
  }

  private static void same(DrawnRun run, int draw, RunCost certain) {
    for (double hours : new double[] {0.5, 40, 333, 2000, 4711, 9000, 30_000, 1e7}) {
      close(certain.survival(hours), run.survival(draw, hours));
      close(certain.meanHours(hours), run.meanHours(draw, hours));
      close(certain.costBeyondPlanned(hours), run.costBeyondPlanned(draw, hours));
      close(certain.costPerHour(hours), run.costPerHour(draw, hours));
    }
    close(certain.runToFailureCostPerHour(), run.costPerHour(draw, Double.POSITIVE_INFINITY));
  }

  private static void close(double expected, double actual) {
    assertEquals(expected, actual, RELATIVE * Math.abs(expected) + 1e-12);
  }

  @Test
  void edgesHoldWhatAPanelIntegratedOnTheCallGives() {
    DrawnRun run = DrawnRun.fromNew(pump(new SplittableRandom(3), 0.8, 4));
    for (double edge : run.edges()) {
      double beside = Math.nextUp(edge);
      close(run.costPerHour(3, beside), run.costPerHour(3, edge));
    }
  }

  @Test
  void meansAreMeansOfTheDraws() {
    DrawnRun run = DrawnRun.fromNew(pump(new SplittableRandom(4), 0.8, 4));
    double rate = 0;
    double extra = 0;
    double alive = 0;
    for (int d = 0; d < DRAWS; d++) {
      rate += run.costPerHour(d, 3100) / DRAWS;
      extra += (run.costBeyondPlanned(d, 3100) - 1.2 * run.meanHours(d, 3100)) / DRAWS;
      alive += run.survival(d, 3100) / DRAWS;
    }
    close(rate, run.expectedCostPerHour(3100));
    close(extra, run.expectedExtraCost(3100, 1.2));
    close(alive, run.expectedSurvival(3100));
  }

  @Test
  void meansBetweenEdgesAreMeansOfTheCertainRuns() {
    SplittableRandom random = new SplittableRandom(6);
    for (int pump = 0; pump < 20; pump++) {
      DrawnCostModel model = pump(random, 0.5, pump % 2 == 0 ? 4 : 12);
      double[] ages = random.doubles(5, 20, 9000).toArray();
      ages[pump % 5] = pump % 3 == 0 ? 0 : ages[pump % 5];
      DrawnRun run = DrawnRun.fromAges(model, ages);
      List<RunCost> certain = new ArrayList<>();
      for (int d = 0; d < DRAWS; d++) {
        certain.add(RunCost.fromAges(model.at(d), Arrays.stream(ages).boxed().toList()));
      }
      for (double hours = 0.5; hours < 1e5; hours *= 1.37) {
        double at = hours;
        close(mean(certain, c -> c.meanHours(at)), run.expectedHours(at));
        close(mean(certain, c -> c.costBeyondPlanned(at)), run.expectedExtraCost(at, 0));
        close(DrawLimits.mean(run.costsPerHour(at)), run.expectedCostPerHour(at));
      }
    }
  }

  private static double mean(List<RunCost> certain, ToDoubleFunction<RunCost> what) {
    return certain.stream().mapToDouble(what).average().orElseThrow();
  }

  @Test
  void theSlopeIsThatOfTheExtraCost() {
    SplittableRandom random = new SplittableRandom(5);
    DrawnRun run = DrawnRun.fromAges(pump(random, 1.2, 4), new double[] {900, 400, 50, 7000, 20});
    for (double hours : new double[] {10, 500, 2500}) {
      double step = 1e-4 * hours;
      double difference =
          (run.expectedExtraCost(hours + step, 0.8) - run.expectedExtraCost(hours - step, 0.8))
              / (2 * step);
      assertEquals(difference, run.expectedSlope(hours, 0.8), 1e-5 * Math.abs(difference));
    }
  }

  @Test
  void lookingBackIsLookingForwardFromYoungerParts() {
    DrawnCostModel model = certainPump();
    double[] ages = {3000, 2500, 4000, 5000, 6000};
    double[] younger = Arrays.stream(ages).map(a -> a - 700).toArray();
    DrawnRun now = DrawnRun.fromAges(model, ages);
    DrawnRun before = DrawnRun.fromAges(model, younger);
    close(before.expectedSlope(0, 0.7), now.expectedSlope(-700, 0.7));
  }

  @Test
  void eachPositionAddsItsShareToTheSlope() {
    SplittableRandom random = new SplittableRandom(7);
    double[] ages = {900, 400, 50, 7000, 20};
    DrawnRun run = DrawnRun.fromAges(pump(random, 1.2, 4), ages);
    for (double hours : new double[] {0, 10, 2500}) {
      double[] prices = run.marginalByPosition(hours);
      assertEquals(ages.length, prices.length);
      close(run.expectedSlope(hours, 0), Arrays.stream(prices).sum());
    }
    DrawnCostModel certain = certainPump();
    double[] prices = DrawnRun.fromNew(certain).marginalByPosition(3000);
    CostModel known = certain.at(0);
    double alive = RunCost.fromNew(known).survival(3000);
    close(alive * 4000 * known.positions().get(0).life().hazard(3000), prices[0]);
    close(alive * 4000 * known.positions().get(1).life().hazard(3000), prices[1]);
    close(alive * 3000 * known.positions().get(2).life().hazard(3000), prices[2]);
    close(alive * 0.2 * known.positions().get(4).life().failed(3000), prices[4]);
    assertEquals(20, run.youngestAge());
    assertEquals(7000, run.oldestAge());
  }

  @Test
  void aPumpThatNothingStopsCostsItsUnseenFailuresInTheEnd() {
    DrawnRisk vanes =
        new DrawnRisk(
            "vane-set", "vanes", LifeDraws.certain(new Weibull(3, 8000)), 0, 0, false, 0.2);
    DrawnCostModel model = new DrawnCostModel(1000, List.of(vanes));
    DrawnRun run = DrawnRun.fromNew(model);
    assertEquals(0.2, run.costPerHour(0, Double.POSITIVE_INFINITY));
    RunCost certain = RunCost.fromNew(model.at(0));
    for (double hours : new double[] {100, 9000, 1e6}) {
      close(certain.costPerHour(hours), run.costPerHour(0, hours));
    }
    assertEquals(1, run.survival(0, Double.POSITIVE_INFINITY));
  }

  @Test
  void refusesAgesThatAreNone() {
    DrawnCostModel model = certainPump();
    assertThrows(
        IllegalArgumentException.class, () -> DrawnRun.fromAges(model, new double[] {1, 2}));
    assertThrows(
        IllegalArgumentException.class,
        () -> DrawnRun.fromAges(model, new double[] {1, 2, 3, Double.NaN, 5}));
    assertThrows(
        IllegalArgumentException.class,
        () -> DrawnRun.fromAges(model, new double[] {1, 2, 3, -4, 5}));
    assertThrows(
        IllegalArgumentException.class,
        () -> DrawnRun.fromAges(model, new double[] {1, 2, 3, 4, Double.POSITIVE_INFINITY}));
    DrawnRun run = DrawnRun.fromNew(model);
    assertThrows(IllegalArgumentException.class, () -> run.expectedCostPerHour(0));
    assertTrue(run.expectedCostPerHour(1e-9) > 0);
  }

  private static DrawnCostModel certainPump() {
    return new DrawnCostModel(
        2000,
        List.of(
            seal("seal-inboard", LifeDraws.certain(new Weibull(1.7, 7000))),
            seal("seal-outboard", LifeDraws.certain(new Weibull(1.7, 7000))),
            new DrawnRisk(
                "bearing-inboard",
                "bearing",
                LifeDraws.certain(new Weibull(2.1, 16_000)),
                5000,
                4000,
                true,
                0),
            new DrawnRisk(
                "bearing-outboard",
                "bearing",
                LifeDraws.certain(new Weibull(2.1, 16_000)),
                5000,
                4000,
                true,
                0),
            new DrawnRisk(
                "vane-set", "vanes", LifeDraws.certain(new Weibull(3, 9000)), 0, 0, false, 0.2)));
  }

  private static DrawnRisk seal(String position, LifeDraws life) {
    return new DrawnRisk(position, "seal", life, 6000, 5500, true, 0);
  }

  /** Two seals, two bearings and hidden vanes, shapes and scales spread over the draws. */
  private static DrawnCostModel pump(SplittableRandom random, double lowShape, double highShape) {
    LifeDraws seal = draws(random, lowShape, highShape, 7000);
    LifeDraws bearing = draws(random, lowShape, highShape, 16_000);
    LifeDraws vanes = draws(random, lowShape, highShape, 9000);
    List<DrawnRisk> risks = new ArrayList<>();
    risks.add(seal("seal-inboard", seal));
    risks.add(seal("seal-outboard", seal));
    risks.add(new DrawnRisk("bearing-inboard", "bearing", bearing, 5000, 4000, true, 0));
    risks.add(new DrawnRisk("bearing-outboard", "bearing", bearing, 5000, 4000, true, 0));
    risks.add(new DrawnRisk("vane-set", "vanes", vanes, 0, 0, false, 0.2));
    return new DrawnCostModel(2000, risks);
  }

  private static LifeDraws draws(
      SplittableRandom random, double lowShape, double highShape, double scale) {
    double[] shapes = random.doubles(DRAWS, lowShape, highShape).toArray();
    double[] scales = random.doubles(DRAWS, 0.6 * scale, 1.5 * scale).toArray();
    return LifeDraws.of(shapes, scales);
  }
}
