package org.vaneward.adopt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.RowFate;
import org.vaneward.ingest.FleetJson;
import org.vaneward.ingest.FleetJson.MappingJson;
import org.vaneward.ingest.FleetJson.TableJson;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Ingested;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Json;

class AdopterTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 7, 15);

  @TempDir Path folder;

  private void file(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private Proposal propose() {
    return Adopter.propose(folder, TODAY, remark -> {});
  }

  private static MappingJson mapping(Proposal proposal) {
    return proposal.draft().mapping().orElse(MappingJson.NOTHING);
  }

  private static TableJson table(Proposal proposal, String title) {
    return mapping(proposal).tables().orElse(Map.of()).getOrDefault(title, TableJson.NOTHING);
  }

  private static Map<String, String> columns(Proposal proposal, String title) {
    return table(proposal, title).columns().orElse(Map.of());
  }

  private static String doubt(Proposal proposal, String place) {
    return proposal.unsettled().getOrDefault(place, "");
  }

  /** A pump list, meter readings, services and work orders as one shop has them. */
  private void americanShop() throws IOException {
    file(
        "Pump List.csv",
        """
        Asset ID,Location,Model,Install Date,Hrs/Wk,Out of service
        P-101,North Terminal,V3,01/15/2018,40,
        P-102,North Terminal,V3,02/20/2018,44,
        P-103,South Terminal,V4,11/03/2017,60,06/30/2024
        """);
    file(
        "Work Orders.csv",
        """
        WO #,Asset ID,Date Completed,Reason,Hour Meter,Technician,Downtime (days),Total Cost,End Clearance (thou),Seal IB,Seal OB,Brg IB,Brg OB,Vanes,Vane wear (in),Remarks
        1001,P-101,03/22/2019,Leaking,2450.5,JB,1.5,"1,250.00",7,Replaced - leaking,Replaced,OK,OK,OK,0.020,first one
        1002,P-102,04/30/2019,PM,2700,JB,1,"1,100.00",8,Replaced,Replaced,Replaced,Replaced,Worn - replaced,0.061,
        1003,P-103,07/04/2019,Noisy bearing,4800,MK,2,900.00,7.5,OK,OK,Failed - replaced,Replaced,OK,,
        1004,P-101,05/13/2021,Seal drip,6800,MK,1,"1,310.50",7,Failed - replaced,OK,OK,OK,Worn - replaced,0.055,shaft nicked
        """);
    file(
        "Meter Log.csv",
        """
        Unit,Reading Date,Hour Meter,Comment
        P-101,01/15/2018,0,
        P-101,12/31/2020,6100,
        P-102,02/20/2018,0,
        P-103,12/31/2020,9500,
        """);
    file(
        "Service.csv",
        """
        Asset,Since,Fluid,Application,Diff. Pressure (psi)
        P-101,01/15/2018,gasoline,loading,50
        P-102,02/20/2018,diesel,loading,55
        P-103,11/03/2017,jet,unloading,45
        """);
  }

  @Test
  void findsTablesColumnsDaysWordsAndUnits() throws IOException {
    americanShop();
    Proposal proposal = propose();
    assertEquals(Optional.of(List.of("MM/dd/yyyy")), mapping(proposal).dates());
    assertEquals(
        Map.of(
            "pump", "Asset ID",
            "site", "Location",
            "model", "Model",
            "commissioned", "Install Date",
            "hours_per_week", "Hrs/Wk",
            "retired", "Out of service"),
        columns(proposal, "pumps"));
    assertEquals(Optional.of("Meter Log.csv"), table(proposal, "readings").file());
    assertEquals("Hour Meter", columns(proposal, "readings").get("hours"));
    assertEquals(Map.of("pressure_bar", "psi"), table(proposal, "services").units().orElseThrow());
    TableJson rebuilds = table(proposal, "rebuilds");
    assertEquals(Optional.of(","), rebuilds.thousands());
    assertEquals(
        Map.of("end_clearance_mm", "thousandths", "downtime_hours", "days"),
        rebuilds.units().orElseThrow());
    assertEquals(
        Map.of("Leaking", "leak", "PM", "planned", "Noisy bearing", "noise", "Seal drip", "leak"),
        rebuilds.words().orElseThrow().get("trigger"));
    assertEquals(
        Map.of("as_found", "Vanes", "action", "Vanes", "measured_mm", "Vane wear (in)"),
        rebuilds.positions().orElseThrow().get("vane-set"));
    assertEquals(
        Map.of("as_found", "Brg OB", "action", "Brg OB"),
        rebuilds.positions().orElseThrow().get("bearing-outboard"));
    TableJson findings = table(proposal, "findings");
    assertEquals(Map.of("measured_mm", "inches"), findings.units().orElseThrow());
    Map<String, String> found = findings.words().orElseThrow().getOrDefault("as_found", Map.of());
    assertEquals("failed", found.get("Replaced - leaking"));
    assertEquals("worn", found.get("Worn - replaced"));
    assertEquals("good", found.get("OK"));
  }

  @Test
  void whatWasFoundIsNeverInventedWhereOnlyWhatWasDoneIsSaid() throws IOException {
    americanShop();
    Proposal proposal = propose();
    assertEquals(
        "not-seen",
        table(proposal, "findings")
            .words()
            .orElseThrow()
            .getOrDefault("as_found", Map.of())
            .get("Replaced"));
    assertTrue(
        doubt(proposal, "findings.words.as_found").contains("'Replaced' (6)"),
        proposal.unsettled().toString());
  }

  @Test
  void noCommandUsesAProposalBeforeItsListIsEmpty() throws IOException {
    americanShop();
    Proposal proposal = propose();
    Path settings = folder.resolve("fleet.json");
    String draft = Json.write(proposal.draft());
    Files.writeString(settings, draft);
    BadInputException refused = assertThrows(BadInputException.class, () -> Ingest.read(folder));
    assertTrue(
        String.valueOf(refused.getMessage())
            .startsWith("fleet.json: mapping.unsettled: 3 points wait for your word; settle each"),
        refused.getMessage());
    Files.writeString(settings, draft.replaceAll("(?s),\\s*\"unsettled\": \\{.*?\\}", ""));
    Ingested records = Ingest.read(folder);
    assertEquals(3, records.fleet().pumps().size());
    assertEquals(
        4, records.fleet().pumps().stream().mapToInt(pump -> pump.openings().size()).sum());
    assertEquals(Map.of(), setAside(records));
  }

  private static Map<String, String> setAside(Ingested records) {
    Map<String, String> rows = new TreeMap<>();
    records.notes().stream()
        .filter(note -> note.fate() instanceof RowFate.SetAside)
        .forEach(note -> rows.put(note.row().toString(), note.fate().toString()));
    return rows;
  }

  @Test
  void aFrenchShopWithFindingsApartAndAMixOfEncodings() throws IOException {
    file(
        "Liste des pompes.csv",
        """
        Repère;Lieu;Mise en service;Produit;Utilisation;Pression (bar)
        PO-1;Dépôt Nord;15/01/2018;gazole;chargement;3,5
        PO-2;Dépôt Nord;20/02/2018;essence;chargement;3,8
        """);
    file(
        "Interventions.csv",
        """
        N° OT;Repère;Date;Motif;Compteur;Coût;Jeu axial
        A1;PO-1;22/03/2019;fuite;2 450,5;1 250,00;0,18
        A2;PO-2;30/04/2019;préventif;2 700;1 100,00;0,2
        """);
    Files.write(
        folder.resolve("Constats.csv"),
        """
        N° OT;Pièce;État trouvé;Action réalisée;Usure
        A1;Garniture intérieure;défectueux;remplacé;
        A1;Palettes;usé;remplacé;1,2
        A2;Garniture extérieure;bon;conservé;
        A2;Palier intérieur;usé;remplacé;
        A2;Bague;fissuré;remplacé;
        """
            .getBytes(Charset.forName("windows-1252")));
    Proposal proposal = propose();
    assertEquals(Optional.of(";"), mapping(proposal).separator());
    assertEquals(Optional.of(List.of("dd/MM/yyyy")), mapping(proposal).dates());
    assertEquals(Optional.of("windows-1252"), table(proposal, "findings").encoding());
    assertTrue(doubt(proposal, "findings.encoding").contains("° É è é"));
    assertEquals(Optional.of(" "), table(proposal, "rebuilds").thousands());
    assertEquals(
        Map.of(
            "Garniture intérieure", "seal-inboard",
            "Garniture extérieure", "seal-outboard",
            "Palettes", "vane-set",
            "Palier intérieur", "bearing-inboard"),
        table(proposal, "findings").words().orElseThrow().get("position"));
    assertTrue(doubt(proposal, "findings.words.position").contains("'Bague' (1)"));
    assertTrue(doubt(proposal, "findings.words.as_found").contains("'fissuré' (1)"));
    // One list for pumps and what they handle: the day of commissioning has to serve for both.
    assertEquals("Mise en service", columns(proposal, "services").get("from"));
    assertTrue(doubt(proposal, "services.columns.from").contains("one product ever since"));
    // Nobody wrote down meter readings.
    assertEquals(Optional.of("Interventions.csv"), table(proposal, "readings").file());
    assertTrue(doubt(proposal, "readings.file").contains("hours of the openings"));
  }

  @Test
  void daysAndNumbersThatReadTwoWaysAreDoubts() throws IOException {
    file("pumps.csv", "pump,site,commissioned\nA,x,03/04/2018\nB,x,05/06/2018\n");
    file(
        "readings.csv",
        "pump,date,hours\nA,2018-04-03,0\nA,2019-05-02,1.234\nB,2019-05-02,2.000\n");
    Proposal proposal = propose();
    String days = doubt(proposal, "pumps.dates");
    assertTrue(
        days.contains("'03/04/2018' is 2018-04-03 or 2018-03-04, and no cell tells which"), days);
    assertEquals(
        "'1.234' is 1.234 or 1234, and no cell tells which; proposed is decimal point",
        doubt(proposal, "readings.decimal"));
  }

  @Test
  void theOrderOfRowsSpeaksForOnePatternOfDays() throws IOException {
    StringBuilder rows = new StringBuilder("pump,date,hours\n");
    for (int month = 1; month <= 12; month++) {
      rows.append("A,%02d/02/2019,%d\n".formatted(month, 100 * month));
      rows.append("A,%02d/05/2019,%d\n".formatted(month, 100 * month + 5));
    }
    file("readings.csv", rows.toString());
    Proposal proposal = propose();
    assertEquals(Optional.of(List.of("MM/dd/yyyy")), mapping(proposal).dates());
    assertTrue(
        doubt(proposal, "readings.dates")
            .contains("by it 100% of the rows follow in order of date, by dd/MM/yyyy 52%"),
        doubt(proposal, "readings.dates"));
  }

  @Test
  void oneCellSettlesTheDecimalMarkOfItsTable() throws IOException {
    file(
        "readings.csv",
        "pump;date;hours\nA;2018-04-03;0\nA;2019-05-02;1.234\nA;2020-05-02;2.000,5\n");
    Proposal proposal = propose();
    assertEquals("", doubt(proposal, "readings.decimal"));
    assertEquals(Optional.of(","), mapping(proposal).decimal());
    assertEquals(Optional.of("."), mapping(proposal).thousands());
  }

  @Test
  void metersFasterThanTheClockAreInMinutes() throws IOException {
    file(
        "readings.csv",
        "pump,date,hours,old_hours\nA,2020-01-01,0,\nA,2020-01-11,4800,\nA,2020-01-21,9900,\nA,2020-01-31,14700,\n");
    Proposal proposal = propose();
    assertEquals(
        Map.of("hours", "minutes", "old_hours", "minutes"),
        table(proposal, "readings").units().orElseThrow());
    assertTrue(
        doubt(proposal, "readings.units.hours").contains("run on by 480 a day"),
        doubt(proposal, "readings.units.hours"));
  }

  @Test
  void twoUnitsInOneColumnAreADoubt() throws IOException {
    StringBuilder rows = new StringBuilder("rebuild,pump,date,trigger,end_clearance_mm\n");
    String[] cells = {"0.18", "0.2", "0.19", "0.15", "0.17", "0.21", "0.22", "7", "8", "7.5"};
    for (int i = 0; i < cells.length; i++) {
      rows.append("R%d,A,2020-01-%02d,leak,%s\n".formatted(i, i + 1, cells[i]));
    }
    file("rebuilds.csv", rows.toString());
    String doubt = doubt(propose(), "rebuilds.units.end_clearance_mm");
    assertTrue(
        doubt.startsWith(
            "two units seem to stand in one column: 7 numbers up to 0.22 and 3 from 7; the upper ones"
                + " would fit thousandths where the others are mm"),
        doubt);
  }

  @Test
  void aSecondFileOfTheSameKindIsADoubt() throws IOException {
    for (int year = 2019; year <= 2020; year++) {
      file(
          "rebuilds-" + year + ".csv",
          "rebuild,pump,date,trigger\n%1$d-1,A,%1$d-02-03,leak\n%1$d-2,A,%1$d-05-03,leak\n"
              .formatted(year));
    }
    file("rebuilds-old.csv", "number,pump,date,trigger\nX,A,2011-02-03,leak\n");
    Proposal proposal = propose();
    assertEquals(Optional.of("rebuilds-2019.csv"), table(proposal, "rebuilds").file());
    assertEquals(
        List.of(new FleetJson.AlsoJson(Optional.of("rebuilds-2020.csv"), Optional.empty())),
        table(proposal, "rebuilds").also().orElseThrow());
    assertTrue(
        doubt(proposal, "rebuilds.also")
            .contains("rebuilds-2020.csv has the columns of rebuilds-2019.csv"),
        proposal.unsettled().toString());
    assertTrue(
        doubt(proposal, "rebuilds.file")
            .contains("rebuilds-old.csv looks like rebuilds as well, with other columns"),
        proposal.unsettled().toString());
  }

  @Test
  void aFileForEachYearIsReadAsOneTable() throws IOException {
    file("jobs 2019.csv", "Job no,Tag,Done,Why\n1,A,2019-02-03,leaking\n2,B,2019-03-03,drips\n");
    file("jobs 2020.csv", "Tag,Job no,Why,Done\nA,3,seized,2020-11-05\n");
    file("jobs 2021.csv", "Tag,Job no,Why,Done\nA,4,whatever,2021-11-05\n");
    Proposal proposal = propose();
    TableJson rebuilds = table(proposal, "rebuilds");
    assertEquals(2, rebuilds.also().orElseThrow().size());
    // Days, words and the end of the records are those of all the files.
    assertEquals(LocalDate.of(2021, 11, 5), proposal.draft().asOf());
    assertTrue(doubt(proposal, "rebuilds.words.trigger").contains("'whatever' (1)"));
    assertEquals("Done", columns(proposal, "rebuilds").get("date"));
    assertTrue(doubt(proposal, "rebuilds.columns.date").contains("for what stands in it alone"));
    assertEquals(
        List.of("the columns of jobs 2019.csv: goes with it"), proposal.sources().get(2).remarks());
  }

  @Test
  void aHeaderWithTheRightNameAndTheWrongCellsIsNotTaken() throws IOException {
    file("readings.csv", "pump,date,Hour meter\nA,2020-01-01,full\nA,2020-01-11,half\n");
    Proposal proposal = propose();
    assertFalse(columns(proposal, "readings").containsKey("hours"));
    assertTrue(proposal.unsettled().containsKey("readings"), proposal.unsettled().toString());
  }

  @Test
  void recordsAsTheFormatHasThemNeedNoMapping() throws IOException {
    for (String name : List.of("pumps", "services", "readings", "rebuilds")) {
      Files.copy(Path.of("docs/example-fleet", name + ".csv"), folder.resolve(name + ".csv"));
    }
    file("findings.csv", "rebuild,position,as_found,action\nR1,seal-inboard,failed,renewed\n");
    Files.copy(Path.of("docs/example-fleet/fleet.json"), folder.resolve("fleet.json"));
    Proposal proposal = propose();
    assertEquals(Map.of(), proposal.unsettled());
    assertEquals(MappingJson.NOTHING, mapping(proposal));
  }

  @Test
  void filesThatAreNoTableAreNamed() throws IOException {
    file("scan.pdf", "no table");
    file("empty.csv", "");
    file("letter.txt", "Dear all,\nplease send the rest.\n");
    Files.write(folder.resolve("damaged.xlsx"), "PK no".getBytes(StandardCharsets.US_ASCII));
    Proposal proposal = propose();
    assertEquals(
        List.of(), proposal.sources().stream().filter(s -> !s.tables().isEmpty()).toList());
    assertTrue(
        proposal.unread().keySet().containsAll(List.of("scan.pdf", "empty.csv", "damaged.xlsx")));
    assertTrue(proposal.unsettled().keySet().containsAll(List.of("pumps", "rebuilds", "as_of")));
  }

  @Test
  void aFolderThatIsNoneIsRefused() {
    BadInputException refused =
        assertThrows(
            BadInputException.class,
            () -> Adopter.propose(folder.resolve("gone"), TODAY, remark -> {}));
    assertTrue(String.valueOf(refused.getMessage()).endsWith("give the folder of the exports"));
  }

  /** The records as the proposal has them, once a person has looked at its doubts. */
  private Ingested readSettled(Proposal proposal) throws IOException {
    String draft = Json.write(proposal.draft());
    file("fleet.json", draft.replaceAll("(?s),\\s*\"unsettled\": \\{.*?\\}", ""));
    return Ingest.read(folder);
  }

  /** Work orders with a line for each part: openings and findings from one file. */
  @Test
  void aLineForEachPartOfAnOpening() throws IOException {
    americanShop();
    file(
        "Work Orders.csv",
        """
        WO #,Asset ID,Date Completed,Reason,Technician,Part,Side,Condition,Action
        1001,P-101,03/22/2019,Leaking,JB,Mechanical seal,IB,failed,replaced
        1001,P-101,03/22/2019,Leaking,JB,Mechanical seal,OB,good,replaced
        1001,P-101,03/22/2019,Leaking,JB,Bearing,IB,good,reused
        1002,P-102,04/30/2019,PM,JB,Vanes,-,worn,replaced
        1002,P-102,04/30/2019,PM,JB,Relief valve,-,good,reused
        1003,P-103,07/04/2019,Noisy bearing,MK,Bearing,OB,failed,replaced
        """);
    Proposal proposal = propose();
    assertEquals("WO #", columns(proposal, "findings").get("rebuild"));
    assertEquals(
        Map.of("position", List.of("Part", "Side")),
        table(proposal, "findings").joined().orElseThrow());
    assertEquals(Optional.empty(), table(proposal, "rebuilds").joined());
    assertEquals(
        Map.of(
            "Mechanical seal IB", "seal-inboard",
            "Mechanical seal OB", "seal-outboard",
            "Bearing IB", "bearing-inboard",
            "Bearing OB", "bearing-outboard",
            "Vanes", "vane-set"),
        table(proposal, "findings").words().orElseThrow().get("position"));
    assertTrue(doubt(proposal, "findings.words.position").contains("'Relief valve' (1)"));
    Ingested read = readSettled(proposal);
    assertEquals(3, read.fleet().pumps().stream().mapToInt(p -> p.openings().size()).sum());
    assertEquals(
        5,
        read.fleet().pumps().stream()
            .flatMap(p -> p.openings().stream())
            .mapToInt(o -> o.findings().size())
            .sum());
  }

  /** Where findings name no number, openings that have one are called by pump and day as well. */
  @Test
  void findingsThatNameNoRecordNumber() throws IOException {
    americanShop();
    file(
        "Work Orders.csv",
        """
        WO #,Asset ID,Date Completed,Reason
        1001,P-101,03/22/2019,Leaking
        1002,P-102,04/30/2019,PM
        """);
    file(
        "Parts.csv",
        """
        Date,Asset ID,Position,Condition,Action
        3/22/2019,P-101,Seal IB,failed,replaced
        4/30/2019,P-102,Vanes,good,reused
        """);
    Proposal proposal = propose();
    assertEquals(
        Map.of("rebuild", List.of("Asset ID", "Date Completed")),
        table(proposal, "rebuilds").joined().orElseThrow());
    assertEquals(
        Map.of("rebuild", List.of("Asset ID", "Date")),
        table(proposal, "findings").joined().orElseThrow());
    assertTrue(doubt(proposal, "findings.joined.rebuild").contains("'Asset ID' and 'Date'"));
    assertEquals(
        List.of("P-101 2019-03-22", "P-102 2019-04-30"),
        readSettled(proposal).fleet().pumps().stream()
            .flatMap(p -> p.openings().stream())
            .filter(o -> o.findings().size() == 1)
            .map(Opening::rebuild)
            .toList());
  }
}
