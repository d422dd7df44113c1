package org.vaneward.study;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel;
import org.vaneward.model.ServiceModels;
import org.vaneward.policy.LifeLookup;
import org.vaneward.report.FleetLives;
import org.vaneward.sample.Scenario;
import org.vaneward.sample.Truth;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * One drawn fleet beside its truth: what three ways of fitting say of every life, and what the
 * intervals they advise cost. It is one line of text when it is kept.
 *
 * @param key which fleet
 * @param lives a component in a service each
 * @param kinds pumps of a model in a service each
 */
record KnownTruthFleet(FleetKey key, List<Life> lives, List<Kind> kinds) {
  /** The shape stated for the fit of the scale alone. */
  static final double STATED_SHAPE = 2;

  /** The share failed by the 10% life. */
  private static final double SHARE = 0.10;

  private static final FitSettings PLAIN = FitSettings.defaults().withShares(List.of(SHARE));
  private static final FitSettings STATED = PLAIN.withFixedShape(STATED_SHAPE);

  private static final String NOTHING = "-";
  private static final String END = ";end";
  private static final int LIFE_FIELDS = 11;
  private static final int KIND_FIELDS = 9;
  private static final int FIT_NUMBERS = 9;

  KnownTruthFleet {
    lives = List.copyOf(lives);
    kinds = List.copyOf(kinds);
  }

  /** A way of fitting. */
  enum Way {
    /** Each service's own fit, with profile limits. */
    PLAIN,
    /** Each service's own scale at a stated shape, with profile limits. */
    FIXED,
    /** What decisions rest on: services pooled, with posterior limits. */
    POOLED
  }

  /** What is estimated. */
  enum Quantity {
    SCALE,
    SHAPE,
    TENTH
  }

  /**
   * Which fleet.
   *
   * @param scenario name of the file in {@code seeds/}
   * @param pumps pumps at most
   * @param years of records
   * @param number from 1 on
   */
  record FleetKey(String scenario, int pumps, int years, int number)
      implements Comparable<FleetKey> {
    /** A random seed of its own. */
    long seed() {
      return ((pumps * 100L + years) * 1000 + Math.floorMod(scenario.hashCode(), 997)) * 1000
          + number;
    }

    @Override
    public int compareTo(FleetKey other) {
      int byScenario = scenario.compareTo(other.scenario);
      return byScenario != 0
          ? byScenario
          : Arrays.compare(
              new int[] {pumps, years, number}, new int[] {other.pumps, other.years, other.number});
    }
  }

  /** Estimates with limits of scale, shape and 10% life. */
  record Fit(Estimate scale, Estimate shape, Estimate tenth) {
    Estimate of(Quantity quantity) {
      return switch (quantity) {
        case SCALE -> scale;
        case SHAPE -> shape;
        case TENTH -> tenth;
      };
    }
  }

  /**
   * A component in a service.
   *
   * @param component such as {@code seal}
   * @param service the service
   * @param lives lives on record
   * @param failures those that failed
   * @param truth the true life
   * @param usual whether the true shape is that of most services
   * @param basis key of what the pooled model rests on; {@code -} where there is none
   * @param fits what there is, by way of fitting
   */
  record Life(
      String component,
      Service service,
      double lives,
      double failures,
      Weibull truth,
      boolean usual,
      String basis,
      Map<Way, Fit> fits) {
    Life {
      fits = Map.copyOf(fits);
    }

    Optional<Fit> fit(Way way) {
      return Optional.ofNullable(fits.get(way));
    }

    double truth(Quantity quantity) {
      return switch (quantity) {
        case SCALE -> truth.scale();
        case SHAPE -> truth.shape();
        case TENTH -> truth.quantile(SHARE);
      };
    }
  }

  /**
   * Pumps of one model in one service.
   *
   * @param model its label
   * @param service the service
   * @param pumps how many
   * @param sealFailures in the service
   * @param regrets by way of fitting
   */
  record Kind(
      String model, Service service, int pumps, double sealFailures, Map<Way, Double> regrets) {
    Kind {
      regrets = Map.copyOf(regrets);
    }

    double regret(Way way) {
      return Optional.ofNullable(regrets.get(way)).orElseThrow();
    }
  }

  /** Draws the fleet and fits it; figures have the digits that are kept. */
  static KnownTruthFleet draw(FleetKey key) {
    return parse(drawn(key).line()).orElseThrow();
  }

  private static KnownTruthFleet drawn(FleetKey key) {
    Scenario scenario = Scenario.read(Path.of("seeds", key.scenario() + ".json"));
    return DrawnFleet.look(
        ScaledScenario.of(scenario, key.pumps(), key.years()).withSeed(key.seed()),
        (folder, truth) -> of(key, folder, scenario, truth));
  }

  private static KnownTruthFleet of(FleetKey key, Path folder, Scenario scenario, Truth truth) {
    FleetLives fleet = FleetLives.read(folder);
    LivesTable table = LivesTable.of(fleet.lives());
    ServiceModels models =
        ServiceModels.of(
            table,
            PoolingSettings.defaults().withDraws(ServiceModels.DRAWS).withSeed(truth.seed()));
    Map<List<String>, LivesTable> groups = table.groupBy(List.of("component", "product", "duty"));
    List<Life> lives = new ArrayList<>();
    for (Truth.Lifetime life : truth.lifetimes()) {
      Optional.ofNullable(groups.get(List.of(life.component(), life.product(), life.duty())))
          .ifPresent(group -> lives.add(life(life, group, scenario, models)));
    }
    return new KnownTruthFleet(key, lives, kinds(fleet, table, models, truth));
  }

  private static Life life(
      Truth.Lifetime life, LivesTable group, Scenario scenario, ServiceModels models) {
    Observations observations = group.observations();
    Service service = new Service(life.product(), life.duty());
    Map<Way, Fit> fits = new EnumMap<>(Way.class);
    own(observations, PLAIN).ifPresent(fit -> fits.put(Way.PLAIN, fit));
    own(observations, STATED).ifPresent(fit -> fits.put(Way.FIXED, fit));
    Optional<LifeModel> model = models.find(life.component(), Optional.of(service));
    model.ifPresent(m -> fits.put(Way.POOLED, pooled(m)));
    double usual =
        scenario.components().stream()
            .filter(c -> c.component().equals(life.component()))
            .mapToDouble(Scenario.Component::shape)
            .findFirst()
            .orElseThrow();
    return new Life(
        life.component(),
        service,
        group.lives(),
        observations.failures(),
        new Weibull(life.shape(), life.scale()),
        life.shape() == usual,
        model.map(m -> m.basis().key()).orElse(NOTHING),
        fits);
  }

  private static Optional<Fit> own(Observations lives, FitSettings settings) {
    return WeibullFitter.fit(lives, settings) instanceof WeibullFit.Fitted fit
        ? Optional.of(new Fit(fit.scale(), fit.shape(), fit.quantiles().get(0).age()))
        : Optional.empty();
  }

  private static Fit pooled(LifeModel model) {
    return new Fit(model.scale(), model.shape(), model.draws().age(SHARE, PLAIN.confidence()));
  }

  private static List<Kind> kinds(
      FleetLives fleet, LivesTable table, ServiceModels models, Truth truth) {
    Map<Way, LifeLookup> beliefs = new EnumMap<>(Way.class);
    beliefs.put(Way.PLAIN, OracleCost.own(table, PLAIN));
    beliefs.put(Way.FIXED, OracleCost.own(table, STATED));
    beliefs.put(Way.POOLED, models::find);
    LifeLookup oracle = OracleCost.oracle(truth);
    Map<OracleCost.Kind, Integer> known = OracleCost.kinds(fleet);
    // A service that was spelled beyond recognition is none of the truth's.
    known.keySet().removeIf(kind -> oracle.find("seal", kind.service()).isEmpty());
    List<Kind> kinds = new ArrayList<>();
    known.forEach(
        (kind, pumps) -> {
          OracleCost cost = OracleCost.of(fleet.settings(), kind, oracle);
          Map<Way, Double> regrets = new EnumMap<>(Way.class);
          beliefs.forEach((way, lives) -> regrets.put(way, cost.regret(lives)));
          kinds.add(
              new Kind(
                  kind.model().orElse(NOTHING),
                  kind.service().orElseThrow(),
                  pumps,
                  models.find("seal", kind.service()).map(LifeModel::failures).orElse(0.0),
                  regrets));
        });
    return kinds;
  }

  // ---- as a line of text

  /** The fleet as a line, without its end. */
  String line() {
    return String.join(
            ",",
            key.scenario(),
            Integer.toString(key.pumps()),
            Integer.toString(key.years()),
            Integer.toString(key.number()))
        + lives.stream().map(KnownTruthFleet::text).collect(Collectors.joining())
        + kinds.stream().map(KnownTruthFleet::text).collect(Collectors.joining())
        + END;
  }

  private static String text(Life life) {
    List<String> fields = new ArrayList<>(List.of(";life", life.component()));
    fields.add(life.service().product());
    fields.add(life.service().duty());
    fields.add(number(life.lives()));
    fields.add(number(life.failures()));
    fields.add(number(life.truth().shape()));
    fields.add(number(life.truth().scale()));
    fields.add(Boolean.toString(life.usual()));
    fields.add(life.basis());
    fields.add(
        Arrays.stream(Way.values())
            .map(way -> life.fit(way).map(KnownTruthFleet::text).orElse(NOTHING))
            .collect(Collectors.joining("|")));
    return String.join(",", fields);
  }

  private static String text(Fit fit) {
    return Arrays.stream(Quantity.values())
        .map(fit::of)
        .map(e -> number(e.estimate()) + " " + number(e.lower()) + " " + number(e.upper()))
        .collect(Collectors.joining(" "));
  }

  private static String text(Kind kind) {
    List<String> fields = new ArrayList<>(List.of(";kind", kind.model()));
    fields.add(kind.service().product());
    fields.add(kind.service().duty());
    fields.add(Integer.toString(kind.pumps()));
    fields.add(number(kind.sealFailures()));
    for (Way way : Way.values()) {
      fields.add(number(kind.regret(way)));
    }
    return String.join(",", fields);
  }

  /** Six digits: enough for a table, and the same on every machine. */
  private static String number(double x) {
    return String.format(Locale.ROOT, "%.6g", x);
  }

  /** The fleet of a line; empty when the line is not whole. */
  static Optional<KnownTruthFleet> parse(String line) {
    if (!line.endsWith(END)) {
      return Optional.empty();
    }
    String[] parts = line.substring(0, line.length() - END.length()).split(";", -1);
    List<Life> lives = new ArrayList<>();
    List<Kind> kinds = new ArrayList<>();
    for (String part : Arrays.asList(parts).subList(1, parts.length)) {
      List<String> fields = List.of(part.split(",", -1));
      if (fields.get(0).equals("life") && fields.size() == LIFE_FIELDS) {
        lives.add(life(fields));
      } else if (fields.get(0).equals("kind") && fields.size() == KIND_FIELDS) {
        kinds.add(kind(fields));
      } else {
        return Optional.empty();
      }
    }
    return Optional.of(new KnownTruthFleet(key(parts[0].split(",", -1)), lives, kinds));
  }

  private static FleetKey key(String[] fields) {
    return new FleetKey(
        fields[0],
        Integer.parseInt(fields[1]),
        Integer.parseInt(fields[2]),
        Integer.parseInt(fields[3]));
  }

  private static Life life(List<String> fields) {
    Map<Way, Fit> fits = new EnumMap<>(Way.class);
    String[] texts = fields.get(10).split("\\|", -1);
    Way[] ways = Way.values();
    for (int i = 0; i < ways.length; i++) {
      if (!texts[i].equals(NOTHING)) {
        fits.put(ways[i], fit(texts[i]));
      }
    }
    return new Life(
        fields.get(1),
        new Service(fields.get(2), fields.get(3)),
        Double.parseDouble(fields.get(4)),
        Double.parseDouble(fields.get(5)),
        new Weibull(Double.parseDouble(fields.get(6)), Double.parseDouble(fields.get(7))),
        Boolean.parseBoolean(fields.get(8)),
        fields.get(9),
        fits);
  }

  private static Fit fit(String text) {
    double[] x =
        Arrays.stream(text.split(" ", FIT_NUMBERS)).mapToDouble(Double::parseDouble).toArray();
    return new Fit(
        new Estimate(x[0], x[1], x[2]),
        new Estimate(x[3], x[4], x[5]),
        new Estimate(x[6], x[7], x[8]));
  }

  private static Kind kind(List<String> fields) {
    Map<Way, Double> regrets = new EnumMap<>(Way.class);
    Way[] ways = Way.values();
    for (int i = 0; i < ways.length; i++) {
      regrets.put(ways[i], Double.parseDouble(fields.get(6 + i)));
    }
    return new Kind(
        fields.get(1),
        new Service(fields.get(2), fields.get(3)),
        Integer.parseInt(fields.get(4)),
        Double.parseDouble(fields.get(5)),
        regrets);
  }
}
