package org.vaneward.review.failure;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.vaneward.fleet.Service;
import org.vaneward.life.Life;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.life.StartUpFailure;
import org.vaneward.model.LifeModel;
import org.vaneward.model.ServiceModels;
import org.vaneward.stats.Observations;
import org.vaneward.stats.comparison.ExpectedFailures;
import org.vaneward.stats.distribution.Weibull;

/** The parts of a fleet with what is believed of their lives: where samples are drawn from. */
final class Parts {
  /** Blank where a part came with the pump. */
  static final String FITTED_AT = "fitted_at";

  static final String KIT_OR_LOOSE = "kit_or_loose";
  private static final String LOOSE = "loose parts";

  private final Lives lives;
  private final LivesTable rows;
  private final Observations observations;
  private final ServiceModels models;
  private final double early;
  private final Map<String, Life> failed = new HashMap<>();
  private final Map<String, Double> spreads = new HashMap<>();

  /**
   * Prepares.
   *
   * @param early share of the life expected in its service within which a failure is early
   */
  Parts(Lives lives, LivesTable table, ServiceModels models, double early) {
    this.lives = lives;
    this.models = models;
    this.early = early;
    rows = table.observed();
    observations = rows.observations();
    for (Life life : lives.lives()) {
      if (life.hasFailed()) {
        failed.put(life.id(), life);
      }
    }
  }

  /** Components with a model, in alphabetical order. */
  List<String> components() {
    return models.components().stream()
        .filter(c -> c.unseen().isPresent())
        .map(ServiceModels.ComponentModels::component)
        .toList();
  }

  Lives lives() {
    return lives;
  }

  LivesTable rows() {
    return rows;
  }

  Observations observations() {
    return observations;
  }

  Optional<LifeModel> model(String component, Optional<Service> service) {
    return models.find(component, service);
  }

  /** The shape the services of a component share. */
  double shape(String component) {
    return anyService(component).shape();
  }

  /** The life of a component in a service drawn anew from all. */
  private Weibull anyService(String component) {
    return models.components().stream()
        .filter(c -> c.component().equals(component))
        .findFirst()
        .flatMap(ServiceModels.ComponentModels::unseen)
        .orElseThrow()
        .weibull();
  }

  Optional<Service> service(int row) {
    String product = rows.text("product", row);
    String duty = rows.text("duty", row);
    return product.isEmpty() && duty.isEmpty()
        ? Optional.empty()
        : Optional.of(new Service(product, duty));
  }

  /**
   * A text of a row; {@link #KIT_OR_LOOSE} is the kit, loose parts, or blank for original parts.
   */
  String text(String column, int row) {
    if (column.equals(KIT_OR_LOOSE)) {
      return kitOrLoose(
          rows.has(FITTED_AT) ? rows.text(FITTED_AT, row) : "",
          rows.has("kit") ? rows.text("kit", row) : "");
    }
    return rows.has(column) ? rows.text(column, row) : "";
  }

  private static String kitOrLoose(String fittedAt, String kit) {
    return fittedAt.isEmpty() || !kit.isEmpty() ? kit : LOOSE;
  }

  /** A text of a start-up failure, by the name its column has in the lives table. */
  static String text(String column, StartUpFailure failure) {
    Map<String, String> covariates = failure.covariates();
    return switch (column) {
      case "pump" -> failure.pump();
      case "site" -> failure.site();
      case "component" -> failure.component();
      case "position" -> failure.position();
      case "ended_on", "fitted_on" -> failure.date().toString();
      case KIT_OR_LOOSE ->
          kitOrLoose(covariates.getOrDefault(FITTED_AT, ""), covariates.getOrDefault("kit", ""));
      default -> covariates.getOrDefault(column, "");
    };
  }

  FailureRecord record(int row) {
    Life life = Optional.ofNullable(failed.get(rows.text(LivesTable.LIFE, row))).orElseThrow();
    return record(life);
  }

  static FailureRecord record(Life life) {
    Map<String, String> covariates = life.covariates();
    return new FailureRecord(
        life.pump(),
        life.component(),
        life.position(),
        life.endedOn(),
        life.end().age(),
        covariates.getOrDefault("ended_at", ""),
        covariates.getOrDefault("mode", ""),
        covariates.getOrDefault("cause", ""),
        life.sources().get(life.sources().size() - 1));
  }

  static FailureRecord record(StartUpFailure failure) {
    Map<String, String> covariates = failure.covariates();
    return new FailureRecord(
        failure.pump(),
        failure.component(),
        failure.position(),
        failure.date(),
        0,
        covariates.getOrDefault("ended_at", ""),
        covariates.getOrDefault("mode", ""),
        covariates.getOrDefault("cause", ""),
        failure.row());
  }

  /** Failures at any age of one component, or of all when it is empty. */
  Sample life(String component, Strata strata) {
    return sample(Outcome.LIFE, component, strata);
  }

  /** Failures early in life of one component. */
  Sample early(String component, Strata strata) {
    return sample(Outcome.EARLY, component, strata);
  }

  private Sample sample(Outcome outcome, String component, Strata strata) {
    int[] chosen = chosen(component, i -> true);
    double[] observed = new double[chosen.length];
    double[] expected = new double[chosen.length];
    int[] stratum = new int[chosen.length];
    Map<List<String>, Integer> numbers = new HashMap<>();
    Map<Integer, Weibull> laws = new HashMap<>();
    for (int k = 0; k < chosen.length; k++) {
      int i = chosen[k];
      stratum[k] = numbers.computeIfAbsent(key(i, strata), x -> numbers.size());
      // Rows of a stratum are of one component and, where the law goes by it, of one service.
      Weibull law = laws.computeIfAbsent(stratum[k], x -> law(i, strata));
      double most = outcome == Outcome.EARLY ? early * law.mean() : Double.POSITIVE_INFINITY;
      boolean counted = observations.upper(i) <= most && !observations.isRightCensored(i);
      double lower = Math.min(observations.lower(i), most);
      double upper = counted ? observations.upper(i) : Double.POSITIVE_INFINITY;
      observed[k] = counted ? observations.count(i) : 0;
      expected[k] =
          lower > observations.entry(i) || counted
              ? observations.count(i)
                  * ExpectedFailures.of(law, observations.entry(i), lower, upper)
              : 0;
    }
    Sample sample =
        new Sample(this, outcome, component, chosen, List.of(), observed, expected, stratum);
    return strata == Strata.SERVICE || outcome != Outcome.LIFE
        ? sample
        : sample.withSpread(spread(component));
  }

  /**
   * Square of the coefficient of variation of the pumps' rates within a service: what products and
   * duties make of them is no difference between pumps.
   */
  private double spread(String component) {
    Double known = spreads.get(component);
    if (known == null) {
      known = sample(Outcome.LIFE, component, Strata.SERVICE).spread();
      spreads.put(component, known);
    }
    return known;
  }

  private int[] chosen(String component, IntPredicate keep) {
    List<String> known = components();
    return IntStream.range(0, rows.rows())
        .filter(
            i ->
                component.isEmpty()
                    ? known.contains(rows.text("component", i))
                    : rows.text("component", i).equals(component))
        .filter(keep)
        .toArray();
  }

  private Weibull law(int row, Strata strata) {
    String component = rows.text("component", row);
    return strata == Strata.SERVICE
        ? models.find(component, service(row)).orElseThrow().weibull()
        : anyService(component);
  }

  private List<String> key(int row, Strata strata) {
    String component = rows.text("component", row);
    String product = rows.text("product", row);
    String duty = rows.text("duty", row);
    return switch (strata) {
      case SERVICE -> List.of(component, product, duty);
      case PRODUCT -> List.of(component, product);
      case DUTY -> List.of(component, duty);
      case COMPONENT -> List.of(component);
    };
  }

  /**
   * Failures on the start-up test among the parts of one component fitted at an opening on record,
   * each of which is as likely to fail so.
   */
  Sample startUp(String component) {
    int[] chosen =
        chosen(component, i -> observations.entry(i) == 0 && !text(FITTED_AT, i).isEmpty());
    List<StartUpFailure> failures =
        lives.startUps().stream()
            .filter(f -> f.component().equals(component))
            .filter(f -> f.covariates().containsKey(FITTED_AT))
            .toList();
    int n = chosen.length + failures.size();
    double[] observed = new double[n];
    double[] expected = new double[n];
    for (int k = 0; k < n; k++) {
      observed[k] = k < chosen.length ? 0 : 1;
      expected[k] = k < chosen.length ? observations.count(chosen[k]) : 1;
    }
    return new Sample(
        this, Outcome.START_UP, component, chosen, failures, observed, expected, new int[n]);
  }
}
