package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.RowAccount.FileAccount;
import org.vaneward.plan.Calendar.Booking;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.fit.FitSettings;

/** The pages of pumps and sites, the job sheets and what comes back from them. */
class OtherPagesTest {
  private static final String SCRIPT = "<script>alert(1)</script>";
  private static final Pattern LINK = Pattern.compile("<a href=\"([^\"]+)\"");

  @TempDir Path temp = Path.of("unset");

  private OddFleet drawn() {
    return OddFleet.drawn(temp.resolve("drawn"));
  }

  private FleetAnalysis analysed(OddFleet fleet) {
    return FleetAnalysis.of(
        fleet.write(temp.resolve("fleet")), FitSettings.defaults(), 1, said -> {});
  }

  private Path written(FleetAnalysis analysis, String folder) {
    Path report = temp.resolve(folder);
    FleetReport.write(
        analysis,
        SparesAnalysis.of(analysis, new DemandRequest(12, 200, 1), said -> {}),
        analysis.failures(ReviewQuestion.defaults()),
        Optional.empty(),
        report,
        said -> {});
    return report;
  }

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      return all.filter(Files::isRegularFile).sorted().toList();
    }
  }

  @Test
  void everyLinkLeadsToAFileAndAPlaceInIt() throws IOException {
    Path report =
        written(analysed(drawn().rename("OJ-P01", SCRIPT).rename("OJ-P02", "a/../b")), "report");
    int followed = 0;
    for (Path file : files(report)) {
      if (file.toString().endsWith(".html")) {
        String html = Files.readString(file);
        for (String link : LINK.matcher(html).results().map(MatchResult::group).toList()) {
          String to = link.substring("<a href=\"".length(), link.length() - 1);
          String[] parts = to.split("#", 2);
          Path target = parts[0].isEmpty() ? file : file.resolveSibling(parts[0]).normalize();
          assertTrue(target.startsWith(report), to + " leaves the report");
          assertTrue(Files.isRegularFile(target), file + ": " + to);
          if (parts.length > 1) {
            assertTrue(
                Files.readString(target).contains("id=\"" + parts[1] + "\""), file + ": " + to);
          }
          followed++;
        }
      }
    }
    assertTrue(followed > 50, "links followed: " + followed);
  }

  @Test
  void textThatWouldRunIsOnlyTextOnEveryPage() throws IOException {
    OddFleet fleet = drawn().rename("OJ-P01", SCRIPT);
    fleet.fill(OddFleet.REBUILDS, "note", "<img src=x onerror=alert(1)>");
    fleet.fill(OddFleet.PUMPS, "site", "</title><script>alert(2)</script>");
    Path report = written(analysed(fleet), "report");
    for (Path file : files(report)) {
      if (file.toString().endsWith(".html") && !file.endsWith("index.html")) {
        String html = Files.readString(file);
        assertFalse(html.contains("<script"), file.toString());
        assertFalse(html.contains("<img"), file.toString());
      }
    }
  }

  @Test
  void thereIsAPageForEachPumpAndSiteAndASheetForEachRebuildBooked() throws IOException {
    FleetAnalysis analysis = analysed(drawn());
    Path report = written(analysis, "report");
    assertEquals(analysis.pumps().size(), files(report.resolve("pumps")).size());
    assertEquals(
        analysis.pumps().stream().map(p -> p.site()).distinct().count(),
        files(report.resolve("sites")).size());
    String sheets = Files.readString(report.resolve("job-sheets.html"));
    List<Booking> bookings = analysis.plan().calendar().bookings();
    assertFalse(bookings.isEmpty());
    assertEquals(bookings.size(), sheets.split("class=\"sheet\"", -1).length - 1);
    for (String caution : Cautions.openingAFuelPump()) {
      assertEquals(bookings.size(), sheets.split(Pattern.quote(caution), -1).length - 1, caution);
    }
  }

  @Test
  void theSameInputsGiveTheSameBytes() throws IOException {
    FleetAnalysis analysis = analysed(drawn());
    Path one = written(analysis, "one");
    Path two =
        written(
            FleetAnalysis.of(temp.resolve("fleet"), FitSettings.defaults(), 1, said -> {}), "two");
    List<Path> files = files(one);
    assertEquals(
        files.stream().map(one::relativize).toList(),
        files(two).stream().map(two::relativize).toList());
    for (Path file : files) {
      assertEquals(-1, Files.mismatch(file, two.resolve(one.relativize(file))), file.toString());
    }
  }

  @Test
  void lettersThatPaperLacksAreToldOfAndStandOnThePages() throws IOException {
    FleetAnalysis analysis = analysed(drawn().rename("OJ-P01", "泵-1"));
    Path report = temp.resolve("report");
    List<String> said = new ArrayList<>();
    FleetReport.write(
        analysis,
        SparesAnalysis.of(analysis, new DemandRequest(12, 200, 1), progress -> {}),
        analysis.failures(ReviewQuestion.defaults()),
        Optional.empty(),
        report,
        said::add);
    assertEquals(1, said.size(), said::toString);
    assertTrue(said.get(0).startsWith("report.pdf: ") && said.get(0).contains("泵"), said.get(0));
    assertTrue(said.get(0).endsWith(" index.html shows everything as it is."), said.get(0));
    assertTrue(Files.readString(report.resolve("index.html")).contains("泵-1"));
  }

  /** The sheets' rows, filled in as a shop would and added to the records, leave none aside. */
  @Test
  void whatIsFilledInComesBackComplete() throws IOException {
    FleetAnalysis analysis = analysed(drawn());
    Path report = written(analysis, "report");
    Path fleet = temp.resolve("fleet");
    long before = setAside(analysis.fleet());
    int openings = analysis.fleet().lives().openings().size();
    List<String> rebuilds = Files.readAllLines(report.resolve("next-rebuilds.csv"));
    List<String> findings = Files.readAllLines(report.resolve("next-findings.csv"));
    assertEquals(
        Files.readAllLines(fleet.resolve("rebuilds.csv")).get(0), rebuilds.get(0), "the columns");
    assertEquals(
        Files.readAllLines(fleet.resolve("findings.csv")).get(0), findings.get(0), "the columns");
    // The day of record is the day the sheets are filled in.
    String day = analysis.fleetSettings().asOf().toString();
    append(
        fleet.resolve("rebuilds.csv"),
        rebuilds.stream().skip(1).map(row -> row.replaceFirst(",,", "," + day + ",")).toList());
    append(
        fleet.resolve("findings.csv"),
        findings.stream()
            .skip(1)
            .map(row -> row.replaceFirst(",,,,,,,$", "," + AsFound.WORN.word() + ",,,,renewed,,"))
            .toList());
    FleetLives again = FleetLives.read(fleet);
    assertEquals(before, setAside(again));
    assertEquals(openings + rebuilds.size() - 1, again.lives().openings().size());
  }

  private static long setAside(FleetLives lives) {
    return lives.account().files().stream().mapToLong(FileAccount::setAside).sum();
  }

  private static void append(Path file, List<String> rows) throws IOException {
    List<String> lines = new ArrayList<>(Files.readAllLines(file));
    lines.addAll(rows);
    Files.write(file, lines);
  }
}
