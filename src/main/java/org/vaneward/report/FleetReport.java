package org.vaneward.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.io.SafeFiles;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.report.Page.Answer;
import org.vaneward.review.failure.FailureReview;

/** The fleet report: one page for people, and every table beside it. */
public final class FleetReport {
  private static final String TEMPLATES = "org.vaneward.report.template";

  private FleetReport() {}

  /**
   * Writes {@code index.html}, {@code plan.csv}, {@code calendar.csv}, {@code calendar.ics}, {@code
   * intervals.csv}, {@code spares.csv}, {@code budget.csv}, {@code stock.csv}, {@code orders.csv},
   * {@code failures.csv}, {@code fits.csv}, {@code lives.csv}, {@code check.csv} and {@code
   * report.json} into {@code folder}; each is written beside its place and moved, the page last.
   *
   * @throws org.vaneward.io.BadInputException when a file cannot be written
   */
  public static void write(
      FleetAnalysis analysis, SparesAnalysis ahead, FailureReview review, Path folder) {
    List<ServiceInterval> services = ServiceInterval.of(analysis);
    SideBySide<String, Map<String, String>> both =
        SideBySide.of(
            () -> html(analysis, services, ahead, review),
            () -> tables(analysis, services, ahead, review));
    both.there().forEach((name, text) -> SafeFiles.write(folder.resolve(name), text));
    SafeFiles.write(folder.resolve("index.html"), both.here());
  }

  /** Everything beside the page, by file, in the order to write it. */
  private static Map<String, String> tables(
      FleetAnalysis analysis,
      List<ServiceInterval> services,
      SparesAnalysis ahead,
      FailureReview review) {
    CheckView check = new CheckView(analysis.fleet());
    PlanView plan = new PlanView(analysis);
    FitQuestion question = FitQuestion.weibull(FleetAnalysis.BY_SERVICE, analysis.settings());
    FitView fits = new FitView(FamilyFits.of(analysis.table(), question), question);
    IntervalView intervals = new IntervalView(analysis, services);
    CalendarView calendar = new CalendarView(analysis);
    SparesView spares = new SparesView(analysis.fleetSettings(), ahead);
    FailureReviewView failures = new FailureReviewView(analysis.fleetSettings(), review);
    Map<String, String> tables = new LinkedHashMap<>();
    tables.put("plan.csv", plan.csv());
    tables.put("calendar.csv", calendar.csv());
    tables.put("calendar.ics", calendar.ics());
    tables.put("intervals.csv", intervals.csv());
    tables.put("spares.csv", spares.csv());
    tables.put("budget.csv", spares.budgetCsv());
    tables.put("stock.csv", spares.stockCsv());
    tables.put("orders.csv", spares.ordersCsv());
    tables.put("failures.csv", failures.csv());
    tables.put("fits.csv", fits.csv());
    tables.put("lives.csv", analysis.table().toCsv());
    tables.put("check.csv", check.csv());
    tables.put(
        "report.json",
        Json.write(
            new Everything(
                analysis.fleetSettings().fleet(),
                Cautions.openingAFuelPump(),
                plan.document(),
                intervals.document(),
                spares.document(),
                failures.document(),
                fits.document(),
                check.document())));
    return tables;
  }

  /** The page as one self-contained document. */
  static String html(
      FleetAnalysis analysis,
      List<ServiceInterval> intervals,
      SparesAnalysis spares,
      FailureReview review) {
    TemplateEngine engine =
        TemplateEngine.createPrecompiled(null, ContentType.Html, null, TEMPLATES);
    StringOutput output = new StringOutput();
    engine.render(
        "index.jte",
        Map.of("page", page(analysis, intervals, spares, review), "style", style()),
        output);
    return output.toString();
  }

  static Page page(
      FleetAnalysis analysis,
      List<ServiceInterval> intervals,
      SparesAnalysis ahead,
      FailureReview review) {
    SparesSection spares = new SparesSection(analysis.fleetSettings(), ahead);
    DueSection due = new DueSection(analysis);
    LifeSection lives = new LifeSection(analysis);
    FailureSection failures = new FailureSection(analysis.fleetSettings(), review);
    RecordsSection records = new RecordsSection(analysis);
    SideBySide<List<Page.ComponentPart>, Page.SparesPart> drawn =
        SideBySide.of(lives::parts, spares::part);
    List<String> notKnown = new ArrayList<>(lives.notKnown());
    notKnown.addAll(due.notKnown(intervals));
    notKnown.addAll(records.notKnown());
    return new Page(
        analysis.fleetSettings().fleet(),
        analysis.fleetSettings().asOf().toString(),
        new Answer(
            due.headline(),
            Stream.concat(due.points().stream(), spares.point().stream()).toList(),
            Cautions.openingAFuelPump(),
            due.dueGrid(),
            due.drawGrid(),
            due.drawTotal(),
            failures.lookInto(),
            notKnown),
        new PlanSection(analysis).part(),
        new MoneySection(analysis, intervals).part(),
        drawn.there(),
        drawn.here(),
        failures.part(),
        records.part(),
        Methods.all(analysis.settings().confidence()),
        footer(analysis));
  }

  private static String footer(FleetAnalysis analysis) {
    String version =
        Optional.ofNullable(FleetReport.class.getPackage().getImplementationVersion())
            .orElse("built from source");
    return "Vaneward "
        + version
        + "; limits at "
        + Words.percent(analysis.settings().confidence())
        + ". Statistics from past records: no permit, no inspection, no substitute for local codes, the"
        + " maker's manual and licensed practice.";
  }

  private static String style() {
    try (InputStream in = FleetReport.class.getResourceAsStream("report.css")) {
      if (in == null) {
        throw new IllegalStateException("report.css is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("report.css cannot be read", e);
    }
  }

  record Everything(
      String fleet,
      List<String> cautions,
      PlanView.Document plan,
      IntervalView.Document intervals,
      SparesView.Document spares,
      JsonFields review,
      JsonFields fits,
      CheckView.Document check) {}
}
