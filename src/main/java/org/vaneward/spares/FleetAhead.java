package org.vaneward.spares;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.Ages;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.plan.Usage;
import org.vaneward.policy.LifeLookup;

/**
 * A fleet on the day of record with its plan, ready to be lived forward.
 *
 * <p>The next rebuild of a pump is on the day booked; without a booking on the day due, not before
 * the calendar's end. Later ones follow at the interval of pumps like it, never beyond a mandated
 * one. A part's age counts in full in the pump's present service, as in the plan.
 */
public final class FleetAhead {
  static final String NOT_ON_RECORD = "not on record";

  final FleetSettings settings;
  final Months months;
  final List<PumpAhead> pumps = new ArrayList<>();
  final List<LifeDraws> lives = new ArrayList<>();
  final List<Line> lines = new ArrayList<>();
  final List<RecipeBook> books = new ArrayList<>();
  final List<String> sites;
  final List<String> products;
  final List<Optional<String>> models;

  /** Mandated interval, days; infinite without one. */
  final double mandatedDays;

  /** Labour, downtime and clean-up of an unplanned stop, by component. */
  final List<OpeningCost> stopCosts;

  int visits;
  private final Map<LifeModel, Integer> lifeRows = new HashMap<>();
  private final Map<String, Integer> visitRows = new HashMap<>();
  private final Map<String, Integer> leftOut = new LinkedHashMap<>();
  private final Map<String, Integer> noRisk = new LinkedHashMap<>();
  private final List<String> stoppers;
  private final List<String> hidden;

  private FleetAhead(FleetSettings settings, List<PumpNow> pumps, Months months) {
    this.settings = settings;
    this.months = months;
    this.sites = sorted(pumps, PumpNow::site);
    this.products = sorted(pumps, FleetAhead::product);
    this.models =
        pumps.stream()
            .map(PumpNow::model)
            .distinct()
            .sorted(Comparator.comparing(m -> m.orElse("")))
            .toList();
    this.mandatedDays = settings.limits().maxIntervalDays();
    this.stopCosts =
        settings.components().stream()
            .map(
                c ->
                    settings
                        .costs()
                        .unplanned()
                        .getOrDefault(c.component(), new OpeningCost(0, 0, 0)))
            .toList();
    this.stoppers = positions(true);
    this.hidden = positions(false);
  }

  private static List<String> sorted(List<PumpNow> pumps, Function<PumpNow, String> key) {
    return List.copyOf(new TreeSet<>(pumps.stream().map(key).toList()));
  }

  private static String product(PumpNow pump) {
    return pump.service().map(Service::product).orElse(NOT_ON_RECORD);
  }

  private List<String> positions(boolean announcing) {
    return settings.components().stream()
        .filter(c -> c.announces() == announcing)
        .flatMap(c -> c.positions().stream())
        .toList();
  }

  /**
   * The fleet ahead.
   *
   * @param pumps the pumps in service
   * @param plan their plan
   * @param lives where to find life models
   * @param months how many months ahead
   */
  public static FleetAhead of(
      FleetSettings settings, List<PumpNow> pumps, Plan plan, LifeLookup lives, int months) {
    FleetAhead ahead = new FleetAhead(settings, pumps, Months.of(settings.asOf(), months));
    ahead.numberLines();
    for (Optional<String> model : ahead.models) {
      List<String> hiddenComponents =
          ahead.hidden.stream()
              .map(p -> settings.componentAt(p).orElseThrow().component())
              .toList();
      ahead.books.add(new RecipeBook(settings, model, hiddenComponents, ahead.index()));
    }
    Map<String, PumpPlan> plans = new HashMap<>();
    plan.pumps().forEach(p -> plans.put(p.pump(), p));
    LocalDate calendarEnd =
        plan.calendar().bookings().stream()
            .map(b -> b.day())
            .max(Comparator.naturalOrder())
            .orElse(settings.asOf());
    pumps.stream()
        .sorted(Comparator.comparing(PumpNow::pump))
        .forEach(
            pump ->
                ahead.add(
                    pump,
                    Optional.ofNullable(plans.get(pump.pump()))
                        .orElseThrow(
                            () -> new IllegalArgumentException(pump.pump() + " has no plan")),
                    lives,
                    calendarEnd));
    return ahead;
  }

  private void numberLines() {
    lines.add(Line.PLANNED);
    lines.add(Line.UNPLANNED);
    TreeSet<String> parts = new TreeSet<>(settings.needs().keySet());
    settings.parts().forEach(p -> parts.add(p.part()));
    settings.kits().stream()
        .map(FleetSettings.Kit::kit)
        .sorted()
        .forEach(kit -> lines.add(new Line(Line.Kind.KIT, kit)));
    settings.kits().forEach(kit -> parts.addAll(kit.contents().keySet()));
    for (Line.Kind kind : List.of(Line.Kind.LOOSE, Line.Kind.FITTED, Line.Kind.LEFT_OVER)) {
      parts.forEach(part -> lines.add(new Line(kind, part)));
    }
  }

  private Recipe.LineIndex index() {
    Map<Line, Integer> rows = new HashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      rows.put(lines.get(i), i);
    }
    return new Recipe.LineIndex() {
      @Override
      public int of(Line.Kind kind, String name) {
        return Optional.ofNullable(rows.get(new Line(kind, name))).orElseThrow();
      }

      @Override
      public int count() {
        return lines.size();
      }
    };
  }

  /** Which lines an opening of some kind takes. */
  boolean[] taken() {
    boolean[] taken = new boolean[lines.size()];
    taken[0] = true;
    taken[1] = true;
    for (RecipeBook book : books) {
      book.all().forEach(recipe -> recipe.mark(taken));
    }
    return taken;
  }

  private void add(PumpNow pump, PumpPlan plan, LifeLookup lookup, LocalDate calendarEnd) {
    Usage usage = Usage.of(settings, pump);
    if (usage.perWeek().isEmpty()) {
      leftOut.merge("no running hours a week are known", 1, Integer::sum);
      return;
    }
    Ages ages = new Ages(pump, usage);
    Side stops = side(stoppers, pump, ages, lookup);
    Side unseen =
        side(
            hidden.subList(0, Math.min(hidden.size(), RecipeBook.MOST_HIDDEN)), pump, ages, lookup);
    double days = months.days();
    pumps.add(
        new PumpAhead(
            new int[] {
              sites.indexOf(pump.site()),
              products.indexOf(product(pump)),
              models.indexOf(pump.model()),
              plan.scheduled().map(day -> visitRow(pump.site(), day)).orElse(-1)
            },
            new double[] {usage.perWeek().getAsDouble() / 7, usage.relativeSd(days)},
            stops.lives(),
            stops.components(),
            stops.ages(),
            unseen.lives(),
            unseen.ages(),
            new double[] {
              firstDay(plan, calendarEnd),
              plan.latest().map(this::dayNumber).orElse(Double.POSITIVE_INFINITY)
            },
            new double[] {
              plan.intervalAfter().hours().orElse(Double.POSITIVE_INFINITY),
              plan.intervalAfter().most().orElse(Double.POSITIVE_INFINITY)
            }));
  }

  /** Positions with a life and an age, as columns. */
  private record Side(List<Integer> life, List<Integer> component, List<Double> age) {
    int[] lives() {
      return life.stream().mapToInt(i -> i).toArray();
    }

    int[] components() {
      return component.stream().mapToInt(i -> i).toArray();
    }

    double[] ages() {
      return age.stream().mapToDouble(a -> a).toArray();
    }
  }

  private Side side(List<String> positions, PumpNow pump, Ages ages, LifeLookup lookup) {
    Side side = new Side(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
    for (String position : positions) {
      Component component = settings.componentAt(position).orElseThrow();
      Optional<LifeModel> life = lookup.find(component.component(), pump.service());
      OptionalDouble age = ages.at(position);
      if (life.isEmpty()) {
        noRisk.merge("no failure of " + component.component() + " is on record", 0, Integer::sum);
      } else if (age.isEmpty()) {
        noRisk.merge("the age of " + position + " is not known", 1, Integer::sum);
      } else {
        side.life.add(lifeRow(life.get()));
        side.component.add(settings.components().indexOf(component));
        side.age.add(age.getAsDouble());
      }
    }
    return side;
  }

  private int lifeRow(LifeModel life) {
    return lifeRows.computeIfAbsent(
        life,
        l -> {
          lives.add(l.draws());
          return lives.size() - 1;
        });
  }

  private int visitRow(String site, LocalDate day) {
    LocalDate monday = day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
    return visitRows.computeIfAbsent(site + "\n" + monday, key -> visits++);
  }

  private double firstDay(PumpPlan plan, LocalDate calendarEnd) {
    if (plan.scheduled().isPresent()) {
      return Math.max(1, dayNumber(plan.scheduled().get()));
    }
    return plan.nextRebuild()
        .date()
        .map(due -> Math.max(dayNumber(due), dayNumber(calendarEnd) + 1))
        .orElse(Double.POSITIVE_INFINITY);
  }

  private double dayNumber(LocalDate day) {
    return ChronoUnit.DAYS.between(settings.asOf(), day);
  }

  /** Days from order to shelf of what is bought under a line; empty when it is not bought. */
  OptionalInt leadTimeDays(Line line) {
    return switch (line.kind()) {
      case KIT ->
          settings.kits().stream()
              .filter(k -> k.kit().equals(line.name()))
              .mapToInt(FleetSettings.Kit::leadTimeDays)
              .findFirst();
      case LOOSE ->
          settings.parts().stream()
              .filter(p -> p.part().equals(line.name()))
              .mapToInt(FleetSettings.LoosePart::leadTimeDays)
              .findFirst();
      case OPENING, FITTED, LEFT_OVER -> OptionalInt.empty();
    };
  }

  /** Price of what is bought under a line; empty when it is not bought, or has none. */
  OptionalDouble price(Line line) {
    return switch (line.kind()) {
      case KIT ->
          settings.kits().stream()
              .filter(k -> k.kit().equals(line.name()))
              .mapToDouble(FleetSettings.Kit::price)
              .findFirst();
      case LOOSE ->
          settings.parts().stream()
              .filter(p -> p.part().equals(line.name()))
              .mapToDouble(FleetSettings.LoosePart::price)
              .findFirst();
      case OPENING, FITTED, LEFT_OVER -> OptionalDouble.empty();
    };
  }

  /** What is not known and how it was taken, one sentence each. */
  public List<String> notKnown() {
    List<String> said = new ArrayList<>();
    leftOut.forEach(
        (why, n) -> said.add(n + (n == 1 ? " pump is" : " pumps are") + " left out: " + why));
    new TreeMap<>(noRisk)
        .forEach(
            (why, n) ->
                said.add(
                    why
                        + (n > 0 ? " in " + n + (n == 1 ? " pump" : " pumps") : "")
                        + ": it is taken not to fail"));
    TreeSet<String> unpriced = new TreeSet<>();
    books.forEach(book -> unpriced.addAll(book.full.unpriced()));
    unpriced.forEach(
        part -> said.add(part + " has no price: its money and its stock are left out"));
    if (settings.needs().isEmpty()) {
      said.add("fleet.json has no needs: kits and parts are not counted");
    }
    return said;
  }

  /** How many pumps are lived forward. */
  public int pumpCount() {
    return pumps.size();
  }
}
