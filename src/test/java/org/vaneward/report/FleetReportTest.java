package org.vaneward.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.BacktestRequest;
import org.vaneward.plan.PumpPlan;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.fit.FitSettings;

/** The page on the sample fleet: what it says, in which order, and that it stands alone. */
class FleetReportTest {
  static final FleetAnalysis ANALYSIS =
      FleetAnalysis.of(Path.of("sample-fleet"), FitSettings.defaults(), 1, said -> {});
  private static final List<ServiceInterval> INTERVALS = ServiceInterval.of(ANALYSIS);
  private static final SparesAnalysis SPARES =
      SparesAnalysis.of(ANALYSIS, new DemandRequest(24, 500, 1), said -> {});
  private static final FailureReview FAILURES = ANALYSIS.failures(ReviewQuestion.defaults());
  private static final Backtest PAST = Past.of(ANALYSIS);
  static final Page PAGE =
      FleetReport.page(ANALYSIS, INTERVALS, SPARES, FAILURES, Optional.of(PAST));
  private static final String HTML = FleetReport.html(PAGE);

  /** A class of its own: other threads, which tell of progress, must not wait for the test's. */
  private static final class Past {
    static Backtest of(FleetAnalysis analysis) {
      return Replay.of(
          Path.of("sample-fleet"),
          analysis,
          new BacktestRequest(3, 500, 1, 0.90, OptionalDouble.empty()),
          said -> {});
    }
  }

  @Test
  void theAnswerComesFirstAndTheCautionsStandOnTheFirstPage() {
    List<String> order =
        List.of(
            PAGE.answer().headline(),
            "Before a pump is opened",
            "Pumps to open in the next 90 days",
            "Kits and loose parts that takes",
            "What the records are not good enough to say",
            "Every pump: when to rebuild next",
            "Planned interval and what it saves",
            "How long parts last",
            "What fails again, and what lies behind it",
            "How good the records are",
            "How the numbers were made");
    int at = -1;
    for (String heading : order) {
      int next = HTML.indexOf(heading, at + 1);
      assertTrue(next > at, "missing or out of order: " + heading);
      at = next;
    }
    for (String caution : Cautions.openingAFuelPump()) {
      assertTrue(HTML.contains(caution), caution);
    }
  }

  @Test
  void nothingIsFetchedFromAnywhere() {
    String markup = HTML.replaceAll("(?s)<script[^>]*>.*?</script>", "");
    Matcher references =
        Pattern.compile("(?:src|href|url)\\s*[=(]\\s*[\"']?([^\"')\\s>]+)").matcher(markup);
    int seen = 0;
    while (references.find()) {
      seen++;
      assertTrue(
          references.group(1).matches("#.*|(pumps|sites)/[A-Za-z0-9_-]+\\.html|job-sheets\\.html"),
          references.group());
    }
    assertTrue(seen > 5, "the page has links within itself");
    assertFalse(HTML.contains("<script src"), "its programs are inside");
    assertFalse(markup.contains("<link"), "its style is inside");
    assertTrue(
        HTML.contains("content=\"default-src 'none';"), "and the browser is told to fetch nothing");
  }

  @Test
  void everyIdIsUniqueAndEveryLinkLeadsToOne() {
    List<String> ids = new ArrayList<>();
    Matcher id = Pattern.compile("\\sid=\"([^\"]+)\"").matcher(HTML);
    while (id.find()) {
      ids.add(id.group(1));
    }
    Set<String> unique = new HashSet<>(ids);
    assertEquals(ids.size(), unique.size());
    Matcher link = Pattern.compile("href=\"#([^\"]+)\"").matcher(HTML);
    while (link.find()) {
      assertTrue(unique.contains(link.group(1)), link.group());
    }
  }

  @Test
  void everyPictureHasItsWordsAndItsData() {
    Matcher figures = Pattern.compile("(?s)<figure>(.*?)</figure>").matcher(HTML);
    int seen = 0;
    while (figures.find()) {
      seen++;
      assertTrue(figures.group(1).contains("<svg"), "a picture");
      assertTrue(figures.group(1).contains("role=\"img\""), "named for those who cannot see it");
      assertTrue(figures.group(1).contains("<figcaption>"), "a caption");
      assertTrue(figures.group(1).contains("<td"), "its data");
    }
    assertTrue(seen > 30, "pictures: " + seen);
  }

  @Test
  void theDuePumpsAreThoseOfThePlan() {
    LocalDate asOf = ANALYSIS.fleetSettings().asOf();
    List<String> due =
        ANALYSIS.plan().pumps().stream()
            .filter(p -> Urgency.of(p, asOf).isDue())
            .map(PumpPlan::pump)
            .toList();
    assertEquals(due, PAGE.answer().due().rows().stream().map(row -> row.get(0)).toList());
    assertTrue(PAGE.answer().headline().startsWith("Open " + due.size() + " of "));
  }

  @Test
  void kitsAndLoosePartsCoverWhatTheRebuildsNeed() {
    long rebuilds = PAGE.answer().due().rows().size();
    long kits = 0;
    long looseSeals = 0;
    for (List<String> row : PAGE.answer().draw().rows()) {
      long number = Long.parseLong(row.get(1).replace(",", ""));
      kits += row.get(0).startsWith("kit ") ? number : 0;
      looseSeals += row.get(0).equals("seal") ? number : 0;
    }
    // a kit holds one seal, a pump has two
    assertEquals(2 * rebuilds, kits + looseSeals);
  }

  @Test
  void everyPlantedCauseIsNamed() {
    String lookInto = String.join("\n", PAGE.answer().lookInto());
    for (String planted :
        List.of("Seals on urea solution", "contract crew", "lot S2021-1R", "FW-P07")) {
      assertTrue(lookInto.contains(planted), planted + " in " + lookInto);
    }
  }

  @Test
  void everyRowOfEveryTableIsAsWideAsItsHead() {
    for (Page.Grid grid :
        List.of(
            PAGE.answer().due(),
            PAGE.answer().draw(),
            PAGE.plan().pumps(),
            PAGE.money().intervals(),
            PAGE.failures().pumps(),
            PAGE.failures().chains(),
            PAGE.failures().early(),
            PAGE.failures().restored(),
            PAGE.failures().shopChecks(),
            PAGE.failures().findings().get(0).records(),
            PAGE.failures().components().get(0).products(),
            PAGE.failures().components().get(0).means(),
            PAGE.failures().components().get(0).modes(),
            PAGE.records().files(),
            PAGE.records().notes(),
            PAGE.records().unknownAges())) {
      assertFalse(grid.isEmpty(), grid.headers().toString());
      for (List<String> row : grid.rows()) {
        assertEquals(grid.headers().size(), row.size());
      }
    }
  }

  @Test
  void theSameRecordsGiveTheSamePage() {
    FleetAnalysis again =
        FleetAnalysis.of(Path.of("sample-fleet"), FitSettings.defaults(), 1, said -> {});
    assertEquals(
        HTML,
        FleetReport.html(
            FleetReport.page(
                again,
                ServiceInterval.of(again),
                SparesAnalysis.of(again, new DemandRequest(24, 500, 1), said -> {}),
                again.failures(ReviewQuestion.defaults()),
                Optional.of(Past.of(again)))));
  }

  @Test
  void countsOfTheRecordsAddUp() {
    for (List<String> row : PAGE.records().files().rows()) {
      long[] n = row.stream().skip(1).mapToLong(c -> Long.parseLong(c.replace(",", ""))).toArray();
      assertEquals(n[0], n[1] + n[2] + n[3], row.get(0));
    }
  }
}
