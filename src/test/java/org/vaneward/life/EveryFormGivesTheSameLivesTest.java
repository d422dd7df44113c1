package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowNote;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Ingested;

/** The sample fleet written in every form the reader knows says the same. */
class EveryFormGivesTheSameLivesTest {
  private static final Path SAMPLE = Path.of("sample-fleet");

  @TempDir Path folder;

  private record Read(String lives, long rows, long repaired, long setAside, List<String> files) {}

  private static Read read(Path fleet) {
    Ingested records = Ingest.read(fleet);
    Lives lives = LifeBuilder.build(records.fleet());
    List<RowNote> notes = new ArrayList<>(records.notes());
    notes.addAll(lives.notes());
    RowAccount account = RowAccount.of(records.rowsRead(), notes);
    long rows = 0;
    long repaired = 0;
    long setAside = 0;
    List<String> files = new ArrayList<>();
    for (RowAccount.FileAccount file : account.files()) {
      rows += file.rows();
      repaired += file.repaired();
      setAside += file.setAside();
      files.add(file.file());
    }
    return new Read(LivesTable.of(lives).toCsv(), rows, repaired, setAside, files);
  }

  private static final Read PLAIN = read(SAMPLE);

  private void assertSame(List<String> files) {
    Read other = read(folder);
    assertEquals(PLAIN.lives(), other.lives());
    assertEquals(PLAIN.rows(), other.rows());
    assertEquals(PLAIN.repaired(), other.repaired());
    assertEquals(PLAIN.setAside(), other.setAside());
    assertTrue(other.files().containsAll(files), other.files().toString());
  }

  @Test
  void aGermanExportInWindows1252() throws IOException {
    new FleetForms(SAMPLE).german(folder, Charset.forName("windows-1252"));
    assertSame(List.of("Anlagen.csv", "Zaehlerstaende.csv"));
  }

  @Test
  void theSameInUtf16() throws IOException {
    new FleetForms(SAMPLE).german(folder, StandardCharsets.UTF_16);
    assertSame(List.of("Anlagen.csv"));
  }

  @Test
  void packedFiles() throws IOException {
    new FleetForms(SAMPLE).packed(folder);
    assertSame(List.of("pumps.csv.gz", "findings.csv.gz"));
  }

  @Test
  void aWorkbook() throws IOException {
    new FleetForms(SAMPLE).workbook(folder);
    assertSame(List.of("fleet.xlsx [pumps]", "fleet.xlsx [findings]"));
  }

  @Test
  void jsonLines() throws IOException {
    new FleetForms(SAMPLE).jsonLines(folder, false);
    assertSame(List.of("pumps.jsonl", "findings.jsonl"));
  }

  @Test
  void jsonLinesWithFindingsInTheirOpenings() throws IOException {
    new FleetForms(SAMPLE).jsonLines(folder, true);
    assertSame(List.of("rebuilds.jsonl", "rebuilds.jsonl [findings 1]"));
  }

  @Test
  void oneRowForEachOpening() throws IOException {
    new FleetForms(SAMPLE).wide(folder);
    assertSame(List.of("rebuilds.csv [seal-inboard]", "rebuilds.csv [vane-set]", "findings.csv"));
  }

  /** Openings are called by pump and day then; all else is the same. */
  @Test
  void findingsByPumpAndDayPartAndSide() throws IOException {
    Path plain = folder.resolve("plain");
    Path sides = folder.resolve("sides");
    new FleetForms(SAMPLE).withoutSharedDays(plain);
    Map<String, String> named = new FleetForms(SAMPLE).sides(sides);
    Read one = read(plain);
    Read other = read(sides);
    String renamed =
        Pattern.compile("\\bR\\d{4}\\b")
            .matcher(one.lives())
            .replaceAll(id -> named.getOrDefault(id.group(), id.group()));
    assertEquals(renamed, other.lives());
    assertTrue(one.lives().lines().count() > 1000);
    assertEquals(one.rows(), other.rows());
    assertEquals(one.setAside(), other.setAside());
  }
}
