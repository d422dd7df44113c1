package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import org.vaneward.io.Workbook;

/** The plan and the spares as workbooks, to be worked on in a spreadsheet. */
final class Workbooks {
  private Workbooks() {}

  /** Every pump's next rebuild, the calendar, and what the pumps due take. */
  static byte[] plan(FleetAnalysis analysis, PlanView plan, CalendarView calendar) {
    FleetSettings settings = analysis.fleetSettings();
    DueParts parts = DueParts.of(settings, analysis.pumps(), analysis.plan().pumps());
    return Workbook.of("Rebuild plan, " + settings.fleet(), settings.asOf())
        .notes("Read first", notes(settings, "Rebuild plan"))
        .table(plan.listing())
        .table(calendar.listing())
        .table(due(settings, parts))
        .bytes();
  }

  private static Listing due(FleetSettings settings, DueParts parts) {
    return new Listing(
        "Parts due",
        List.of("kit_or_part", "number", "holds", "price_each", "together", "lead_time_days"),
        table -> parts.lines(settings).forEach(line -> row(table, line)));
  }

  private static void row(TableWriter table, DueParts.Line line) {
    table
        .cell(line.name())
        .cell(line.draw().number())
        .cell(line.holds())
        .rounded(Words.optional(line.price()), 2)
        .rounded(Words.optional(line.together()), 2);
    line.leadTimeDays().ifPresentOrElse(table::cell, table::empty);
    table.endRow();
  }

  /** Kits and parts ahead, the budget, orders and stock levels. */
  static byte[] spares(FleetSettings settings, SparesView spares) {
    return Workbook.of("Kits, parts and money, " + settings.fleet(), settings.asOf())
        .notes("Read first", notes(settings, "Kits, parts and money ahead"))
        .table(spares.demand())
        .table(spares.budget())
        .table(spares.orders())
        .table(spares.stock())
        .bytes();
  }

  private static List<String> notes(FleetSettings settings, String what) {
    List<String> sentences = new ArrayList<>();
    sentences.add(what + ", " + settings.fleet() + ", records up to " + settings.asOf());
    sentences.add(
        "The tables are those of the CSV files beside this one, with days as days and numbers as numbers;"
            + " P10 to P95 are enough in so many of 100 futures.");
    sentences.add("Before a pump is opened:");
    sentences.addAll(Cautions.openingAFuelPump());
    return sentences;
  }
}
