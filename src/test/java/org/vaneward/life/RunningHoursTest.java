package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.life.Records.day;

import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.Trigger;
import org.vaneward.life.RunningHours.Basis;
import org.vaneward.life.RunningHours.Hours;

class RunningHoursTest {
  private static void assertHours(double hours, Basis basis, Optional<Hours> actual) {
    assertEquals(hours, actual.orElseThrow().hours(), 1e-9);
    assertEquals(basis, actual.get().basis());
  }

  @Test
  void readOnTheDayInterpolatedBetweenAndZeroAtCommissioning() {
    RunningHours hours = new Records().reading(100, 900).reading(200, 2000).runningHours();
    assertHours(0, Basis.READ, hours.at(day(0)));
    assertHours(450, Basis.INTERPOLATED, hours.at(day(50)));
    assertHours(900, Basis.READ, hours.at(day(100)));
    assertHours(1175, Basis.INTERPOLATED, hours.at(day(125)));
    assertEquals(Optional.empty(), hours.at(day(-1)));
  }

  @Test
  void carriedPastTheLastReadingAtTheStatedRate() {
    RunningHours hours = new Records().hoursPerWeek(70).reading(100, 900).runningHours();
    assertHours(900 + 10 * 30, Basis.CARRIED, hours.at(day(130)));
    assertEquals(OptionalDouble.of(70), hours.hoursPerWeek());
    assertEquals(OptionalDouble.empty(), hours.usageRate().orElseThrow().blockSd());
  }

  @Test
  void usageIsTheMedianSlopeSoOneOddReadingDoesNotMoveIt() {
    Records records = new Records();
    for (int n = 1; n <= 10; n++) {
      records.reading(50 * n, 500.0 * n);
    }
    RunningHours steady = records.runningHours();
    assertEquals(70, steady.hoursPerWeek().orElseThrow(), 1e-9);
    assertEquals(0, steady.usageRate().orElseThrow().blockSd().orElse(0), 1e-9);
    records.reading(530, 5700);
    assertEquals(70, records.runningHours().hoursPerWeek().orElseThrow(), 0.5);
  }

  @Test
  void usageIsThatOfTheLastTwoYears() {
    Records records = new Records().reading(100, 2000);
    for (int n = 0; n <= 7; n++) {
      records.reading(270 + 100 * n, 2500 + 500.0 * n);
    }
    assertEquals(35, records.runningHours().hoursPerWeek().orElseThrow(), 1e-9);
  }

  @Test
  void aSingleReadingIsPairedWithCommissioning() {
    RunningHours hours = new Records().reading(100, 1000).runningHours();
    assertEquals(70, hours.hoursPerWeek().orElseThrow(), 1e-9);
    assertHours(1500, Basis.CARRIED, hours.at(day(150)));
  }

  @Test
  void aMeterReadAtCommissioningSetsTheZero() {
    RunningHours hours = new Records().reading(0, 5000).reading(100, 6000).runningHours();
    assertHours(0, Basis.READ, hours.at(day(0)));
    assertHours(1000, Basis.READ, hours.at(day(100)));
  }

  @Test
  void aMeterReadBeforeCommissioningSetsTheZero() {
    RunningHours hours = new Records().reading(-3, 12).reading(100, 1012).runningHours();
    assertHours(0, Basis.READ, hours.at(day(0)));
    assertHours(1000, Basis.READ, hours.at(day(100)));
  }

  @Test
  void hoursRunOnTheDayOfCommissioningCountFromZero() {
    RunningHours hours = new Records().open(0, 2, Trigger.LEAK).reading(100, 1000).runningHours();
    assertHours(0, Basis.READ, hours.at(day(0)));
    assertHours(2, Basis.READ, hours.atOpening(0, day(0)));
    assertHours(501, Basis.INTERPOLATED, hours.at(day(50)));
  }

  @Test
  void aMeterThatCannotHaveStartedAtZeroIsTakenBackAtTheUsageRate() {
    RunningHours hours = new Records().reading(10, 50_000).reading(110, 51_000).runningHours();
    assertHours(100, Basis.READ, hours.at(day(10)));
    assertHours(50, Basis.INTERPOLATED, hours.at(day(5)));
    assertHours(1100, Basis.READ, hours.at(day(110)));
    assertEquals(1, hours.notes().size());
    assertEquals("commissioned", hours.notes().get(0).column());
  }

  @Test
  void aReplacedMeterGoesOnFromTheOldOne() {
    RunningHours hours =
        new Records()
            .reading(100, 1000)
            .meterReplaced(200, 2000, 30)
            .reading(300, 1030)
            .runningHours();
    assertHours(2000, Basis.READ, hours.at(day(200)));
    assertHours(3000, Basis.READ, hours.at(day(300)));
    assertHours(2500, Basis.INTERPOLATED, hours.at(day(250)));
  }

  @Test
  void anOldMeterNotReadIsCarriedForward() {
    RunningHours hours =
        new Records()
            .hoursPerWeek(70)
            .reading(100, 1000)
            .meterReplaced(200, Double.NaN, 0)
            .reading(300, 1000)
            .runningHours();
    assertHours(2000, Basis.READ, hours.at(day(200)));
    assertHours(3000, Basis.READ, hours.at(day(300)));
    assertTrue(hours.notes().get(0).fate() instanceof RowFate.Repaired);
  }

  @Test
  void openingsAreReadingsToo() {
    RunningHours hours =
        new Records()
            .reading(100, 1000)
            .open(150, 1700, Trigger.LEAK)
            .reading(200, 2000)
            .runningHours();
    assertHours(1700, Basis.READ, hours.at(day(150)));
    assertHours(1350, Basis.INTERPOLATED, hours.at(day(125)));
    assertHours(1700, Basis.READ, hours.atOpening(0, day(150)));
    assertEquals("", hours.refusal(0));
  }

  @Test
  void onTheDayOfAReplacementAnOpeningReadsTheNearerMeter() {
    RunningHours hours =
        new Records()
            .meterReplaced(200, 2000, 0)
            .open(200, 1999.5, Trigger.LEAK)
            .open(200, 0, Trigger.LEAK)
            .open(210, 100, Trigger.LEAK)
            .runningHours();
    assertHours(1999.5, Basis.READ, hours.atOpening(0, day(200)));
    assertHours(2000, Basis.READ, hours.atOpening(1, day(200)));
    assertHours(2100, Basis.READ, hours.atOpening(2, day(210)));
  }

  @Test
  void aReadingOfTheSameDayMayComeBeforeOrAfterTheOpening() {
    RunningHours hours =
        new Records()
            .reading(100, 1000)
            .open(100, 1006, Trigger.LEAK)
            .open(101, 1010, Trigger.LEAK)
            .reading(101, 1009)
            .runningHours();
    assertEquals("", hours.refusal(0));
    assertEquals("", hours.refusal(1));
    assertHours(1006, Basis.READ, hours.at(day(100)));
  }

  @Test
  void openingsThatContradictTheReadingsAreRefused() {
    RunningHours hours =
        new Records()
            .reading(100, 1000)
            .reading(200, 2000)
            .open(150, 900, Trigger.LEAK)
            .open(160, 2100, Trigger.LEAK)
            .open(210, 2500, Trigger.LEAK)
            .open(211, 2499.5, Trigger.LEAK)
            .runningHours();
    assertTrue(hours.refusal(0).contains("fall below"), hours.refusal(0));
    assertTrue(hours.refusal(1).contains("exceed"), hours.refusal(1));
    assertTrue(hours.refusal(2).contains("more than 24 a day"), hours.refusal(2));
    assertTrue(hours.refusal(3).contains("more than 24 a day"), hours.refusal(3));
  }

  @Test
  void aDifferenceOfUpToAnHourIsRounding() {
    RunningHours hours =
        new Records().reading(100, 1000).open(101, 999.2, Trigger.LEAK).runningHours();
    assertHours(1000, Basis.READ, hours.atOpening(0, day(101)));
  }

  @Test
  void fallingAndLateReadingsAreSetAside() {
    RunningHours hours =
        new Records().reading(100, 1000).reading(150, 700).reading(1001, 9000).runningHours();
    assertEquals(2, hours.notes().size());
    assertTrue(hours.notes().stream().allMatch(n -> n.fate() instanceof RowFate.SetAside));
    assertHours(1500, Basis.CARRIED, hours.at(day(150)));
  }

  @Test
  void withoutReadingsTheStatedRateCountsFromCommissioning() {
    RunningHours hours = new Records().hoursPerWeek(14).runningHours();
    assertHours(200, Basis.CARRIED, hours.at(day(100)));
  }

  @Test
  void withoutReadingsOrRateNothingIsKnown() {
    RunningHours hours = new Records().runningHours();
    assertEquals(Optional.empty(), hours.at(day(100)));
    assertEquals(OptionalDouble.empty(), hours.hoursPerWeek());
  }

  @Test
  void withoutCommissioningTheFirstMeterSetsTheCount() {
    RunningHours hours =
        new Records().commissionedUnknown().reading(100, 7000).reading(200, 8000).runningHours();
    assertHours(7000, Basis.READ, hours.at(day(100)));
    assertHours(6500, Basis.CARRIED, hours.at(day(50)));
  }
}
