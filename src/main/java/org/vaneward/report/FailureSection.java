package org.vaneward.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.FailureBars;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.life.Life;
import org.vaneward.life.LivesTable;
import org.vaneward.life.StartUpFailure;
import org.vaneward.report.Page.FailurePart;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.nonparametric.FailureRate;

/** What fails again: rates by product, and failures on the start-up test by crew. */
final class FailureSection {
  private static final double THOUSAND = 1000;
  private static final String NOT_ON_RECORD = "not on record";

  private final FleetAnalysis analysis;
  private final Clock clock;
  private final Map<String, List<ProductRate>> rates = new TreeMap<>();
  private final List<CrewCount> crews;

  FailureSection(FleetAnalysis analysis) {
    this.analysis = analysis;
    this.clock = analysis.fleetSettings().clock();
    for (Component component : analysis.fleetSettings().components()) {
      rates.put(component.component(), rates(component.component()));
    }
    this.crews = crews();
  }

  /**
   * Failures of one component on one product.
   *
   * @param rate per hour
   * @param restPerHour the rate on every other product together; NaN when there is none
   */
  private record ProductRate(
      String product, double failures, double hours, Estimate rate, double restPerHour) {
    /** Failures come faster than on the rest even at the lower limit. */
    boolean clearlyHigh() {
      return rate.lower() > restPerHour;
    }
  }

  private record CrewCount(String crew, long fitted, long startUps) {
    double share() {
      return fitted == 0 ? 0 : (double) startUps / fitted;
    }
  }

  private List<ProductRate> rates(String component) {
    Map<String, double[]> counts = new TreeMap<>();
    LivesTable table = analysis.table();
    double failures = 0;
    double hours = 0;
    for (int i = 0; i < table.rows(); i++) {
      if (!table.text("component", i).equals(component)) {
        continue;
      }
      double watched = table.count(i) * (endOf(table, i) - table.entry(i));
      double failed = table.failed(i) ? table.count(i) : 0;
      String product = table.text("product", i);
      double[] count =
          counts.computeIfAbsent(product.isEmpty() ? NOT_ON_RECORD : product, p -> new double[2]);
      count[0] += failed;
      count[1] += watched;
      failures += failed;
      hours += watched;
    }
    List<ProductRate> list = new ArrayList<>();
    double allFailures = failures;
    double allHours = hours;
    counts.forEach(
        (product, count) -> {
          if (count[1] > 0) {
            double rest = allHours - count[1];
            list.add(
                new ProductRate(
                    product,
                    count[0],
                    count[1],
                    FailureRate.of(count[0], count[1], analysis.settings().confidence()),
                    rest > 0 ? (allFailures - count[0]) / rest : Double.NaN));
          }
        });
    list.sort(Comparator.comparingDouble((ProductRate r) -> -r.rate().estimate()));
    return list;
  }

  private static double endOf(LivesTable table, int i) {
    return table.failed(i) ? table.upper(i) : table.lower(i);
  }

  private List<CrewCount> crews() {
    Map<String, long[]> counts = new TreeMap<>();
    for (Life life : analysis.fleet().lives().lives()) {
      String crew = life.covariates().get("crew");
      if (crew != null) {
        counts.computeIfAbsent(crew, c -> new long[2])[0]++;
      }
    }
    for (StartUpFailure failure : analysis.fleet().lives().startUps()) {
      String crew = failure.covariates().get("crew");
      long[] count = counts.computeIfAbsent(crew == null ? NOT_ON_RECORD : crew, c -> new long[2]);
      count[0]++;
      count[1]++;
    }
    List<CrewCount> list = new ArrayList<>();
    counts.forEach((crew, count) -> list.add(new CrewCount(crew, count[0], count[1])));
    list.sort(Comparator.comparingDouble((CrewCount c) -> -c.share()));
    return list;
  }

  FailurePart part() {
    List<Picture> bars = new ArrayList<>();
    rates.forEach((component, list) -> bars(component, list).ifPresent(bars::add));
    return new FailurePart(
        "Failures per 1,000 "
            + Words.unitWords(clock)
            + " by product, unadjusted for duty, age or crew, with limits"
            + " at "
            + Words.percent(analysis.settings().confidence())
            + ". A rate counts running, not ages: it says where failures come often, not why.",
        bars,
        startUpGrid());
  }

  private Optional<Picture> bars(String component, List<ProductRate> list) {
    if (list.isEmpty()) {
      return Optional.empty();
    }
    List<FailureBars.Bar> bars =
        list.stream()
            .limit(FailureBars.MOST_BARS)
            .map(
                r ->
                    new FailureBars.Bar(
                        r.product(),
                        (int) Math.round(r.failures()),
                        r.hours(),
                        THOUSAND * r.rate().estimate(),
                        THOUSAND * r.rate().lower(),
                        THOUSAND * r.rate().upper(),
                        AgeUnit.valueOf(clock.name())))
            .toList();
    return Optional.of(
        FailureBars.draw(
            Words.capital(component) + ": failures by product",
            component,
            bars,
            analysis.settings().confidence()));
  }

  private Grid startUpGrid() {
    List<List<String>> rows =
        crews.stream()
            .map(
                c ->
                    List.of(
                        c.crew(),
                        Words.whole(c.fitted()),
                        Words.whole(c.startUps()),
                        Words.percent(c.share())))
            .toList();
    return new Grid(
        List.of("Crew", "Parts fitted", "Failed on the start-up test", "Share"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER),
        rows,
        "No crew is on record.");
  }

  /** What to look into in the shop, as sentences. */
  List<String> lookInto() {
    List<String> sentences = new ArrayList<>();
    rates.forEach(
        (component, list) ->
            list.stream()
                .filter(ProductRate::clearlyHigh)
                .forEach(rate -> sentences.add(hardProduct(component, rate))));
    weakCrew().ifPresent(sentences::add);
    return sentences;
  }

  private String hardProduct(String component, ProductRate rate) {
    return Words.capital(component)
        + " failures come "
        + Words.times(rate.rate().estimate() / rate.restPerHour())
        + " as often in the same running on "
        + rate.product()
        + " as on the rest of the fleet ("
        + Words.count(Math.round(rate.failures()), "failure", "failures")
        + " in "
        + Words.age(rate.hours(), Words.unit(clock))
        + "; at least "
        + Words.times(rate.rate().lower() / rate.restPerHour())
        + " at "
        + Words.percent(analysis.settings().confidence())
        + " two-sided limits).";
  }

  /** The crew whose share of start-up failures stands clear of the other crews together. */
  private Optional<String> weakCrew() {
    long fitted = crews.stream().mapToLong(CrewCount::fitted).sum();
    long failed = crews.stream().mapToLong(CrewCount::startUps).sum();
    for (CrewCount crew : crews) {
      long others = fitted - crew.fitted();
      if (crew.startUps() == 0 || others == 0 || crew.crew().equals(NOT_ON_RECORD)) {
        continue;
      }
      double rest = (double) (failed - crew.startUps()) / others;
      Estimate share =
          FailureRate.of(
              (double) crew.startUps(), (double) crew.fitted(), analysis.settings().confidence());
      if (share.lower() > rest) {
        return Optional.of(
            "Of the parts "
                + crew.crew()
                + " fitted, "
                + Words.percent(crew.share())
                + " failed on the start-up test ("
                + crew.startUps()
                + " of "
                + Words.whole(crew.fitted())
                + "); of those the other crews fitted, "
                + Words.percent(rest)
                + ". Dirty faces, a nicked shaft or a wrongly aligned seat show on the start-up test"
                + " (common practice, no source).");
      }
    }
    return Optional.empty();
  }
}
