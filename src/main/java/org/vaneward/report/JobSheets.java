package org.vaneward.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.Trigger;
import org.vaneward.io.CsvWriter;
import org.vaneward.plan.Calendar.Booking;
import org.vaneward.plan.PumpPlan;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;

/**
 * A job sheet for each rebuild booked, and the same as rows to be filled in and added to the
 * records.
 */
final class JobSheets {
  private final FleetAnalysis analysis;
  private final FleetSettings settings;
  private final PumpPages pages;
  private final Map<String, PumpPlan> plans = new HashMap<>();

  JobSheets(FleetAnalysis analysis, PumpPages pages) {
    this.analysis = analysis;
    this.settings = analysis.fleetSettings();
    this.pages = pages;
    analysis.plan().pumps().forEach(p -> plans.put(p.pump(), p));
  }

  /** One sheet for each booking, in order of their days. */
  List<JobSheet> sheets(FileNames files) {
    List<JobSheet> sheets = new ArrayList<>();
    for (Booking booking : analysis.plan().calendar().bookings()) {
      Optional.ofNullable(plans.get(booking.pump()))
          .ifPresent(plan -> sheets.add(sheet(booking, plan, files)));
    }
    return sheets;
  }

  private JobSheet sheet(Booking booking, PumpPlan plan, FileNames files) {
    Optional<Opening> last = lastOpening(plan.pump());
    return new JobSheet(
        files.of(plan.pump()),
        plan.pump(),
        pages.about(plan),
        booking.week() + ", " + booking.day(),
        record(booking),
        plan.why(),
        draw(plan),
        lastFound(last),
        last.map(
                o ->
                    "Found last time, "
                        + o.date()
                        + " ("
                        + o.trigger().word()
                        + ", "
                        + o.rebuild()
                        + ")")
            .orElse("Found last time"),
        positions());
  }

  private List<String> positions() {
    return settings.components().stream().flatMap(c -> c.positions().stream()).toList();
  }

  private Optional<Opening> lastOpening(String pump) {
    return pages
        .history(pump)
        .map(PumpHistory::openings)
        .filter(openings -> !openings.isEmpty())
        .map(openings -> openings.get(openings.size() - 1));
  }

  private Grid lastFound(Optional<Opening> last) {
    return new Grid(
        PumpPages.FOUND,
        PumpPages.FOUND_KINDS,
        last.map(o -> o.findings().stream().map(PumpPages::foundCells).toList()).orElse(List.of()),
        "No opening with findings is on record.");
  }

  private Grid draw(PumpPlan plan) {
    DueParts parts = DueParts.ofOne(settings, analysis.pumps(), plan);
    return new Grid(
        List.of("Draw", "Number", "Holds"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.TEXT),
        parts.lines(settings).stream()
            .map(l -> List.of(l.name(), Words.whole(l.draw().number()), l.holds()))
            .toList(),
        "fleet.json does not say what a rebuild takes.");
  }

  /** A record number nobody has used: the pump and the day booked. */
  private static String record(Booking booking) {
    return booking.pump() + " " + booking.day();
  }

  /** {@code rebuilds.csv} with a row for each booking: date, meter and crew to be filled in. */
  String rebuilds() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "rebuild",
            "pump",
            "date",
            "hours",
            "trigger",
            "crew",
            "kit",
            "downtime_hours",
            "cost",
            "end_clearance_mm",
            "note");
    for (Booking booking : analysis.plan().calendar().bookings()) {
      table
          .cell(record(booking))
          .cell(booking.pump())
          .empty()
          .empty()
          .cell(Trigger.PLANNED.word())
          .empty()
          .cell(kit(booking.pump()))
          .empty()
          .empty()
          .empty()
          .empty()
          .endRow();
    }
    return table.text();
  }

  /** The kit such a rebuild takes, where it is one. */
  private Optional<String> kit(String pump) {
    return Optional.ofNullable(plans.get(pump))
        .map(plan -> DueParts.ofOne(settings, analysis.pumps(), plan).kits().keySet())
        .filter(kits -> kits.size() == 1)
        .map(kits -> kits.iterator().next());
  }

  /** {@code findings.csv} with a row for each position of each booking. */
  String findings() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "rebuild",
            "position",
            "as_found",
            "primary",
            "mode",
            "cause",
            "action",
            "measured_mm",
            "lot");
    for (Booking booking : analysis.plan().calendar().bookings()) {
      for (Component component : settings.components()) {
        for (String position : component.positions()) {
          table
              .cell(record(booking))
              .cell(position)
              .empty()
              .empty()
              .empty()
              .empty()
              .empty()
              .empty()
              .empty()
              .endRow();
        }
      }
    }
    return table.text();
  }
}
