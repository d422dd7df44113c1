package org.vaneward.spares;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.concurrent.ForkJoinPool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.model.LifeDraws;
import org.vaneward.policy.LifeLookup;
import org.vaneward.spares.Outlook.Spending;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.renewal.CountDistribution;

/** The futures against exact counts, and what must hold in every one of them. */
class OutlookTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;
  private static final Line FITTED_SEAL = new Line(Line.Kind.FITTED, "seal");
  private static final int FUTURES = 20_000;

  private static LifeLookup certain(Weibull seal, Weibull bearing, Weibull vanes) {
    return MadeFleet.lives(
        Map.of(
            "seal", LifeDraws.certain(seal),
            "bearing", LifeDraws.certain(bearing),
            "vanes", LifeDraws.certain(vanes)));
  }

  /** Pumps new today that run 70 h a week, known exactly, without planned rebuilds. */
  private static MadeFleet unplanned(int pumps) {
    MadeFleet fleet = new MadeFleet(1);
    fleet.usageSpread = 0;
    for (int p = 0; p < pumps; p++) {
      fleet.add("north", "diesel", 70, 0, -1, NEVER);
    }
    return fleet;
  }

  private static Outlook of(FleetAhead ahead, Rule rule, int futures) {
    return Outlook.of(
        ahead, rule, new DemandRequest(ahead.months.all().size(), futures, 7), s -> {});
  }

  private static void agrees(CountDistribution exact, double[] counts) {
    int[] seen = new int[exact.largest() + 200];
    double total = 0;
    for (double count : counts) {
      seen[(int) count]++;
      total += count;
    }
    double error = exact.standardDeviation() / Math.sqrt(counts.length);
    assertEquals(exact.mean(), total / counts.length, 3 * error);
    for (int k = 0; k <= exact.largest(); k++) {
      double p = exact.chance(k);
      if (p * counts.length > 100) {
        double share = seen[k] / (double) counts.length;
        assertEquals(p, share, 3.5 * Math.sqrt(p * (1 - p) / counts.length), "k = " + k);
      }
    }
  }

  /** Mended, every position is a renewal process of its own. */
  @ParameterizedTest
  @ValueSource(doubles = {0.8, 1.7, 3.2})
  void mendedPositionsRenewAsTheirConvolutionsSay(double shape) {
    Weibull seal = new Weibull(shape, 4000);
    FleetAhead ahead =
        unplanned(2).ahead(certain(seal, new Weibull(2, 9000), new Weibull(3, 1e9)), 24);
    Outlook outlook = of(ahead, Rule.TO_FAILURE.mending(), FUTURES);
    double hours = ahead.months.days() * 10.0;
    agrees(
        CountDistribution.ofRenewals(seal, hours).times(4),
        outlook.countsByFuture(FITTED_SEAL, m -> true));
    agrees(
        CountDistribution.ofRenewals(new Weibull(2, 9000), hours).times(4),
        outlook.countsByFuture(new Line(Line.Kind.FITTED, "bearing"), m -> true));
  }

  /** Rebuilt in full, a pump of four like positions renews with the least of four lives. */
  @Test
  void rebuiltPumpsRenewWithTheFirstFailure() {
    Weibull life = new Weibull(2.2, 9000);
    FleetAhead ahead = unplanned(3).ahead(certain(life, life, life), 36);
    Outlook outlook = of(ahead, Rule.TO_FAILURE, FUTURES);
    Weibull least = new Weibull(2.2, 9000 / Math.pow(4, 1 / 2.2));
    CountDistribution exact =
        CountDistribution.ofRenewals(least, ahead.months.days() * 10.0).times(3);
    double[] openings = outlook.countsByFuture(Line.UNPLANNED, m -> true);
    agrees(exact, openings);
    double[] seals = outlook.countsByFuture(FITTED_SEAL, m -> true);
    for (int f = 0; f < seals.length; f++) {
      assertEquals(2 * openings[f], seals[f]);
    }
  }

  /** The first failure given the age reached: S(a + t) / S(a). */
  @Test
  void partsInPlaceFailGivenTheirAge() {
    MadeFleet fleet = new MadeFleet(1);
    fleet.usageSpread = 0;
    fleet.add("north", "diesel", 70, 6000, -1, NEVER);
    Weibull seal = new Weibull(2.5, 8000);
    FleetAhead ahead = fleet.ahead(certain(seal, new Weibull(2, 1e9), new Weibull(3, 1e9)), 1);
    double[] stops = of(ahead, Rule.TO_FAILURE, FUTURES).countsByFuture(Line.UNPLANNED, m -> true);
    double hours = ahead.months.days() * 10.0;
    double survives = Math.pow(seal.survival(6000 + hours) / seal.survival(6000), 2);
    double none = 0;
    for (double n : stops) {
      none += n == 0 ? 1 : 0;
    }
    double error = Math.sqrt(survives * (1 - survives) / stops.length);
    assertEquals(survives, none / stops.length, 3 * error);
  }

  @Test
  void plannedRebuildsComeOnTheirDayAndThenAtTheInterval() {
    MadeFleet fleet = new MadeFleet(1);
    fleet.usageSpread = 0;
    fleet.add("north", "diesel", 70, 5000, 20, 2000);
    Weibull never = new Weibull(2, 1e9);
    FleetAhead ahead = fleet.ahead(certain(never, never, never), 24);
    Outlook outlook = of(ahead, Rule.PLAN, 10);
    // Days 20, 220, 420, 620 of 731: the 20th of July is the 20th day.
    assertEquals(4, outlook.counts(Line.PLANNED, m -> true).mean());
    assertEquals(1, outlook.counts(Line.PLANNED, m -> m == 0).mean());
    assertEquals("2026-07", outlook.months().get(0).toString());
    assertEquals(24, outlook.months().size());
    assertEquals(0, outlook.counts(Line.UNPLANNED, m -> true).mean());
    assertEquals(
        4 * (640 + 300 + 450 + 450 + 270 + 85 + 2 * 12),
        outlook.money(Spending.ALL, m -> true).mean(),
        1e-9);
    // Half as far again: day 20 + 100, then 300 apart.
    assertEquals(
        3, of(ahead, Rule.PLAN.withIntervals(1.5), 10).counts(Line.PLANNED, m -> true).mean());
    assertEquals(0, of(ahead, Rule.TO_FAILURE, 10).money(Spending.ALL, m -> true).mean());
  }

  /** What a rule with other intervals may not pass: the last day allowed, and the ceilings. */
  @Test
  void limitsHoldForLongerIntervalsToo() {
    MadeFleet fleet = new MadeFleet(1);
    fleet.usageSpread = 0;
    fleet.latestDay = OptionalInt.of(50);
    fleet.mostInterval = OptionalDouble.of(2100);
    fleet.add("north", "diesel", 70, 5000, 20, 2000);
    Weibull never = new Weibull(2, 1e9);
    FleetAhead ahead = fleet.ahead(certain(never, never, never), 12);
    assertEquals(List.of(20.0, 220.0), days(ahead, Rule.PLAN));
    // 100 days later by the interval, 30 by the limit; then 300 days by cost, 210 by the ceiling.
    assertEquals(List.of(50.0, 260.0), days(ahead, Rule.PLAN.withIntervals(1.5)));
    assertEquals(List.of(1.0, 101.0, 201.0, 301.0), days(ahead, Rule.PLAN.withIntervals(0.5)));
  }

  private static List<Double> days(FleetAhead ahead, Rule rule) {
    Diary diary = new Diary();
    Futures.live(ahead, rule, new DemandRequest(12, 1, 1), diary, s -> {});
    return diary.futures.get(0).stream().map(Diary.Entry::day).toList();
  }

  /** Booked rebuilds of one site in one week share the visit; every other opening has its own. */
  @Test
  void bookedRebuildsShareVisits() {
    MadeFleet fleet = new MadeFleet(1);
    fleet.booked = true;
    // Days 7 and 9 after Tuesday 30 June are Tuesday and Thursday of one week, 15 is of the next.
    fleet.add("north", "diesel", 70, 0, 7, NEVER);
    fleet.add("north", "diesel", 70, 0, 9, NEVER);
    fleet.add("north", "diesel", 70, 0, 15, NEVER);
    fleet.add("south", "diesel", 70, 0, 9, NEVER);
    Weibull never = new Weibull(2, 1e9);
    FleetAhead ahead = fleet.ahead(certain(never, never, never), 3);
    Outlook outlook = of(ahead, Rule.PLAN, 20);
    assertEquals(4, outlook.counts(Line.PLANNED).mean());
    assertEquals(3 * 450, outlook.money(Spending.ofPlanned().on(Cost.VISITS)).mean(), 1e-9);
    assertEquals(
        outlook.money(Spending.ALL).mean(),
        Figures.of(Totals.of(ahead, Rule.PLAN, new DemandRequest(3, 20, 7)).moneyByFuture()).mean(),
        1e-9);
  }

  /** The short account of a rule and the long one are of the same futures. */
  @Test
  void totalsAreThoseOfTheOutlook() {
    FleetAhead ahead = MadeFleet.drawn(25, 3, 5).ahead(MadeFleet.usualLives(5), 24);
    for (Rule rule : List.of(Rule.PLAN, Rule.TO_FAILURE.mending(), Rule.PLAN.withIntervals(0.8))) {
      Outlook outlook = of(ahead, rule, 300);
      Totals totals = Totals.of(ahead, rule, new DemandRequest(24, 300, 7));
      assertEquals(outlook.counts(Line.PLANNED), totals.planned());
      assertEquals(outlook.counts(Line.UNPLANNED), totals.unplanned());
      assertEquals(outlook.countsOf(Line.Kind.KIT), totals.kits());
      assertEquals(outlook.countsOf(Line.Kind.LOOSE), totals.looseParts());
      assertArrayEquals(
          outlook.moneyByFuture(Spending.ALL, m -> true), totals.moneyByFuture(), 1e-6);
    }
  }

  /** Who is opened when, straight from the futures. */
  private static final class Diary implements Futures.Book {
    private record Entry(PumpAhead pump, double day, boolean planned, Recipe recipe) {}

    private final List<List<Entry>> futures = Collections.synchronizedList(new ArrayList<>());

    @Override
    public Futures.Page page() {
      return new Futures.Page() {
        private List<Entry> now = new ArrayList<>();

        @Override
        public void start(int future) {
          now = new ArrayList<>();
        }

        @Override
        public void open(
            PumpAhead pump,
            double day,
            boolean planned,
            Recipe recipe,
            OpeningCost cost,
            boolean visit) {
          now.add(new Entry(pump, day, planned, recipe));
        }

        @Override
        public void end() {
          futures.add(now);
        }

        @Override
        public void close() {
          // Every future has ended.
        }
      };
    }
  }

  @Test
  void noPlannedRebuildIsLaterThanTheMandatedInterval() {
    MadeFleet fleet = MadeFleet.drawn(30, 4, 3);
    fleet.months = OptionalInt.of(14);
    FleetAhead ahead = fleet.ahead(MadeFleet.usualLives(3), 60);
    for (double factor : new double[] {0.8, 1, 1.25}) {
      Diary diary = new Diary();
      Futures.live(
          ahead, Rule.PLAN.withIntervals(factor), new DemandRequest(60, 50, 1), diary, s -> {});
      int gaps = 0;
      for (List<Diary.Entry> future : diary.futures) {
        for (int i = 1; i < future.size(); i++) {
          Diary.Entry a = future.get(i - 1);
          Diary.Entry b = future.get(i);
          if (a.pump() == b.pump()) {
            gaps++;
            assertTrue(b.day() - a.day() <= 427, "a gap of " + (b.day() - a.day()) + " days");
          }
        }
      }
      assertTrue(gaps > 1000);
    }
  }

  /**
   * Needs, kits and rules drawn: kits and loose parts less what is left over are what is fitted.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void everyPartIsOnOneOpeningAndNothingIsLost(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    MadeFleet fleet = MadeFleet.drawn(20 + random.nextInt(30), 1 + random.nextInt(6), seed);
    fleet.kits = kits(random);
    FleetAhead ahead = fleet.ahead(MadeFleet.usualLives(seed), 1 + random.nextInt(48));
    Rule rule = new Rule(seed % 3 != 0, 0.7 + random.nextDouble(), seed % 2 == 0);
    Outlook outlook = of(ahead, rule, 200);
    Map<String, Integer> needs = fleet.settings().needs();
    double[] openings = sum(outlook, Line.PLANNED, Line.UNPLANNED);
    for (String part : needs.keySet()) {
      double[] fitted = outlook.countsByFuture(new Line(Line.Kind.FITTED, part), m -> true);
      double[] bought = outlook.countsByFuture(new Line(Line.Kind.LOOSE, part), m -> true);
      for (var kit : fleet.kits) {
        double[] kits = outlook.countsByFuture(new Line(Line.Kind.KIT, kit.kit()), m -> true);
        for (int f = 0; f < kits.length; f++) {
          bought[f] += kits[f] * kit.contents().getOrDefault(part, 0);
        }
      }
      double[] left = outlook.countsByFuture(new Line(Line.Kind.LEFT_OVER, part), m -> true);
      for (int f = 0; f < fitted.length; f++) {
        assertEquals(fitted[f], bought[f] - left[f], part);
        boolean always = part.equals("cover-gasket") || part.equals("head-o-ring");
        if (always || !rule.mends()) {
          assertEquals(needs.get(part) * openings[f], fitted[f], part);
        }
      }
    }
    everyOpeningIsCountedOnce(ahead, rule, outlook);
  }

  private static void everyOpeningIsCountedOnce(FleetAhead ahead, Rule rule, Outlook outlook) {
    Diary diary = new Diary();
    Futures.live(ahead, rule, new DemandRequest(1, 200, 7), diary, s -> {});
    long[] inDiary = new long[ahead.lines.size()];
    for (List<Diary.Entry> future : diary.futures) {
      for (Diary.Entry entry : future) {
        inDiary[entry.planned() ? 0 : 1]++;
        for (int i = 0; i < entry.recipe().line.length; i++) {
          inDiary[entry.recipe().line[i]] += entry.recipe().number[i];
        }
      }
    }
    for (int row = 0; row < inDiary.length; row++) {
      Line line = ahead.lines.get(row);
      double all = 200 * outlook.counts(line, m -> true).mean();
      double atSites =
          200 * outlook.sites().stream().mapToDouble(s -> outlook.atSite(line, s).mean()).sum();
      double ofProducts =
          200
              * outlook.products().stream()
                  .mapToDouble(p -> outlook.ofProduct(line, p).mean())
                  .sum();
      assertEquals((double) inDiary[row], all, 1e-6, line.toString());
      assertEquals((double) inDiary[row], atSites, 1e-6, line.toString());
      assertEquals((double) inDiary[row], ofProducts, 1e-6, line.toString());
    }
    double money = outlook.money(Spending.ALL, m -> true).mean();
    double sites = outlook.sites().stream().mapToDouble(s -> outlook.moneyAtSite(s).mean()).sum();
    assertEquals(money, sites, 1e-9 * money);
    assertEquals(
        money,
        outlook.money(Spending.ofPlanned(), m -> true).mean()
            + outlook.money(Spending.ofUnplanned(), m -> true).mean(),
        1e-9 * money);
  }

  private static double[] sum(Outlook outlook, Line a, Line b) {
    double[] total = outlook.countsByFuture(a, m -> true);
    double[] more = outlook.countsByFuture(b, m -> true);
    for (int f = 0; f < total.length; f++) {
      total[f] += more[f];
    }
    return total;
  }

  private static List<Kit> kits(SplittableRandom random) {
    List<Kit> kits = new ArrayList<>();
    for (int k = random.nextInt(3); k > 0; k--) {
      kits.add(
          new Kit(
              "K-" + k,
              List.of(),
              Map.of(
                  "seal",
                  1 + random.nextInt(2),
                  "bearing",
                  random.nextInt(3),
                  "vane",
                  6,
                  "head-o-ring",
                  random.nextInt(4),
                  "paper-shim",
                  1),
              100 + random.nextInt(500),
              random.nextInt(60)));
    }
    return kits;
  }

  @Test
  void theSameSeedGivesTheSameOnAnyNumberOfThreads() throws Exception {
    FleetAhead ahead = MadeFleet.drawn(40, 5, 11).ahead(MadeFleet.usualLives(11), 24);
    String one = told(ahead, 1);
    assertEquals(one, told(ahead, 3));
    assertEquals(one, told(ahead, 8));
    assertTrue(one.contains("StockLevel"));
  }

  private static String told(FleetAhead ahead, int threads) throws Exception {
    ForkJoinPool pool = new ForkJoinPool(threads);
    try {
      Outlook outlook = pool.submit(() -> of(ahead, Rule.PLAN, 1000)).get();
      StringBuilder told = new StringBuilder();
      outlook.lines().forEach(line -> told.append(outlook.counts(line, m -> m % 2 == 0)));
      told.append(outlook.money(Spending.ALL, m -> true)).append(outlook.stock().pooled());
      outlook.sites().forEach(s -> told.append(outlook.stock().at(s)));
      return told.toString();
    } finally {
      pool.shutdown();
    }
  }

  @Test
  void figuresAreLevelsNotExceeded() {
    double[] values = new double[100];
    for (int i = 0; i < 100; i++) {
      values[i] = 100 - i;
    }
    Figures figures = Figures.sorting(values);
    assertArrayEquals(
        new double[] {50.5, 10, 50, 80, 90, 95},
        new double[] {
          figures.mean(), figures.p10(), figures.p50(), figures.p80(), figures.p90(), figures.p95()
        });
  }
}
