package org.vaneward.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.review.failure.Chain;
import org.vaneward.review.failure.Comparison;
import org.vaneward.review.failure.ComponentByProduct;
import org.vaneward.review.failure.ComponentByProduct.Beside;
import org.vaneward.review.failure.ComponentByProduct.OnProduct;
import org.vaneward.review.failure.ComponentByProduct.Tally;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.Outcome;
import org.vaneward.review.failure.PumpRate;
import org.vaneward.review.failure.ShopCheck;
import org.vaneward.stats.Estimate;

/** The tables of recurring failures, the same for the page and the terminal. */
final class FailureTables {
  private static final double THOUSAND = 1000;
  private static final String NOT_ON_RECORD = "not on record";
  private static final int MOST_WORDS = 4;
  private static final int MOST_CHAINS = 12;
  private static final int MANY_GROUPS = 8;
  private static final int SHOWN_OF_MANY = 3;

  private final Clock clock;

  FailureTables(Clock clock) {
    this.clock = clock;
  }

  /** Rates, ratios and mean numbers of a component by product. */
  Grid products(ComponentByProduct component) {
    List<List<String>> rows = new ArrayList<>();
    for (OnProduct p : component.products()) {
      rows.add(
          List.of(
              named(p.product()),
              Words.whole(p.lives()),
              Words.whole(p.failures()),
              p.rate().map(FailureTables::perThousand).orElse(Words.NONE),
              p.rateRatio().map(FailureTables::ratio).orElse(Words.NONE),
              p(p.p()),
              p.lifeRatio().map(FailureTables::percent).orElse("not estimable")));
    }
    return new Grid(
        List.of(
            "Product",
            "Lives",
            "Failures",
            "Per 1,000 " + Words.unit(clock),
            "Times the rest",
            "p",
            "Life beside others"),
        List.of(
            Kind.TAG, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER),
        rows,
        "No lives.");
  }

  /** Mean cumulative failures of a pump beside the other products. */
  Grid means(ComponentByProduct component) {
    List<List<String>> rows = new ArrayList<>();
    for (OnProduct p : component.products()) {
      Optional<Beside> beside = p.beside();
      rows.add(
          List.of(
              named(p.product()),
              beside.map(b -> Words.age(b.age(), Words.unit(clock))).orElse("too few pumps"),
              beside.map(b -> mean(b.here())).orElse(Words.NONE),
              beside.map(b -> mean(b.elsewhere())).orElse(Words.NONE),
              beside.map(FailureTables::difference).orElse(Words.NONE),
              beside.map(b -> p(b.p())).orElse(Words.NONE)));
    }
    return new Grid(
        List.of("Product", "By", "Failures per pump", "Other products", "Difference", "p"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER),
        rows,
        "No pumps.");
  }

  /** A mean; without limits where the pumps do not differ. */
  private static String mean(Estimate mean) {
    return Double.isFinite(mean.upper()) ? number(mean) : Words.number(mean.estimate());
  }

  private static String difference(Beside b) {
    return b.p().isPresent() ? number(b.difference()) : Words.number(b.difference().estimate());
  }

  /** What was written as mode and cause, most frequent first. */
  Grid modesAndCauses(ComponentByProduct component) {
    List<List<String>> rows =
        component.products().stream()
            .filter(p -> p.failures() > 0)
            .map(p -> List.of(named(p.product()), tallies(p.modes()), tallies(p.causes())))
            .toList();
    return new Grid(
        List.of("Product", "Modes", "Causes as written"),
        List.of(Kind.TAG, Kind.TEXT, Kind.TEXT),
        rows,
        "No failures.");
  }

  private static String tallies(List<Tally> tallies) {
    int all = tallies.stream().mapToInt(Tally::number).sum();
    int shown = tallies.stream().limit(MOST_WORDS).mapToInt(Tally::number).sum();
    return tallies.stream()
            .limit(MOST_WORDS)
            .map(t -> (t.word().isEmpty() ? "nothing written" : t.word()) + " " + t.number())
            .collect(Collectors.joining(", "))
        + (all > shown ? ", others " + (all - shown) : "");
  }

  /** The pumps likeliest to be troubled and those that change. */
  Grid pumps(FailureReview review, int most) {
    List<List<String>> rows = new ArrayList<>();
    for (PumpRate pump : review.pumps()) {
      if (rows.size() < most) {
        rows.add(
            List.of(
                pump.pump(),
                Words.whole(pump.failures()),
                Words.number(pump.expected()),
                number(pump.rate()),
                Words.percent(pump.probabilityTroubled()),
                Words.percent(pump.falseShare()),
                p(pump.adjustedP()),
                pump.trend().words() + trendP(pump)));
      }
    }
    return new Grid(
        List.of(
            "Pump",
            "Failures",
            "Expected",
            "Rate drawn to the fleet's",
            "Troubled",
            "False so far",
            "Adjusted p",
            "Trend"),
        List.of(
            Kind.TAG,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.TEXT),
        rows,
        "No pumps.");
  }

  private static String trendP(PumpRate pump) {
    return switch (pump.trend()) {
      case WORSE -> ", p " + Words.p(pump.trendP().orElse(1));
      case BETTER -> ", p " + Words.p(1 - pump.trendP().orElse(0));
      case STEADY, UNKNOWN -> "";
    };
  }

  /** Runs of early failures, the least likely first. */
  Grid chains(FailureReview review) {
    List<List<String>> rows = new ArrayList<>();
    for (Chain chain : review.chains().chains()) {
      if (rows.size() < MOST_CHAINS) {
        rows.add(
            List.of(
                chain.pump(),
                chain.position(),
                chain.failures().stream()
                    .map(f -> Words.age(f.age(), Words.unit(clock)))
                    .collect(Collectors.joining(", ")),
                Words.whole(chain.lives()),
                Words.percent(chain.p()),
                chain.failures().stream()
                    .map(f -> f.rebuild().isEmpty() ? f.date().toString() : f.rebuild())
                    .collect(Collectors.joining(", "))));
      }
    }
    return new Grid(
        List.of("Pump", "Position", "Failed at", "Parts there", "Chance of such a run", "Records"),
        List.of(Kind.TAG, Kind.TAG, Kind.TEXT, Kind.NUMBER, Kind.NUMBER, Kind.TEXT),
        rows,
        "No part failed early twice in succession.");
  }

  /** How many runs of early failures there are and how many luck alone brings. */
  static String chainWords(FailureReview review) {
    int seen = review.chains().chains().size();
    double expected = review.chains().expected();
    String balance =
        seen <= expected
            ? "no more than luck accounts for, taken together."
            : "somewhat more than luck accounts for; the first of them are worth a look.";
    return "A part failed early twice or more in succession, each time before "
        + Words.percent(review.chains().share())
        + " of the life expected there, in "
        + Words.count(seen, "position", "positions")
        + " of "
        + Words.whole(review.chains().positions())
        + ". By the fleet's own model "
        + Words.number(expected)
        + " were to be expected: "
        + balance;
  }

  /**
   * Groups side by side, one comparison after the other; of many groups those that fail most beyond
   * chance, and how many others there are.
   */
  Grid comparisons(List<Comparison> comparisons) {
    List<List<String>> rows = new ArrayList<>();
    for (Comparison c : comparisons) {
      for (Comparison.Row row : shown(c)) {
        rows.add(
            List.of(
                Words.capital(FindingWords.plural(c.component())),
                outcome(c.outcome()),
                c.column().replace('_', ' '),
                row.name(),
                Words.whole(row.parts()),
                Words.whole(row.failures()),
                row.ratio().isPresent() ? Words.whole(row.comparable()) : Words.NONE,
                row.ratio().isPresent() ? Words.number(row.expected()) : Words.NONE,
                row.ratio().map(FailureTables::ratio).orElse(Words.NONE),
                row.lifeRatio().map(FailureTables::percent).orElse(Words.NONE),
                p(row.adjustedP())));
      }
    }
    return new Grid(
        List.of(
            "Parts",
            "Failures",
            "By",
            "Group",
            "Watched",
            "Failed",
            "Comparable",
            "Expected",
            "Times the rest",
            "Life beside it",
            "Adjusted p"),
        List.of(
            Kind.TAG,
            Kind.TEXT,
            Kind.TEXT,
            Kind.TAG,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER),
        rows,
        "Too few failures to compare.");
  }

  private static List<Comparison.Row> shown(Comparison c) {
    if (c.rows().size() <= MANY_GROUPS) {
      return c.rows();
    }
    List<Comparison.Row> worst =
        c.rows().stream()
            .filter(row -> row.comparable() > row.expected() && row.p().isPresent())
            .sorted(Comparator.comparingDouble(row -> row.p().orElse(1)))
            .limit(SHOWN_OF_MANY)
            .toList();
    List<Comparison.Row> others = new ArrayList<>(c.rows());
    others.removeAll(worst);
    List<Comparison.Row> shown = new ArrayList<>(worst);
    shown.add(
        new Comparison.Row(
            Words.count(others.size(), "other", "others"),
            others.stream().mapToDouble(Comparison.Row::parts).sum(),
            others.stream().mapToDouble(Comparison.Row::failures).sum(),
            Double.NaN,
            Double.NaN,
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty()));
    return shown;
  }

  static String outcome(Outcome outcome) {
    return switch (outcome) {
      case START_UP -> "at start-up";
      case EARLY -> "early";
      case LIFE -> "any age";
    };
  }

  /** Causes a shop can look for. */
  static Grid shopChecks() {
    List<List<String>> rows = new ArrayList<>();
    for (ShopCheck check : ShopCheck.values()) {
      rows.add(
          List.of(
              Words.capital(check.cause()),
              check.components().stream().sorted().collect(Collectors.joining(", ")),
              check.check()));
    }
    return new Grid(
        List.of("Cause", "Parts that suffer", "What to check"),
        List.of(Kind.TEXT, Kind.TEXT, Kind.TEXT),
        rows,
        "");
  }

  static String named(String product) {
    return product.isEmpty() ? NOT_ON_RECORD : product;
  }

  private static String perThousand(Estimate rate) {
    return String.format(
        Locale.ROOT,
        "%.3f (%.3f to %.3f)",
        THOUSAND * rate.estimate(),
        THOUSAND * rate.lower(),
        THOUSAND * rate.upper());
  }

  static String ratio(Estimate ratio) {
    return Double.isFinite(ratio.estimate())
        ? number(ratio)
        : "over " + Words.number(ratio.lower());
  }

  private static String number(Estimate estimate) {
    return Words.number(estimate);
  }

  static String percent(Estimate share) {
    String upper = Double.isFinite(share.upper()) ? Words.percent(share.upper()) : "no limit";
    String estimate =
        Double.isFinite(share.estimate()) ? Words.percent(share.estimate()) : "no failure";
    return estimate + " (" + Words.percent(share.lower()) + " to " + upper + ")";
  }

  private static String p(OptionalDouble p) {
    return p.isPresent() ? Words.p(p.getAsDouble()) : Words.NONE;
  }
}
