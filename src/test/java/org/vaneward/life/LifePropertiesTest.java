package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.life.Records.day;

import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.Trigger;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Life.LifeSpan;

/** What holds for every history, whatever it says. */
class LifePropertiesTest {
  private static final List<String> POSITIONS =
      List.of("seal-inboard", "seal-outboard", "bearing-inboard", "bearing-outboard", "vane-set");

  /** Hours that add up from rounded parts agree to this. */
  private static final double ROUNDING = 1e-6;

  /** A history without contradictions: every opening read or interpolated, every part followed. */
  private static Records history(SplittableRandom random, boolean reuseFailed) {
    Records records = new Records();
    if (random.nextBoolean()) {
      records.retired(700 + random.nextInt(300));
    }
    if (random.nextBoolean()) {
      records.recordsFrom(random.nextInt(200));
    }
    int last = 0;
    for (int n = random.nextInt(4); n > 0; n--) {
      records.service(
          last += random.nextInt(300), "product " + random.nextInt(3), random.nextInt(3));
    }
    int today = 0;
    double hours = 0;
    while (today < 650) {
      int days = random.nextInt(60);
      today += days;
      hours += days * random.nextDouble(20);
      if (random.nextInt(3) == 0) {
        records.reading(today, hours);
      } else {
        open(records, random, today, hours, reuseFailed);
      }
    }
    return records.hoursPerWeek(random.nextDouble(168));
  }

  private static void open(
      Records records, SplittableRandom random, int today, double hours, boolean reuseFailed) {
    Trigger trigger = pick(random, Trigger.values());
    if (random.nextBoolean()) {
      records.open(today, hours, trigger);
    } else {
      records.open(today, trigger);
    }
    if (random.nextInt(4) == 0) {
      records.kit(random.nextBoolean() ? "K-SEAL" : "K-FULL");
    }
    for (String position : POSITIONS) {
      if (random.nextInt(3) > 0) {
        find(records, random, position, reuseFailed);
      }
    }
  }

  private static void find(
      Records records, SplittableRandom random, String position, boolean reuseFailed) {
    AsFound asFound = pick(random, AsFound.values());
    PartAction action = pick(random, PartAction.values());
    if (asFound == AsFound.FAILED && action == PartAction.REUSED && !reuseFailed) {
      action = PartAction.RENEWED;
    }
    if (random.nextInt(3) == 0) {
      records.primary(position, asFound, action);
    } else {
      records.found(position, asFound, action);
    }
  }

  private static <T> T pick(SplittableRandom random, T[] values) {
    return values[random.nextInt(values.length)];
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void agesAreOrderedAndSpansContiguous(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    for (int n = 0; n < 250; n++) {
      for (Life life : history(random, true).lives().lives()) {
        assertWellFormed(life);
      }
    }
  }

  private static void assertWellFormed(Life life) {
    assertTrue(life.entryAge() >= 0, life::toString);
    assertTrue(life.end().age() > life.entryAge(), life::toString);
    if (life.end() instanceof LifeEnd.FoundFailed found) {
      assertTrue(found.lastGoodAge() >= life.entryAge(), life::toString);
      assertTrue(found.lastGoodAge() < found.age(), life::toString);
    }
    double from = life.entryAge();
    for (LifeSpan span : life.spans()) {
      assertEquals(from, span.fromAge(), life::toString);
      assertTrue(span.toAge() > span.fromAge(), life::toString);
      from = span.toAge();
    }
    assertEquals(life.end().age(), from, life::toString);
    assertTrue(!life.endedOn().isBefore(life.fittedOn()), life::toString);
  }

  /** The observed hours of a position whose parts are all of known age are those of its pump. */
  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14, 15, 16, 17, 18})
  void observedTimeIsConserved(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int checked = 0;
    for (int n = 0; n < 250; n++) {
      Records records = history(random, false);
      Lives lives = records.lives();
      Set<String> unknown = new HashSet<>();
      lives.unknownAges().forEach(age -> unknown.add(age.position()));
      lives.startUps().forEach(startUp -> unknown.add(startUp.position()));
      for (String position : POSITIONS) {
        if (!unknown.contains(position)) {
          assertEquals(
              observable(records),
              observed(lives, position),
              ROUNDING,
              records.history()::toString);
          checked++;
        }
      }
    }
    assertTrue(checked > 200, "only " + checked + " positions were checked");
  }

  private static double observed(Lives lives, String position) {
    return lives.lives().stream()
        .filter(life -> life.position().equals(position))
        .mapToDouble(life -> life.end().age() - life.entryAge())
        .sum();
  }

  private static double observable(Records records) {
    PumpHistory history = records.history();
    RunningHours hours = records.runningHours();
    LocalDate from = history.pump().recordsFrom().orElse(Records.DAY_0);
    LocalDate to = history.pump().retired().orElse(day(Records.END));
    return hours.at(to).orElseThrow().hours() - hours.at(from).orElseThrow().hours();
  }

  /**
   * Every renewal under observation ends a life, a start-up, or a part of unknown age. Histories
   * opened on the very day the records start are left out: what ended then was not observed.
   */
  @ParameterizedTest
  @ValueSource(longs = {21, 22, 23, 24})
  void everyRenewalEndsOneThing(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int checked = 0;
    for (int n = 0; n < 250; n++) {
      Records records = history(random, false);
      List<Opening> openings = records.history().openings();
      LocalDate from = records.history().pump().recordsFrom().orElse(Records.DAY_0);
      LocalDate to = records.history().pump().retired().orElse(day(Records.END));
      if (openings.stream().noneMatch(opening -> opening.date().equals(from))) {
        long renewals =
            openings.stream()
                .filter(opening -> opening.date().isAfter(from) && !opening.date().isAfter(to))
                .mapToLong(LifePropertiesTest::renewals)
                .sum();
        assertEquals(renewals, endings(records.lives()), records.history()::toString);
        checked++;
      }
    }
    assertTrue(checked > 200, "only " + checked + " histories were checked");
  }

  private static long renewals(Opening opening) {
    List<String> found = opening.findings().stream().map(finding -> finding.position()).toList();
    long byKit =
        opening.kit().isEmpty()
            ? 0
            : POSITIONS.stream()
                .filter(p -> !found.contains(p))
                .filter(p -> opening.kit().get().equals("K-FULL") || p.startsWith("seal"))
                .count();
    return byKit + opening.findings().stream().filter(f -> f.action() != PartAction.REUSED).count();
  }

  private static long endings(Lives lives) {
    long ended =
        lives.lives().stream()
            .filter(life -> !(life.end() instanceof LifeEnd.StillRunning))
            .filter(life -> !(life.end() instanceof LifeEnd.Retired))
            .count();
    long unknown = lives.unknownAges().stream().filter(age -> age.until().isPresent()).count();
    long withoutTime =
        lives.notes().stream().filter(n -> n.fate().toString().contains("no running time")).count();
    return ended + lives.startUps().size() + unknown + withoutTime;
  }

  @Test
  void aLargeFleetTakesSeconds() {
    SplittableRandom random = new SplittableRandom(31);
    PumpHistory one = longHistory(random, 10_000).history();
    List<PumpHistory> pumps = new ArrayList<>();
    for (int n = 0; n < 20; n++) {
      pumps.add(one);
    }
    Fleet fleet = new Fleet(Records.settings(Clock.HOURS, Set.of()), pumps);
    Lives lives = Assertions.assertTimeout(Duration.ofSeconds(60), () -> LifeBuilder.build(fleet));
    assertEquals(20 * 10_001, lives.lives().size() - 20 * 4);
  }

  /** Openings of one seal, so close together that a slow path would show. */
  private static Records longHistory(SplittableRandom random, int openings) {
    Records records = new Records();
    for (int n = 1; n <= openings; n++) {
      double hours = 2.0 * n;
      records.open(n * 990 / openings, hours, pick(random, Trigger.values()));
      records.found("seal-inboard", AsFound.GOOD, PartAction.RENEWED);
    }
    return records.hoursPerWeek(140);
  }
}
