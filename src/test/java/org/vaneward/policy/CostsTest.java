package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Costs;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.FleetSettings.Workshop;
import org.vaneward.fleet.Service;
import org.vaneward.io.BadInputException;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/** Parts, cost models and limits. */
class CostsTest {
  private static final Map<String, Integer> NEEDS = Map.of("seal", 2, "bearing", 2, "vane", 6);
  private static final List<LoosePart> PARTS =
      List.of(
          new LoosePart("seal", 100, 5),
          new LoosePart("bearing", 40, 5),
          new LoosePart("vane", 10, 5));

  private static final Kit KIT =
      new Kit("K-2", List.of("VP-2"), Map.of("seal", 1, "bearing", 2, "vane", 6), 200, 10);

  @Test
  void kitIsToppedUpWithLooseParts() {
    PartsCost cost = PartsCost.of(settings(List.of(KIT), PARTS), Optional.of("VP-2"));
    assertEquals(300, cost.cost());
    assertEquals(Map.of("K-2", 1), cost.kits());
    assertEquals(Map.of("seal", 1), cost.looseParts());
    assertTrue(cost.leftOver().isEmpty() && cost.unpriced().isEmpty());
  }

  @Test
  void kitOfAnotherModelIsNoUse() {
    for (Optional<String> model : List.of(Optional.of("VP-3"), Optional.<String>empty())) {
      PartsCost cost = PartsCost.of(settings(List.of(KIT), PARTS), model);
      assertEquals(2 * 100 + 2 * 40 + 6 * 10, cost.cost());
      assertTrue(cost.kits().isEmpty());
    }
  }

  @Test
  void secondKitIsBoughtWhenItBeatsTheLoosePartAndWhatItLeavesOverIsPaid() {
    List<LoosePart> dear =
        List.of(
            new LoosePart("seal", 500, 5),
            new LoosePart("bearing", 40, 5),
            new LoosePart("vane", 10, 5));
    PartsCost cost = PartsCost.of(settings(List.of(KIT), dear), Optional.of("VP-2"));
    assertEquals(400, cost.cost());
    assertEquals(Map.of("K-2", 2), cost.kits());
    assertEquals(Map.of("bearing", 2, "vane", 6), cost.leftOver());
  }

  @Test
  void dearKitIsNotBought() {
    Kit dear = new Kit("K-2", List.of(), KIT.contents(), 1000, 10);
    assertEquals(340, PartsCost.of(settings(List.of(dear), PARTS), Optional.empty()).cost());
  }

  @Test
  void unpricedPartIsNamedAndAvoidedWhereAKitCoversIt() {
    List<LoosePart> noSeal = PARTS.subList(1, 3);
    PartsCost avoided = PartsCost.of(settings(List.of(KIT), noSeal), Optional.of("VP-2"));
    assertEquals(Map.of("K-2", 2), avoided.kits());
    assertTrue(avoided.unpriced().isEmpty());
    PartsCost named = PartsCost.of(settings(List.of(), noSeal), Optional.of("VP-2"));
    assertEquals(List.of("seal"), named.unpriced());
    assertEquals(140, named.cost());
    assertEquals(2, named.looseParts().get("seal"));
  }

  @Test
  void cheapestMixIsFoundAmongAll() {
    SplittableRandom random = new SplittableRandom(9);
    for (int trial = 0; trial < 60; trial++) {
      List<Kit> kits = List.of(kit("A", random, List.of()), kit("B", random, List.of()));
      PartsCost cost = PartsCost.of(settings(kits, PARTS), Optional.empty());
      double least = Double.POSITIVE_INFINITY;
      for (int a = 0; a <= 6; a++) {
        for (int b = 0; b <= 6; b++) {
          least = Math.min(least, mix(kits, a, b));
        }
      }
      assertEquals(least, cost.cost(), 1e-9);
    }
  }

  private static Kit kit(String name, SplittableRandom random, List<String> models) {
    Map<String, Integer> contents = new HashMap<>();
    contents.put("seal", random.nextInt(3));
    contents.put("bearing", random.nextInt(3));
    contents.put("vane", random.nextInt(7));
    return new Kit(name, models, contents, 300 * random.nextDouble(), 1);
  }

  private static double mix(List<Kit> kits, int a, int b) {
    double cost = a * kits.get(0).price() + b * kits.get(1).price();
    for (LoosePart part : PARTS) {
      int have =
          a * kits.get(0).contents().getOrDefault(part.part(), 0)
              + b * kits.get(1).contents().getOrDefault(part.part(), 0);
      cost += part.price() * Math.max(0, NEEDS.getOrDefault(part.part(), 0) - have);
    }
    return cost;
  }

  @Test
  void aRenewedPositionTakesItsShareOfThePartsAndEveryOpeningItsRings() {
    FleetSettings settings = with(Map.of("seal", 3, "bearing", 2, "vane", 6, "o-ring", 4));
    PartsCost seal = PartsCost.ofMending(settings, Optional.of("VP-3"), component(settings, 0));
    // Half of three seals is bought as two.
    assertEquals(Map.of("seal", 2, "o-ring", 4), seal.looseParts());
    assertEquals(2 * 100 + 4 * 3, seal.cost());
    PartsCost both = PartsCost.ofRenewing(settings, Optional.empty(), Map.of("seal", 2));
    assertEquals(Map.of("seal", 3, "o-ring", 4), both.looseParts());
    PartsCost several =
        PartsCost.ofRenewing(
            settings, Optional.empty(), Map.of("seal", 1, "vanes", 1, "bearing", 0));
    assertEquals(Map.of("seal", 2, "vane", 6, "o-ring", 4), several.looseParts());
    assertEquals(
        Map.of("o-ring", 4),
        PartsCost.ofRenewing(settings, Optional.empty(), Map.of()).looseParts());
  }

  @Test
  void waysToBuyAreAllLooseAndThenEachNumberOfEachKitThatStillCoversSomething() {
    Kit seals = new Kit("S", List.of(), Map.of("seal", 2), 150, 10);
    Kit other = new Kit("other", List.of("VP-3"), KIT.contents(), 1, 10);
    List<PartsCost> ways =
        PartsCost.waysOf(settings(List.of(seals, other, KIT), PARTS), Optional.of("VP-2"));
    assertEquals(
        List.of(Map.of(), Map.of("K-2", 1), Map.of("K-2", 2), Map.of("S", 1)),
        ways.stream().map(PartsCost::kits).toList());
    assertEquals(List.of(340.0, 300.0, 400.0, 290.0), ways.stream().map(PartsCost::cost).toList());
    assertEquals(Map.of("bearing", 2, "vane", 6), ways.get(2).leftOver());
  }

  @Test
  void whatHasNoPriceIsLeftOutAndSaid() {
    FleetSettings noSeals = settings(List.of(), PARTS.subList(1, 3));
    assertEquals(
        List.of("seal has no price: it is left out of the cost of every rebuild"),
        outcome(noSeals).notKnown());
    assertEquals(
        "fleet.json has no needs: parts are left out of the cost of every rebuild",
        outcome(with(Map.of())).notKnown().get(0));
    Costs costs = noSeals.costs();
    CostModels.Available unseen =
        assertInstanceOf(
            CostModels.Available.class,
            outcome(
                settings(List.of(KIT), PARTS)
                    .withCosts(
                        new Costs(costs.planned(), costs.unplanned(), Map.of("vanes", 0.0)))));
    assertEquals(
        List.of(
            "fleet.json has no cost of running on failed vanes (costs.hidden): it is left out of the"
                + " cost"),
        unseen.notKnown());
    assertEquals(0, unseen.model().positions().get(3).hiddenCostPerHour());
    CostModels.NotAvailable free =
        assertInstanceOf(
            CostModels.NotAvailable.class,
            outcome(
                with(Map.of())
                    .withCosts(
                        new Costs(
                            new OpeningCost(0, 0, 0), costs.unplanned(), costs.hiddenPerHour()))));
    assertEquals(
        "a planned rebuild has no cost in fleet.json (costs.planned, kits, parts)", free.reason());
  }

  @Test
  void aHiddenHourCountsForEveryHourOfADay() {
    FleetSettings days = with(Clock.DAYS, NEEDS, PARTS);
    CostModels.Available got = assertInstanceOf(CostModels.Available.class, outcome(days));
    assertEquals(36, got.model().positions().get(3).hiddenCostPerHour());
    assertEquals(
        List.of(
            "ages are in days: the cost of running on failed vanes is counted for 24 hours a day"),
        got.notKnown());
  }

  private static CostModels.Outcome outcome(FleetSettings settings) {
    return CostModels.forService(settings, Optional.of("VP-2"), Optional.empty(), CostsTest::life);
  }

  @Test
  void costModelAddsPartsToEveryOpening() {
    CostModels.Available got =
        assertInstanceOf(
            CostModels.Available.class,
            CostModels.forService(
                settings(List.of(KIT), PARTS),
                Optional.of("VP-2"),
                Optional.of(new Service("petrol", "loading")),
                CostsTest::life));
    assertEquals(1000 + 500 + 300, got.model().plannedCost());
    assertEquals(
        List.of("seal-inboard", "seal-outboard", "bearing-inboard", "vane-set"),
        got.model().positions().stream().map(DrawnRisk::position).toList());
    DrawnRisk seal = got.model().positions().get(0);
    assertEquals(2000 + 3000 + 700 + 300, seal.unplannedCost());
    assertEquals(2000 + 3000 + 700 + 100, seal.mendCost());
    DrawnRisk vanes = got.model().positions().get(3);
    assertEquals(1.5, vanes.hiddenCostPerHour());
    assertEquals(3, got.lives().size());
    assertTrue(got.notKnown().isEmpty());
  }

  @Test
  void componentWithoutALifeIsLeftOutAndSaid() {
    CostModels.Outcome got =
        CostModels.forService(
            settings(List.of(KIT), PARTS),
            Optional.of("VP-2"),
            Optional.empty(),
            (c, s) -> c.equals("bearing") ? Optional.empty() : life(c, s));
    assertEquals(
        List.of("no failure of bearing is on record anywhere: its risk is left out"),
        got.notKnown());
    assertInstanceOf(CostModels.Available.class, got);
  }

  @Test
  void stopWithoutACostMeansNoModel() {
    FleetSettings with = settings(List.of(KIT), PARTS);
    Costs costs =
        new Costs(
            with.costs().planned(),
            Map.of("seal", new OpeningCost(1, 1, 1)),
            with.costs().hiddenPerHour());
    CostModels.NotAvailable got =
        assertInstanceOf(
            CostModels.NotAvailable.class,
            CostModels.forService(
                with(with, costs, with.limits()),
                Optional.empty(),
                Optional.empty(),
                CostsTest::life));
    assertEquals(
        "fleet.json has no cost of an unplanned stop by bearing (costs.unplanned)", got.reason());
  }

  @Test
  void nothingKnownMeansNoModel() {
    CostModels.NotAvailable got =
        assertInstanceOf(
            CostModels.NotAvailable.class,
            CostModels.forService(
                settings(List.of(KIT), List.of()),
                Optional.empty(),
                Optional.empty(),
                (c, s) -> Optional.empty()));
    assertEquals("no component has a known life and a known cost", got.reason());
    assertEquals(6, got.notKnown().size());
  }

  @Test
  void ceilingCountsEveryPositionOfTheComponent() {
    Weibull life = new Weibull(2, 10000);
    LifeDraws known = LifeDraws.certain(life);
    FailureCeiling two = new FailureCeiling("seal", 0.1, List.of(known, known));
    double hours = two.intervalHours();
    assertEquals(0.9, Math.pow(life.survival(hours), 2), 1e-12);
    assertEquals(10000 * Math.sqrt(-Math.log(0.9) / 2), hours, 1e-8);
    assertEquals(hours - 700, two.hoursUntil(List.of(700.0, 700.0)), 1e-8);
    double overdue = two.hoursUntil(List.of(5000.0, 0.0));
    assertEquals(10000 * Math.sqrt(-Math.log(0.9)) - 5000, overdue, 1e-8);
    for (double none : new double[] {0, 1, 1.5, Double.NaN}) {
      assertThrows(BadInputException.class, () -> new FailureCeiling("seal", none, List.of(known)));
    }
    assertThrows(IllegalArgumentException.class, () -> new FailureCeiling("seal", 0.1, List.of()));
    assertThrows(IllegalArgumentException.class, () -> two.hoursUntil(List.of(1.0)));
    for (double none : new double[] {-1, Double.POSITIVE_INFINITY, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> two.hoursUntil(List.of(1.0, none)));
    }
  }

  @Test
  void onlyCeilingsOfComponentsThePumpHasApply() {
    CostModel model =
        new CostModel(
            1,
            List.of(
                PositionRisk.announcing("s1", "seal", new Weibull(2, 1000), 10),
                PositionRisk.announcing("b", "bearing", new Weibull(2, 1000), 10),
                PositionRisk.announcing("s2", "seal", new Weibull(2, 1000), 10)));
    List<FailureCeiling> found =
        FailureCeiling.of(Models.known(model), Map.of("seal", 0.2, "bearing", 0.3, "gasket", 0.1));
    assertEquals(
        List.of("bearing", "seal"), found.stream().map(FailureCeiling::component).toList());
    assertEquals(List.of(1, 2), found.stream().map(f -> f.lives().size()).toList());
  }

  @Test
  void theLimitThatBindsIsNamed() {
    CostModel model =
        new CostModel(1, List.of(PositionRisk.announcing("p", "seal", new Weibull(2.5, 1000), 10)));
    UncertainAdvice advice = advice(model);
    double best = advice.intervalHours().orElseThrow();
    assertCap(model, advice, limits(OptionalInt.empty(), 0.5), Bound.COST, best);
    assertCap(
        model,
        advice,
        limits(OptionalInt.empty(), 0.01),
        Bound.FAILURE_PROBABILITY,
        new Weibull(2.5, 1000).quantile(0.01));
    double month = 10 * 365.25 / 12 / 7;
    assertCap(model, advice, limits(OptionalInt.of(1), 0.5), Bound.MANDATED, month);
    CappedInterval unlimited =
        CappedInterval.of(
            Models.known(model),
            advice,
            new Limits(OptionalInt.of(1), Map.of()),
            OptionalDouble.empty());
    assertEquals(Bound.COST, unlimited.boundBy());
    assertTrue(unlimited.mandatedHours().isEmpty());
  }

  @Test
  void mandatedIntervalBindsWhereCostAsksForNone() {
    CostModel model =
        new CostModel(1, List.of(PositionRisk.announcing("p", "seal", new Weibull(0.8, 1000), 10)));
    UncertainAdvice advice = advice(model);
    CappedInterval capped =
        CappedInterval.of(
            Models.known(model),
            advice,
            new Limits(OptionalInt.of(60), Map.of()),
            OptionalDouble.of(40));
    assertEquals(Bound.MANDATED, capped.boundBy());
    assertEquals(60 * 40 * 365.25 / 84, capped.intervalHours().orElseThrow(), 1e-9);
    CappedInterval none =
        CappedInterval.of(
            Models.known(model),
            advice,
            new Limits(OptionalInt.empty(), Map.of()),
            OptionalDouble.of(40));
    assertEquals(Bound.NONE, none.boundBy());
    assertTrue(none.intervalHours().isEmpty());
  }

  @Test
  void noIntervalEverExceedsALimit() {
    SplittableRandom random = new SplittableRandom(10);
    for (int trial = 0; trial < 60; trial++) {
      CostModel model = Models.random(random);
      Limits limits =
          new Limits(
              OptionalInt.of(1 + random.nextInt(120)),
              Map.of("c0", 0.01 + 0.9 * random.nextDouble()));
      CappedInterval capped =
          CappedInterval.of(
              Models.known(model),
              advice(model),
              limits,
              OptionalDouble.of(5 + random.nextInt(160)));
      double hours = capped.intervalHours().orElseThrow();
      assertTrue(hours <= capped.mandatedHours().orElseThrow());
      assertTrue(hours <= capped.ceilingHours().orElseThrow());
    }
  }

  private static void assertCap(
      CostModel model, UncertainAdvice advice, Limits limits, Bound bound, double hours) {
    CappedInterval got =
        CappedInterval.of(Models.known(model), advice, limits, OptionalDouble.of(10));
    assertEquals(bound, got.boundBy());
    assertEquals(hours, got.intervalHours().orElseThrow(), 1e-9 * hours);
  }

  private static UncertainAdvice advice(CostModel model) {
    return ExpectedCost.of(Models.known(model), 0.9).best();
  }

  private static Limits limits(OptionalInt months, double ceiling) {
    return new Limits(months, Map.of("seal", ceiling));
  }

  private static Optional<LifeModel> life(String component, Optional<Service> service) {
    double scale = component.equals("seal") ? 9000 : 15000;
    return Optional.of(
        new LifeModel(
            component,
            service,
            new Weibull(2, scale),
            new Estimate(2, 2, 2),
            new Estimate(scale, scale, scale),
            LifeModel.Basis.OWN_FAILURES,
            0,
            40,
            12,
            LifeDraws.certain(new Weibull(2, scale))));
  }

  private static FleetSettings settings(List<Kit> kits, List<LoosePart> parts) {
    return new FleetSettings(
        "Depot",
        "EUR",
        LocalDate.of(2026, 6, 30),
        Clock.HOURS,
        List.of(
            component("seal", true, "seal-inboard", "seal-outboard"),
            component("bearing", true, "bearing-inboard"),
            component("vanes", false, "vane-set")),
        kits,
        parts,
        NEEDS,
        new Costs(
            new OpeningCost(1000, 500, 0),
            Map.of(
                "seal", new OpeningCost(2000, 3000, 700),
                "bearing", new OpeningCost(2500, 4000, 0)),
            Map.of("vanes", 1.5)),
        new Limits(OptionalInt.empty(), Map.of()),
        new Workshop(OptionalInt.of(2), 0, List.of()),
        FleetSettings.Stock.usual());
  }

  private static Component component(FleetSettings settings, int index) {
    return settings.components().get(index);
  }

  /** Nothing sold in kits; a ring is a part of no component. */
  private static FleetSettings with(Map<String, Integer> needs) {
    List<LoosePart> parts = new ArrayList<>(PARTS);
    parts.add(new LoosePart("o-ring", 3, 5));
    return with(Clock.HOURS, needs, parts);
  }

  private static FleetSettings with(
      Clock clock, Map<String, Integer> needs, List<LoosePart> parts) {
    FleetSettings s = settings(List.of(), parts);
    return new FleetSettings(
        s.fleet(),
        s.currency(),
        s.asOf(),
        clock,
        s.components(),
        s.kits(),
        parts,
        needs,
        s.costs(),
        s.limits(),
        s.workshop(),
        s.stock());
  }

  private static FleetSettings with(FleetSettings s, Costs costs, Limits limits) {
    return new FleetSettings(
        s.fleet(),
        s.currency(),
        s.asOf(),
        s.clock(),
        s.components(),
        s.kits(),
        s.parts(),
        s.needs(),
        costs,
        limits,
        s.workshop(),
        s.stock());
  }

  private static Component component(String name, boolean announces, String... positions) {
    return new Component(name, List.of(positions), announces, OptionalDouble.empty(), Set.of());
  }
}
