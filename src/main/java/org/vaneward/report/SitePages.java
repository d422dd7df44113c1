package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.plan.Calendar.Booking;
import org.vaneward.plan.PumpPlan;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.SitePage.Link;

/** A page for each site: what its foreman has to do, and with what. */
final class SitePages {
  private final FleetAnalysis analysis;
  private final FleetSettings settings;
  private final String footer;

  SitePages(FleetAnalysis analysis, String footer) {
    this.analysis = analysis;
    this.settings = analysis.fleetSettings();
    this.footer = footer;
  }

  /** Sites with a pump in service, in sorted order. */
  static List<String> sites(FleetAnalysis analysis) {
    return analysis.plan().pumps().stream().map(PumpPlan::site).distinct().sorted().toList();
  }

  SitePage of(String site, FileNames pumpFiles) {
    List<PumpPlan> own =
        analysis.plan().pumps().stream().filter(p -> p.site().equals(site)).toList();
    DueParts parts = DueParts.of(settings, analysis.pumps(), own);
    PlanSection plan = new PlanSection(analysis);
    return new SitePage(
        settings.fleet(),
        settings.asOf().toString(),
        site,
        headline(own, parts),
        Cautions.openingAFuelPump(),
        booked(site, own),
        draw(parts),
        plan.strips(own),
        own.stream().map(p -> link(p, pumpFiles)).toList(),
        footer);
  }

  private static String headline(List<PumpPlan> own, DueParts parts) {
    String all = Words.count(own.size(), "pump", "pumps");
    return parts.pumps().isEmpty()
        ? "None of " + all + " is due in the next " + Urgency.SOON_DAYS + " days."
        : "Open "
            + parts.pumps().size()
            + " of "
            + all
            + " in the next "
            + Urgency.SOON_DAYS
            + " days.";
  }

  private Link link(PumpPlan pump, FileNames files) {
    return new Link(
        pump.pump(),
        "../pumps/" + files.of(pump.pump()) + ".html",
        Urgency.of(pump, settings.asOf()).words()
            + ", "
            + pump.nextRebuild().date().map(LocalDate::toString).orElse("no planned rebuild"));
  }

  private Grid booked(String site, List<PumpPlan> own) {
    Map<String, PumpPlan> plans = new HashMap<>();
    own.forEach(p -> plans.put(p.pump(), p));
    List<List<String>> rows = new ArrayList<>();
    for (Booking booking : analysis.plan().calendar().bookings()) {
      PumpPlan plan = plans.get(booking.pump());
      if (booking.site().equals(site) && plan != null) {
        rows.add(
            List.of(
                booking.week(),
                booking.day().toString(),
                booking.pump(),
                PlanView.service(plan),
                Urgency.of(plan, settings.asOf()).words(),
                Words.date(booking.limit()),
                plan.why()));
      }
    }
    return new Grid(
        List.of("Week", "Day", "Pump", "Service", "State", "No later than", "Why"),
        List.of(Kind.TAG, Kind.DATE, Kind.TAG, Kind.TEXT, Kind.TAG, Kind.DATE, Kind.SENTENCE),
        rows,
        "No rebuild is booked here.");
  }

  private Grid draw(DueParts parts) {
    return new Grid(
        List.of("Kit or part", "Number", "Holds"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.TEXT),
        parts.lines(settings).stream()
            .map(l -> List.of(l.name(), Words.whole(l.draw().number()), l.holds()))
            .toList(),
        "Nothing.");
  }
}
