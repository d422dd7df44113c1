package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.vaneward.model.LifeDraws;
import org.vaneward.policy.BlockCost;
import org.vaneward.policy.BlockSearch;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.DrawnCostModel;
import org.vaneward.policy.DrawnRisk;
import org.vaneward.policy.DrawnRun;
import org.vaneward.policy.IntervalAdvice;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.PositionRisk;
import org.vaneward.policy.RunCost;
import org.vaneward.policy.RunOn;
import org.vaneward.policy.Window;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.renewal.CountDistribution;
import org.vaneward.stats.renewal.RenewalFunction;

/** Planned intervals and further running beside values computed in R. */
final class DecisionChecks {
  private static final String SOURCE = "computed in R";
  private static final Map<String, String> CITATIONS = new LinkedHashMap<>();

  static {
    CITATIONS.put(
        SOURCE,
        "the cost rate of Barlow and Proschan, Mathematical Theory of Reliability, 1965, ch. 4, by quadrature, root"
            + " finding and minimisation, two routes each; no printed optimum is claimed");
  }

  private DecisionChecks() {}

  static ValidationSection intervals() {
    List<ValidationRow> rows = new ArrayList<>();
    for (Case c : Reference.cases("decisions")) {
      if (c.name().startsWith("age-")) {
        JsonNode e = c.expected();
        IntervalAdvice advice = IntervalSearch.best(model(e));
        add(rows, c, "interval", e.get("interval"), advice.intervalHours());
        add(rows, c, "cost rate", e.get("cost_rate"), OptionalDouble.of(advice.costPerHour()));
        add(
            rows,
            c,
            "cost rate, run to failure",
            e.get("run_to_failure_cost_rate"),
            OptionalDouble.of(advice.runToFailureCostPerHour()));
        JsonNode window = e.get("window");
        add(
            rows,
            c,
            "window from",
            window.get("from"),
            advice.window().stream().mapToDouble(Window::fromHours).findFirst());
        add(
            rows,
            c,
            "window to",
            window.get("to"),
            advice.window().map(Window::toHours).orElse(OptionalDouble.empty()));
      }
    }
    return new ValidationSection(
        "Planned interval",
        "decisions",
        "Rebuild all at the interval or at the first failure, whichever comes first; the window is where the cost rate is\n"
            + "within 2% of the least.",
        rows,
        CITATIONS);
  }

  static ValidationSection blocks() {
    List<ValidationRow> rows = new ArrayList<>();
    for (Case c : Reference.cases("decisions")) {
      if (c.name().startsWith("block-")) {
        JsonNode e = c.expected();
        CostModel model = model(e);
        IntervalAdvice advice = BlockSearch.best(model);
        add(rows, c, "interval", e.get("interval"), advice.intervalHours());
        add(rows, c, "cost rate", e.get("cost_rate"), OptionalDouble.of(advice.costPerHour()));
        add(
            rows,
            c,
            "cost rate, mending for ever",
            e.get("run_to_failure_cost_rate"),
            OptionalDouble.of(advice.runToFailureCostPerHour()));
        add(
            rows,
            c,
            "window from",
            e.at("/window/from"),
            advice.window().stream().mapToDouble(Window::fromHours).findFirst());
        add(
            rows,
            c,
            "window to",
            e.at("/window/to"),
            advice.window().map(Window::toHours).orElse(OptionalDouble.empty()));
        if (advice.intervalHours().isPresent()) {
          double hours = advice.intervalHours().getAsDouble();
          add(
              rows,
              c,
              "failures in an interval",
              e.get("expected_failures_per_interval"),
              OptionalDouble.of(BlockCost.of(model).expectedFailures(hours)));
        }
      }
    }
    return new ValidationSection(
        "Planned interval, only the failed part renewed before",
        "decisions",
        "Rebuild all at the interval; a part that fails before is renewed alone.",
        rows,
        CITATIONS);
  }

  static ValidationSection renewals() {
    List<ValidationRow> rows = new ArrayList<>();
    for (Case c : Reference.cases("decisions")) {
      if (c.name().startsWith("renewal-function")) {
        JsonNode e = c.expected();
        RenewalFunction renewals = RenewalFunction.of(new Weibull(e.get("shape").asDouble(), 1));
        for (int i = 0; i < e.get("t_over_scale").size(); i++) {
          double t = e.get("t_over_scale").get(i).asDouble();
          add(
              rows,
              c,
              "renewals by " + ValidationRow.number(t) + " scales",
              e.get("renewal_function").get(i),
              OptionalDouble.of(renewals.at(t)));
        }
      }
    }
    return new ValidationSection(
        "Renewal function",
        "decisions",
        "Expected renewals of one position whose part is renewed whenever it fails.",
        rows,
        CITATIONS);
  }

  static ValidationSection spares() {
    List<ValidationRow> rows = new ArrayList<>();
    for (Case c : Reference.cases("decisions")) {
      if (c.name().startsWith("spares-")) {
        JsonNode e = c.expected();
        CountDistribution parts =
            CountDistribution.ofRenewals(
                    new Weibull(e.get("shape").asDouble(), e.get("scale").asDouble()),
                    e.get("horizon").asDouble())
                .times(e.get("positions").asInt());
        add(rows, c, "mean", e.get("mean"), OptionalDouble.of(parts.mean()));
        add(
            rows,
            c,
            "standard deviation",
            e.get("sd"),
            OptionalDouble.of(parts.standardDeviation()));
        for (JsonNode stock : e.get("stock")) {
          double level = stock.get("service_level").asDouble();
          add(
              rows,
              c,
              "enough with " + ValidationRow.number(level),
              stock.get("units"),
              OptionalDouble.of(parts.quantile(level)));
        }
        for (int k = 0; k < e.get("probability").size(); k++) {
          add(
              rows,
              c,
              "chance of " + k,
              e.get("probability").get(k),
              OptionalDouble.of(parts.chance(k)));
        }
      }
    }
    return new ValidationSection(
        "Parts used up to a horizon",
        "decisions",
        "Positions whose part is new at 0 and renewed only when it fails.",
        rows,
        CITATIONS);
  }

  static ValidationSection nextStop() {
    List<ValidationRow> rows = new ArrayList<>();
    for (Case c : Reference.cases("decisions")) {
      if (c.name().startsWith("next-stop")) {
        JsonNode e = c.expected();
        CostModel model = model(e);
        List<Double> ages = new ArrayList<>();
        e.get("ages").forEach(age -> ages.add(age.asDouble()));
        RunCost run = RunCost.fromAges(model, ages);
        double rate = IntervalSearch.best(model).costPerHour();
        add(rows, c, "long-run cost rate", e.get("long_run_cost_rate"), OptionalDouble.of(rate));
        add(rows, c, "further running", e.get("run_on"), dueHours(model, ages, rate));
        for (int i = 0; i < e.get("further_running").size(); i++) {
          double further = e.get("further_running").get(i).asDouble();
          add(
              rows,
              c,
              "chance of a stop within " + ValidationRow.number(further),
              e.get("failure_probability").get(i),
              OptionalDouble.of(1 - run.survival(further)));
        }
      }
    }
    return new ValidationSection(
        "Next rebuild of one pump",
        "decisions",
        "A pump whose parts have ages of their own.",
        rows,
        CITATIONS);
  }

  private static OptionalDouble dueHours(CostModel model, List<Double> ages, double rate) {
    DrawnCostModel known =
        new DrawnCostModel(
            model.plannedCost(),
            model.positions().stream()
                .map(
                    r ->
                        new DrawnRisk(
                            r.position(),
                            r.component(),
                            LifeDraws.certain((Weibull) r.life()),
                            r.unplannedCost(),
                            r.mendCost(),
                            r.announces(),
                            r.hiddenCostPerHour()))
                .toList());
    double[] now = ages.stream().mapToDouble(Double::doubleValue).toArray();
    return RunOn.best(DrawnRun.fromAges(known, now), rate).dueHours();
  }

  private static void add(
      List<ValidationRow> rows, Case c, String quantity, JsonNode expected, OptionalDouble got) {
    double wanted = expected.isNull() ? Double.POSITIVE_INFINITY : expected.asDouble();
    double tolerance = c.node().get("tolerance").asDouble();
    double slack =
        Math.max(c.node().path("absolute_tolerance").asDouble(0), tolerance * Math.abs(wanted));
    rows.add(
        ValidationRow.of(
            c.name(),
            quantity,
            SOURCE,
            wanted,
            got.orElse(Double.POSITIVE_INFINITY),
            slack,
            String.format(Locale.ROOT, "rel. %.0e", tolerance)));
  }

  private static CostModel model(JsonNode expected) {
    List<PositionRisk> positions = new ArrayList<>();
    for (JsonNode p : expected.get("positions")) {
      Weibull life = new Weibull(p.get("shape").asDouble(), p.get("scale").asDouble());
      String name = "p" + positions.size();
      positions.add(PositionRisk.announcing(name, name, life, p.get("unplanned").asDouble()));
    }
    return new CostModel(expected.get("planned").asDouble(), positions);
  }
}
