package org.vaneward.report;

import java.util.List;
import java.util.Optional;
import org.vaneward.io.JsonFields;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.nonparametric.AdjustedRanks;
import org.vaneward.stats.nonparametric.NelsonAalen;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.nonparametric.RankRegression;
import org.vaneward.stats.nonparametric.Turnbull;

/** Curves without a model, as keys of a JSON document. */
final class CurveFields {
  private CurveFields() {}

  /** The product limit, and with interval failures Turnbull's masses. */
  static JsonFields of(Observations lives, double confidence) {
    ProductLimit curve = ProductLimit.of(lives, confidence);
    JsonFields fields =
        new JsonFields()
            .with("product_limit", curve.points().stream().map(CurveFields::step).toList())
            .with("product_limit_zero_too_soon", curve.zeroTooSoon());
    if (hasIntervals(lives)) {
      Turnbull turnbull = Turnbull.of(lives);
      fields.with(
          "intervals",
          turnbull.masses().stream()
              .map(
                  m ->
                      new JsonFields()
                          .with("from", m.from())
                          .with("to", m.to())
                          .with("mass", m.mass()))
              .toList());
    }
    return fields;
  }

  /**
   * What goes with one group looked at closely: cumulative hazard, plotting positions, and the line
   * through them, which is a check and no fit.
   */
  static JsonFields closely(Observations lives, double confidence) {
    JsonFields fields =
        new JsonFields()
            .with(
                "cumulative_hazard",
                NelsonAalen.of(lives, confidence).points().stream()
                    .map(CurveFields::hazard)
                    .toList());
    if (AdjustedRanks.of(lives) instanceof AdjustedRanks.Ranked ranked) {
      fields.with("plot", ranked.points().stream().map(CurveFields::plotted).toList());
      line(ranked).ifPresent(line -> fields.with("rank_regression_check", check(line)));
    }
    return fields;
  }

  /** The line of log age on exact median rank. */
  static Optional<RankRegression.Line> line(AdjustedRanks.Ranked ranks) {
    return RankRegression.of(
                ranks,
                RankRegression.Position.MEDIAN_RANK,
                RankRegression.Direction.AGE_ON_POSITION)
            instanceof RankRegression.Line line
        ? Optional.of(line)
        : Optional.empty();
  }

  private static JsonFields check(RankRegression.Line line) {
    return new JsonFields()
        .with("shape", line.weibull().shape())
        .with("scale", line.weibull().scale())
        .with("correlation", line.correlation());
  }

  private static JsonFields hazard(NelsonAalen.Point p) {
    return new JsonFields()
        .with("age", p.age())
        .with("estimate", p.cumulativeHazard())
        .with("std_error", p.stdError())
        .with("lower", p.lower())
        .with("upper", p.upper());
  }

  private static JsonFields step(ProductLimit.Point p) {
    return new JsonFields()
        .with("age", p.age())
        .with("survival", p.survival())
        .with("std_error", p.stdError())
        .with("lower", p.lower())
        .with("upper", p.upper())
        .with("at_risk", p.atRisk())
        .with("events", p.events());
  }

  private static JsonFields plotted(AdjustedRanks.Point p) {
    return new JsonFields()
        .with("age", p.age())
        .with("adjusted_rank", p.rank())
        .with("median_rank", p.medianRank())
        .with("benard", p.benard());
  }

  private static boolean hasIntervals(Observations lives) {
    for (int i = 0; i < lives.size(); i++) {
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        return true;
      }
    }
    return false;
  }

  /** A list of quantiles as {@code fit} promises them. */
  static List<JsonFields> quantiles(List<Quantile> quantiles) {
    return quantiles.stream()
        .map(
            q ->
                new JsonFields()
                    .with("p", q.p())
                    .with("estimate", q.age().estimate())
                    .with("lower", q.age().lower())
                    .with("upper", q.age().upper()))
        .toList();
  }
}
