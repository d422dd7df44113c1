package org.vaneward.life;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.life.Ending.Verdict;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Life.LifeSpan;
import org.vaneward.life.Life.Mark;
import org.vaneward.life.RunningHours.Basis;
import org.vaneward.life.RunningHours.Hours;

/** The parts of one position, one after the other, while the openings of its pump are walked. */
final class PositionTrack {
  /** Below this age, in hours or days, a failure is one at zero hours: on the start-up test. */
  static final double START_UP_AGE = 1;

  private final Pump pump;
  private final Component component;
  private final String position;
  private final ServiceLine services;
  private final Start start;

  private final List<Life> lives = new ArrayList<>();
  private final List<StartUpFailure> startUps = new ArrayList<>();
  private final List<UnknownAge> unknownAges = new ArrayList<>();
  private final List<RowNote> notes = new ArrayList<>();

  private Optional<Fitting> fitting = Optional.empty();
  private double entryAge;
  private double lastGoodAge;
  private LocalDate lastGoodOn = LocalDate.MIN;
  private Optional<LocalDate> unknownFrom = Optional.empty();
  private String unknownReason = "";

  /**
   * Where observation of a pump starts.
   *
   * @param date first day of which every opening is on record
   * @param hours the pump's count on it; empty when unknown
   */
  record Start(LocalDate date, Optional<Hours> hours) {}

  PositionTrack(
      Pump pump, Component component, String position, ServiceLine services, Start start) {
    this.pump = pump;
    this.component = component;
    this.position = position;
    this.services = services;
    this.start = start;
  }

  List<Life> lives() {
    return lives;
  }

  List<StartUpFailure> startUps() {
    return startUps;
  }

  List<UnknownAge> unknownAges() {
    return unknownAges;
  }

  List<RowNote> notes() {
    return notes;
  }

  /** A new part is in the position. */
  void fit(Fitting next) {
    closeUnknown(next.at().date());
    fitting = Optional.of(next);
    entryAge = 0;
    lastGoodOn = next.at().date();
    if (next.at().date().isBefore(start.date())) {
      enterLate(next);
    }
    lastGoodAge = entryAge;
  }

  /** A part fitted before the records start comes under observation at the age it had then. */
  private void enterLate(Fitting next) {
    if (start.hours().isEmpty()) {
      lose(next.at().date(), "the hours at the start of the records are not known");
      return;
    }
    entryAge = Math.max(0, start.hours().get().hours() - next.at().count());
    lastGoodOn = start.date();
  }

  /** The part was seen, not failed, and stays. */
  void seenGood(Moment at) {
    if (fitting.isPresent() && !at.date().isBefore(start.date())) {
      lastGoodAge = Math.max(lastGoodAge, age(fitting.get(), at));
      lastGoodOn = at.date();
    }
  }

  /** The life of the part in place ends; of one whose age is unknown, nothing is to be said. */
  void end(Ending ending) {
    if (fitting.isPresent() && !ending.at().date().isBefore(start.date())) {
      endObserved(fitting.get(), ending);
    }
  }

  private void endObserved(Fitting fitted, Ending ending) {
    double age = age(fitted, ending.at());
    if (ending.verdict() == Verdict.WORKING && wasSeen(ending)) {
      lastGoodAge = Math.max(lastGoodAge, age);
    }
    Map<String, String> covariates = Covariates.of(pump, fitted, ending);
    if (ending.verdict() != Verdict.WORKING && age < START_UP_AGE) {
      addStartUp(ending, covariates);
    } else if (age > entryAge) {
      addLife(fitted, end(ending.verdict(), age), ending.at(), covariates, sources(fitted, ending));
    } else {
      notes.add(
          RowNote.repaired(
              rowOf(ending),
              "",
              position + ": no running time under observation since its fitting, no life counted",
              Effect.LIFE_LOST));
    }
  }

  private static boolean wasSeen(Ending ending) {
    return ending.finding().filter(f -> f.asFound() != AsFound.NOT_SEEN).isPresent();
  }

  private LifeEnd end(Verdict verdict, double age) {
    if (verdict == Verdict.WORKING) {
      return new LifeEnd.RemovedWorking(age);
    }
    // seen good at this very age: the failure is pinned down
    return verdict == Verdict.FAILED_NOW || lastGoodAge >= age
        ? new LifeEnd.Failed(age)
        : new LifeEnd.FoundFailed(lastGoodAge, age);
  }

  private void addStartUp(Ending ending, Map<String, String> covariates) {
    startUps.add(
        new StartUpFailure(
            pump.pump(),
            pump.site(),
            component.component(),
            position,
            ending.at().date(),
            covariates,
            rowOf(ending)));
  }

  /** The part in place is of unknown age from here on. */
  void lose(LocalDate from, String reason) {
    fitting = Optional.empty();
    unknownFrom = from.equals(LocalDate.MIN) ? Optional.empty() : Optional.of(from);
    unknownReason = reason;
  }

  /**
   * An opening that cannot be used has renewed the part: the life in place is followed to its last
   * look, and the age of the new one is unknown.
   */
  void loseSight(LocalDate from, String reason) {
    if (fitting.isEmpty()) {
      return;
    }
    Fitting fitted = fitting.get();
    if (lastGoodAge > entryAge) {
      Moment last = new Moment(lastGoodOn, fitted.at().count() + lastGoodAge, fitted.at().basis());
      addLife(
          fitted,
          new LifeEnd.LostSight(lastGoodAge),
          last,
          Covariates.of(pump, fitted),
          sources(fitted));
    }
    lose(from, reason);
  }

  /** The records end with the part in place, running or, in a retired pump, out of service. */
  void finish(LocalDate date, Optional<Hours> hours, boolean retired) {
    if (fitting.isPresent() && hours.isEmpty()) {
      loseSight(lastGoodOn, "the hours at the end of the records are not known");
    }
    if (fitting.isEmpty()) {
      addUnknown(Optional.empty());
      return;
    }
    Moment at = Moment.of(date, hours.orElseThrow());
    double age = age(fitting.get(), at);
    if (age > entryAge) {
      addLife(
          fitting.get(),
          retired ? new LifeEnd.Retired(age) : new LifeEnd.StillRunning(age),
          at,
          Covariates.of(pump, fitting.get()),
          sources(fitting.get()));
    }
  }

  /** The part in place on the day of record. */
  InstalledPart installed(Optional<Hours> hours) {
    OptionalDouble age =
        fitting.isPresent() && hours.isPresent()
            ? OptionalDouble.of(Math.max(0, hours.get().hours() - fitting.get().at().count()))
            : OptionalDouble.empty();
    return new InstalledPart(
        pump.pump(),
        component.component(),
        position,
        fitting.map(fitted -> fitted.at().date()),
        age,
        age.isPresent() ? OptionalDouble.of(lastGoodAge) : OptionalDouble.empty());
  }

  private void closeUnknown(LocalDate until) {
    if (fitting.isEmpty() && until.isAfter(start.date())) {
      addUnknown(Optional.of(until));
    }
  }

  private void addUnknown(Optional<LocalDate> until) {
    if (!unknownReason.isEmpty()) {
      unknownAges.add(
          new UnknownAge(
              pump.pump(), component.component(), position, unknownFrom, until, unknownReason));
      unknownReason = "";
    }
  }

  private void addLife(
      Fitting fitted,
      LifeEnd end,
      Moment at,
      Map<String, String> covariates,
      List<RowRef> sources) {
    Set<Mark> marks = marks(fitted, at);
    List<LifeSpan> spans = spans(fitted, end, at.date(), marks);
    lives.add(
        new Life(
            lives.size() + 1,
            pump.pump(),
            pump.site(),
            component.component(),
            position,
            fitted.at().date(),
            fitted.at().count(),
            at.date(),
            entryAge,
            end,
            seenGood(end),
            spans,
            fitted.reconditioned(),
            List.copyOf(marks),
            covariates,
            sources));
  }

  /** A part that does not announce its failure may have failed unseen since its last look. */
  private OptionalDouble seenGood(LifeEnd end) {
    boolean failed = end instanceof LifeEnd.Failed || end instanceof LifeEnd.FoundFailed;
    return component.announces() || failed
        ? OptionalDouble.empty()
        : OptionalDouble.of(lastGoodAge);
  }

  private List<LifeSpan> spans(Fitting fitted, LifeEnd end, LocalDate endedOn, Set<Mark> marks) {
    LocalDate from = fitted.at().date().isBefore(start.date()) ? start.date() : fitted.at().date();
    List<LifeSpan> spans = services.spans(from, endedOn, fitted.at().count(), entryAge, end.age());
    boolean acrossChange =
        end instanceof LifeEnd.FoundFailed found
            && found.lastGoodAge() < spans.get(spans.size() - 1).fromAge();
    if (!acrossChange) {
      return spans;
    }
    marks.add(Mark.INTERVAL_ACROSS_SERVICES);
    return ServiceLine.gather(spans, lastGoodAge);
  }

  private Set<Mark> marks(Fitting fitted, Moment at) {
    Set<Mark> marks = EnumSet.noneOf(Mark.class);
    mark(marks, fitted.at().basis());
    mark(marks, at.basis());
    if (entryAge > 0 && start.hours().isPresent()) {
      mark(marks, start.hours().get().basis());
    }
    if (fitted.kitImplied()) {
      marks.add(Mark.KIT_IMPLIED);
    }
    return marks;
  }

  private static void mark(Set<Mark> marks, Basis basis) {
    if (basis == Basis.INTERPOLATED) {
      marks.add(Mark.HOURS_INTERPOLATED);
    } else if (basis == Basis.CARRIED) {
      marks.add(Mark.HOURS_CARRIED_FORWARD);
    }
  }

  private static double age(Fitting fitted, Moment at) {
    return Math.max(0, at.count() - fitted.at().count());
  }

  private static RowRef rowOf(Ending ending) {
    return ending.finding().map(finding -> finding.row()).orElse(ending.opening().row());
  }

  private static List<RowRef> sources(Fitting fitted) {
    List<RowRef> rows = new ArrayList<>(4);
    fitted.opening().ifPresent(opening -> rows.add(opening.row()));
    fitted.finding().ifPresent(finding -> rows.add(finding.row()));
    return rows;
  }

  private static List<RowRef> sources(Fitting fitted, Ending ending) {
    List<RowRef> rows = sources(fitted);
    rows.add(ending.opening().row());
    ending.finding().ifPresent(finding -> rows.add(finding.row()));
    return rows;
  }
}
