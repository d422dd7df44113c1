package org.vaneward.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.vaneward.io.SafeFiles;
import org.vaneward.plan.Calendar.Booking;
import org.vaneward.plan.PumpPlan;
import org.vaneward.report.Page.Links;

/** The pages beside the first: one for each pump and site, and the job sheets. */
final class OtherPages {
  private final FleetAnalysis analysis;
  private final String footer;
  private final String style = Embedded.style("report.css");
  private final TemplateEngine engine =
      TemplateEngine.createPrecompiled(null, ContentType.Html, null, FleetReport.TEMPLATES);

  OtherPages(FleetAnalysis analysis, MadeFrom from) {
    this.analysis = analysis;
    this.footer = from.words();
  }

  /** Where the pages are, from the report's folder. */
  static Links links(FleetAnalysis analysis) {
    Map<String, String> pumps = new HashMap<>();
    FileNames pumpFiles = pumpFiles(analysis);
    analysis
        .plan()
        .pumps()
        .forEach(p -> pumps.put(p.pump(), page("pumps", pumpFiles.of(p.pump()))));
    Map<String, String> sites = new HashMap<>();
    List<String> names = SitePages.sites(analysis);
    FileNames siteFiles = new FileNames(names);
    names.forEach(site -> sites.put(site, page("sites", siteFiles.of(site))));
    return new Links(pumps, sites);
  }

  private static FileNames pumpFiles(FleetAnalysis analysis) {
    return new FileNames(analysis.plan().pumps().stream().map(PumpPlan::pump).toList());
  }

  private static String page(String folder, String file) {
    return folder + "/" + file + ".html";
  }

  void write(Path folder) {
    List<PumpPlan> plans = analysis.plan().pumps();
    FileNames pumpFiles = pumpFiles(analysis);
    PumpPages pumps = new PumpPages(analysis, footer);
    Set<String> booked =
        analysis.plan().calendar().bookings().stream()
            .map(Booking::pump)
            .collect(Collectors.toSet());
    plans.parallelStream()
        .forEach(
            plan -> {
              String file = pumpFiles.of(plan.pump());
              Optional<String> sheet =
                  booked.contains(plan.pump())
                      ? Optional.of("../job-sheets.html#" + file)
                      : Optional.empty();
              write(
                  folder.resolve(page("pumps", file)),
                  "pump.jte",
                  Map.of("page", pumps.of(plan, sheet), "style", style));
            });
    SitePages sites = new SitePages(analysis, footer);
    List<String> names = SitePages.sites(analysis);
    FileNames siteFiles = new FileNames(names);
    for (String site : names) {
      write(
          folder.resolve(page("sites", siteFiles.of(site))),
          "site.jte",
          Map.of("page", sites.of(site, pumpFiles), "style", style));
    }
    jobs(folder, new JobSheets(analysis, pumps), pumpFiles);
  }

  private void jobs(Path folder, JobSheets jobs, FileNames files) {
    write(
        folder.resolve("job-sheets.html"),
        "jobs.jte",
        Map.of(
            "fleet", analysis.fleetSettings().fleet(),
            "asOf", analysis.fleetSettings().asOf().toString(),
            "cautions", Cautions.openingAFuelPump(),
            "sheets", jobs.sheets(files),
            "footer", footer,
            "style", style));
    SafeFiles.write(folder.resolve("next-rebuilds.csv"), jobs.rebuilds());
    SafeFiles.write(folder.resolve("next-findings.csv"), jobs.findings());
  }

  private void write(Path file, String template, Map<String, Object> parameters) {
    StringOutput output = new StringOutput();
    engine.render(template, parameters, output);
    SafeFiles.write(file, output.toString());
  }
}
