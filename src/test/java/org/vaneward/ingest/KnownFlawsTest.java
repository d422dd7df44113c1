package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.sample.Sample;
import org.vaneward.sample.Truth;
import org.vaneward.sample.Truth.Expected;
import org.vaneward.sample.Truth.FlawKind;
import org.vaneward.sample.Truth.PlantedFlaw;

/** Reads sample fleets whose flaws are known: each is met as it should be, and nothing else is. */
class KnownFlawsTest {
  /** What only shows when lives are built. */
  private static final Set<FlawKind> SEEN_LATER =
      Set.of(FlawKind.MISSING_HOURS, FlawKind.MISSING_FINDING, FlawKind.PRIMARY_ON_PLANNED);

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(longs = {101, 102, 103})
  void everyFlawIsMetAndNothingElseIs(long seed) {
    Truth truth =
        Sample.write(Path.of("seeds/depots-six.json"), folder, OptionalLong.of(seed)).truth();
    Map<RowRef, String> expected = new TreeMap<>();
    for (PlantedFlaw flaw : truth.flaws()) {
      if (flaw.line().isPresent()
          && !SEEN_LATER.contains(flaw.kind())
          && flaw.expected() != Expected.USED) {
        expected.put(new RowRef(flaw.file(), flaw.line().getAsLong()), flaw.expected().toString());
      }
    }
    assertFalse(expected.isEmpty());
    Map<RowRef, String> found = fates(Ingest.read(folder).notes());
    assertEquals(without(expected, found), without(found, expected));
  }

  private static Map<RowRef, String> without(Map<RowRef, String> some, Map<RowRef, String> others) {
    Map<RowRef, String> left = new TreeMap<>(some);
    left.entrySet().removeAll(others.entrySet());
    return left;
  }

  private static Map<RowRef, String> fates(List<RowNote> notes) {
    Map<RowRef, String> fates = new HashMap<>();
    for (RowNote note : notes) {
      if (isFindingOfRepeatedSheet(note)) {
        continue; // the sheet's own row is the planted one
      }
      boolean aside = note.fate() instanceof RowFate.SetAside;
      fates.merge(
          note.row(),
          (aside ? Expected.SET_ASIDE : Expected.REPAIRED).toString(),
          (before, now) -> aside ? now : before);
    }
    return new TreeMap<>(fates);
  }

  private static boolean isFindingOfRepeatedSheet(RowNote note) {
    return note.fate() instanceof RowFate.Repaired repaired
        && repaired.assumption().startsWith("finding of an opening that stands twice");
  }
}
