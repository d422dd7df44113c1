package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Ingested;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.sample.Truth.Expected;

/** The reader of records and the builder of lives find what was planted, and nothing else. */
class PlantedFlawsAreFoundTest {
  @TempDir Path folder = Path.of("unset");

  private List<RowNote> notes(SampledFleet fleet) {
    FleetWriter.write(fleet, folder);
    Ingested ingested = Ingest.read(folder);
    Lives lives = LifeBuilder.build(ingested.fleet());
    List<RowNote> notes = new ArrayList<>(ingested.notes());
    notes.addAll(lives.notes());
    return notes;
  }

  private static Map<RowRef, Expected> fates(List<RowNote> notes) {
    Map<RowRef, Expected> fates = new HashMap<>();
    for (RowNote note : notes) {
      Expected fate =
          note.fate() instanceof RowFate.SetAside ? Expected.SET_ASIDE : Expected.REPAIRED;
      fates.merge(note.row(), fate, (a, b) -> a == Expected.SET_ASIDE ? a : b);
    }
    return fates;
  }

  @Test
  void everyPlantedFlawMeetsItsFateAndNoOtherRowIsSetAside() {
    SampledFleet fleet = Samples.draw(Samples.SIX);
    Map<RowRef, Expected> fates = fates(notes(fleet));
    Set<String> otherwise = new TreeSet<>();
    for (Truth.PlantedFlaw flaw : fleet.truth().flaws()) {
      RowRef row = new RowRef(flaw.file(), flaw.line().orElseThrow());
      Expected fate = fates.getOrDefault(row, Expected.USED);
      if (fate != flaw.expected()) {
        otherwise.add(flaw + " became " + fate);
      }
    }
    assertEquals(Set.of(), otherwise);
    Set<RowRef> plantedAside =
        fleet.truth().flaws().stream()
            .filter(f -> f.expected() == Expected.SET_ASIDE)
            .map(f -> new RowRef(f.file(), f.line().orElseThrow()))
            .collect(Collectors.toSet());
    Set<RowRef> aside =
        fates.keySet().stream()
            .filter(row -> fates.get(row) == Expected.SET_ASIDE)
            .collect(Collectors.toSet());
    assertEquals(plantedAside, aside);
  }

  @ParameterizedTest
  @ValueSource(strings = {"depots-plain.json", "small-terminal.json"})
  void cleanRecordsNeedNoRepairBeyondTheSheetsFromBeforeTheRecords(String scenario) {
    SampledFleet fleet = Samples.draw(Samples.SEEDS.resolve(scenario));
    SampleTable rebuilds = fleet.table("rebuilds.csv");
    List<RowNote> unexpected =
        notes(fleet).stream()
            .filter(
                note ->
                    !note.row().file().equals("rebuilds.csv")
                        || !note.column().equals("date")
                        || rebuilds.cell(note.row().line(), "date").compareTo("2019-01-01") >= 0)
            .toList();
    assertEquals(List.of(), unexpected);
  }
}
