package org.vaneward.life;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.Trigger;
import org.vaneward.life.Ending.Verdict;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.life.PositionTrack.Start;
import org.vaneward.life.RunningHours.Basis;
import org.vaneward.life.RunningHours.Hours;

/** Walks the openings of one pump in order of date. */
final class PumpWalk {
  private final PumpHistory history;
  private final Pump pump;
  private final PositionIndex positions;
  private final RunningHours running;
  private final PumpClock clock;
  private final ServiceLine services;
  private final LocalDate endDate;
  private final Optional<LocalDate> retired;
  private final Start start;
  private final List<PositionTrack> tracks = new ArrayList<>();
  private final List<RowNote> notes = new ArrayList<>();
  private final List<OpeningMade> made = new ArrayList<>();

  private LocalDate lastDate = LocalDate.MIN;
  private double lastCount = Double.NEGATIVE_INFINITY;
  private int openings;
  private Optional<Moment> fullRebuild = Optional.empty();

  PumpWalk(PumpHistory history, FleetSettings settings, PositionIndex positions) {
    this.history = history;
    this.pump = history.pump();
    this.positions = positions;
    this.running = RunningHours.of(history, settings.asOf());
    this.clock = new PumpClock(settings.clock(), running);
    this.services = new ServiceLine(history.services(), clock);
    this.retired = pump.retired().filter(day -> !day.isAfter(settings.asOf()));
    this.endDate = retired.orElse(settings.asOf());
    LocalDate startDate = startDate(pump);
    this.start = new Start(startDate, knownAt(startDate));
    notes.addAll(running.notes());
    for (int i = 0; i < positions.size(); i++) {
      tracks.add(
          new PositionTrack(pump, positions.component(i), positions.name(i), services, start));
    }
  }

  private static LocalDate startDate(Pump pump) {
    LocalDate commissioned = pump.commissioned().orElse(LocalDate.MIN);
    LocalDate records = pump.recordsFrom().orElse(LocalDate.MIN);
    return records.isAfter(commissioned) ? records : commissioned;
  }

  private Optional<Hours> knownAt(LocalDate date) {
    return date.equals(LocalDate.MIN) ? Optional.empty() : clock.at(date);
  }

  /** Walks from commissioning to the end of the records. */
  void run() {
    fitOriginalParts();
    for (int i = 0; i < history.openings().size(); i++) {
      visit(i, history.openings().get(i));
    }
    finish();
  }

  private void fitOriginalParts() {
    boolean recordedFromNew = pump.commissioned().filter(start.date()::equals).isPresent();
    for (PositionTrack track : tracks) {
      if (!recordedFromNew) {
        String reason =
            pump.commissioned().isPresent()
                ? "in place when the records start, fitted on a day not on record"
                : "in place before its first renewal on record, the day of commissioning unknown";
        track.lose(LocalDate.MIN, reason);
      } else if (start.hours().isEmpty()) {
        track.lose(LocalDate.MIN, "no running hours: neither readings nor hours_per_week");
      } else {
        track.fit(Fitting.original(start.date(), start.hours().get()));
      }
    }
  }

  private void visit(int i, Opening opening) {
    String misplaced = misplaced(opening);
    if (!misplaced.isEmpty()) {
      setAside(opening, "date", misplaced);
      return;
    }
    Optional<Hours> hours = clock.atOpening(i, opening);
    String contradiction = clock.countsHours() ? running.refusal(i) : "";
    if (contradiction.isEmpty() && hours.isPresent()) {
      use(opening, momentOf(opening, hours.get()));
    } else {
      String reason =
          contradiction.isEmpty()
              ? "hours on that day unknown: no reading to go by, and no hours_per_week"
              : contradiction;
      setAside(opening, "hours", reason);
      loseSight(opening, reason);
    }
  }

  private String misplaced(Opening opening) {
    LocalDate date = opening.date();
    if (pump.commissioned().filter(date::isBefore).isPresent()) {
      return "opened before it was commissioned on " + pump.commissioned().get();
    }
    if (date.isAfter(endDate)) {
      return "opened after " + endDate + (retired.isPresent() ? ", when it was retired" : "");
    }
    return date.isBefore(lastDate) ? "out of order: the opening before it is of " + lastDate : "";
  }

  private void setAside(Opening opening, String column, String reason) {
    notes.add(RowNote.setAside(opening.row(), column, reason, Effect.OPENING_LOST));
    for (Finding finding : opening.findings()) {
      notes.add(
          RowNote.setAside(
              finding.row(),
              "rebuild",
              "its opening " + opening.rebuild() + " is set aside: " + reason,
              Effect.FINDING_LOST));
    }
  }

  /** An opening of unusable hours renewed parts all the same: their ages are unknown from then. */
  private void loseSight(Opening opening, String reason) {
    OpeningView view = new OpeningView(opening, positions, new ArrayList<>());
    for (int i = 0; i < tracks.size(); i++) {
      boolean ends = view.renews(i) || view.verdict(i) != Verdict.WORKING;
      if (ends) {
        String why = "opening " + opening.rebuild() + " is set aside: " + reason;
        tracks.get(i).loseSight(opening.date(), why);
      }
    }
  }

  /** Openings of one day may have been booked in any order of hours: the count never falls. */
  private Moment momentOf(Opening opening, Hours hours) {
    lastDate = opening.date();
    lastCount = Math.max(lastCount, hours.hours());
    return new Moment(opening.date(), lastCount, hours.basis());
  }

  private void use(Opening opening, Moment at) {
    openings++;
    reportOpening(opening, at);
    OpeningView view = new OpeningView(opening, positions, notes);
    view.report();
    for (int i = 0; i < tracks.size(); i++) {
      visitPosition(i, opening, at, view);
    }
    boolean full = opening.trigger() == Trigger.PLANNED || view.renewsAll();
    if (!at.date().isBefore(start.date())) {
      made.add(made(opening, at, view, full));
    }
    if (full) {
      fullRebuild = Optional.of(at);
    }
  }

  private OpeningMade made(Opening opening, Moment at, OpeningView view, boolean full) {
    Optional<Moment> since = fullRebuild.or(this::startOfCount);
    return new OpeningMade(
        pump.pump(),
        at.date(),
        services.serviceOn(at.date()),
        switch (opening.trigger()) {
          case PLANNED -> Reason.PLANNED;
          case INSPECTION -> Reason.INSPECTION;
          default -> Reason.STOP;
        },
        full,
        stoppedBy(opening, view),
        since.isPresent()
            ? OptionalDouble.of(Math.max(0, at.count() - since.get().count()))
            : OptionalDouble.empty(),
        countsFromNew());
  }

  private boolean countsFromNew() {
    return fullRebuild.isPresent() || pump.commissioned().filter(start.date()::equals).isPresent();
  }

  /** The component that failed or, where no finding says, the one the trigger points at. */
  private Optional<String> stoppedBy(Opening opening, OpeningView view) {
    Set<String> pointedAt = new TreeSet<>();
    for (int i = 0; i < positions.size(); i++) {
      if (view.verdict(i) == Verdict.FAILED_NOW) {
        return Optional.of(positions.component(i).component());
      }
      if (positions.matches(opening.trigger(), positions.component(i))) {
        pointedAt.add(positions.component(i).component());
      }
    }
    return pointedAt.size() == 1 ? Optional.of(pointedAt.iterator().next()) : Optional.empty();
  }

  List<OpeningMade> made() {
    return made;
  }

  private void visitPosition(int i, Opening opening, Moment at, OpeningView view) {
    PositionTrack track = tracks.get(i);
    Verdict verdict = view.verdict(i);
    if (view.renews(i)) {
      Optional<Finding> finding = view.finding(i);
      track.end(new Ending(at, opening, finding, verdict));
      track.fit(new Fitting(at, view.opening(), finding, view.reconditions(i), openings));
    } else if (verdict != Verdict.WORKING) {
      track.end(new Ending(at, opening, view.finding(i), verdict));
      track.lose(at.date(), "found failed and reused at opening " + opening.rebuild());
    } else if (view.seenGood(i)) {
      track.seenGood(at);
    }
  }

  private void reportOpening(Opening opening, Moment at) {
    if (at.date().isBefore(start.date())) {
      notes.add(
          RowNote.repaired(
              opening.row(),
              "date",
              "before the records start on "
                  + start.date()
                  + ": used for what was fitted, its failures not counted",
              Effect.FAILURES_LOST));
    }
    if (clock.countsHours() && opening.meterHours().isEmpty()) {
      notes.add(
          RowNote.repaired(
              opening.row(),
              "hours",
              String.format(
                  Locale.ROOT,
                  "meter not read: %.0f running hours taken, %s",
                  at.count(),
                  words(at.basis())),
              Effect.AGE_ESTIMATED));
    }
  }

  private static String words(Basis basis) {
    return switch (basis) {
      case READ -> "read that day";
      case INTERPOLATED -> "interpolated between readings";
      case CARRIED -> "carried at the usage rate";
    };
  }

  private void finish() {
    if (endDate.isBefore(start.date())) {
      notes.add(
          RowNote.setAside(
              pump.row(),
              retired.isPresent() ? "retired" : "commissioned",
              "no day under observation: records start on " + start.date() + ", end " + endDate,
              Effect.PUMP_LOST));
      return;
    }
    Optional<Hours> hours = endHours();
    for (PositionTrack track : tracks) {
      track.finish(endDate, hours, retired.isPresent());
    }
  }

  /** The count at the end, which is not below that of the last opening even on the same day. */
  private Optional<Hours> endHours() {
    return clock.at(endDate).map(end -> new Hours(Math.max(end.hours(), lastCount), end.basis()));
  }

  List<RowNote> notes() {
    List<RowNote> all = new ArrayList<>(notes);
    tracks.forEach(track -> all.addAll(track.notes()));
    return all;
  }

  List<PositionTrack> tracks() {
    return tracks;
  }

  /** What sits in the pump on the day of record; nothing in a retired one. */
  List<InstalledPart> parts() {
    if (retired.isPresent()) {
      return List.of();
    }
    Optional<Hours> hours = endHours();
    return tracks.stream().map(track -> track.installed(hours)).toList();
  }

  PumpState state() {
    Optional<Moment> since = fullRebuild.or(this::startOfCount);
    Optional<Hours> now = endHours();
    return new PumpState(
        pump.pump(),
        pump.site(),
        services.serviceOn(endDate),
        services.conditionsOn(endDate),
        retired,
        running.hoursPerWeek(),
        running.usageRate(),
        clock.perWeek(),
        hoursOf(running.at(endDate)),
        fullRebuild.map(Moment::date).or(this::dateOfStart),
        ageSince(since, now),
        countsFromNew(),
        openings,
        openings == 0 ? Optional.empty() : Optional.of(lastDate));
  }

  private Optional<Moment> startOfCount() {
    return start.hours().map(hours -> Moment.of(start.date(), hours));
  }

  private Optional<LocalDate> dateOfStart() {
    return Optional.of(start.date()).filter(date -> !date.equals(LocalDate.MIN));
  }

  private static OptionalDouble hoursOf(Optional<Hours> hours) {
    return hours.isPresent() ? OptionalDouble.of(hours.get().hours()) : OptionalDouble.empty();
  }

  private static OptionalDouble ageSince(Optional<Moment> since, Optional<Hours> now) {
    return since.isPresent() && now.isPresent()
        ? OptionalDouble.of(Math.max(0, now.get().hours() - since.get().count()))
        : OptionalDouble.empty();
  }
}
