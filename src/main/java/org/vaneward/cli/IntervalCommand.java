package org.vaneward.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.policy.BlockSearch;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.IntervalAdvice;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.PositionRisk;
import org.vaneward.report.CalendarOptions;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.IntervalCalculatorView;
import org.vaneward.report.IntervalView;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Best planned interval, from a fleet or as a calculator. */
@Command(
    name = "interval",
    description = {
      "Finds the planned interval that costs least: by service from a fleet's records, or for stated lives and costs.",
      "Policy age: rebuild everything at the interval or at the first failure, whichever comes first.",
      "Policy block: rebuild everything at the interval; before it, renew only the part that failed."
    },
    footerHeading = "%nAs a calculator:%n",
    footer = {
      "  vaneward interval --shape 2.5 --scale 8000 --planned 1000 --unplanned 6000 --positions 2",
      "  vaneward interval --planned 1000 --position 2.5,8000,6000 --position 3,12000,4000"
    })
final class IntervalCommand implements Callable<Integer> {
  private static final String AGE = "age";
  private static final String BLOCK = "block";
  private static final int POSITION_NUMBERS = 3;

  /** Far above any pump; keeps a slip of the finger from running for hours. */
  private static final int MOST_POSITIONS = 1000;

  @Parameters(index = "0", arity = "0..1", paramLabel = "FLEET", description = "fleet folder")
  private @Nullable Path folder;

  @Option(names = "--shape", paramLabel = "B", description = "Weibull shape of one part")
  private @Nullable Double shape;

  @Option(names = "--scale", paramLabel = "E", description = "Weibull scale of one part, hours")
  private @Nullable Double scale;

  @Option(names = "--planned", paramLabel = "C", description = "cost of a planned rebuild")
  private @Nullable Double planned;

  @Option(
      names = "--unplanned",
      paramLabel = "C",
      description =
          "cost of an unplanned stop: with the full rebuild that follows (age), with the failed part renewed (block)")
  private @Nullable Double unplanned;

  @Option(
      names = "--positions",
      paramLabel = "N",
      description = "how many such parts a pump has (default 1)")
  private @Nullable Integer positions;

  @Option(
      names = "--position",
      paramLabel = "B,E,C",
      description = "shape, scale and unplanned cost of one position; repeat for unlike positions")
  private @Nullable List<String> unlike;

  @Option(
      names = "--policy",
      defaultValue = "age",
      paramLabel = "age|block",
      description = "age (default) or block")
  private String policy = "age";

  @Mixin private WhatIfOptions whatIf = new WhatIfOptions();
  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    if (!policy.equals(AGE) && !policy.equals(BLOCK)) {
      throw new BadInputException("--policy " + policy + ": a policy is age or block");
    }
    Optional<Path> fleet = Optional.ofNullable(folder);
    if (fleet.isPresent()) {
      fromFleet(fleet.get());
    } else {
      calculate();
    }
    return 0;
  }

  private void fromFleet(Path fleet) {
    if (!policy.equals(AGE)) {
      throw new BadInputException(
          "--policy "
              + policy
              + " goes with stated lives and costs; for a fleet, interval compares the rules itself");
    }
    if (likeStated() || planned != null || unlike != null) {
      throw new BadInputException(
          "interval takes either a fleet folder or stated lives and costs, not both");
    }
    FitSettings settings = FitSettings.defaults().withConfidence(common.confidence());
    IntervalView view =
        new IntervalView(
            FleetAnalysis.of(
                fleet,
                settings,
                common.seed(),
                CalendarOptions.plain(),
                whatIf.question(),
                common::say));
    common.deliver(view);
  }

  private void calculate() {
    whatIf.refuse("stated lives and costs");
    CostModel model = statedModel();
    IntervalAdvice advice =
        policy.equals(BLOCK) ? BlockSearch.best(model) : IntervalSearch.best(model);
    common.deliver(new IntervalCalculatorView(policy, model, advice));
  }

  private CostModel statedModel() {
    double plannedCost = needed("--planned", planned);
    if (!(plannedCost > 0 && plannedCost < Double.POSITIVE_INFINITY)) {
      throw new BadInputException(
          "--planned " + plannedCost + ": a planned rebuild has a cost above 0");
    }
    List<PositionRisk> risks = new ArrayList<>();
    if (unlike != null) {
      if (likeStated()) {
        throw new BadInputException(
            "interval takes either --position for each position, or --shape, --scale, --unplanned"
                + " and --positions, not both");
      }
      for (String numbers : unlike) {
        risks.add(position(risks.size() + 1, numbers));
      }
    } else {
      int n = Optional.ofNullable(positions).orElse(1);
      if (n < 1 || n > MOST_POSITIONS) {
        throw new BadInputException(
            "--positions " + n + ": a pump has at least 1 and at most " + MOST_POSITIONS);
      }
      double b = needed("--shape", shape);
      double e = needed("--scale", scale);
      double c = needed("--unplanned", unplanned);
      for (int i = 1; i <= n; i++) {
        risks.add(risk(i, b, e, c));
      }
    }
    return new CostModel(plannedCost, risks);
  }

  /** Whether anything of like positions was stated. */
  private boolean likeStated() {
    return shape != null || scale != null || unplanned != null || positions != null;
  }

  private static PositionRisk position(int i, String numbers) {
    String[] parts = numbers.split(",", -1);
    if (parts.length != POSITION_NUMBERS) {
      throw new BadInputException(
          "--position " + numbers + ": three numbers belong here, shape,scale,unplanned");
    }
    return risk(i, number(parts[0]), number(parts[1]), number(parts[2]));
  }

  private static double number(String text) {
    try {
      return Double.parseDouble(text.strip());
    } catch (NumberFormatException e) {
      throw new BadInputException(
          "--position: '" + text + "' is not a number; decimals use a point", e);
    }
  }

  private static PositionRisk risk(int i, double shape, double scale, double unplanned) {
    positive("a shape", shape);
    positive("a scale", scale);
    if (!(unplanned >= 0 && unplanned < Double.POSITIVE_INFINITY)) {
      throw new BadInputException("an unplanned cost is 0 or more, not " + unplanned);
    }
    String name = String.format(Locale.ROOT, "position %d", i);
    return PositionRisk.announcing(name, "part", new Weibull(shape, scale), unplanned);
  }

  private static void positive(String what, double value) {
    if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
      throw new BadInputException(what + " is positive, not " + value);
    }
  }

  private static double needed(String option, @Nullable Double value) {
    if (value == null) {
      throw new BadInputException(
          "interval needs a fleet folder, or --shape, --scale, --planned and --unplanned; "
              + option
              + " is missing");
    }
    return value;
  }
}
