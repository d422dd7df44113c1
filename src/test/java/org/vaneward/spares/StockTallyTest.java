package org.vaneward.spares;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.apache.commons.math3.distribution.PoissonDistribution;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.model.LifeDraws;
import org.vaneward.policy.LifeLookup;
import org.vaneward.stats.distribution.Weibull;

/** At a constant rate demand in a lead time is Poisson, and every level has a closed form. */
class StockTallyTest {
  private static final Weibull NEVER = new Weibull(2, 1e9);
  private static final Line LOOSE_SEAL = new Line(Line.Kind.LOOSE, "seal");

  private static final LifeLookup SEALS_ONLY =
      MadeFleet.lives(
          Map.of(
              "seal", LifeDraws.certain(new Weibull(1, 5000)),
              "bearing", LifeDraws.certain(NEVER),
              "vanes", LifeDraws.certain(NEVER)));

  /** 24 pumps at two sites, 70 h a week, two seals each: mended, nothing planned. */
  private static MadeFleet fleet(FleetSettings.Stock stock) {
    MadeFleet fleet = new MadeFleet(1);
    fleet.usageSpread = 0;
    fleet.stock = stock;
    for (int p = 0; p < 24; p++) {
      fleet.add(p < 8 ? "north" : "south", "diesel", 70, 0, -1, Double.POSITIVE_INFINITY);
    }
    return fleet;
  }

  private static StockTally tally(MadeFleet fleet, int months) {
    return Outlook.of(
            fleet.ahead(SEALS_ONLY, months),
            Rule.TO_FAILURE.mending(),
            new DemandRequest(months, 4000, 3),
            s -> {})
        .stock();
  }

  private static StockLevel seal(List<StockLevel> levels) {
    return levels.stream().filter(l -> l.line().equals(LOOSE_SEAL)).findFirst().orElseThrow();
  }

  /** Seals asked for in so many days by so many pumps. */
  private static PoissonDistribution demand(int pumps, int days) {
    return new PoissonDistribution(pumps * 2 * 10.0 * days / 5000);
  }

  @Test
  void levelsAreThoseOfThePoisson() {
    double service = 0.93;
    MadeFleet fleet =
        fleet(new FleetSettings.Stock(service, 30, OptionalDouble.empty(), OptionalDouble.empty()));
    StockTally tally = tally(fleet, 24);
    int[] pumps = {24, 8, 16};
    List<List<StockLevel>> places = List.of(tally.pooled(), tally.at("north"), tally.at("south"));
    for (int i = 0; i < 3; i++) {
      StockLevel level = seal(places.get(i));
      assertEquals(21, level.leadTimeDays());
      int at = demand(pumps[i], 21).inverseCumulativeProbability(service);
      int to = demand(pumps[i], 51).inverseCumulativeProbability(service);
      assertEquals(OptionalInt.of(at), level.orderAt());
      assertEquals(OptionalInt.of(to), level.fillTo());
      // Nothing is planned: all of it is unplanned.
      assertEquals(OptionalInt.of(at), level.orderAtAhead());
      assertEquals(OptionalInt.of(to), level.fillToAhead());
      assertEquals(OptionalInt.empty(), level.cheapest().level());
    }
  }

  @Test
  void theCheapestLevelIsTheNewsvendors() {
    double holding = 0.25;
    double waiting = 2;
    MadeFleet fleet =
        fleet(
            new FleetSettings.Stock(
                0.95, 30, OptionalDouble.of(holding), OptionalDouble.of(waiting)));
    StockLevel level = seal(tally(fleet, 24).pooled());
    PoissonDistribution demand = demand(24, 21);
    double h = holding * 270;
    double w = waiting * 365.25;
    int best = demand.inverseCumulativeProbability(w / (w + h));
    assertEquals(OptionalInt.of(best), level.cheapest().level());
    double held = 0;
    double waited = 0;
    for (int k = 0; k < 60; k++) {
      held += demand.probability(k) * Math.max(0, best - k);
      waited += demand.probability(k) * Math.max(0, k - best);
    }
    assertEquals(h * held, level.cheapest().holdingPerYear(), 0.02 * h * held);
    assertEquals(w * waited, level.cheapest().waitingPerYear(), 0.05 * w * waited);
  }

  @Test
  void aLeadTimeLongerThanTheTimeAheadHasNoLevel() {
    MadeFleet fleet = fleet(FleetSettings.Stock.usual());
    StockLevel level = seal(tally(fleet, 1).pooled());
    assertTrue(level.orderAt().isPresent());
    assertEquals(OptionalInt.empty(), level.fillTo());
  }

  /** A kit that is there the same day needs no stock between orders. */
  @Test
  void noLeadTimeNeedsNoStock() {
    MadeFleet fleet = fleet(FleetSettings.Stock.usual());
    fleet.kits =
        List.of(
            new FleetSettings.Kit(
                "K-0", List.of(), Map.of("seal", 1, "head-o-ring", 2, "cover-gasket", 2), 200, 0));
    List<StockLevel> levels = tally(fleet, 24).pooled();
    assertEquals(1, levels.size());
    assertEquals(OptionalInt.of(0), levels.get(0).orderAt());
    assertTrue(levels.get(0).fillTo().getAsInt() > 0);
  }
}
