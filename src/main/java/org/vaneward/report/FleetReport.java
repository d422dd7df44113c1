package org.vaneward.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
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
  static final String TEMPLATES = "org.vaneward.report.template";

  private FleetReport() {}

  /**
   * Writes {@code index.html}, {@code plan.csv}, {@code calendar.csv}, {@code calendar.ics}, {@code
   * intervals.csv}, {@code spares.csv}, {@code budget.csv}, {@code stock.csv}, {@code orders.csv},
   * {@code failures.csv}, {@code fits.csv}, {@code lives.csv}, {@code check.csv}, {@code
   * plan.xlsx}, {@code spares.xlsx} and {@code report.json} into {@code folder}; each is written
   * beside its place and moved, the page last.
   *
   * @throws org.vaneward.io.BadInputException when a file cannot be written
   */
  public static void write(
      FleetAnalysis analysis, SparesAnalysis ahead, FailureReview review, Path folder) {
    CheckView check = new CheckView(analysis.fleet());
    PlanView plan = new PlanView(analysis);
    FitQuestion question = FitQuestion.weibull(FleetAnalysis.BY_SERVICE, analysis.settings());
    FitView fits = new FitView(FamilyFits.of(analysis.table(), question), question);
    List<ServiceInterval> services = ServiceInterval.of(analysis);
    IntervalView intervals = new IntervalView(analysis, services);
    CalendarView calendar = new CalendarView(analysis);
    SparesView spares = new SparesView(analysis.fleetSettings(), ahead);
    FailureReviewView failures = new FailureReviewView(analysis.fleetSettings(), review);
    String html = html(analysis, services, ahead, review);
    SafeFiles.write(folder.resolve("plan.csv"), plan.csv());
    SafeFiles.write(folder.resolve("calendar.csv"), calendar.csv());
    SafeFiles.write(folder.resolve("calendar.ics"), calendar.ics());
    SafeFiles.write(folder.resolve("intervals.csv"), intervals.csv());
    SafeFiles.write(folder.resolve("spares.csv"), spares.csv());
    SafeFiles.write(folder.resolve("budget.csv"), spares.budgetCsv());
    SafeFiles.write(folder.resolve("stock.csv"), spares.stockCsv());
    SafeFiles.write(folder.resolve("orders.csv"), spares.ordersCsv());
    SafeFiles.write(folder.resolve("failures.csv"), failures.csv());
    SafeFiles.write(folder.resolve("fits.csv"), fits.csv());
    SafeFiles.write(folder.resolve("lives.csv"), analysis.table().toCsv());
    SafeFiles.write(folder.resolve("check.csv"), check.csv());
    SafeFiles.write(
        folder.resolve("report.json"),
        Json.write(
            new Everything(
                analysis.fleetSettings().fleet(),
                MadeFrom.of(analysis, ahead),
                Cautions.openingAFuelPump(),
                plan.document(),
                intervals.document(),
                spares.document(),
                failures.document(),
                fits.document(),
                check.document())));
    SafeFiles.write(folder.resolve("plan.xlsx"), Workbooks.plan(analysis, plan, calendar));
    SafeFiles.write(
        folder.resolve("spares.xlsx"), Workbooks.spares(analysis.fleetSettings(), spares));
    new OtherPages(analysis, MadeFrom.of(analysis, ahead)).write(folder);
    SafeFiles.write(folder.resolve("index.html"), html);
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
        Map.of(
            "page",
            page(analysis, intervals, spares, review),
            "style",
            Embedded.style("report.css"),
            "scripts",
            List.of(
                Embedded.webJar("jquery", "dist/jquery.slim.min.js"),
                Embedded.webJar("datatables.net", "js/dataTables.min.js"),
                Embedded.script("report.js"))),
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
    List<String> notKnown = new ArrayList<>(lives.notKnown());
    notKnown.addAll(due.notKnown());
    notKnown.addAll(records.notKnown());
    return new Page(
        analysis.fleetSettings().fleet(),
        analysis.fleetSettings().asOf().toString(),
        new Answer(
            due.headline(),
            Stream.of(due.points().stream(), failures.point().stream(), spares.point().stream())
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
        spares.part(),
        lives.maps(),
        lives.parts(),
        failures.part(),
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
      JsonFields fits,
      CheckView.Document check) {}
}
