package org.vaneward.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.BacktestRequest;
import org.vaneward.io.FolderInUse;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.FleetReport;
import org.vaneward.report.Replay;
import org.vaneward.report.SparesAnalysis;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.fit.FitSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Writes the whole fleet report. */
@Command(
    name = "report",
    description = {
      "Writes the fleet report into a folder: index.html for people, report.pdf for paper, and beside them plan.csv,"
          + " calendar.csv, calendar.ics, intervals.csv, spares.csv, budget.csv, stock.csv, orders.csv, failures.csv,"
          + " backtest.csv, fits.csv,"
          + " lives.csv, check.csv and report.json; plan.xlsx and spares.xlsx for a spreadsheet; a page for each"
          + " pump (pumps) and site (sites); job-sheets.html to print, and next-rebuilds.csv and"
          + " next-findings.csv to fill in once a rebuild is done.",
      "Ends with 0 once the report is written: what needs attention stands on its first page."
    })
final class ReportCommand implements Callable<Integer> {
  /** Pumps up to which history is replayed unless told otherwise: it takes half a minute then. */
  private static final int MOST_PUMPS_REPLAYED = 200;

  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private Common common = new Common();

  @Option(
      names = "--backtest",
      negatable = true,
      description =
          "replay history for how well past advice did (default: up to 200 pumps); --no-backtest"
              + " leaves it out")
  private @Nullable Boolean backtest;

  @Override
  public Integer call() {
    Path folder = common.folder("report", "html, csv and json side by side");
    common.say("wrote " + FolderInUse.during(folder, () -> write(folder)));
    return 0;
  }

  /** Writes the report; gives its first page. */
  private Path write(Path folder) {
    FitSettings settings = FitSettings.defaults().withConfidence(common.confidence());
    ReviewQuestion question =
        ReviewQuestion.defaults().withConfidence(common.confidence()).withSeed(common.seed());
    FleetAnalysis.Reviewed reviewed =
        FleetAnalysis.reviewed(fleet.folder, settings, common.seed(), question, common::say);
    FleetAnalysis analysis = reviewed.analysis();
    SparesAnalysis spares =
        SparesAnalysis.of(
            analysis, DemandRequest.plain(common.seed(), analysis.pumps().size()), common::say);
    Optional<Backtest> past = past(analysis);
    common.say("drawing and writing");
    FleetReport.write(analysis, spares, reviewed.review(), past, folder, common::say);
    return folder.resolve("index.html");
  }

  private Optional<Backtest> past(FleetAnalysis analysis) {
    boolean asked =
        Optional.ofNullable(backtest).orElse(analysis.pumps().size() <= MOST_PUMPS_REPLAYED);
    BacktestRequest request =
        BacktestRequest.plain(common.seed()).withConfidence(common.confidence());
    return asked
        ? Optional.of(Replay.of(fleet.folder, analysis, request, common::say))
        : Optional.empty();
  }
}
