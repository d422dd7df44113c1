package org.vaneward.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.vaneward.io.FolderInUse;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.FleetReport;
import org.vaneward.report.SparesAnalysis;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.fit.FitSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Writes the whole fleet report. */
@Command(
    name = "report",
    description = {
      "Writes the fleet report into a folder: index.html for people, report.pdf for paper, and beside them plan.csv,"
          + " calendar.csv, calendar.ics, intervals.csv, spares.csv, budget.csv, stock.csv, orders.csv, failures.csv, fits.csv,"
          + " lives.csv, check.csv and report.json; plan.xlsx and spares.xlsx for a spreadsheet; a page for each"
          + " pump (pumps) and site (sites); job-sheets.html to print, and next-rebuilds.csv and"
          + " next-findings.csv to fill in once a rebuild is done.",
      "Ends with 0 once the report is written: what needs attention stands on its first page."
    })
final class ReportCommand implements Callable<Integer> {
  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private Common common = new Common();

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
    common.say("drawing and writing");
    FleetReport.write(analysis, spares, reviewed.review(), folder, common::say);
    return folder.resolve("index.html");
  }
}
