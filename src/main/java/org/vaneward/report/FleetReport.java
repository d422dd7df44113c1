package org.vaneward.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.vaneward.backtest.Backtest;
import org.vaneward.io.Json;
import org.vaneward.io.JsonFields;
import org.vaneward.io.Pdf;
import org.vaneward.io.SafeFiles;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.report.Page.Answer;
import org.vaneward.review.failure.FailureReview;

/** The fleet report: one page for people, and every table beside it. */
public final class FleetReport {
  static final String TEMPLATES = "org.vaneward.report.template";

  private FleetReport() {}

  /**
   * Writes {@code index.html}, {@code report.pdf}, {@code plan.csv}, {@code calendar.csv}, {@code
   * calendar.ics}, {@code intervals.csv}, {@code spares.csv}, {@code budget.csv}, {@code
   * stock.csv}, {@code orders.csv}, {@code failures.csv}, {@code backtest.csv}, {@code fits.csv},
   * {@code lives.csv}, {@code check.csv}, {@code plan.xlsx}, {@code spares.xlsx}, {@code
   * report.json}, a page for each pump and site, {@code job-sheets.html}, {@code next-rebuilds.csv}
   * and {@code next-findings.csv} into {@code folder}; each is written beside its place and moved,
   * the first page last.
   *
   * @param past its history replayed; empty when it was not
   * @param remarks told what the reader should know of the files themselves
   * @throws org.vaneward.io.BadInputException when a file cannot be written
   */
  public static void write(
      FleetAnalysis analysis,
      SparesAnalysis ahead,
      FailureReview review,
      Optional<Backtest> past,
      Path folder,
      Consumer<String> remarks) {
    List<ServiceInterval> services = ServiceInterval.of(analysis);
    SideBySide<Page, Map<String, String>> drawn =
        SideBySide.of(
            () -> page(analysis, services, ahead, review, past),
            () -> tables(analysis, services, ahead, review, past));
    Page page = drawn.here();
    List<String> said = Collections.synchronizedList(new ArrayList<>());
    SideBySide<byte[], String> both =
        SideBySide.of(
            () -> pdf(page, analysis.fleetSettings().asOf(), said::add),
            () -> {
              beside(analysis, ahead, drawn.there(), folder);
              return html(page);
            });
    SafeFiles.write(folder.resolve("report.pdf"), both.here());
    SafeFiles.write(folder.resolve("index.html"), both.there());
    if (!said.isEmpty()) {
      String more = said.size() > 1 ? " (and " + (said.size() - 1) + " like it)" : "";
      remarks.accept(
          "report.pdf: " + said.get(0) + more + " index.html shows everything as it is.");
    }
  }

  /** Writes what stands beside the report itself. */
  private static void beside(
      FleetAnalysis analysis, SparesAnalysis ahead, Map<String, String> tables, Path folder) {
    tables.forEach((name, text) -> SafeFiles.write(folder.resolve(name), text));
    SafeFiles.write(
        folder.resolve("plan.xlsx"),
        Workbooks.plan(analysis, new PlanView(analysis), new CalendarView(analysis)));
    SafeFiles.write(
        folder.resolve("spares.xlsx"),
        Workbooks.spares(
            analysis.fleetSettings(), new SparesView(analysis.fleetSettings(), ahead)));
    new OtherPages(analysis, MadeFrom.of(analysis, ahead)).write(folder);
  }

  /** Everything beside the page, by file, in the order to write it. */
  private static Map<String, String> tables(
      FleetAnalysis analysis,
      List<ServiceInterval> services,
      SparesAnalysis ahead,
      FailureReview review,
      Optional<Backtest> past) {
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
    // Without rows when history was not replayed, so that none is left over from an older report.
    tables.put(
        "backtest.csv",
        past.map(p -> new BacktestView(analysis.fleetSettings(), p).csv())
            .orElseGet(BacktestView::noRows));
    tables.put("fits.csv", fits.csv());
    tables.put("lives.csv", analysis.table().toCsv());
    tables.put("check.csv", check.csv());
    tables.put(
        "report.json",
        Json.write(
            new Everything(
                analysis.fleetSettings().fleet(),
                MadeFrom.of(analysis, ahead),
                Cautions.openingAFuelPump(),
                plan.document(),
                intervals.document(),
                spares.document(),
                failures.document(),
                past.map(p -> new BacktestView(analysis.fleetSettings(), p).document()),
                fits.document(),
                check.document())));
    return tables;
  }

  /** The page as one self-contained document. */
  static String html(Page page) {
    return rendered(
        "index.jte",
        Map.of(
            "page",
            page,
            "style",
            Embedded.style("report.css"),
            "scripts",
            List.of(
                Embedded.webJar("jquery", "dist/jquery.slim.min.js"),
                Embedded.webJar("datatables.net", "js/dataTables.min.js"),
                Embedded.script("report.js"))));
  }

  /** The same on sheets of A4. */
  static byte[] pdf(Page page, LocalDate asOf, Consumer<String> remarks) {
    String title = page.fleet() + ", rebuild plan as of " + page.asOf();
    return Pdf.of(
        PrintedReport.of(rendered("print.jte", Map.of("page", page)), page.fleet(), page.asOf()),
        title,
        asOf,
        remarks);
  }

  private static String rendered(String template, Map<String, Object> parameters) {
    StringOutput output = new StringOutput();
    TemplateEngine.createPrecompiled(null, ContentType.Html, null, TEMPLATES)
        .render(template, parameters, output);
    return output.toString();
  }

  static Page page(
      FleetAnalysis analysis,
      List<ServiceInterval> intervals,
      SparesAnalysis ahead,
      FailureReview review,
      Optional<Backtest> past) {
    SparesSection spares = new SparesSection(analysis.fleetSettings(), ahead);
    DueSection due = new DueSection(analysis);
    LifeSection lives = new LifeSection(analysis);
    FailureSection failures = new FailureSection(analysis.fleetSettings(), review);
    BacktestSection before = new BacktestSection(analysis, past);
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
            Stream.of(
                    due.points().stream(),
                    failures.point().stream(),
                    spares.point().stream(),
                    before.point().stream())
                .flatMap(points -> points)
                .toList(),
            Cautions.openingAFuelPump(),
            due.dueGrid(),
            due.drawGrid(),
            due.drawTotal(),
            failures.lookInto(),
            notKnown),
        new PlanSection(analysis).part(),
        new MoneySection(analysis, intervals).part(),
        drawn.there(),
        lives.maps(),
        drawn.here(),
        failures.part(),
        before.part(),
        records.part(),
        Methods.all(analysis.settings().confidence()),
        OtherPages.links(analysis),
        WhatIfSection.part(analysis),
        footer(MadeFrom.of(analysis, ahead)));
  }

  private static String footer(MadeFrom from) {
    return from.words()
        + " Statistics from past records: no permit, no inspection, no substitute for local codes, the"
        + " maker's manual and licensed practice.";
  }

  record Everything(
      String fleet,
      MadeFrom madeFrom,
      List<String> cautions,
      PlanView.Document plan,
      IntervalView.Document intervals,
      SparesView.Document spares,
      JsonFields review,
      Optional<BacktestView.Document> backtest,
      JsonFields fits,
      CheckView.Document check) {}
}
