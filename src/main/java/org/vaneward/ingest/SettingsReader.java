package org.vaneward.ingest;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Costs;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.FleetSettings.Stock;
import org.vaneward.fleet.FleetSettings.Workshop;
import org.vaneward.fleet.Trigger;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.Json;

/**
 * Reads {@code fleet.json}. What it leaves out:
 *
 * <ul>
 *   <li>{@code fleet}: the name of the folder; {@code currency}: empty, not stated; {@code clock}:
 *       hours.
 *   <li>{@code triggers} of a component: leak for {@code seal}, noise and seized for {@code
 *       bearing}, low-flow for {@code vanes}, none for any other.
 *   <li>{@code kits}, {@code parts}, {@code needs}, {@code limits}: none; {@code workshop}: no
 *       limit to rebuilds, visits free, never closed.
 *   <li>{@code costs}: not stated, which is not free of cost. A component is then absent from
 *       {@link Costs#unplanned()}, and whoever needs its cost has to refuse. A cost that is stated
 *       needs {@code labour} and {@code downtime}; {@code clean_up} is 0 when left out.
 *   <li>A part in {@code needs} without an entry in {@code parts} has no price of its own.
 * </ul>
 */
final class SettingsReader {
  static final String NAME = Ingest.SETTINGS;
  private static final int LONGEST_MONTHS = 1200;
  private static final double MOST_MONEY = 1e12;
  private static final Map<String, Set<Trigger>> USUAL_TRIGGERS =
      Map.of(
          "seal", EnumSet.of(Trigger.LEAK),
          "bearing", EnumSet.of(Trigger.NOISE, Trigger.SEIZED),
          "vanes", EnumSet.of(Trigger.LOW_FLOW));

  private final FleetJson json;
  private final String folderName;

  private SettingsReader(FleetJson json, String folderName) {
    this.json = json;
    this.folderName = folderName;
  }

  /**
   * The document in {@code folder}.
   *
   * @throws BadInputException when the file is missing or malformed
   */
  static SettingsReader of(Path folder) {
    Path file = folder.resolve(NAME);
    if (!Files.isRegularFile(file)) {
      throw new BadInputException(
          folder
              + ": no file fleet.json; a fleet folder holds fleet.json, pumps.csv, services.csv,"
              + " readings.csv, rebuilds.csv and findings.csv");
    }
    Path name = folder.toAbsolutePath().normalize().getFileName();
    return new SettingsReader(
        Json.read(file, FleetJson.class), name == null ? "fleet" : name.toString());
  }

  /**
   * How the tables are written.
   *
   * @throws BadInputException when that contradicts itself
   */
  Mapping mapping() {
    Set<String> positions = new TreeSet<>();
    json.components().forEach(component -> positions.addAll(component.positions()));
    return json.mapping()
        .filter(mapping -> !mapping.equals(FleetJson.MappingJson.NOTHING))
        .map(mapping -> Mapping.of(mapping, positions, json.asOf()))
        .orElse(Mapping.NONE);
  }

  /**
   * The settings.
   *
   * @throws BadInputException when they contradict themselves
   */
  FleetSettings settings() {
    require(
        json.asOf().getYear() >= 1900 && json.asOf().getYear() <= 9999,
        "as_of",
        json.asOf() + " is no day records speak of; check the year");
    List<Component> components = components();
    List<LoosePart> parts = parts();
    Map<String, Integer> needs = counts("needs", json.needs().orElse(Map.of()));
    Set<String> componentNames = new TreeSet<>();
    components.forEach(component -> componentNames.add(component.component()));
    Set<String> partNames = new TreeSet<>(needs.keySet());
    parts.forEach(part -> partNames.add(part.part()));
    for (Component component : components) {
      component
          .part()
          .ifPresent(
              part ->
                  require(
                      needs.containsKey(part),
                      "components",
                      "the part of "
                          + Cell.quoted(component.component())
                          + " is "
                          + Cell.quoted(part)
                          + ", which needs does not list"));
    }
    return new FleetSettings(
        json.fleet().filter(fleet -> !fleet.isBlank()).orElse(folderName),
        currency(),
        json.asOf(),
        json.clock().orElse(Clock.HOURS),
        components,
        kits(partNames),
        parts,
        needs,
        costs(componentNames),
        limits(componentNames),
        workshop(),
        json.stock().map(SettingsReader::stock).orElseGet(Stock::usual));
  }

  private String currency() {
    String currency = json.currency().orElse("");
    require(
        currency.isEmpty() || currency.matches("[A-Z]{3}"),
        "currency",
        Cell.quoted(currency) + " is not an ISO 4217 code such as EUR");
    return currency;
  }

  private List<Component> components() {
    List<FleetJson.ComponentJson> given = present("components", json.components());
    require(
        !given.isEmpty(), "components", "empty; name at least one component with its positions");
    Set<String> names = new HashSet<>();
    Set<String> positions = new HashSet<>();
    return indexed("components", given, (where, c) -> component(where, c, names, positions));
  }

  private static Component component(
      String where, FleetJson.ComponentJson c, Set<String> names, Set<String> positions) {
    name(where + ".component", c.component(), names);
    List<String> own = present(where + ".positions", c.positions());
    require(!own.isEmpty(), where + ".positions", "empty; a component sits somewhere");
    own.forEach(position -> name(where + ".positions", position, positions));
    if (c.wearLimitMm().isPresent()) {
      double limit = c.wearLimitMm().getAsDouble();
      require(
          limit > 0 && Double.isFinite(limit),
          where + ".wear_limit_mm",
          limit + " is not a wear; it must be above 0");
    }
    Set<Trigger> triggers =
        c.triggers()
            .map(given -> Set.copyOf(present(where + ".triggers", given)))
            .orElseGet(() -> usualTriggers(c.component()));
    require(
        !triggers.contains(Trigger.PLANNED),
        where + ".triggers",
        "a planned opening points at no component; leave planned out");
    return new Component(c.component(), own, c.announces(), c.wearLimitMm(), triggers, c.part());
  }

  private static Set<Trigger> usualTriggers(String component) {
    return USUAL_TRIGGERS.getOrDefault(component.toLowerCase(Locale.ROOT), Set.of());
  }

  private List<LoosePart> parts() {
    Set<String> names = new HashSet<>();
    return indexed(
        "parts",
        json.parts().orElse(List.of()),
        (where, p) -> {
          name(where + ".part", p.part(), names);
          amount(where + ".price", p.price());
          days(where + ".lead_time_days", p.leadTimeDays());
          return new LoosePart(p.part(), p.price(), p.leadTimeDays());
        });
  }

  private List<Kit> kits(Set<String> partNames) {
    Set<String> names = new HashSet<>();
    return indexed(
        "kits",
        json.kits().orElse(List.of()),
        (where, k) -> {
          name(where + ".kit", k.kit(), names);
          amount(where + ".price", k.price());
          days(where + ".lead_time_days", k.leadTimeDays());
          Map<String, Integer> contents = counts(where + ".contents", k.contents());
          contents.keySet().forEach(part -> known(where + ".contents", part, partNames, "part"));
          List<String> models = present(where + ".models", k.models().orElse(List.of()));
          return new Kit(k.kit(), models, contents, k.price(), k.leadTimeDays());
        });
  }

  private Costs costs(Set<String> components) {
    Optional<FleetJson.CostsJson> costs = json.costs();
    Optional<OpeningCost> planned =
        costs.flatMap(FleetJson.CostsJson::planned).flatMap(c -> cost("costs.planned", c));
    Map<String, OpeningCost> unplanned = new HashMap<>();
    Map<String, FleetJson.CostJson> stated =
        costs.flatMap(FleetJson.CostsJson::unplanned).orElse(Map.of());
    presentValues("costs.unplanned", stated)
        .forEach(
            (component, c) -> {
              String where = "costs.unplanned." + component;
              known("costs.unplanned", component, components, "component");
              cost(where, c).ifPresent(cost -> unplanned.put(component, cost));
            });
    require(
        planned.isPresent() || unplanned.isEmpty(),
        "costs",
        "unplanned is stated but planned is not; state labour and downtime of a planned opening");
    return new Costs(
        planned.orElse(new OpeningCost(0, 0, 0)),
        unplanned,
        hidden(costs.flatMap(FleetJson.CostsJson::hidden).orElse(Map.of()), components));
  }

  private static Map<String, Double> hidden(
      Map<String, FleetJson.HiddenJson> stated, Set<String> components) {
    Map<String, Double> hidden = new HashMap<>();
    presentValues("costs.hidden", stated)
        .forEach(
            (component, h) -> {
              known("costs.hidden", component, components, "component");
              h.perHour()
                  .ifPresent(
                      perHour ->
                          hidden.put(
                              component,
                              amount("costs.hidden." + component + ".per_hour", perHour)));
            });
    return hidden;
  }

  /** A cost as stated; empty when nothing is. */
  private static Optional<OpeningCost> cost(String where, FleetJson.CostJson c) {
    if (c.labour().isEmpty() && c.downtime().isEmpty() && c.cleanUp().isEmpty()) {
      return Optional.empty();
    }
    require(
        c.labour().isPresent() && c.downtime().isPresent(),
        where,
        "labour and downtime must both be stated; 0 where there is no cost");
    return Optional.of(
        new OpeningCost(
            amount(where + ".labour", c.labour().getAsDouble()),
            amount(where + ".downtime", c.downtime().getAsDouble()),
            amount(where + ".clean_up", c.cleanUp().orElse(0))));
  }

  private Limits limits(Set<String> components) {
    OptionalInt months =
        json.limits().map(FleetJson.LimitsJson::maxIntervalMonths).orElse(OptionalInt.empty());
    atLeastOne("limits.max_interval_months", months);
    require(
        months.orElse(1) <= LONGEST_MONTHS,
        "limits.max_interval_months",
        months.orElse(1) + " months is no limit; at most " + LONGEST_MONTHS + ", or leave it out");
    String where = "limits.max_failure_probability";
    Map<String, Double> stated =
        json.limits().flatMap(FleetJson.LimitsJson::maxFailureProbability).orElse(Map.of());
    presentValues(where, stated)
        .forEach(
            (component, p) -> {
              known(where, component, components, "component");
              require(
                  p > 0 && p < 1,
                  where + "." + component,
                  p + " is no ceiling on a chance; it must be above 0 and below 1");
            });
    return new Limits(months, stated);
  }

  private Workshop workshop() {
    Optional<FleetJson.WorkshopJson> workshop = json.workshop();
    OptionalInt capacity =
        workshop.map(FleetJson.WorkshopJson::rebuildsPerWeek).orElse(OptionalInt.empty());
    atLeastOne("workshop.rebuilds_per_week", capacity);
    OptionalDouble visit =
        workshop.map(FleetJson.WorkshopJson::siteVisitCost).orElse(OptionalDouble.empty());
    List<ClosedPeriod> closed =
        indexed(
            "workshop.closed",
            workshop.flatMap(FleetJson.WorkshopJson::closed).orElse(List.of()),
            (where, c) -> {
              require(
                  !c.from().isAfter(c.to()),
                  where,
                  "from " + c.from() + " lies after to " + c.to());
              return new ClosedPeriod(c.from(), c.to());
            });
    return new Workshop(capacity, amount("workshop.site_visit_cost", visit.orElse(0)), closed);
  }

  private static Stock stock(FleetJson.StockJson stock) {
    double level = stock.serviceLevel().orElse(Stock.SERVICE_LEVEL);
    require(
        level > 0 && level < 1,
        "stock.service_level",
        level + " is no chance that the shelf lasts; it must be above 0 and below 1");
    int review = stock.reviewDays().orElse(Stock.REVIEW_DAYS);
    days("stock.review_days", review);
    return new Stock(
        level,
        review,
        aboveZero("stock.holding_per_year", stock.holdingPerYear()),
        aboveZero("stock.waiting_per_day", stock.waitingPerDay()));
  }

  private static OptionalDouble aboveZero(String where, OptionalDouble given) {
    given.ifPresent(
        value ->
            require(
                amount(where, value) > 0,
                where,
                "0 is no cost; leave it out when it is not known"));
    return given;
  }

  private interface Each<T, R> {
    R apply(String where, T value);
  }

  private static <T, R> List<R> indexed(String where, List<T> values, Each<T, R> each) {
    List<T> present = present(where, values);
    List<R> results = new ArrayList<>(present.size());
    for (int i = 0; i < present.size(); i++) {
      results.add(each.apply(where + "[" + i + "]", present.get(i)));
    }
    return results;
  }

  /** The list, which JSON may have filled with nulls. */
  private static <T, C extends Collection<T>> C present(String where, C values) {
    require(values.stream().allMatch(Objects::nonNull), where, "holds null; leave the entry out");
    return values;
  }

  private static <V> Map<String, V> presentValues(String where, Map<String, V> values) {
    present(where, values.values());
    return values;
  }

  private static Map<String, Integer> counts(String where, Map<String, Integer> stated) {
    presentValues(where, stated)
        .forEach(
            (part, count) ->
                require(
                    count >= 1 && !part.isBlank(),
                    where + "." + part,
                    count + " is no number of parts; at least 1"));
    return stated;
  }

  private static void name(String where, String name, Set<String> before) {
    require(!name.isBlank(), where, "blank; it needs a name");
    require(name.equals(name.strip()), where, Cell.quoted(name) + " has white space around it");
    require(before.add(name), where, Cell.quoted(name) + " stands twice; names are unique");
  }

  private static void known(String where, String name, Set<String> known, String kind) {
    require(
        known.contains(name),
        where,
        Cell.quoted(name)
            + " is no "
            + kind
            + (kind.equals("part") ? " of needs or parts" : "")
            + new Nearest(known).offer(name)
            + "; known are "
            + (known.isEmpty() ? "none" : String.join(", ", known.stream().limit(20).toList())));
  }

  private static double amount(String where, double amount) {
    require(
        amount >= 0 && amount <= MOST_MONEY,
        where,
        amount + " is no amount; it is at least 0 and at most a million million");
    return amount;
  }

  private static void days(String where, int days) {
    require(days >= 0, where, days + " days; it is at least 0");
  }

  private static void atLeastOne(String where, OptionalInt value) {
    require(
        value.isEmpty() || value.getAsInt() >= 1,
        where,
        value.orElse(0) + " is too few; at least 1, or leave it out");
  }

  private static void require(boolean good, String where, String problem) {
    if (!good) {
      throw new BadInputException(NAME + ": " + where + ": " + problem);
    }
  }
}
