package org.vaneward.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LivesTable;
import org.vaneward.model.GroupFits;
import org.vaneward.report.FitView;
import org.vaneward.report.FleetLives;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Fits life models. */
@Command(
    name = "fit",
    description = {
      "Fits a Weibull life to each group of lives, from a fleet's records or from a table of lives.",
      "A table of lives has the columns lower and upper, if need be entry and count, and any others"
          + " to group by."
    })
final class FitCommand implements Callable<Integer> {
  private static final List<String> BY_SERVICE = List.of("component", "product", "duty");

  @Parameters(index = "0", arity = "0..1", paramLabel = "FLEET", description = "fleet folder")
  private @Nullable Path folder;

  @Option(
      names = "--lives",
      paramLabel = "FILE",
      description = "a CSV table of lives instead of a fleet folder")
  private @Nullable Path livesFile;

  @Option(
      names = "--by",
      split = ",",
      paramLabel = "COLUMN",
      description = "columns that make a group (fleet: component,product,duty; table: none)")
  private @Nullable List<String> by;

  @Option(
      names = "--distribution",
      defaultValue = "weibull",
      paramLabel = "weibull",
      description = "life distribution (this version: weibull)")
  private String distribution = "weibull";

  @Option(
      names = "--limits",
      defaultValue = "profile",
      paramLabel = "profile|wald",
      description = "how limits are made (default profile)")
  private LimitMethod limits = LimitMethod.PROFILE;

  @Option(
      names = "--fixed-shape",
      paramLabel = "B",
      description = "fit the scale alone, at this shape")
  private @Nullable Double fixedShape;

  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    if (!distribution.equals("weibull")) {
      throw new BadInputException(
          "--distribution " + distribution + ": only weibull is fitted by this version");
    }
    FitView view = new FitView(GroupFits.of(table(), columns(), settings()), settings());
    common.deliver(view);
    return 0;
  }

  private LivesTable table() {
    Optional<Path> file = Optional.ofNullable(livesFile);
    Optional<Path> fleet = Optional.ofNullable(folder);
    if (file.isPresent() == fleet.isPresent()) {
      throw new BadInputException(
          "fit takes either a fleet folder or --lives FILE, not both and not neither");
    }
    return file.isPresent()
        ? LivesTable.read(file.get())
        : LivesTable.of(FleetLives.read(fleet.orElseThrow()).lives());
  }

  private List<String> columns() {
    return Optional.ofNullable(by).orElse(livesFile == null ? BY_SERVICE : List.of());
  }

  private FitSettings settings() {
    FitSettings settings =
        FitSettings.defaults().withConfidence(common.confidence()).withLimits(limits);
    OptionalDouble shape = shape();
    return shape.isPresent() ? settings.withFixedShape(shape.getAsDouble()) : settings;
  }

  private OptionalDouble shape() {
    if (fixedShape == null) {
      return OptionalDouble.empty();
    }
    double shape = fixedShape;
    if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      throw new BadInputException("--fixed-shape " + shape + ": a shape is positive, such as 2");
    }
    return OptionalDouble.of(shape);
  }
}
