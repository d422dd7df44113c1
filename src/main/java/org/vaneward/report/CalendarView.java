package org.vaneward.report;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.UUID;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.Cell;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import org.vaneward.plan.Calendar;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;

/**
 * The workshop's calendar: for people, for a spreadsheet, for programs and for calendar readers.
 */
public final class CalendarView {
  private static final List<String> COLUMNS =
      List.of(
          "week", "date", "pump", "site", "committed", "limit", "extra_cost", "currency", "note");

  private final FleetSettings settings;
  private final Plan plan;
  private final Calendar calendar;
  private final Map<String, PumpNow> pumps = new HashMap<>();

  /** A view of the calendar of an analysed fleet. */
  public CalendarView(FleetAnalysis analysis) {
    this.settings = analysis.fleetSettings();
    this.plan = analysis.plan();
    this.calendar = plan.calendar();
    analysis.pumps().forEach(p -> pumps.put(p.pump(), p));
  }

  /** The bookings, what they cost, and what could not be kept. */
  public String text() {
    StringBuilder text = new StringBuilder();
    appendNotKept(text);
    text.append("\nCalendar\n");
    String money = settings.currency().isEmpty() ? "extra cost" : "extra " + settings.currency();
    TextTable table = new TextTable("week", "day", "pump", "site", "limit", money, "committed");
    String before = "";
    for (Calendar.Booking one : calendar.bookings()) {
      table.row(
          one.week().equals(before) ? "" : one.week(),
          one.day().toString(),
          one.pump(),
          one.site(),
          Words.date(one.limit()),
          Words.whole(one.extraCost()),
          one.committed() ? "yes" + one.note().map(n -> ": " + Cell.quoted(n)).orElse("") : "");
      before = one.week();
    }
    if (!calendar.bookings().isEmpty()) {
      text.append(table).append('\n');
    }
    for (String sentence : sums()) {
      text.append(Words.wrapped("  " + sentence, 2));
    }
    return text.toString();
  }

  /** What the calendar costs and how sure that is, one sentence each; then the remarks. */
  public List<String> sums() {
    Calendar.Balance sums = calendar.balance();
    int booked = calendar.bookings().size();
    List<String> sentences = new ArrayList<>();
    sentences.add(
        Words.count(booked, "rebuild", "rebuilds")
            + " booked on "
            + Words.count(sums.visits(), "visit", "visits")
            + (booked > sums.visits()
                ? ": " + Words.whole(booked - sums.visits()) + " share one"
                : "")
            + ". Extra cost against each pump's best moment "
            + Words.money(sums.extraCost(), settings.currency())
            + ", visits "
            + Words.money(sums.visitCost(), settings.currency())
            + "; "
            + (sums.optimal()
                ? "no calendar that keeps as much is cheaper."
                : "no calendar that keeps as much is more than "
                    + Words.percent(sums.gap())
                    + " cheaper."));
    if (sums.leftForLater() > 0) {
      sentences.add(
          Words.count(sums.leftForLater(), "pump is", "pumps are")
              + " left until after the calendar.");
    }
    sentences.addAll(calendar.remarks());
    return sentences;
  }

  private void appendNotKept(StringBuilder text) {
    if (calendar.notKept().isEmpty()) {
      return;
    }
    text.append("\nNot kept by the calendar\n");
    for (Calendar.NotKept one : calendar.notKept()) {
      text.append(
          Words.wrapped(
              "  "
                  + one.pump()
                  + (one.what() == Calendar.Kept.LIMIT ? ": limit " : ": last cheap day ")
                  + one.by()
                  + ", "
                  + one.scheduled().map(d -> "booked " + d + late(one)).orElse("not booked")
                  + ": "
                  + one.why(),
              4));
    }
  }

  private static String late(Calendar.NotKept one) {
    OptionalLong days = one.daysLate();
    return days.isPresent() ? ", " + Words.count(days.getAsLong(), "day", "days") + " late" : "";
  }

  /** One row for each booking; {@code plan --committed} takes it back. */
  public String csv() {
    return listing().csv();
  }

  /** The same for any form. */
  public Listing listing() {
    return new Listing("Calendar", COLUMNS, this::rows);
  }

  private void rows(TableWriter table) {
    for (Calendar.Booking one : calendar.bookings()) {
      table
          .cell(one.week())
          .cell(one.day())
          .cell(one.pump())
          .cell(one.site())
          .cell(one.committed() ? "yes" : "no")
          .date(one.limit())
          .rounded(one.extraCost(), 2)
          .cell(settings.currency())
          .cell(one.note())
          .endRow();
    }
  }

  /** An iCalendar file (RFC 5545) with an all-day event for each rebuild booked. */
  public String ics() {
    Map<String, PumpPlan> plans = new HashMap<>();
    plan.pumps().forEach(p -> plans.put(p.pump(), p));
    ICalendar file = new ICalendar("Rebuilds, " + settings.fleet(), settings.asOf());
    for (Calendar.Booking one : calendar.bookings()) {
      file.event(
          uid(one.pump()),
          one.day(),
          one.committed() ? "CONFIRMED" : "TENTATIVE",
          "Rebuild " + one.pump(),
          one.site(),
          description(one, Optional.ofNullable(plans.get(one.pump()))));
    }
    return file.text();
  }

  /**
   * The same for a pump's next rebuild however often it is planned; another one once it is done.
   */
  private String uid(String pump) {
    String since =
        Optional.ofNullable(pumps.get(pump))
            .flatMap(PumpNow::lastRebuild)
            .map(LocalDate::toString)
            .orElse("first");
    String known = String.join("\n", settings.fleet(), pump, since);
    return "rebuild-" + UUID.nameUUIDFromBytes(known.getBytes(StandardCharsets.UTF_8));
  }

  private static String description(Calendar.Booking booking, Optional<PumpPlan> plan) {
    StringBuilder text = new StringBuilder("Week " + booking.week() + ".");
    plan.ifPresent(p -> text.append("\nWhy: ").append(p.why()));
    booking.limit().ifPresent(by -> text.append("\nLast day a limit allows: ").append(by));
    booking.note().ifPresent(note -> text.append("\nNote: ").append(note));
    text.append("\n\nBefore the pump is opened");
    Cautions.openingAFuelPump().forEach(c -> text.append("\n- ").append(c));
    return text.toString();
  }

  /** What {@code plan} adds to its JSON document. */
  Sums document() {
    Calendar.Balance sums = calendar.balance();
    return new Sums(
        sums.optimal() ? "optimal" : "gap",
        sums.gap(),
        sums.extraCost(),
        sums.visits(),
        sums.visitCost(),
        sums.leftForLater(),
        calendar.bookings(),
        calendar.remarks());
  }

  record Sums(
      String status,
      double gap,
      double extraCost,
      int visits,
      double visitCost,
      int leftForLater,
      List<Calendar.Booking> bookings,
      List<String> remarks) {}
}
