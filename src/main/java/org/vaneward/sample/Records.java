package org.vaneward.sample;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.vaneward.io.CsvWriter;
import org.vaneward.sample.PumpRun.Found;
import org.vaneward.sample.PumpRun.Opened;

/** The five tables as a careful shop would keep them, before any flaw. */
final class Records {
  static final String PUMPS = "pumps.csv";
  static final String SERVICES = "services.csv";
  static final String READINGS = "readings.csv";
  static final String REBUILDS = "rebuilds.csv";
  static final String FINDINGS = "findings.csv";

  private static final List<String> PUMP_COLUMNS =
      List.of("pump", "site", "model", "commissioned", "records_from", "hours_per_week", "retired");
  private static final List<String> SERVICE_COLUMNS =
      List.of(
          "pump",
          "from",
          "product",
          "duty",
          "pressure_bar",
          "speed_rpm",
          "viscosity_cst",
          "starts_per_day");
  private static final List<String> READING_COLUMNS =
      List.of("pump", "date", "hours", "event", "old_hours");
  private static final List<String> REBUILD_COLUMNS =
      List.of(
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
  private static final List<String> FINDING_COLUMNS =
      List.of(
          "rebuild",
          "position",
          "as_found",
          "primary",
          "mode",
          "cause",
          "action",
          "measured_mm",
          "lot");

  final List<Row> pumps = new ArrayList<>();
  final List<Row> services = new ArrayList<>();
  final List<Row> readings = new ArrayList<>();
  final List<Row> rebuilds = new ArrayList<>();
  final List<Row> findings = new ArrayList<>();
  private final Scenario scenario;

  private Records(Scenario scenario) {
    this.scenario = scenario;
  }

  static Records of(Scenario scenario, List<PumpRun> runs) {
    Records records = new Records(scenario);
    List<Row> sheets = new ArrayList<>();
    for (PumpRun run : runs) {
      records.addPump(run);
      records.addServices(run);
      records.addReadings(run);
      for (Opened opening : records.onRecord(run)) {
        sheets.add(Row.of(run.plan().pump(), opening));
      }
    }
    // The sort is stable: openings of one pump on one day keep their order.
    sheets.sort(Comparator.comparing(Row::day));
    sheets.forEach(records::addOpening);
    return records;
  }

  List<Row> rows(String file) {
    return switch (file) {
      case PUMPS -> pumps;
      case SERVICES -> services;
      case READINGS -> readings;
      case REBUILDS -> rebuilds;
      case FINDINGS -> findings;
      default -> throw new IllegalArgumentException("no table " + file);
    };
  }

  List<SampleTable> tables() {
    return List.of(
        table(PUMPS, PUMP_COLUMNS),
        table(SERVICES, SERVICE_COLUMNS),
        table(READINGS, READING_COLUMNS),
        table(REBUILDS, REBUILD_COLUMNS),
        table(FINDINGS, FINDING_COLUMNS));
  }

  private SampleTable table(String file, List<String> columns) {
    return new SampleTable(
        file, columns, rows(file).stream().map(row -> row.inOrder(columns)).toList());
  }

  private void addPump(PumpRun run) {
    PumpRun.PumpPlan plan = run.plan();
    pumps.add(
        Row.of(plan.pump(), plan.commissioned(), 0)
            .set("pump", plan.pump())
            .set("site", plan.site().site())
            .set("model", plan.group().model())
            .set("commissioned", plan.commissioned().toString())
            .set("records_from", plan.site().recordsFrom().map(LocalDate::toString).orElse(""))
            .set("hours_per_week", fixed(plan.hoursPerWeek(), 0))
            .set("retired", plan.retired().map(LocalDate::toString).orElse("")));
  }

  private void addServices(PumpRun run) {
    for (PumpRun.Period period : run.services()) {
      Scenario.Product product = scenario.product(period.service().product());
      Scenario.Duty duty = scenario.duty(period.service().duty());
      services.add(
          Row.of(run.plan().pump(), period.from(), 0)
              .set("pump", run.plan().pump())
              .set("from", period.from().toString())
              .set("product", product.product())
              .set("duty", duty.duty())
              .set("pressure_bar", fixed(period.pressureBar(), 1))
              .set(
                  "speed_rpm",
                  CsvWriter.plain(scenario.model(run.plan().group().model()).speedRpm()))
              .set("viscosity_cst", CsvWriter.plain(product.viscosityCst()))
              .set("starts_per_day", CsvWriter.plain(duty.startsPerDay())));
    }
  }

  private void addReadings(PumpRun run) {
    LocalDate from = run.plan().site().recordsFrom().orElse(run.plan().commissioned());
    for (PumpRun.Reading reading : run.readings()) {
      if (!reading.day().isBefore(from)) {
        readings.add(
            Row.of(run.plan().pump(), reading.day(), reading.hours())
                .set("pump", run.plan().pump())
                .set("date", reading.day().toString())
                .set("hours", meter(reading.hours())));
      }
    }
  }

  /**
   * Openings since the records begin; before that only the very last one, when it renewed every
   * part, so that those parts are of known age.
   */
  private List<Opened> onRecord(PumpRun run) {
    LocalDate from = run.plan().site().recordsFrom().orElse(run.plan().commissioned());
    int positions = scenario.components().stream().mapToInt(c -> c.positions().size()).sum();
    List<Opened> before = run.openings().stream().filter(o -> o.day().isBefore(from)).toList();
    List<Opened> kept = new ArrayList<>();
    if (!before.isEmpty() && before.get(before.size() - 1).renewsAll(positions)) {
      kept.add(before.get(before.size() - 1));
    }
    run.openings().stream().filter(o -> !o.day().isBefore(from)).forEach(kept::add);
    return kept;
  }

  private void addOpening(Row sheet) {
    Opened opening = sheet.opening().orElseThrow();
    String rebuild = String.format(Locale.ROOT, "R%04d", rebuilds.size() + 1);
    rebuilds.add(
        sheet
            .set("rebuild", rebuild)
            .set("pump", sheet.pump())
            .set("date", opening.day().toString())
            .set("hours", meter(opening.hours()))
            .set("trigger", opening.trigger().word())
            .set("crew", opening.crew())
            .set("kit", opening.kit().orElse(""))
            .set("downtime_hours", fixed(opening.downtimeHours(), 0))
            .set("cost", fixed(opening.cost(), 0))
            .set("end_clearance_mm", millimetres(opening.endClearanceMm()))
            .set("note", opening.note()));
    for (Found found : opening.findings()) {
      findings.add(
          Row.of(sheet.pump(), opening, found)
              .set("rebuild", rebuild)
              .set("position", found.position())
              .set("as_found", found.asFound().word())
              .set("primary", found.primary() ? "yes" : "")
              .set("mode", found.mode())
              .set("cause", found.cause())
              .set("action", found.action().word())
              .set("measured_mm", millimetres(found.measuredMm()))
              .set("lot", found.lot()));
    }
  }

  /** A meter shows whole hours run, and so never falls between an opening and the reading after. */
  static String meter(double hours) {
    return fixed(Math.floor(hours), 0);
  }

  private static String millimetres(OptionalDouble value) {
    return value.isPresent() ? fixed(value.getAsDouble(), 2) : "";
  }

  private static String fixed(double value, int decimals) {
    return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
  }
}
