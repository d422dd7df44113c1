package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.vaneward.backtest.Story.Advised;
import org.vaneward.backtest.Story.End;
import org.vaneward.backtest.Story.Kind;
import org.vaneward.backtest.Story.LifeOnRecord;
import org.vaneward.backtest.Story.Opened;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.ServicePeriod;
import org.vaneward.life.Life;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Lives;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.life.PumpState;
import org.vaneward.life.RunningHours;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.model.ServiceModels;

/** The histories of a fleet's pumps since the first origin, as plain numbers. */
final class Stories {
  final List<Story> all = new ArrayList<>();

  /** What is believed of lives, by row. */
  final List<LifeDraws> models = new ArrayList<>();

  /** Pumps with advice of which too little is known. */
  int leftOut;

  private final Fleet records;
  private final FleetSettings settings;
  private final ServiceModels hindsight;
  private final Openings openings;
  private final Prices prices;
  private final List<HalfYear> halfYears;
  private final LocalDate zero;
  private final int days;
  private final List<String> positions = new ArrayList<>();
  private final List<Component> components = new ArrayList<>();
  private final Map<LifeModel, Integer> rows = new HashMap<>();
  private final Map<String, Map<String, List<Life>>> lives = new HashMap<>();
  private final Map<String, PumpState> states = new HashMap<>();
  private final Map<String, List<OpeningMade>> made = new HashMap<>();
  private final List<Map<String, Advice>> advice = new ArrayList<>();

  Stories(
      Fleet records,
      Lives lives,
      Openings openings,
      ServiceModels hindsight,
      Prices prices,
      List<HalfYear> halfYears) {
    this.records = records;
    this.settings = records.settings();
    this.hindsight = hindsight;
    this.openings = openings;
    this.prices = prices;
    this.halfYears = halfYears;
    this.zero = halfYears.get(0).span().origin();
    this.days = Story.day(zero, settings.asOf());
    for (Component component : settings.components()) {
      for (String position : component.positions()) {
        positions.add(position);
        components.add(component);
      }
    }
    for (Life life : lives.lives()) {
      this.lives
          .computeIfAbsent(life.pump(), p -> new HashMap<>())
          .computeIfAbsent(life.position(), p -> new ArrayList<>())
          .add(life);
    }
    lives.pumps().forEach(state -> states.put(state.pump(), state));
    openings.all().forEach(o -> made.computeIfAbsent(o.pump(), p -> new ArrayList<>()).add(o));
    for (HalfYear halfYear : halfYears) {
      Map<String, Advice> byPump = new LinkedHashMap<>();
      halfYear.advice().forEach(a -> byPump.put(a.pump(), a));
      advice.add(byPump);
    }
    tell();
  }

  List<Component> components() {
    return settings.components();
  }

  private void tell() {
    for (PumpHistory history : records.pumps()) {
      String pump = history.pump().pump();
      if (advice.stream().anyMatch(a -> a.containsKey(pump))) {
        Optional<Story> story = story(history);
        story.ifPresent(all::add);
        leftOut += story.isEmpty() ? 1 : 0;
      }
    }
  }

  private Optional<Story> story(PumpHistory history) {
    String pump = history.pump().pump();
    Optional<PumpState> state = Optional.ofNullable(states.get(pump));
    Optional<double[]> count = count(history);
    if (state.isEmpty() || count.isEmpty()) {
      return Optional.empty();
    }
    Optional<LocalDate> retired = state.get().retired();
    int ends = Math.min(days, retired.map(d -> Story.day(zero, d)).orElse(days));
    List<List<LifeOnRecord>> onRecord = new ArrayList<>();
    for (String position : positions) {
      onRecord.add(
          lives.getOrDefault(pump, Map.of()).getOrDefault(position, List.of()).stream()
              .sorted(Comparator.comparing(Life::fittedOn))
              .flatMap(life -> onRecord(life).stream())
              .toList());
    }
    List<Optional<Advised>> advised = new ArrayList<>();
    for (int k = 0; k < halfYears.size(); k++) {
      advised.add(advised(history, k));
    }
    OptionalInt first = first(advised, onRecord, ends);
    if (first.isEmpty()) {
      return Optional.empty();
    }
    int enters = Story.day(zero, halfYears.get(first.getAsInt()).span().origin());
    for (int k = 0; k < first.getAsInt(); k++) {
      advised.set(k, Optional.empty());
    }
    Optional<String> model = history.pump().model();
    return Optional.of(
        new Story(
            count.get(),
            enters,
            ends,
            sinceFull(pump, enters, count.get()),
            state.get().ageSinceFullRebuild().orElse(0),
            retired.isPresent(),
            opened(pump, model),
            onRecord,
            components.stream().mapToInt(settings.components()::indexOf).toArray(),
            advised,
            prices.planned(model),
            stops(true, model),
            stops(false, model)));
  }

  private double[] stops(boolean rebuilt, Optional<String> model) {
    return settings.components().stream()
        .mapToDouble(c -> prices.stop(Optional.of(c.component()), rebuilt, model))
        .toArray();
  }

  /**
   * The pump's count at the end of each day, that of the first known day before it; empty when it
   * is not known at the end.
   */
  private Optional<double[]> count(PumpHistory history) {
    RunningHours running = RunningHours.of(history, settings.asOf());
    double[] count = new double[days + 1];
    double after = Double.NaN;
    for (int day = days; day >= 0; day--) {
      double known = countAt(running, zero.plusDays(day));
      after = Double.isNaN(known) ? after : Double.isNaN(after) ? known : Math.min(after, known);
      if (Double.isNaN(after)) {
        return Optional.empty();
      }
      count[day] = after;
    }
    return Optional.of(count);
  }

  private double countAt(RunningHours running, LocalDate date) {
    return settings.clock() == Clock.DAYS
        ? date.toEpochDay()
        : running.at(date).map(RunningHours.Hours::hours).orElse(Double.NaN);
  }

  /** The first half-year with advice at whose origin the part in each position is on record. */
  private OptionalInt first(
      List<Optional<Advised>> advised, List<List<LifeOnRecord>> onRecord, int ends) {
    for (int k = 0; k < advised.size(); k++) {
      int day = Story.day(zero, halfYears.get(k).span().origin());
      boolean known =
          onRecord.stream()
              .allMatch(list -> list.stream().anyMatch(l -> l.from() <= day && day < l.to()));
      if (advised.get(k).isPresent() && known && day < ends) {
        return OptionalInt.of(k);
      }
    }
    return OptionalInt.empty();
  }

  /** Running since the last full rebuild, or since the records begin, on a day. */
  private double sinceFull(String pump, int day, double[] count) {
    OptionalDouble last =
        made.getOrDefault(pump, List.of()).stream()
            .filter(o -> o.full() && Story.day(zero, o.date()) > day)
            .filter(o -> o.sinceRebuild().isPresent())
            .mapToDouble(o -> count[Story.day(zero, o.date())] - o.sinceRebuild().getAsDouble())
            .findFirst();
    double from =
        last.orElseGet(
            () ->
                count[days]
                    - Optional.ofNullable(states.get(pump))
                        .map(PumpState::ageSinceFullRebuild)
                        .orElse(OptionalDouble.empty())
                        .orElse(0));
    return Math.max(0, count[day] - from);
  }

  private List<Opened> opened(String pump, Optional<String> model) {
    return made.getOrDefault(pump, List.of()).stream()
        .filter(o -> o.date().isAfter(zero))
        .map(o -> opened(o, model))
        .toList();
  }

  private Opened opened(OpeningMade opening, Optional<String> model) {
    int day = Story.day(zero, opening.date());
    if (opening.reason() == Reason.PLANNED) {
      return new Opened(day, Kind.PLANNED, true, prices.planned(model));
    }
    if (openings.isStop(opening)) {
      double cost = prices.stop(opening.stoppedBy(), opening.full(), model);
      return new Opened(day, Kind.STOP, opening.full(), cost);
    }
    return new Opened(day, Kind.NEITHER, opening.full(), 0);
  }

  private Optional<LifeOnRecord> onRecord(Life life) {
    Optional<LifeModel> model = hindsight.find(life.component(), life.lastService());
    if (model.isEmpty()) {
      return Optional.empty();
    }
    double age = life.end().age();
    double seen = life.seenGood().orElse(age);
    End end = End.WORKING;
    if (life.end() instanceof LifeEnd.Failed) {
      end = End.FAILED;
    } else if (life.end() instanceof LifeEnd.FoundFailed found) {
      end = End.FOUND;
      seen = found.lastGoodAge();
    }
    boolean goesOn =
        life.end() instanceof LifeEnd.StillRunning || life.end() instanceof LifeEnd.Retired;
    int to = goesOn ? days + 1 : Story.day(zero, life.endedOn());
    return Optional.of(
        new LifeOnRecord(
            Story.day(zero, life.fittedOn()),
            to,
            life.fittedAtCount(),
            age,
            seen,
            end,
            row(model.get())));
  }

  private int row(LifeModel model) {
    return rows.computeIfAbsent(
        model,
        m -> {
          models.add(m.draws());
          return models.size() - 1;
        });
  }

  private Optional<Advised> advised(PumpHistory history, int halfYear) {
    Span span = halfYears.get(halfYear).span();
    Optional<Advice> given = Optional.ofNullable(advice.get(halfYear).get(history.pump().pump()));
    if (given.isEmpty()) {
      return Optional.empty();
    }
    Optional<Service> service = Optional.empty();
    for (ServicePeriod period : history.services()) {
      if (!period.from().isAfter(span.origin())) {
        service = Optional.of(period.service());
      }
    }
    int[] model = new int[positions.size()];
    for (int p = 0; p < model.length; p++) {
      model[p] = hindsight.find(components.get(p).component(), service).map(this::row).orElse(-1);
    }
    return Optional.of(
        new Advised(
            given.get().rebuild().filter(span::contains).map(d -> Story.day(zero, d)),
            given.get().interval().orElse(Double.POSITIVE_INFINITY),
            model));
  }
}
