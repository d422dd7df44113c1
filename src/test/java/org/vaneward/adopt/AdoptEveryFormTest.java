package org.vaneward.adopt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.ingest.Ingest;
import org.vaneward.io.Json;
import org.vaneward.life.FleetForms;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.LivesTable;

/**
 * The sample fleet written in other forms, its mapping thrown away: once the doubts are taken off
 * the proposal, it gives the same lives as the records themselves.
 */
class AdoptEveryFormTest {
  private static final Path SAMPLE = Path.of("sample-fleet");
  private static final LocalDate TODAY = LocalDate.of(2026, 7, 15);
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir Path folder;

  private static String lives(Path fleet) {
    return LivesTable.of(LifeBuilder.build(Ingest.read(fleet).fleet())).toCsv();
  }

  /** The proposal knows what 'fine' means, which stands in one row and is no word of ours. */
  private static final String PLAIN = livesWithFine();

  private static String livesWithFine() {
    try {
      Path folder = Files.createTempDirectory("fine");
      for (String table : FleetForms.TABLES) {
        Files.copy(SAMPLE.resolve(table + ".csv"), folder.resolve(table + ".csv"));
      }
      ObjectNode json = (ObjectNode) JSON.readTree(SAMPLE.resolve("fleet.json").toFile());
      json.putObject("mapping")
          .putObject("tables")
          .putObject("findings")
          .putObject("words")
          .putObject("as_found")
          .put("fine", "good");
      Files.writeString(folder.resolve("fleet.json"), json.toString());
      return lives(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Proposal proposeWithoutMapping() throws IOException {
    Path settings = folder.resolve("fleet.json");
    ObjectNode json = (ObjectNode) JSON.readTree(settings.toFile());
    json.remove("mapping");
    Files.writeString(settings, json.toString());
    Proposal proposal = Adopter.propose(folder, TODAY, remark -> {});
    ObjectNode draft = (ObjectNode) JSON.readTree(Json.write(proposal.draft()));
    if (draft.path("mapping") instanceof ObjectNode mapping) {
      mapping.remove("unsettled");
    }
    Files.writeString(settings, draft.toString());
    return proposal;
  }

  @Test
  void aGermanExportInWindows1252() throws IOException {
    new FleetForms(SAMPLE).german(folder, Charset.forName("windows-1252"));
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void theSameInUtf16() throws IOException {
    new FleetForms(SAMPLE).german(folder, StandardCharsets.UTF_16);
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void packedFiles() throws IOException {
    new FleetForms(SAMPLE).packed(folder);
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void aWorkbook() throws IOException {
    new FleetForms(SAMPLE).workbook(folder);
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void jsonLines() throws IOException {
    new FleetForms(SAMPLE).jsonLines(folder, false);
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void jsonLinesWithFindingsInTheirOpenings() throws IOException {
    new FleetForms(SAMPLE).jsonLines(folder, true);
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void oneRowForEachOpening() throws IOException {
    new FleetForms(SAMPLE).wide(folder);
    proposeWithoutMapping();
    assertEquals(PLAIN, lives(folder));
  }

  @Test
  void findingsByPumpAndDayPartAndSide() throws IOException {
    new FleetForms(SAMPLE).sides(folder);
    Path settings = folder.resolve("fleet.json");
    ObjectNode json = (ObjectNode) JSON.readTree(settings.toFile());
    ((ObjectNode) json.at("/mapping/tables/findings/words"))
        .putObject("as_found")
        .put("fine", "good");
    Files.writeString(settings, json.toString());
    String told = lives(folder);
    Proposal proposal = proposeWithoutMapping();
    assertEquals(told, lives(folder));
    assertTrue(
        proposal.unsettled().containsKey("findings.joined.rebuild"),
        () -> proposal.unsettled().toString());
  }
}
