package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.fleet.AsFound.FAILED;
import static org.vaneward.fleet.AsFound.GOOD;
import static org.vaneward.fleet.AsFound.NOT_SEEN;
import static org.vaneward.fleet.AsFound.WORN;
import static org.vaneward.fleet.PartAction.RECONDITIONED;
import static org.vaneward.fleet.PartAction.RENEWED;
import static org.vaneward.fleet.PartAction.REUSED;
import static org.vaneward.fleet.Trigger.INSPECTION;
import static org.vaneward.fleet.Trigger.LEAK;
import static org.vaneward.fleet.Trigger.LOW_FLOW;
import static org.vaneward.fleet.Trigger.NOISE;
import static org.vaneward.fleet.Trigger.OTHER;
import static org.vaneward.fleet.Trigger.PLANNED;
import static org.vaneward.fleet.Trigger.SEIZED;
import static org.vaneward.life.Records.day;
import static org.vaneward.life.Records.tenHoursADay;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.fleet.Service;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Life.LifeSpan;
import org.vaneward.life.Life.Mark;
import org.vaneward.stats.Observation;

/** One rule of the records at a time. Ten hours a day: the age on day n is 10 n hours. */
class LifeBuilderTest {
  private static final String SEAL = "seal-inboard";
  private static final String OTHER_SEAL = "seal-outboard";
  private static final String BEARING = "bearing-inboard";
  private static final String VANES = "vane-set";

  private static List<LifeEnd> ends(Lives lives, String position) {
    return at(lives, position).stream().map(Life::end).toList();
  }

  private static List<Life> at(Lives lives, String position) {
    return lives.lives().stream().filter(life -> life.position().equals(position)).toList();
  }

  private static LifeEnd failed(double age) {
    return new LifeEnd.Failed(age);
  }

  private static LifeEnd found(double lastGood, double age) {
    return new LifeEnd.FoundFailed(lastGood, age);
  }

  private static LifeEnd removed(double age) {
    return new LifeEnd.RemovedWorking(age);
  }

  private static LifeEnd running(double age) {
    return new LifeEnd.StillRunning(age);
  }

  private static List<RowNote> notesOn(Lives lives, RowRef row) {
    return lives.notes().stream().filter(note -> note.row().equals(row)).toList();
  }

  private static void assertRepaired(Lives lives, String file, int line, String column) {
    List<RowNote> notes =
        notesOn(lives, new RowRef(file, line)).stream()
            .filter(note -> note.column().equals(column))
            .toList();
    assertEquals(1, notes.size(), lives.notes().toString());
    assertTrue(notes.get(0).fate() instanceof RowFate.Repaired, notes.toString());
  }

  private static void assertSetAside(Lives lives, String file, int line) {
    assertTrue(
        notesOn(lives, new RowRef(file, line)).stream()
            .anyMatch(note -> note.fate() instanceof RowFate.SetAside),
        lives.notes().toString());
  }

  // exact

  @Test
  void primaryFailureIsExact() {
    Lives lives = tenHoursADay().open(300, 3000, OTHER).primary(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(failed(3000), running(7000)), ends(lives, SEAL));
    assertEquals(List.of(), lives.notes());
  }

  @Test
  void onlyFailedPartOfAnAnnouncingComponentOnItsTriggerIsExact() {
    Lives lives = tenHoursADay().open(300, 3000, LEAK).found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(failed(3000), running(7000)), ends(lives, SEAL));
  }

  @Test
  void bearingsAnnounceByNoiseAndBySeizing() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, NOISE)
            .found(BEARING, FAILED, RENEWED)
            .open(500, 5000, SEIZED)
            .found(BEARING, FAILED, RENEWED)
            .lives();
    assertEquals(List.of(failed(3000), failed(2000), running(5000)), ends(lives, BEARING));
  }

  @Test
  void aComponentsOwnTriggersReplaceThoseOfItsName() {
    Records records =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(400, 4000, INSPECTION)
            .found(SEAL, FAILED, RENEWED);
    Fleet fleet =
        new Fleet(Records.settings(Clock.HOURS, Set.of(INSPECTION)), List.of(records.history()));
    assertEquals(
        List.of(found(0, 3000), failed(1000), running(6000)), ends(LifeBuilder.build(fleet), SEAL));
  }

  @Test
  void theOnlyFailedPartIsExactEvenBesideAPrimaryPartOfAnotherComponent() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .primary(BEARING, FAILED, RENEWED)
            .lives();
    assertEquals(failed(3000), ends(lives, SEAL).get(0));
    assertEquals(failed(3000), ends(lives, BEARING).get(0));
  }

  @Test
  void severalPrimaryPartsAreAllExact() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .primary(SEAL, FAILED, RENEWED)
            .primary(OTHER_SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(failed(3000), ends(lives, SEAL).get(0));
    assertEquals(failed(3000), ends(lives, OTHER_SEAL).get(0));
  }

  @Test
  void vanesNoticedByLowFlowAreExactWhenPrimary() {
    Lives lives = tenHoursADay().open(300, 3000, LOW_FLOW).primary(VANES, FAILED, RENEWED).lives();
    assertEquals(failed(3000), ends(lives, VANES).get(0));
  }

  @Test
  void vanesThatRunOnAreKnownGoodOnlyUpToTheirLastLook() {
    Lives lives = tenHoursADay().open(300, 3000, NOISE).found(VANES, WORN, REUSED).lives();
    assertEquals(List.of(running(10_000)), ends(lives, VANES));
    assertEquals(seenGood(3000), seenGood(lives, VANES));
    LivesTable table = LivesTable.of(lives);
    assertEquals(
        List.of(new Observation.RightCensored(0, 3000, 1)),
        table.where(i -> table.text("position", i).equals(VANES)).observations().asList());
  }

  @Test
  void vanesTakenOutAreKnownGoodThereWhenTheyWereLookedAt() {
    Lives seen = tenHoursADay().open(300, 3000, PLANNED).found(VANES, GOOD, RENEWED).lives();
    assertEquals(seenGood(3000, 0), seenGood(seen, VANES));
    Lives unseen = tenHoursADay().open(300, 3000, PLANNED).found(VANES, NOT_SEEN, RENEWED).lives();
    assertEquals(seenGood(0, 0), seenGood(unseen, VANES));
  }

  @Test
  void aSealThatRunsAnnouncesItsFailureAndNeedsNoLook() {
    Lives lives = tenHoursADay().open(300, 3000, NOISE).found(SEAL, WORN, REUSED).lives();
    assertEquals(List.of(OptionalDouble.empty()), seenGood(lives, SEAL));
  }

  private static List<OptionalDouble> seenGood(double... ages) {
    return Arrays.stream(ages).mapToObj(OptionalDouble::of).toList();
  }

  private static List<OptionalDouble> seenGood(Lives lives, String position) {
    return lives.lives().stream()
        .filter(life -> life.position().equals(position))
        .map(Life::seenGood)
        .toList();
  }

  // interval

  @Test
  void foundFailedAtAnotherOpeningIsAnIntervalFromItsFitting() {
    Lives lives =
        tenHoursADay()
            .open(200, 2000, PLANNED)
            .found(SEAL, GOOD, RENEWED)
            .open(300, 3000, NOISE)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(List.of(removed(2000), found(0, 1000), running(7000)), ends(lives, SEAL));
  }

  @Test
  void theIntervalStartsAtTheLastLook() {
    Lives lives =
        tenHoursADay()
            .open(100, 1000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(200, 2000, NOISE)
            .found(SEAL, WORN, REUSED)
            .open(250, 2500, NOISE)
            .found(SEAL, NOT_SEEN, REUSED)
            .open(300, 3000, NOISE)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(List.of(found(2000, 3000), running(7000)), ends(lives, SEAL));
  }

  @Test
  void twoFailedPartsOfAComponentWithoutAPrimaryAreBothIntervals() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .found(OTHER_SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(found(0, 3000), ends(lives, SEAL).get(0));
    assertEquals(found(0, 3000), ends(lives, OTHER_SEAL).get(0));
  }

  @Test
  void ofTwoFailedPartsThePrimaryOneIsExact() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .primary(SEAL, FAILED, RENEWED)
            .found(OTHER_SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(failed(3000), ends(lives, SEAL).get(0));
    assertEquals(found(0, 3000), ends(lives, OTHER_SEAL).get(0));
  }

  @Test
  void vanesOnLowFlowThatAreNotPrimaryAreAnInterval() {
    Lives lives = tenHoursADay().open(300, 3000, LOW_FLOW).found(VANES, FAILED, RENEWED).lives();
    assertEquals(found(0, 3000), ends(lives, VANES).get(0));
  }

  @Test
  void primaryOnAPlannedOpeningIsAnIntervalAndARepair() {
    Lives lives = tenHoursADay().open(300, 3000, PLANNED).primary(SEAL, FAILED, RENEWED).lives();
    assertEquals(found(0, 3000), ends(lives, SEAL).get(0));
    assertRepaired(lives, "findings.csv", 2, "primary");
  }

  @Test
  void primaryOfAPartThatHadNotFailedIsARepairAndNoFailure() {
    Lives lives = tenHoursADay().open(300, 3000, LEAK).primary(SEAL, GOOD, RENEWED).lives();
    assertEquals(removed(3000), ends(lives, SEAL).get(0));
    assertRepaired(lives, "findings.csv", 2, "primary");
  }

  @Test
  void seenGoodAndFailedAtTheSameHoursIsExact() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(300, 3000, OTHER)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(failed(3000), ends(lives, SEAL).get(0));
  }

  // wear limit

  @Test
  void wornToTheLimitCountsAsFoundFailed() {
    Lives lives =
        tenHoursADay().open(300, 3000, PLANNED).measured(VANES, WORN, RENEWED, 1.5).lives();
    assertEquals(found(0, 3000), ends(lives, VANES).get(0));
    assertEquals(List.of(), lives.notes());
  }

  @Test
  void wornUnderTheLimitIsALookOrARemovalInWorkingOrder() {
    Lives lives =
        tenHoursADay()
            .open(100, 1000, PLANNED)
            .measured(VANES, WORN, REUSED, 0.9)
            .open(300, 3000, PLANNED)
            .measured(VANES, WORN, RENEWED, 1.49)
            .lives();
    assertEquals(List.of(removed(3000), running(7000)), ends(lives, VANES));
  }

  @Test
  void goodButMeasuredOverTheLimitIsFailedWithARepair() {
    Lives lives = tenHoursADay().open(300, 3000, PLANNED).measured(VANES, GOOD, RENEWED, 2).lives();
    assertEquals(found(0, 3000), ends(lives, VANES).get(0));
    assertRepaired(lives, "findings.csv", 2, "as_found");
  }

  @Test
  void aMeasurementOfAComponentWithoutALimitDecidesNothing() {
    Lives lives = tenHoursADay().open(300, 3000, PLANNED).measured(SEAL, WORN, RENEWED, 9).lives();
    assertEquals(removed(3000), ends(lives, SEAL).get(0));
  }

  // right-censored, looks, reconditioned

  @Test
  void renewedInWorkingOrderOrUnseenIsRightCensored() {
    Lives lives =
        tenHoursADay()
            .open(100, 1000, PLANNED)
            .found(SEAL, WORN, RENEWED)
            .open(300, 3000, PLANNED)
            .found(SEAL, GOOD, RENEWED)
            .open(600, 6000, PLANNED)
            .found(SEAL, NOT_SEEN, RENEWED)
            .lives();
    assertEquals(
        List.of(removed(1000), removed(2000), removed(3000), running(4000)), ends(lives, SEAL));
  }

  @Test
  void aPositionNotLookedAtLivesOn() {
    Lives lives = tenHoursADay().open(300, 3000, LEAK).found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(running(10_000)), ends(lives, OTHER_SEAL));
  }

  @Test
  void reconditionedEndsTheLifeAndMarksTheNext() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, PLANNED)
            .found(SEAL, WORN, RECONDITIONED)
            .open(500, 5000, PLANNED)
            .found(SEAL, WORN, RENEWED)
            .lives();
    assertEquals(List.of(removed(3000), removed(2000), running(5000)), ends(lives, SEAL));
    assertEquals(
        List.of(false, true, false), at(lives, SEAL).stream().map(Life::reconditioned).toList());
  }

  @Test
  void failedAndReusedEndsTheLifeAndLosesTheAgeUntilTheNextRenewal() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, REUSED)
            .open(400, 4000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(List.of(failed(3000), running(6000)), ends(lives, SEAL));
    assertRepaired(lives, "findings.csv", 2, "action");
    UnknownAge lost = lives.unknownAges().get(0);
    assertEquals(Optional.of(day(300)), lost.from());
    assertEquals(Optional.of(day(400)), lost.until());
    assertEquals(1, lives.unknownAges().size());
  }

  // end of records

  @Test
  void theRecordsEndCarriedForwardAndMarked() {
    Lives lives = new Records().hoursPerWeek(70).reading(400, 4000).lives();
    Life life = at(lives, SEAL).get(0);
    assertEquals(running(10_000), life.end());
    assertEquals(day(1000), life.endedOn());
    assertEquals(List.of(Mark.HOURS_CARRIED_FORWARD), life.marks());
  }

  @Test
  void aRetiredPumpEndsOnThatDayAndHoldsNoParts() {
    Lives lives = tenHoursADay().retired(600).lives();
    assertEquals(List.of(new LifeEnd.Retired(6000)), ends(lives, SEAL));
    assertEquals(day(600), at(lives, SEAL).get(0).endedOn());
    assertEquals(List.of(Mark.HOURS_INTERPOLATED), at(lives, SEAL).get(0).marks());
    assertEquals(List.of(), lives.parts());
    assertEquals(Optional.of(day(600)), lives.pumps().get(0).retired());
  }

  @Test
  void retirementAfterTheDayOfRecordIsNotYet() {
    Lives lives = tenHoursADay().retired(1200).lives();
    assertEquals(List.of(running(10_000)), ends(lives, SEAL));
    assertEquals(5, lives.parts().size());
  }

  @Test
  void hoursOfAnOpeningNotReadAreInterpolatedMarkedAndReported() {
    Lives lives = tenHoursADay().open(250, LEAK).found(SEAL, FAILED, RENEWED).lives();
    Life life = at(lives, SEAL).get(0);
    assertEquals(failed(2500), life.end());
    assertEquals(List.of(Mark.HOURS_INTERPOLATED), life.marks());
    assertRepaired(lives, "rebuilds.csv", 2, "hours");
  }

  @Test
  void agesCountOnOverAReplacedMeter() {
    Lives lives =
        new Records()
            .meterReplaced(400, 4000, 0)
            .open(600, 2000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .reading(1000, 6000)
            .lives();
    assertEquals(List.of(failed(6000), running(4000)), ends(lives, SEAL));
  }

  @Test
  void agesInDaysWhereTheClockSaysSo() {
    Lives lives = new Records().clockInDays().open(300, LEAK).found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(failed(300), running(700)), ends(lives, SEAL));
    assertEquals(OptionalDouble.of(7), lives.pumps().get(0).agePerWeek());
    assertEquals(List.of(), lives.notes());
  }

  // first lives, delayed entry

  @Test
  void aPartInPlaceWhenTheRecordsStartHasNoAgeUntilItsFirstRenewal() {
    Lives lives =
        tenHoursADay().recordsFrom(200).open(300, 3000, LEAK).found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(running(7000)), ends(lives, SEAL));
    UnknownAge renewed = lives.unknownAges().get(0);
    assertEquals(SEAL, renewed.position());
    assertEquals(Optional.of(day(300)), renewed.until());
    assertEquals(5, lives.unknownAges().size());
    assertEquals(Optional.empty(), lives.unknownAges().get(1).until());
  }

  @Test
  void aPartKnownToBeFittedBeforeTheRecordsStartEntersAtTheAgeItHad() {
    Lives lives =
        tenHoursADay()
            .recordsFrom(200)
            .open(100, 1000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(300, 3000, PLANNED)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    Life late = at(lives, SEAL).get(0);
    assertEquals(1000, late.entryAge());
    assertEquals(found(1000, 2000), late.end());
    assertEquals(List.of(new LifeSpan(Optional.empty(), 1000, 2000)), late.spans());
    assertEquals(List.of(found(1000, 2000), running(7000)), ends(lives, SEAL));
    assertTrue(lives.unknownAges().stream().noneMatch(u -> u.position().equals(SEAL)));
    assertRepaired(lives, "rebuilds.csv", 2, "date");
  }

  @Test
  void aLookAfterTheRecordsStartNarrowsTheIntervalOfALateEntry() {
    Lives lives =
        tenHoursADay()
            .recordsFrom(200)
            .open(100, 1000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(250, 2500, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(300, 3000, PLANNED)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(found(1500, 2000), ends(lives, SEAL).get(0));
  }

  @Test
  void withoutADayOfCommissioningTheFirstPartsHaveNoAge() {
    Lives lives =
        tenHoursADay()
            .commissionedUnknown()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(List.of(running(7000)), ends(lives, SEAL));
    assertEquals(5, lives.unknownAges().size());
  }

  @Test
  void renewedOnTheDayTheRecordsStartTheOldPartWasNeverObserved() {
    Lives lives =
        tenHoursADay().recordsFrom(200).open(200, 2000, LEAK).found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(running(8000)), ends(lives, SEAL));
    assertTrue(lives.unknownAges().stream().noneMatch(u -> u.position().equals(SEAL)));
  }

  // start-up failures

  @Test
  void failureAtZeroHoursIsAStartUpFailureAndNoLife() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(List.of(failed(3000), running(7000)), ends(lives, SEAL));
    StartUpFailure startUp = lives.startUps().get(0);
    assertEquals(1, lives.startUps().size());
    assertEquals(day(300), startUp.date());
    assertEquals("crew 1", startUp.covariates().get("crew"));
    assertEquals("lot 2", startUp.covariates().get("lot"));
    assertEquals(new RowRef("findings.csv", 3), startUp.row());
  }

  @Test
  void anHourIsWhereStartUpEnds() {
    Lives within =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(300, 3000.9, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    Lives after =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(300, 3001, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(1, within.startUps().size());
    assertEquals(List.of(), after.startUps());
    assertEquals(failed(1), ends(after, SEAL).get(1));
  }

  @Test
  void renewedAgainAtZeroHoursInWorkingOrderIsNoLife() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(300, 3000, OTHER)
            .found(SEAL, GOOD, RENEWED)
            .lives();
    assertEquals(List.of(failed(3000), running(7000)), ends(lives, SEAL));
    assertEquals(List.of(), lives.startUps());
    assertRepaired(lives, "findings.csv", 3, "");
  }

  // kits

  @Test
  void aKitImpliesTheRenewalOfEveryPositionItCovers() {
    Lives lives =
        tenHoursADay().open(300, 3000, LEAK).kit("K-SEAL").found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(failed(3000), running(7000)), ends(lives, SEAL));
    assertEquals(List.of(removed(3000), running(7000)), ends(lives, OTHER_SEAL));
    assertEquals(List.of(running(10_000)), ends(lives, BEARING));
    assertEquals(List.of(Mark.KIT_IMPLIED), at(lives, OTHER_SEAL).get(1).marks());
    assertEquals(List.of(), at(lives, SEAL).get(1).marks());
    assertRepaired(lives, "rebuilds.csv", 2, "kit");
  }

  @Test
  void aFindingSaysMoreThanAKit() {
    Lives lives =
        tenHoursADay().open(300, 3000, LEAK).kit("K-SEAL").found(OTHER_SEAL, GOOD, REUSED).lives();
    assertEquals(List.of(running(10_000)), ends(lives, OTHER_SEAL));
  }

  @Test
  void partNamesMatchComponentsWhateverTheirCaseAndPlural() {
    Lives lives = tenHoursADay().open(300, 3000, PLANNED).kit("K-FULL").lives();
    for (String position : List.of(SEAL, OTHER_SEAL, BEARING, VANES)) {
      assertEquals(List.of(removed(3000), running(7000)), ends(lives, position));
    }
  }

  @Test
  void aKitNotInTheSettingsCoversEverything() {
    Lives lives = tenHoursADay().open(300, 3000, PLANNED).kit("K-OLD").lives();
    assertEquals(List.of(removed(3000), running(7000)), ends(lives, BEARING));
    assertRepaired(lives, "rebuilds.csv", 2, "kit");
  }

  // spans of service

  @Test
  void aChangeOfServiceSplitsALife() {
    Lives lives =
        tenHoursADay()
            .service(0, "petrol", 4)
            .service(200, "diesel", 6)
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    Optional<Service> petrol = Optional.of(new Service("petrol", "loading"));
    Optional<Service> diesel = Optional.of(new Service("diesel", "loading"));
    assertEquals(
        List.of(
            new LifeSpan(petrol, Map.of("pressure_bar", 4.0), 0, 2000),
            new LifeSpan(diesel, Map.of("pressure_bar", 6.0), 2000, 3000)),
        at(lives, SEAL).get(0).spans());
    assertEquals(
        List.of(new LifeSpan(diesel, Map.of("pressure_bar", 6.0), 0, 7000)),
        at(lives, SEAL).get(1).spans());
    assertEquals(diesel, lives.pumps().get(0).service());
  }

  @Test
  void beforeTheFirstRowTheServiceIsUnknownAndARepeatedRowChangesNothing() {
    Lives lives = tenHoursADay().service(200, "petrol", 4).service(500, "petrol", 4).lives();
    Optional<Service> petrol = Optional.of(new Service("petrol", "loading"));
    assertEquals(
        List.of(
            new LifeSpan(Optional.empty(), 0, 2000),
            new LifeSpan(petrol, Map.of("pressure_bar", 4.0), 2000, 10_000)),
        at(lives, SEAL).get(0).spans());
  }

  @Test
  void aChangeOnTheDayOfARenewalBelongsToTheNewPart() {
    Lives lives =
        tenHoursADay()
            .service(0, "petrol", 4)
            .service(300, "diesel", 6)
            .open(300, 3005, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertEquals(1, at(lives, SEAL).get(0).spans().size());
    assertEquals("petrol", at(lives, SEAL).get(0).lastService().orElseThrow().product());
    assertEquals(1, at(lives, SEAL).get(1).spans().size());
    assertEquals("diesel", at(lives, SEAL).get(1).lastService().orElseThrow().product());
  }

  @Test
  void anIntervalAcrossAChangeGoesToItsLongerPart() {
    Lives later =
        tenHoursADay()
            .service(0, "petrol", 4)
            .service(150, "diesel", 6)
            .open(100, 1000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(300, 3000, PLANNED)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    Life life = at(later, SEAL).get(0);
    assertEquals(found(1000, 3000), life.end());
    assertEquals(List.of(Mark.INTERVAL_ACROSS_SERVICES), life.marks());
    Optional<Service> petrol = Optional.of(new Service("petrol", "loading"));
    Optional<Service> diesel = Optional.of(new Service("diesel", "loading"));
    assertEquals(
        List.of(
            new LifeSpan(petrol, Map.of("pressure_bar", 4.0), 0, 1000),
            new LifeSpan(diesel, Map.of("pressure_bar", 6.0), 1000, 3000)),
        life.spans());
  }

  @Test
  void anIntervalMostlyInTheEarlierServiceStaysThereWhole() {
    Lives lives =
        tenHoursADay()
            .service(0, "petrol", 4)
            .service(250, "diesel", 6)
            .open(100, 1000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(300, 3000, PLANNED)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    Optional<Service> petrol = Optional.of(new Service("petrol", "loading"));
    assertEquals(
        List.of(new LifeSpan(petrol, Map.of("pressure_bar", 4.0), 0, 3000)),
        at(lives, SEAL).get(0).spans());
  }

  @Test
  void aChangeBeforeTheIntervalLeavesItAlone() {
    Lives lives =
        tenHoursADay()
            .service(0, "petrol", 4)
            .service(50, "diesel", 6)
            .open(100, 1000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(300, 3000, PLANNED)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    Life life = at(lives, SEAL).get(0);
    assertEquals(List.of(), life.marks());
    assertEquals(500, life.spans().get(1).fromAge());
    assertEquals(3000, life.spans().get(1).toAge());
  }

  // covariates and sources

  @Test
  void aLifeCarriesItsFittingItsEndAndItsRows() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .kit("K-SEAL")
            .found(SEAL, FAILED, RENEWED)
            .open(500, 5000, OTHER)
            .primary(SEAL, FAILED, RENEWED)
            .lives();
    Life life = at(lives, SEAL).get(1);
    assertEquals("P1/seal-inboard/2", life.id());
    Map<String, String> expected =
        Map.ofEntries(
            Map.entry("crew", "crew 1"),
            Map.entry("kit", "K-SEAL"),
            Map.entry("lot", "lot 2"),
            Map.entry("end_clearance_mm", "0.1"),
            Map.entry("fitted_at", "R1"),
            Map.entry("earlier_rebuilds", "1"),
            Map.entry("shift", "night 1"),
            Map.entry("ended_at", "R2"),
            Map.entry("trigger", "other"),
            Map.entry("mode", "mode 3"),
            Map.entry("end_shift", "night 2"),
            Map.entry("bay", "7"),
            Map.entry("model", "M80"));
    assertEquals(expected, life.covariates());
    assertEquals(
        List.of(
            new RowRef("rebuilds.csv", 2),
            new RowRef("findings.csv", 2),
            new RowRef("rebuilds.csv", 3),
            new RowRef("findings.csv", 3)),
        life.sources());
    assertEquals("0", at(lives, SEAL).get(0).covariates().get("earlier_rebuilds"));
    assertFalse(at(lives, SEAL).get(0).covariates().containsKey("crew"));
  }

  // rows that cannot be used

  @Test
  void anOpeningWhoseHoursFallIsSetAsideWithItsFindings() {
    Lives lives =
        tenHoursADay()
            .reading(1000, 10_000)
            .open(100, 1000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .open(300, 500, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(500, 5000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertSetAside(lives, "rebuilds.csv", 3);
    assertSetAside(lives, "findings.csv", 3);
    assertEquals(List.of(new LifeEnd.LostSight(1000), running(5000)), ends(lives, SEAL));
    assertEquals(day(100), at(lives, SEAL).get(0).endedOn());
    assertEquals(Optional.of(day(500)), lives.unknownAges().get(0).until());
    assertEquals(List.of(running(10_000)), ends(lives, OTHER_SEAL));
    assertEquals(2, lives.pumps().get(0).openings());
  }

  @Test
  void openingsOutsideTheLifeOfThePumpAreSetAside() {
    Lives lives =
        tenHoursADay()
            .retired(600)
            .open(-5, OTHER)
            .found(SEAL, GOOD, RENEWED)
            .open(700, 7000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    assertSetAside(lives, "rebuilds.csv", 2);
    assertSetAside(lives, "rebuilds.csv", 3);
    assertSetAside(lives, "findings.csv", 3);
    assertEquals(List.of(new LifeEnd.Retired(6000)), ends(lives, SEAL));
  }

  @Test
  void unknownPositionsAndSecondFindingsAreSetAside() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found("rotor", FAILED, RENEWED)
            .found(SEAL, FAILED, RENEWED)
            .found(SEAL, GOOD, REUSED)
            .lives();
    assertSetAside(lives, "findings.csv", 2);
    assertSetAside(lives, "findings.csv", 4);
    assertEquals(failed(3000), ends(lives, SEAL).get(0));
  }

  @Test
  void withoutAnyHoursAPumpHasNoAgesAndSaysSo() {
    Lives lives = new Records().open(300, LEAK).found(SEAL, FAILED, RENEWED).lives();
    assertEquals(List.of(), lives.lives());
    assertEquals(5, lives.unknownAges().size());
    assertSetAside(lives, "rebuilds.csv", 2);
    assertSetAside(lives, "findings.csv", 2);
    assertEquals(OptionalDouble.empty(), lives.pumps().get(0).hoursPerWeek());
  }

  // what is in the pump today

  @Test
  void installedPartsHaveTheirAgeAndLastLook() {
    Lives lives =
        tenHoursADay()
            .open(300, 3000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .open(600, 6000, NOISE)
            .found(SEAL, GOOD, REUSED)
            .found(BEARING, FAILED, REUSED)
            .lives();
    assertEquals(
        new InstalledPart(
            "P1",
            "seal",
            SEAL,
            Optional.of(day(300)),
            OptionalDouble.of(7000),
            OptionalDouble.of(3000)),
        lives.parts().get(0));
    InstalledPart bearing = lives.parts().get(2);
    assertEquals(BEARING, bearing.position());
    assertEquals(Optional.empty(), bearing.fittedOn());
    assertEquals(OptionalDouble.empty(), bearing.age());
    assertEquals(OptionalDouble.empty(), bearing.lastGoodAge());
  }

  @Test
  void theLastFullRebuildIsPlannedOrRenewsEverything() {
    Lives planned =
        tenHoursADay()
            .open(300, 3000, PLANNED)
            .found(SEAL, GOOD, RENEWED)
            .open(600, 6000, LEAK)
            .found(SEAL, FAILED, RENEWED)
            .lives();
    PumpState state = planned.pumps().get(0);
    assertEquals(Optional.of(day(300)), state.lastFullRebuild());
    assertEquals(OptionalDouble.of(7000), state.ageSinceFullRebuild());
    assertEquals(Optional.of(day(600)), state.lastOpening());
    assertEquals(2, state.openings());
    Lives everything = tenHoursADay().open(600, 6000, LEAK).kit("K-FULL").lives();
    assertEquals(Optional.of(day(600)), everything.pumps().get(0).lastFullRebuild());
    Lives none = tenHoursADay().lives();
    assertEquals(Optional.of(day(0)), none.pumps().get(0).lastFullRebuild());
    assertEquals(OptionalDouble.of(10_000), none.pumps().get(0).ageSinceFullRebuild());
    assertEquals(70, none.pumps().get(0).hoursPerWeek().orElseThrow(), 1e-9);
  }
}
