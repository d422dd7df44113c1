package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Ingested;

/** The lives of the committed sample fleet, flaws of its records included. */
class SampleFleetLivesTest {
  /** Hours lost at each re-opening within the hour, and by rounding. */
  private static final double SLACK_HOURS = 1;

  private static final Ingested RECORDS = Ingest.read(Path.of("sample-fleet"));
  private static final Lives LIVES = LifeBuilder.build(RECORDS.fleet());

  private static String place(String pump, String position) {
    return pump + " " + position;
  }

  @Test
  void observedHoursOfEveryPositionOfKnownAgeAreThoseOfItsPump() {
    Set<String> apart = new HashSet<>();
    LIVES.unknownAges().forEach(a -> apart.add(place(a.pump(), a.position())));
    Map<String, Double> observed = new HashMap<>();
    for (Life life : LIVES.lives()) {
      double hours = life.end().age() - life.entryAge();
      observed.merge(place(life.pump(), life.position()), hours, Double::sum);
    }
    Map<String, Double> ofPump = hoursUnderObservation();
    int checked = 0;
    for (InstalledPart part : LIVES.parts()) {
      String place = place(part.pump(), part.position());
      if (!apart.contains(place)) {
        double hours = ofPump.getOrDefault(part.pump(), Double.NaN);
        assertEquals(hours, observed.getOrDefault(place, Double.NaN), SLACK_HOURS, place);
        checked++;
      }
    }
    assertTrue(checked > 400, "only " + checked + " positions were checked");
  }

  private static Map<String, Double> hoursUnderObservation() {
    Map<String, Double> hours = new HashMap<>();
    for (PumpHistory history : RECORDS.fleet().pumps()) {
      RunningHours running = RunningHours.of(history, RECORDS.fleet().settings().asOf());
      double before =
          history.pump().recordsFrom().flatMap(running::at).map(h -> h.hours()).orElse(0.0);
      double now = running.at(RECORDS.fleet().settings().asOf()).orElseThrow().hours();
      hours.put(history.pump().pump(), now - before);
    }
    return hours;
  }

  @Test
  void checkedRecordsLeaveNothingToSetAside() {
    assertTrue(
        LIVES.notes().stream().noneMatch(note -> note.fate() instanceof RowFate.SetAside),
        LIVES.notes().toString());
    assertTrue(LIVES.lives().stream().noneMatch(l -> l.end() instanceof Life.LifeEnd.LostSight));
  }

  @Test
  void notesOnLivesFitTheAccountOfTheRows() {
    List<RowNote> all = new ArrayList<>(RECORDS.notes());
    all.addAll(LIVES.notes());
    for (RowAccount.FileAccount file : RowAccount.of(RECORDS.rowsRead(), all).files()) {
      assertEquals(file.rows(), file.used() + file.repaired() + file.setAside(), file.file());
    }
  }

  @Test
  void partsThatWereThereBeforeTheRecordsEnterLate() {
    assertTrue(LIVES.lives().stream().anyMatch(life -> life.entryAge() > 0));
    assertTrue(LIVES.lives().stream().anyMatch(life -> life.spans().size() > 1));
    assertTrue(!LIVES.startUps().isEmpty());
  }

  @Test
  void theTableReadsBackAndStandsForEveryLife() {
    LivesTable table = LivesTable.of(LIVES);
    assertEquals(LIVES.lives().size(), table.lives());
    long failures =
        LIVES.lives().stream()
            .filter(
                l ->
                    l.end() instanceof Life.LifeEnd.Failed
                        || l.end() instanceof Life.LifeEnd.FoundFailed)
            .count();
    assertEquals((double) failures, table.failures());
    double[] seenGood = table.numbers(LivesTable.SEEN_GOOD);
    int blind = 0;
    for (int i = 0; i < table.rows(); i++) {
      blind += !table.failed(i) && seenGood[i] <= table.entry(i) ? 1 : 0;
    }
    assertTrue(blind > 0, "vanes that nobody has looked at since they were fitted");
    assertEquals(table.rows() - blind, table.observations().size());
  }
}
