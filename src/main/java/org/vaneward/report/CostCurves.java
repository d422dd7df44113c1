package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.CostCurve;
import org.vaneward.chart.Picture;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.Window;
import org.vaneward.report.ServiceInterval.Costed;
import org.vaneward.stats.Estimate;

/**
 * Draws what a planned interval costs in the long run.
 *
 * @param currency of the costs
 * @param unit of the intervals
 */
record CostCurves(String currency, AgeUnit unit) {
  private static final double THOUSAND = 1000;
  private static final int CURVE_POINTS = 80;
  private static final double CURVE_FROM = 0.15;
  private static final double CURVE_TO = 3;

  static CostCurves of(FleetAnalysis analysis) {
    return new CostCurves(
        analysis.fleetSettings().currency(),
        AgeUnit.valueOf(analysis.fleetSettings().clock().name()));
  }

  /** The curve of each service that has a cost model, in their order. */
  List<Picture> of(List<ServiceInterval> intervals) {
    // Each point is a mean over all draws: worth both processors. Pictures are drawn one by one.
    List<List<CostCurve.Point>> points =
        intervals.parallelStream()
            .map(one -> one.costed().map(CostCurves::points).orElse(List.of()))
            .toList();
    List<Picture> curves = new ArrayList<>();
    for (int i = 0; i < points.size(); i++) {
      ServiceInterval one = intervals.get(i);
      List<CostCurve.Point> curve = points.get(i);
      one.costed().ifPresent(costed -> curves.add(curve(one, costed, curve)));
    }
    return curves;
  }

  private static double middle(Costed costed) {
    return costed.advice().intervalHours().orElse(shortestLife(costed));
  }

  private static List<CostCurve.Point> points(Costed costed) {
    double from = CURVE_FROM * middle(costed);
    double to = CURVE_TO * middle(costed);
    List<CostCurve.Point> points = new ArrayList<>();
    for (int i = 0; i < CURVE_POINTS; i++) {
      double hours = from + (to - from) * i / (CURVE_POINTS - 1);
      Estimate perHour = costed.cost().at(hours);
      points.add(
          new CostCurve.Point(
              hours,
              THOUSAND * perHour.estimate(),
              THOUSAND * perHour.lower(),
              THOUSAND * perHour.upper()));
    }
    return points;
  }

  private Picture curve(ServiceInterval one, Costed costed, List<CostCurve.Point> points) {
    CappedInterval interval = costed.interval();
    double to = CURVE_TO * middle(costed);
    List<CostCurve.Limit> limits = new ArrayList<>();
    interval
        .mandatedHours()
        .ifPresent(hours -> addLimit(limits, "mandated, at mean use", hours, to));
    interval
        .ceilingHours()
        .ifPresent(
            hours ->
                addLimit(
                    limits,
                    interval.ceiling().map(c -> "ceiling on " + c.component()).orElse("ceiling"),
                    hours,
                    to));
    return CostCurve.draw(
        one.label() + ": cost against interval",
        new CostCurve.Input(
            currency,
            points,
            optimum(interval),
            THOUSAND * interval.advice().runToFailure().estimate(),
            limits,
            unit));
  }

  /** Where there is no best interval, the curve is drawn about the life that ends first. */
  private static double shortestLife(Costed costed) {
    return costed.available().model().positions().stream()
        .mapToDouble(p -> p.life().quantile(0.5))
        .min()
        .orElseThrow();
  }

  private static void addLimit(
      List<CostCurve.Limit> limits, String label, double hours, double to) {
    if (hours > 0 && hours < to) {
      limits.add(new CostCurve.Limit(label, hours));
    }
  }

  private static Optional<CostCurve.Optimum> optimum(CappedInterval interval) {
    if (interval.advice().intervalHours().isEmpty() || interval.advice().window().isEmpty()) {
      return Optional.empty();
    }
    Window window = interval.advice().window().get();
    return Optional.of(
        new CostCurve.Optimum(
            new CostCurve.Point(
                interval.advice().intervalHours().getAsDouble(),
                THOUSAND * interval.advice().costPerHour()),
            window.fromHours(),
            window.toHours().orElse(Double.POSITIVE_INFINITY),
            IntervalSearch.WINDOW_SHARE));
  }
}
