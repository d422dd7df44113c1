package org.vaneward.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.io.SafeFiles;
import org.vaneward.report.CalendarOptions;
import org.vaneward.report.CountView;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.SparesAnalysis;
import org.vaneward.report.SparesView;
import org.vaneward.spares.DemandRequest;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.renewal.CountDistribution;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Kits, loose parts and budget of a fleet, or the parts a stated life uses up. */
@Command(
    name = "spares",
    description = {
      "Says how many kits and loose parts a fleet will take, when, for how much money, and what to"
          + " keep on the shelf: the plan lived forward many times over.",
      "For a stated life instead: how many parts it uses up, with the chance of each number."
    },
    footerHeading = "%nAs a calculator:%n",
    footer = "  vaneward spares --shape 2.5 --scale 8000 --positions 2 --horizon 20000")
final class SparesCommand implements Callable<Integer> {
  private static final int MOST_POSITIONS = 1000;
  private static final int MOST_FUTURES = 100_000;

  /** Months times futures: what fits into a usual heap. */
  private static final long MOST_NUMBERS = 2_400_000;

  @Parameters(index = "0", arity = "0..1", paramLabel = "FLEET", description = "fleet folder")
  private @Nullable Path folder;

  @Option(names = "--shape", paramLabel = "B", description = "Weibull shape of a part's life")
  private @Nullable Double shape;

  @Option(names = "--scale", paramLabel = "E", description = "Weibull scale of it, hours")
  private @Nullable Double scale;

  @Option(
      names = "--positions",
      paramLabel = "N",
      description = "how many such parts are in use, each new at first (default 1)")
  private @Nullable Integer positions;

  @Option(names = "--horizon", paramLabel = "H", description = "hours ahead")
  private @Nullable Double horizon;

  @Option(names = "--months", paramLabel = "N", description = "months ahead, 1 to 120 (default 24)")
  private @Nullable Integer months;

  @Option(
      names = "--futures",
      paramLabel = "N",
      description =
          "futures drawn, 100 to 100000 (default 10000; beyond 200 pumps fewer, down to 2000)")
  private @Nullable Integer futures;

  @Option(
      names = "--budget",
      paramLabel = "FILE",
      description = "write the budget by month and year there as CSV as well")
  private @Nullable Path budget;

  @Option(
      names = "--stock",
      paramLabel = "FILE",
      description = "write what to keep on the shelf there as CSV as well")
  private @Nullable Path stock;

  @Option(
      names = "--orders",
      paramLabel = "FILE",
      description = "write what to order for booked rebuilds there as CSV as well")
  private @Nullable Path orders;

  @Mixin private WhatIfOptions whatIf = new WhatIfOptions();
  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    Optional<Path> fleet = Optional.ofNullable(folder);
    if (fleet.isPresent()) {
      fromFleet(fleet.get());
    } else {
      calculate();
    }
    return 0;
  }

  private void fromFleet(Path fleet) {
    if (shape != null || scale != null || positions != null || horizon != null) {
      throw new BadInputException("spares takes either a fleet folder or a stated life, not both");
    }
    DemandRequest asked = request();
    FitSettings settings = FitSettings.defaults().withConfidence(common.confidence());
    FleetAnalysis analysis =
        FleetAnalysis.of(
            fleet,
            settings,
            common.seed(),
            CalendarOptions.plain(),
            whatIf.question(),
            common::say);
    DemandRequest request = futures == null ? asked.forFleetOf(analysis.pumps().size()) : asked;
    SparesView view =
        new SparesView(analysis.fleetSettings(), SparesAnalysis.of(analysis, request, common::say));
    common.deliver(view);
    write(Optional.ofNullable(budget), view.budgetCsv());
    write(Optional.ofNullable(stock), view.stockCsv());
    write(Optional.ofNullable(orders), view.ordersCsv());
  }

  private DemandRequest request() {
    int ahead =
        Common.between("--months", months, DemandRequest.MONTHS, 1, DemandRequest.MOST_MONTHS);
    int drawn = Common.between("--futures", futures, DemandRequest.FUTURES, 100, MOST_FUTURES);
    if ((long) ahead * drawn > MOST_NUMBERS) {
      throw new BadInputException(
          "--months "
              + ahead
              + " with --futures "
              + drawn
              + ": that is too much to keep; at most "
              + MOST_NUMBERS / ahead
              + " futures go with so many months");
    }
    return new DemandRequest(ahead, drawn, common.seed());
  }

  private void write(Optional<Path> file, String text) {
    file.ifPresent(
        path -> {
          SafeFiles.write(path, text);
          common.say("wrote " + path);
        });
  }

  private void calculate() {
    whatIf.refuse("a stated life");
    boolean files = budget != null || stock != null || orders != null;
    if (months != null || futures != null || files) {
      throw new BadInputException(
          "--months, --futures, --budget, --stock and --orders go with a fleet folder, not with a"
              + " stated life");
    }
    double b = positive("--shape", shape);
    double e = positive("--scale", scale);
    double h = positive("--horizon", horizon);
    int n = Common.between("--positions", positions, 1, 1, MOST_POSITIONS);
    common.deliver(new CountView(parts(new Weibull(b, e), h, n)));
  }

  private static CountDistribution parts(Weibull life, double horizon, int positions) {
    try {
      return CountDistribution.ofRenewals(life, horizon).times(positions);
    } catch (IllegalArgumentException e) {
      throw new BadInputException("--horizon " + horizon + ": " + e.getMessage(), e);
    }
  }

  private static double positive(String option, @Nullable Double given) {
    if (given == null) {
      throw new BadInputException(
          "spares needs a fleet folder, or --shape, --scale and --horizon; "
              + option
              + " is missing");
    }
    if (!(given > 0 && given < Double.POSITIVE_INFINITY)) {
      throw new BadInputException(option + " " + given + ": it must be above 0");
    }
    return given;
  }
}
