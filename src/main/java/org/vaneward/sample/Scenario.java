package org.vaneward.sample;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.Trigger;
import org.vaneward.io.Json;
import org.vaneward.stats.distribution.Weibull;

/**
 * A fleet of known truth before it is drawn: who runs which pumps, how long parts truly last, how
 * the shop works, and what its record-keeping gets wrong. {@code seeds/README.md} describes the
 * file.
 *
 * <p>True life of a component in a service: Weibull with the component's shape, and its scale times
 * the product's and the duty's life factor, unless an override states both.
 *
 * @param name name of the fleet
 * @param story what the scenario is for
 * @param seed random seed
 * @param currency ISO 4217 code
 * @param period first and last day
 * @param sites depots with their pumps
 * @param models pump sizes
 * @param products products handled
 * @param duties what pumps do
 * @param components parts that have lives
 * @param overrides true lives that do not follow from the factors
 * @param serviceChanges pumps that changed product or duty
 * @param retirements pumps that left service
 * @param shop how the shop works
 * @param practice what makes some parts fail early; empty when nothing does
 * @param flaws what the record-keeping gets wrong; empty when nothing
 * @param economics kits, prices, costs, limits and workshop, as in {@code fleet.json}
 */
public record Scenario(
    String name,
    String story,
    long seed,
    String currency,
    Period period,
    List<Site> sites,
    List<ModelType> models,
    List<Product> products,
    List<Duty> duties,
    List<Component> components,
    List<LifeOverride> overrides,
    List<ServiceChange> serviceChanges,
    List<Retirement> retirements,
    Shop shop,
    Optional<Practice> practice,
    Optional<Flaws> flaws,
    Economics economics) {

  public Scenario {
    sites = List.copyOf(sites);
    models = List.copyOf(models);
    products = List.copyOf(products);
    duties = List.copyOf(duties);
    components = List.copyOf(components);
    overrides = List.copyOf(overrides);
    serviceChanges = List.copyOf(serviceChanges);
    retirements = List.copyOf(retirements);
    for (Site site : sites) {
      for (PumpGroup group : site.pumps()) {
        find(products, Product::product, group.product(), "product");
        find(duties, Duty::duty, group.duty(), "duty");
        find(models, ModelType::model, group.model(), "model");
      }
    }
    for (ServiceChange change : serviceChanges) {
      find(products, Product::product, change.product(), "product");
      find(duties, Duty::duty, change.duty(), "duty");
    }
  }

  /**
   * The scenario in {@code file}.
   *
   * @throws org.vaneward.io.BadInputException when the file cannot be read or does not fit
   */
  public static Scenario read(Path file) {
    return Json.read(file, Scenario.class);
  }

  /** This scenario with another random seed. */
  public Scenario withSeed(long newSeed) {
    return new Scenario(
        name,
        story,
        newSeed,
        currency,
        period,
        sites,
        models,
        products,
        duties,
        components,
        overrides,
        serviceChanges,
        retirements,
        shop,
        practice,
        flaws,
        economics);
  }

  /** True life, in running hours, of {@code component} in {@code service}. */
  public Weibull trueLife(String component, Service service) {
    Component kind = component(component);
    return overrides.stream()
        .filter(o -> o.component().equals(component) && o.service().equals(service))
        .findFirst()
        .map(o -> new Weibull(o.shape(), o.scale()))
        .orElseGet(
            () ->
                new Weibull(
                    kind.shape(),
                    kind.scale()
                        * product(service.product()).lifeFactors().getOrDefault(component, 1.0)
                        * duty(service.duty()).lifeFactors().getOrDefault(component, 1.0)));
  }

  Component component(String name) {
    return find(components, Component::component, name, "component");
  }

  Product product(String name) {
    return find(products, Product::product, name, "product");
  }

  Duty duty(String name) {
    return find(duties, Duty::duty, name, "duty");
  }

  ModelType model(String name) {
    return find(models, ModelType::model, name, "model");
  }

  private static <T> T find(List<T> all, Function<T, String> key, String wanted, String what) {
    return all.stream()
        .filter(t -> key.apply(t).equals(wanted))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "no "
                        + what
                        + " '"
                        + wanted
                        + "'; there are "
                        + all.stream().map(key).toList()));
  }

  /**
   * First and last day.
   *
   * @param commissionedFrom first day on which a pump may be commissioned
   * @param commissionedTo last such day
   * @param asOf last day of the records
   */
  public record Period(LocalDate commissionedFrom, LocalDate commissionedTo, LocalDate asOf) {
    public Period {
      if (commissionedTo.isBefore(commissionedFrom) || !asOf.isAfter(commissionedTo)) {
        throw new IllegalArgumentException(
            "commissioned_from, commissioned_to and as_of follow each other, not "
                + commissionedFrom
                + ", "
                + commissionedTo
                + ", "
                + asOf);
      }
    }
  }

  /**
   * A depot.
   *
   * @param site its name
   * @param prefix what its asset tags begin with
   * @param commissioned days between which its pumps were commissioned, when not the fleet's
   * @param recordsFrom day its records begin, when later than commissioning
   * @param crews who rebuilds its pumps
   * @param pumps its pumps
   */
  public record Site(
      String site,
      String prefix,
      Optional<Window> commissioned,
      Optional<LocalDate> recordsFrom,
      List<CrewShare> crews,
      List<PumpGroup> pumps) {
    public Site {
      crews = List.copyOf(crews);
      pumps = List.copyOf(pumps);
      if (crews.isEmpty()) {
        throw new IllegalArgumentException(site + " has at least one crew, not 0");
      }
    }
  }

  /** Two days and what lies between. */
  public record Window(LocalDate from, LocalDate to) {
    public Window {
      if (to.isBefore(from)) {
        throw new IllegalArgumentException("from comes before to, not " + from + ", " + to);
      }
    }

    boolean contains(LocalDate day) {
      return !day.isBefore(from) && !day.isAfter(to);
    }
  }

  /** A crew and the weight with which it is the one sent. */
  public record CrewShare(String crew, double share) {
    public CrewShare {
      positive("share", share);
    }
  }

  /** Pumps of one size in one service. */
  public record PumpGroup(String product, String duty, String model, int pumps) {
    Service service() {
      return new Service(product, duty);
    }
  }

  /** A pump size. */
  public record ModelType(String model, double speedRpm) {}

  /**
   * A product.
   *
   * @param product its name
   * @param viscosityCst kinematic viscosity, mm²/s
   * @param lifeFactors factor on the scale of life, by component; 1 where none is given
   * @param causes what the shop writes as cause, by component, beside the component's own words
   */
  public record Product(
      String product,
      double viscosityCst,
      Map<String, Double> lifeFactors,
      Map<String, List<String>> causes) {
    public Product {
      lifeFactors = Map.copyOf(lifeFactors);
      causes = Map.copyOf(causes);
      lifeFactors.forEach(Scenario::positive);
    }
  }

  /**
   * A duty.
   *
   * @param duty its name
   * @param hoursPerWeek running hours a week of the middle pump
   * @param spread standard deviation of the log of hours a week from pump to pump
   * @param pressureBar differential pressure
   * @param startsPerDay starts a day
   * @param lifeFactors factor on the scale of life, by component; 1 where none is given
   */
  public record Duty(
      String duty,
      double hoursPerWeek,
      double spread,
      double pressureBar,
      double startsPerDay,
      Map<String, Double> lifeFactors) {
    public Duty {
      lifeFactors = Map.copyOf(lifeFactors);
      positive("hours_per_week", hoursPerWeek);
      lifeFactors.forEach(Scenario::positive);
    }
  }

  /**
   * A part that has a life.
   *
   * @param component its name
   * @param positions where it sits; {@code component-side} where there are two
   * @param announces whether a failed one stops the pump by itself
   * @param wearLimitMm wear at which it counts as failed; given exactly when it does not announce
   * @param shape true shape of life
   * @param scale true scale of life before factors, running hours
   * @param noticedShare for one that does not announce: chance that its failure is noticed at once
   * @param part name of the loose part
   * @param partsPerPosition loose parts one position takes
   * @param lotLetter what its lot numbers begin with
   * @param renewsWith component renewed on the same side whenever this one is mended
   * @param startUpLeaks whether a fresh one may fail on the start-up test
   * @param stops triggers and failure modes with which it stops the pump
   * @param causes what the shop writes as cause
   */
  public record Component(
      String component,
      List<String> positions,
      boolean announces,
      OptionalDouble wearLimitMm,
      double shape,
      double scale,
      double noticedShare,
      String part,
      int partsPerPosition,
      String lotLetter,
      Optional<String> renewsWith,
      boolean startUpLeaks,
      List<Stop> stops,
      List<String> causes) {
    public Component {
      positions = List.copyOf(positions);
      stops = List.copyOf(stops);
      causes = List.copyOf(causes);
      positive("shape", shape);
      positive("scale", scale);
      chance("noticed_share", noticedShare);
      if (stops.isEmpty() || causes.isEmpty() || positions.isEmpty()) {
        throw new IllegalArgumentException(
            component + " has at least one position, stop and cause, not 0");
      }
      if (announces == wearLimitMm.isPresent()) {
        throw new IllegalArgumentException(
            component + " either announces its failure or has a wear limit");
      }
    }
  }

  /** How a failed part stops the pump, with the weight of that way. */
  public record Stop(Trigger trigger, String mode, double share) {
    public Stop {
      positive("share", share);
    }
  }

  /** A true life that does not follow from the factors. */
  public record LifeOverride(
      String component, String product, String duty, double shape, double scale) {
    public LifeOverride {
      positive("shape", shape);
      positive("scale", scale);
    }

    Service service() {
      return new Service(product, duty);
    }
  }

  /** A pump that does something else from a day on. */
  public record ServiceChange(String pump, LocalDate from, String product, String duty) {
    Service service() {
      return new Service(product, duty);
    }
  }

  /** A pump that leaves service. */
  public record Retirement(String pump, LocalDate on) {}

  /**
   * How the shop works. Every decision is a draw that does not look at the state of the parts, so
   * that a part taken out in working order is censored independently of its remaining life.
   *
   * @param plannedIntervalHours running hours from a full rebuild to the next planned one
   * @param plannedIntervalMonths months after which it is due anyway
   * @param scatter standard deviation of the log of the interval
   * @param skipProbability chance that a planned rebuild is put off by half an interval
   * @param inspectionProbability chance that a rebuild put off is an inspection instead
   * @param runToFailureShare share of pumps without planned rebuilds
   * @param mendProbability chance that at an unplanned stop only the failed position is renewed
   * @param lookAtMateProbability chance that a mend looks at the other position of the component
   * @param lookInsideProbability chance that a mend looks at parts that do not announce failure
   * @param reuseProbability chance that wear parts under their limit go back at a planned rebuild
   * @param primaryLeftBlank chance that {@code primary} is not filled in at an announced failure
   * @param startUpFailureProbability chance that a fresh part leaks on the start-up test
   * @param costSpread standard deviation of the log of booked cost
   */
  public record Shop(
      double plannedIntervalHours,
      int plannedIntervalMonths,
      double scatter,
      double skipProbability,
      double inspectionProbability,
      double runToFailureShare,
      double mendProbability,
      double lookAtMateProbability,
      double lookInsideProbability,
      double reuseProbability,
      double primaryLeftBlank,
      double startUpFailureProbability,
      double costSpread) {
    public Shop {
      positive("planned_interval_hours", plannedIntervalHours);
      positive("planned_interval_months", plannedIntervalMonths);
      chance("skip_probability", skipProbability);
      chance("inspection_probability", inspectionProbability);
      chance("run_to_failure_share", runToFailureShare);
      chance("mend_probability", mendProbability);
      chance("look_at_mate_probability", lookAtMateProbability);
      chance("look_inside_probability", lookInsideProbability);
      chance("reuse_probability", reuseProbability);
      chance("primary_left_blank", primaryLeftBlank);
      chance("start_up_failure_probability", startUpFailureProbability);
    }
  }

  /** What makes some parts fail early. */
  public record Practice(
      Optional<CrewEffect> crew, Optional<BadLot> badLot, Optional<Worsening> worsening) {}

  /** A crew whose fresh parts leak on the start-up test more often. */
  public record CrewEffect(String crew, double startUpFailureProbability) {
    public CrewEffect {
      chance("start_up_failure_probability", startUpFailureProbability);
    }
  }

  /**
   * A lot that does not last.
   *
   * @param component what it is a lot of
   * @param lot its number
   * @param fitted days between which it was fitted
   * @param share chance that a part fitted then is of this lot
   * @param scaleFactor factor on the scale of life
   * @param cause what the shop writes as cause half of the time
   */
  public record BadLot(
      String component, String lot, Window fitted, double share, double scaleFactor, String cause) {
    public BadLot {
      chance("share", share);
      positive("scale_factor", scaleFactor);
    }
  }

  /**
   * A pump that gets worse with each opening that renews everything.
   *
   * @param pump asset tag
   * @param scaleFactorPerRebuild factor on the scale of life for each full rebuild behind it
   * @param lowestFactor where that ends
   * @param cause what the shop writes as cause half of the time
   */
  public record Worsening(
      String pump, double scaleFactorPerRebuild, double lowestFactor, String cause) {
    public Worsening {
      positive("scale_factor_per_rebuild", scaleFactorPerRebuild);
      positive("lowest_factor", lowestFactor);
    }
  }

  /**
   * What the record-keeping gets wrong: rates of rows, else numbers of cases.
   *
   * @param missingHoursRate openings whose hour meter was not read
   * @param oddSpellingRate rows of rebuilds and findings with a word spelled oddly
   * @param missingFindingRate full rebuilds with a kit and a finding left out
   * @param oddProducts service rows with an oddly spelled product
   * @param metersReplaced pumps that got a new hour meter
   * @param duplicateSheets openings entered twice
   * @param fallingReadings readings with a digit lost
   * @param primaryOnPlanned planned openings with {@code primary} filled in
   * @param unknownPumps sheets, and as many readings, with a tag nobody knows
   * @param unknownPositions findings at a position that does not exist
   * @param unknownWords findings with a word that does not exist
   * @param openingsBeforeCommissioning sheets from before their pump's time
   * @param unreadableDates second sheets, and as many readings, with an impossible date
   * @param badClearances as-left clearances that cannot be
   */
  public record Flaws(
      double missingHoursRate,
      double oddSpellingRate,
      double missingFindingRate,
      int oddProducts,
      int metersReplaced,
      int duplicateSheets,
      int fallingReadings,
      int primaryOnPlanned,
      int unknownPumps,
      int unknownPositions,
      int unknownWords,
      int openingsBeforeCommissioning,
      int unreadableDates,
      int badClearances) {
    public Flaws {
      chance("missing_hours_rate", missingHoursRate);
      chance("odd_spelling_rate", oddSpellingRate);
      chance("missing_finding_rate", missingFindingRate);
    }
  }

  /** Kits, prices, costs, limits, workshop and stock, in the words of {@code fleet.json}. */
  public record Economics(
      List<FleetFile.Kit> kits,
      List<FleetFile.LoosePart> parts,
      Map<String, Integer> needs,
      FleetFile.Costs costs,
      FleetFile.Limits limits,
      FleetFile.Workshop workshop,
      Optional<FleetFile.Stock> stock) {
    public Economics {
      kits = List.copyOf(kits);
      parts = List.copyOf(parts);
      needs = Map.copyOf(needs);
    }

    double partPrice(String part) {
      return find(parts, FleetFile.LoosePart::part, part, "part").price();
    }

    FleetFile.Kit kitFor(String model) {
      return kits.stream()
          .filter(kit -> kit.models().contains(model))
          .findFirst()
          .orElseThrow(() -> new IllegalArgumentException("no kit fits model '" + model + "'"));
    }

    /** A kit and the loose parts that it leaves short. */
    double fullRebuildParts(FleetFile.Kit kit) {
      double price = kit.price();
      for (FleetFile.LoosePart part : parts) {
        int wanted =
            needs.getOrDefault(part.part(), 0) - kit.contents().getOrDefault(part.part(), 0);
        price += Math.max(0, wanted) * part.price();
      }
      return price;
    }
  }

  private static void positive(String name, double value) {
    if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(name + " is positive, not " + value);
    }
  }

  private static void chance(String name, double value) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException(name + " is between 0 and 1, not " + value);
    }
  }
}
