package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.interactive.action.PDActionGoTo;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotation;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotationLink;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.io.Pdf;
import org.vaneward.report.Page.Grid;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.fit.FitSettings;

/** The report on paper, read back by Apache PDFBox. */
class PrintedReportTest {
  private static final double MILLIMETRE = 72 / 25.4;
  private static final double LEFT = 13 * MILLIMETRE;
  private static final double RIGHT = (210 - 13) * MILLIMETRE;
  private static final double BOTTOM = (297 - 7) * MILLIMETRE;

  @TempDir Path temp = Path.of("unset");

  private static Page page(FleetAnalysis analysis) {
    return FleetReport.page(
        analysis,
        ServiceInterval.of(analysis),
        SparesAnalysis.of(analysis, new DemandRequest(24, 300, 1), said -> {}),
        analysis.failures(ReviewQuestion.defaults()),
        Optional.empty());
  }

  private static PDDocument printed(Page page, FleetAnalysis analysis, List<String> remarks)
      throws IOException {
    return Loader.loadPDF(FleetReport.pdf(page, analysis.fleetSettings().asOf(), remarks::add));
  }

  /** Text without any blanks, so that a cell broken into lines is still found. */
  private static String dense(String text) {
    return text.replaceAll("[\\s\u200B]", "");
  }

  @Test
  void theSampleFleetOnPaperSaysWhatItsPageSays() throws IOException {
    FleetAnalysis analysis = FleetReportTest.ANALYSIS;
    Page page = FleetReportTest.PAGE;
    List<String> remarks = new ArrayList<>();
    try (PDDocument pdf = printed(page, analysis, remarks)) {
      assertEquals(List.of(), remarks);
      String text = dense(new PDFTextStripper().getText(pdf));
      assertTrue(text.contains(dense(page.answer().headline())));
      Cautions.openingAFuelPump()
          .forEach(caution -> assertTrue(text.contains(dense(caution)), caution));
      List<Grid> grids = grids(page);
      assertTrue(grids.size() > 20, "tables: " + grids.size());
      for (Grid grid : grids) {
        for (List<String> row : grid.rows()) {
          assertTrue(text.contains(dense(String.join("", row))), row::toString);
        }
      }
      page.methods().forEach(m -> assertTrue(text.contains(dense(m.text())), m.name()));
      everySheetIsNumbered(pdf, page.fleet());
      nothingIsCut(pdf);
      nothingRuns(pdf);
      assertTrue(pdf.getDocumentCatalog().getDocumentOutline().children().iterator().hasNext());
    }
  }

  private static List<Grid> grids(Page page) {
    List<Grid> grids =
        new ArrayList<>(
            List.of(
                page.answer().due(),
                page.answer().draw(),
                page.plan().pumps(),
                page.money().intervals(),
                page.money().rules(),
                page.spares().budget(),
                page.spares().demand(),
                page.spares().months(),
                page.spares().sites(),
                page.spares().products(),
                page.spares().rules(),
                page.spares().orders(),
                page.spares().stock(),
                page.spares().stockBySite(),
                page.failures().pumps(),
                page.failures().chains(),
                page.failures().early(),
                page.failures().restored(),
                page.records().files(),
                page.records().notes(),
                page.records().madeFrom()));
    page.components().forEach(component -> grids.add(component.fits()));
    page.failures().components().forEach(component -> grids.add(component.products()));
    return grids;
  }

  private static void everySheetIsNumbered(PDDocument pdf, String fleet) throws IOException {
    int sheets = pdf.getNumberOfPages();
    assertTrue(sheets > 20, "sheets: " + sheets);
    for (int sheet = 1; sheet <= sheets; sheet++) {
      PDFTextStripper one = new PDFTextStripper();
      one.setStartPage(sheet);
      one.setEndPage(sheet);
      String text = one.getText(pdf);
      assertTrue(text.contains("Page " + sheet + " of " + sheets), "sheet " + sheet);
      assertTrue(text.contains(fleet), "sheet " + sheet);
    }
  }

  private static void nothingIsCut(PDDocument pdf) throws IOException {
    int letters = lettersOnTheSheets(pdf);
    assertTrue(letters > 10_000, "letters: " + letters);
  }

  private static int lettersOnTheSheets(PDDocument pdf) throws IOException {
    int[] letters = new int[1];
    new PDFTextStripper() {
      @Override
      protected void writeString(String text, List<TextPosition> positions) {
        for (TextPosition at : positions) {
          if (at.getUnicode().isBlank()) {
            continue;
          }
          letters[0]++;
          assertTrue(at.getXDirAdj() >= LEFT - 0.5, text);
          assertTrue(at.getXDirAdj() + at.getWidthDirAdj() <= RIGHT + 0.5, text);
          assertTrue(at.getYDirAdj() <= BOTTOM, text);
        }
      }
    }.getText(pdf);
    return letters[0];
  }

  @Test
  void aTagTooLongForALineIsBroken() throws IOException {
    String tag = "P".repeat(200) + "$1\\";
    List<String> remarks = new ArrayList<>();
    byte[] pdf =
        Pdf.of(
            PrintedReport.of(
                "<main><p>Open " + tag + " this month</p></main>", "A fleet", "2025-12-31"),
            "A fleet",
            LocalDate.of(2025, 12, 31),
            remarks::add);
    try (PDDocument read = Loader.loadPDF(pdf)) {
      assertEquals(List.of(), remarks);
      assertTrue(dense(new PDFTextStripper().getText(read)).contains("Open" + tag + "this"));
      assertTrue(lettersOnTheSheets(read) > 200);
    }
  }

  /** No scripts, no files within, no way out: links lead to other sheets. */
  private static void nothingRuns(PDDocument pdf) throws IOException {
    assertNull(pdf.getDocumentCatalog().getOpenAction());
    assertNull(pdf.getDocumentCatalog().getAcroForm());
    assertNull(pdf.getDocumentCatalog().getNames());
    int links = 0;
    for (PDPage sheet : pdf.getPages()) {
      for (PDAnnotation annotation : sheet.getAnnotations()) {
        PDAnnotationLink link = assertInstanceOf(PDAnnotationLink.class, annotation);
        assertInstanceOf(PDActionGoTo.class, link.getAction());
        links++;
      }
    }
    assertTrue(links > 5, "links: " + links);
  }

  @Test
  void oddTextIsOnlyTextAndStaysOnTheSheet() throws IOException {
    String script = "<script>alert(1)</script>";
    String formula = "=cmd|' /C calc'!A0";
    String lengthy = "L".repeat(64);
    OddFleet fleet =
        OddFleet.drawn(temp.resolve("drawn"))
            .rename("OJ-P01", script)
            .rename("OJ-P02", lengthy)
            .rename("OJ-P03", formula);
    fleet.fill(OddFleet.PUMPS, "site", "a & ]]> <fo:block>");
    FleetAnalysis analysis =
        FleetAnalysis.of(fleet.write(temp.resolve("fleet")), FitSettings.defaults(), 1, said -> {});
    Page page = page(analysis);
    List<String> remarks = new ArrayList<>();
    try (PDDocument pdf = printed(page, analysis, remarks)) {
      assertEquals(List.of(), remarks);
      String text = dense(new PDFTextStripper().getText(pdf));
      Stream.of(script, formula, lengthy, "]]> <fo:block>")
          .forEach(words -> assertTrue(text.contains(dense(words)), words));
      nothingIsCut(pdf);
      nothingRuns(pdf);
    }
  }

  /** Sites grow in number down the sheets, never across them. */
  @Test
  void everyPumpAtASiteOfItsOwnFitsOnPaper(@TempDir Path temp) throws IOException {
    OddFleet fleet = OddFleet.drawn(temp.resolve("drawn")).times(10);
    fleet.rows(OddFleet.PUMPS).forEach(row -> row.put("site", "Site of " + row.get("pump")));
    FleetAnalysis analysis =
        FleetAnalysis.of(fleet.write(temp.resolve("fleet")), FitSettings.defaults(), 1, said -> {});
    Page page = page(analysis);
    assertEquals(121, page.spares().stockBySite().rows().size());
    List<String> remarks = new ArrayList<>();
    try (PDDocument pdf = printed(page, analysis, remarks)) {
      assertEquals(List.of(), remarks);
      nothingIsCut(pdf);
    }
  }

  @Test
  void aListOfNothingTakesNoRoom() throws IOException {
    List<String> remarks = new ArrayList<>();
    byte[] pdf =
        Pdf.of(
            PrintedReport.of(
                "<main><p>One</p><ul></ul><ul class='inline'></ul><dl></dl><ol></ol></main>",
                "A fleet",
                "2025-12-31"),
            "A fleet",
            LocalDate.of(2025, 12, 31),
            remarks::add);
    try (PDDocument read = Loader.loadPDF(pdf)) {
      assertEquals(List.of(), remarks);
      assertTrue(new PDFTextStripper().getText(read).contains("One"));
    }
  }

  @Test
  void whatItCannotSetIsAnErrorAndNotLeftOut() {
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class,
            () -> PrintedReport.of("<main><video/></main>", "A fleet", "2025-12-31"));
    assertTrue(refused.toString().contains("<video>"), refused::toString);
  }
}
