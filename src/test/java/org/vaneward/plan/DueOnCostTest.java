package org.vaneward.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.life.UsageRate;
import org.vaneward.model.LifeDraws;
import org.vaneward.policy.DrawnCostModel;
import org.vaneward.policy.DrawnRisk;
import org.vaneward.policy.DrawnRun;
import org.vaneward.policy.ExpectedCost;
import org.vaneward.stats.distribution.Weibull;

/** A pump's due day, ranges and extra cost over draws, against futures lived one by one. */
class DueOnCostTest {
  private static final double WEEK = 50;

  @Test
  void theExtraCostIsThatOfFuturesLivedOneByOne() {
    DrawnCostModel model = pump(0.2, 1.9);
    double[] ages = {2600, 900, 4000, 3000};
    double g = ExpectedCost.of(model, 0.9).best().costPerHour();
    DrawnRun run = DrawnRun.fromAges(model, ages);
    double further = 1500;
    SplittableRandom random = new SplittableRandom(61);
    int trials = 400_000;
    double sum = 0;
    double squares = 0;
    int stopped = 0;
    for (int k = 0; k < trials; k++) {
      int draw = random.nextInt(model.draws());
      double[] one = future(model, draw, ages, further, g, random);
      sum += one[0];
      squares += one[0] * one[0];
      stopped += one[1] > 0 ? 1 : 0;
    }
    double mean = sum / trials;
    double error = Math.sqrt((squares / trials - mean * mean) / trials);
    assertEquals(run.expectedExtraCost(further, g), mean, 3 * error);
    double stops = 1 - run.expectedSurvival(further);
    assertEquals(stops, (double) stopped / trials, 3 * Math.sqrt(stops * (1 - stops) / trials));
  }

  /** Cost beyond a planned rebuild less g times the running, and whether a failure stopped it. */
  private static double[] future(
      DrawnCostModel model,
      int draw,
      double[] ages,
      double further,
      double g,
      SplittableRandom random) {
    double stop = further;
    double beyond = 0;
    double hiddenAt = Double.POSITIVE_INFINITY;
    double perHour = 0;
    for (int i = 0; i < ages.length; i++) {
      DrawnRisk risk = model.positions().get(i);
      Weibull life = risk.life().at(draw);
      double budget = -Math.log(1 - random.nextDouble());
      if (risk.announces()) {
        double at = ageAt(life, life.cumulativeHazard(ages[i]) + budget) - ages[i];
        if (at < stop) {
          stop = at;
          beyond = risk.unplannedCost() - model.plannedCost();
        }
      } else {
        // Nobody knows whether it has failed: its age says how likely that is.
        hiddenAt = ageAt(life, budget) - ages[i];
        perHour = risk.hiddenCostPerHour();
      }
    }
    double hidden = perHour * Math.max(0, stop - Math.max(0, hiddenAt));
    return new double[] {beyond + hidden - g * stop, beyond};
  }

  private static double ageAt(Weibull life, double cumulativeHazard) {
    return life.scale() * Math.pow(cumulativeHazard, 1 / life.shape());
  }

  @Test
  void olderPartsAreDueEarlierAndTheUncertainHaveWiderRanges() {
    LocalDate before = LocalDate.MAX;
    for (double age : new double[] {0, 1000, 2500, 4000}) {
      LocalDate due = side(pump(0.1, 2.2), age, Optional.empty()).date().orElseThrow();
      assertTrue(due.isBefore(before));
      before = due;
    }
    long narrow = width(side(pump(0.05, 2.2), 1000, Optional.empty()));
    long wide = width(side(pump(0.3, 2.2), 1000, Optional.empty()));
    UsageRate shaky = new UsageRate(WEEK, OptionalDouble.of(25), 8);
    long shakier = width(side(pump(0.05, 2.2), 1000, Optional.of(shaky)));
    assertTrue(narrow < wide && narrow < shakier, narrow + " " + wide + " " + shakier);
  }

  private static long width(CostSide side) {
    DateRange range = side.range().orElseThrow();
    return ChronoUnit.DAYS.between(range.earliest(), range.latest().orElseThrow());
  }

  @Test
  void anOverduePumpSaysWhatItHasRisked() {
    CostSide side = side(pump(0.1, 2.2), 6000, Optional.empty());
    double late = ChronoUnit.DAYS.between(side.date().orElseThrow(), Fleets.AS_OF) / 7.0 * WEEK;
    assertTrue(late > 500);
    DrawnRun then =
        DrawnRun.fromAges(
            pump(0.1, 2.2), new double[] {6000 - late, 6000 - late, 6000 - late, 6000 - late});
    RiskRun risk = side.run().orElseThrow();
    assertEquals(1 - then.expectedSurvival(late), risk.chance(), 0.01);
    assertTrue(risk.cost() > 0);
    assertTrue(side(pump(0.1, 2.2), 100, Optional.empty()).run().isEmpty());
  }

  @Test
  void theWeeklyCostIsLeastWhereThePumpIsDue() {
    CostSide side = side(pump(0.1, 2.2), 1000, Optional.empty());
    WeeklyCost weekly = side.byWeek().orElseThrow();
    int best = 0;
    for (int w = 1; w <= weekly.weeks(); w++) {
      best = weekly.in(w) < weekly.in(best) ? w : best;
    }
    double due = ChronoUnit.DAYS.between(Fleets.AS_OF, side.date().orElseThrow()) / 7.0;
    assertEquals(due, best, 2);
    assertEquals(0, weekly.in(best), 1);
    assertTrue(weekly.in(0) > 20 && weekly.in(weekly.weeks()) > 20);
    // Between the knots the cubic is as good as the cost itself.
    Kinds.Costed costed = costed(pump(0.1, 2.2));
    DrawnRun run = DrawnRun.fromAges(costed.model(), new double[] {1000, 1000, 1000, 1000});
    double g = costed.advice().costPerHour();
    for (int w : new int[] {1, 6, 15, 51, 90}) {
      LocalDate monday = LocalDate.of(2026, 7, 6).plusWeeks(w);
      double hours = ChronoUnit.DAYS.between(Fleets.AS_OF, monday) / 7.0 * WEEK;
      double dueHours = due * WEEK;
      double exact = run.expectedExtraCost(hours, g) - run.expectedExtraCost(dueHours, g);
      assertEquals(exact, weekly.in(w), 0.5, "week " + w);
    }
  }

  @Test
  void sealsThatDoNotAgeDoNotDriveTheDateAndAreNamed() {
    CostSide side = side(pump(0.05, 0.85), 3000, Optional.empty());
    assertEquals(List.of("seal"), side.notPrevented());
    assertEquals("vane-set", side.driver().orElseThrow().position());
    assertTrue(side.date().isPresent());
  }

  private static CostSide side(DrawnCostModel model, double age, Optional<UsageRate> rate) {
    Usage usage = new Usage(Fleets.AS_OF, OptionalDouble.of(WEEK), rate, "h");
    double[] ages = {age, age, age, age};
    return new DueOnCost(costed(model), usage, ages, 104).costSide();
  }

  private static Kinds.Costed costed(DrawnCostModel model) {
    ExpectedCost cost = ExpectedCost.of(model, 0.9);
    return new Kinds.Costed(model, cost.best(), 0.9, cost.leastByDraw());
  }

  /** Two seals, a bearing, hidden vanes that wear out dearly; shapes and scales spread. */
  private static DrawnCostModel pump(double spread, double sealShape) {
    SplittableRandom random = new SplittableRandom(62);
    LifeDraws seal = draws(random, sealShape, spread, 7000);
    LifeDraws bearing = draws(random, 2.1, spread, 16_000);
    LifeDraws vanes = draws(random, 3.5, spread, 6000);
    return new DrawnCostModel(
        1900,
        List.of(
            new DrawnRisk("seal-inboard", "seal", seal, 6100, 5500, true, 0),
            new DrawnRisk("seal-outboard", "seal", seal, 6100, 5500, true, 0),
            new DrawnRisk("bearing-inboard", "bearing", bearing, 4800, 4000, true, 0),
            new DrawnRisk("vane-set", "vanes", vanes, 0, 0, false, 1.5)));
  }

  private static LifeDraws draws(
      SplittableRandom random, double shape, double spread, double scale) {
    double[] shapes = new double[100];
    double[] scales = new double[100];
    for (int i = 0; i < 100; i++) {
      shapes[i] = shape * Math.exp(spread * (2 * random.nextDouble() - 1));
      scales[i] = scale * Math.exp(spread * (2 * random.nextDouble() - 1));
    }
    return LifeDraws.of(shapes, scales);
  }
}
