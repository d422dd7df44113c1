package org.vaneward.api;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.Service;
import org.vaneward.io.BadInputException;
import org.vaneward.io.FolderInUse;
import org.vaneward.report.CalendarView;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.FleetReport;
import org.vaneward.report.IntervalView;
import org.vaneward.report.PlanView;
import org.vaneward.report.SparesAnalysis;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.spares.DemandRequest;
import tech.tablesaw.api.Table;

/**
 * What the records advise: intervals, dates, kits and what to look into. Statistics from past
 * records, not a permit and not an inspection: local codes, the maker's manual and licensed
 * practice come first, and no interval here exceeds a mandated one.
 *
 * <pre>{@code
 * Table next = decisions.plan().first(5);
 * }</pre>
 */
public final class Decisions {
  private final FleetAnalysis analysis;
  private final IntervalView intervals;
  private final Consumer<String> progress;

  Decisions(FleetAnalysis analysis, Consumer<String> progress) {
    this.analysis = analysis;
    this.intervals = new IntervalView(analysis);
    this.progress = progress;
  }

  /**
   * The planned interval of each service and pump model, what it saves and how sure that is; the
   * columns of {@code intervals.csv}.
   *
   * <pre>{@code
   * Table intervals = decisions.intervals();
   * }</pre>
   */
  public Table intervals() {
    return Tables.of(intervals.listing());
  }

  /**
   * Cost against interval of the pumps in one service, a chart for each pump model.
   *
   * <pre>{@code
   * Chart curve = decisions.costCurves("petrol", "loading").get(0);
   * }</pre>
   *
   * @throws BadInputException when no pump in service does that, or costs are not stated
   */
  public List<Chart> costCurves(String product, String duty) {
    List<Chart> curves = charts(intervals.curves(new Service(product, duty)));
    if (curves.isEmpty()) {
      throw new BadInputException(
          "no cost curve for product '"
              + product
              + "', duty '"
              + duty
              + "': intervals() lists the services and says what is missing");
    }
    return curves;
  }

  /**
   * When to rebuild each pump, the most urgent first, and why; the columns of {@code plan.csv}.
   *
   * <pre>{@code
   * Table plan = decisions.plan();
   * }</pre>
   */
  public Table plan() {
    return Tables.of(new PlanView(analysis).listing());
  }

  /**
   * The rebuilds booked into weeks; the columns of {@code calendar.csv}.
   *
   * <pre>{@code
   * Table calendar = decisions.calendar();
   * }</pre>
   */
  public Table calendar() {
    return Tables.of(new CalendarView(analysis).listing());
  }

  /**
   * When to rebuild each pump, some pumps to a chart, and the weeks booked by site.
   *
   * <pre>{@code
   * Chart whenToRebuild = decisions.planCharts().get(0);
   * }</pre>
   */
  public List<Chart> planCharts() {
    return charts(new PlanView(analysis).pictures());
  }

  /**
   * Kits, loose parts and money over the months ahead: the plan lived forward many times.
   *
   * <pre>{@code
   * Spares spares = decisions.spares(12);
   * }</pre>
   *
   * @param months 1 to 120
   * @throws IllegalArgumentException when {@code months} is out of range
   */
  public Spares spares(int months) {
    DemandRequest usual = DemandRequest.plain(analysis.seed(), analysis.pumps().size());
    DemandRequest request = new DemandRequest(months, usual.futures(), usual.seed());
    return new Spares(analysis.fleetSettings(), SparesAnalysis.of(analysis, request, progress));
  }

  /**
   * What fails again and what lies behind it.
   *
   * <pre>{@code
   * FailureFindings failures = decisions.failures();
   * }</pre>
   */
  public FailureFindings failures() {
    return new FailureFindings(analysis.fleetSettings(), reviewed());
  }

  private FailureReview reviewed() {
    return analysis.failures(
        ReviewQuestion.defaults()
            .withConfidence(analysis.settings().confidence())
            .withSeed(analysis.seed()));
  }

  /**
   * Writes the fleet report into a folder, without history replayed: {@code index.html}, {@code
   * report.pdf} and every table beside them.
   *
   * <pre>{@code
   * Path page = decisions.report(Path.of("target/a-report"));
   * }</pre>
   *
   * @return its first page
   * @throws BadInputException when the folder cannot be written to, or another run writes there
   */
  public Path report(Path folder) {
    SparesAnalysis ahead =
        SparesAnalysis.of(
            analysis, DemandRequest.plain(analysis.seed(), analysis.pumps().size()), progress);
    return FolderInUse.during(
        folder,
        () -> {
          FleetReport.write(analysis, ahead, reviewed(), Optional.empty(), folder, progress);
          return folder.resolve("index.html");
        });
  }

  static List<Chart> charts(List<Picture> pictures) {
    return pictures.stream().map(Chart::new).toList();
  }
}
