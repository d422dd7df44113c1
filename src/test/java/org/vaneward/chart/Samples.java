package org.vaneward.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.vaneward.stats.distribution.Weibull;

/** Invented inputs for pictures, one of each kind, with names meant to do harm. */
final class Samples {
  static final String EVIL = "P-<script>alert(\"1\" & '2')</script>";
  static final LocalDate TODAY = LocalDate.of(2026, 5, 14);
  static final LocalDate HORIZON = LocalDate.of(2028, 5, 14);
  static final Weibull LIFE = new Weibull(2.1, 5200);

  private Samples() {}

  static ProbabilityPlot.Group group(String label, Weibull life, int n) {
    List<ProbabilityPlot.Point> points = new ArrayList<>();
    List<LimitPoint> limits = new ArrayList<>();
    for (int i = 1; i <= n; i++) {
      double share = (i - 0.3) / (n + 0.4);
      double age = life.quantile(share);
      points.add(new ProbabilityPlot.Point(age, share));
      limits.add(new LimitPoint(age, 0.8 * share, Math.min(1, 1.2 * share)));
    }
    return new ProbabilityPlot.Group(label, points, Optional.of(life), limits, AgeUnit.HOURS);
  }

  static SurvivalPlot.Input survival(String label) {
    List<SurvivalPlot.Step> steps =
        List.of(
            new SurvivalPlot.Step(1200, 0.9, 0.7, 0.97, 10, 1),
            new SurvivalPlot.Step(2600, 0.75, 0.5, 0.9, 6, 1),
            new SurvivalPlot.Step(4100, 0.5, 0.2, 0.75, 3, 1));
    return new SurvivalPlot.Input(
        label, steps, List.of(4800.0, 1900.0), Optional.of(LIFE), 0.9, AgeUnit.HOURS);
  }

  static List<CostCurve.Point> costs() {
    List<CostCurve.Point> points = new ArrayList<>();
    for (int hours = 50; hours <= 8000; hours += 50) {
      // any curve with a minimum will do: 400 at 2,000 h
      points.add(new CostCurve.Point(hours, 400_000.0 / hours + hours * 0.1));
    }
    return points;
  }

  static CostCurve.Input cost(String currency) {
    CostCurve.Point least = new CostCurve.Point(2000, 400);
    return new CostCurve.Input(
        currency,
        costs(),
        Optional.of(new CostCurve.Optimum(least, 1640, 2440, 0.02)),
        700,
        List.of(new CostCurve.Limit("mandated", 4000)),
        AgeUnit.HOURS);
  }

  static List<FleetStrip.Row> rows(String firstTag) {
    return List.of(
        new FleetStrip.Row(
            firstTag,
            Optional.of(TODAY.minusDays(9)),
            Optional.of(new FleetStrip.Window(TODAY.minusDays(40), TODAY.plusDays(30))),
            Optional.empty(),
            OptionalDouble.of(411.6)),
        new FleetStrip.Row(
            "P-2",
            Optional.of(TODAY.plusDays(120)),
            Optional.of(new FleetStrip.Window(TODAY.plusDays(80), TODAY.plusDays(200))),
            Optional.of(TODAY.plusDays(300)),
            OptionalDouble.of(8120)),
        new FleetStrip.Row(
            "P-3", Optional.empty(), Optional.empty(), Optional.empty(), OptionalDouble.empty()),
        new FleetStrip.Row(
            "P-4",
            Optional.of(LocalDate.of(2035, 1, 1)),
            Optional.empty(),
            Optional.empty(),
            OptionalDouble.of(0)));
  }

  static List<FailureBars.Bar> bars(String firstProduct) {
    return List.of(
        new FailureBars.Bar(firstProduct, 23, 41_200, 0.558, 0.38, 0.8, AgeUnit.HOURS),
        new FailureBars.Bar("jet fuel", 0, 5200, 0, 0, 0.576, AgeUnit.HOURS));
  }

  static List<MeanFailures.Line> means(String firstProduct) {
    List<MeanFailures.Line> lines = new ArrayList<>();
    for (String product : List.of(firstProduct, "diesel", "jet fuel", "urea", "LPG")) {
      double slope = 1.0 / (2 + lines.size());
      List<MeanFailures.Point> points = new ArrayList<>();
      for (int i = 1; i <= 6; i++) {
        double mean = slope * i;
        points.add(new MeanFailures.Point(1500.0 * i, mean, 0.7 * mean, 1.4 * mean));
      }
      lines.add(new MeanFailures.Line(product, points, 9 - lines.size()));
    }
    return lines;
  }

  static List<Pareto.Bar> causes(String firstCause) {
    return List.of(
        new Pareto.Bar(firstCause, 61),
        new Pareto.Bar("dirt", 23),
        new Pareto.Bar("dry running", 12),
        new Pareto.Bar("not known", 4));
  }

  static LifeMap.Input lives(String firstName) {
    return new LifeMap.Input(
        "age by which half have failed",
        List.of(firstName, "diesel", "jet fuel"),
        List.of("seal-inboard", "vanes"),
        List.of(
            new LifeMap.Cell(firstName, "seal-inboard", 900, 700, 1300, LifeMap.Basis.OWN),
            new LifeMap.Cell("diesel", "seal-inboard", 3100, 2000, 5200, LifeMap.Basis.FEW),
            new LifeMap.Cell("jet fuel", "seal-inboard", 4100, 1900, 9000, LifeMap.Basis.OTHERS),
            new LifeMap.Cell(firstName, "vanes", 8800, 6100, 12_500, LifeMap.Basis.OWN),
            new LifeMap.Cell(
                "diesel", "vanes", 15_000, 9000, Double.POSITIVE_INFINITY, LifeMap.Basis.OWN)),
        0.9,
        AgeUnit.HOURS);
  }

  static List<CalendarMap.Week> weeks() {
    List<CalendarMap.Week> weeks = new ArrayList<>();
    LocalDate monday = LocalDate.of(2026, 12, 14);
    for (int i = 0; i < 6; i++) {
      boolean closed = i == 1 || i == 2;
      weeks.add(new CalendarMap.Week(monday.plusWeeks(i), OptionalInt.of(3), closed));
    }
    return weeks;
  }

  static List<CalendarMap.Site> sites(String firstSite) {
    return List.of(
        new CalendarMap.Site(firstSite, List.of(2, 0, 0, 4, 0, 1)),
        new CalendarMap.Site("Depot B", List.of(1, 0, 0, 1, 0, 12)));
  }

  static PumpTimeLine.Input history(String firstName) {
    LocalDate start = LocalDate.of(2021, 3, 1);
    LocalDate stop = LocalDate.of(2023, 7, 11);
    LocalDate rebuild = LocalDate.of(2025, 2, 3);
    return new PumpTimeLine.Input(
        firstName,
        TODAY,
        List.of(
            new PumpTimeLine.Position(
                firstName,
                List.of(
                    new PumpTimeLine.Span(start, stop, PumpTimeLine.End.STOPPED),
                    new PumpTimeLine.Span(stop, rebuild, PumpTimeLine.End.GOOD),
                    new PumpTimeLine.Span(rebuild, TODAY, PumpTimeLine.End.IN_PLACE))),
            new PumpTimeLine.Position(
                "vanes",
                List.of(
                    new PumpTimeLine.Span(start, rebuild, PumpTimeLine.End.FOUND),
                    new PumpTimeLine.Span(rebuild, TODAY, PumpTimeLine.End.IN_PLACE)))),
        List.of(new PumpTimeLine.Opening(rebuild, true), new PumpTimeLine.Opening(stop, false)),
        List.of(
            new PumpTimeLine.Service(start, firstName),
            new PumpTimeLine.Service(LocalDate.of(2024, 1, 1), "diesel")),
        new PumpTimeLine.Next(
            Optional.of(TODAY.plusDays(120)),
            Optional.of(new FleetStrip.Window(TODAY.plusDays(80), TODAY.plusDays(200))),
            Optional.of(TODAY.plusDays(300))));
  }

  /** One picture of each kind, every name in it {@code name}. */
  static List<Picture> all(String name) {
    return List.of(
        ProbabilityPlot.draw("One " + name, List.of(group(name, LIFE, 30))),
        ProbabilityPlot.draw(
            "Two " + name,
            List.of(group(name, LIFE, 30), group("diesel", new Weibull(1.4, 9000), 20))),
        SurvivalPlot.draw("Survival " + name, survival(name)),
        CostCurve.draw("Cost " + name, cost(name)),
        FleetStrip.draw("Fleet " + name, rows(name), TODAY, HORIZON, AgeUnit.HOURS),
        FailureBars.draw("Failures " + name, name, bars(name), 0.9),
        MeanFailures.draw("Means " + name, name, means(name), 0.9, AgeUnit.HOURS),
        Pareto.draw("Causes " + name, name, name, causes(name)),
        LifeMap.draw("Lives " + name, lives(name)),
        CalendarMap.draw("Weeks " + name, weeks(), sites(name)),
        PumpTimeLine.draw("History " + name, history(name)));
  }
}
