package org.vaneward.cli;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LivesTable;
import org.vaneward.model.CauseFits;
import org.vaneward.model.CovariateFits;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.model.PooledFits;
import org.vaneward.report.CauseFitView;
import org.vaneward.report.CovariateFitView;
import org.vaneward.report.FitView;
import org.vaneward.report.FleetLives;
import org.vaneward.report.PooledFitView;
import org.vaneward.report.View;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.regression.RegressionSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Fits life models. */
@Command(
    name = "fit",
    description = {
      "Fits life distributions to groups of lives, from a fleet's records or from a table of lives.",
      "A table of lives has the columns lower and upper, if need be entry and count, and any others"
          + " to group by or to fit on."
    })
final class FitCommand implements Callable<Integer> {
  private static final List<String> BY_COMPONENT = List.of("component");
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
      description =
          "columns that make a group (fleet: component,product,duty, or component with --covariates"
              + " and --cause; table: none)")
  private @Nullable List<String> by;

  @Mixin private FitOptions options = new FitOptions();

  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    options.check();
    common.deliver(view(table()));
    return 0;
  }

  private View view(LivesTable table) {
    if (options.covariates().isPresent()) {
      return covariates(table, options.covariates().get());
    }
    if (options.cause().isPresent()) {
      String column = options.cause().get();
      return new CauseFitView(
          CauseFits.of(table, columns(BY_COMPONENT), column, settings()),
          column,
          options.ages(),
          settings());
    }
    return options.pooled() ? pooled(table) : groups(table);
  }

  private View covariates(LivesTable table, List<String> columns) {
    CovariateFits.Question question =
        new CovariateFits.Question(
            columns(BY_COMPONENT),
            columns,
            Set.copyOf(options.names()),
            RegressionSettings.defaults()
                .withConfidence(common.confidence())
                .withLimits(options.limitMethod().orElse(LimitMethod.WALD)));
    return new CovariateFitView(CovariateFits.of(table, question), question);
  }

  private View pooled(LivesTable table) {
    List<String> columns = columns(BY_SERVICE);
    PoolingSettings settings = PoolingSettings.defaults().withConfidence(common.confidence());
    Optional<Long> seed = Optional.ofNullable(common.seed);
    return new PooledFitView(
        PooledFits.of(table, columns, seed.map(settings::withSeed).orElse(settings)),
        columns,
        common.confidence());
  }

  private View groups(LivesTable table) {
    List<String> columns = columns(BY_SERVICE);
    if (options.strata().isPresent() && columns.isEmpty()) {
      throw new BadInputException("--strata compares the groups of --by; give those as well");
    }
    FitQuestion question =
        new FitQuestion(
            columns,
            options.families(),
            settings(),
            draws(),
            options.bootstrapLimits(),
            Optional.ofNullable(common.seed).orElse(1L),
            options.mixture(),
            options.ages(),
            options.strata());
    return new FitView(FamilyFits.of(table, question), question);
  }

  /** The table of numbers has no place for the tests, so none is made for it. */
  private OptionalInt draws() {
    boolean shown = common.format != Common.Format.CSV || options.bootstrapLimits();
    return shown ? options.draws() : OptionalInt.of(0);
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
        : LivesTable.of(FleetLives.read(fleet.orElseThrow(), common::say).lives());
  }

  private List<String> columns(List<String> ofAFleet) {
    return Optional.ofNullable(by).orElse(livesFile == null ? ofAFleet : List.of());
  }

  private FitSettings settings() {
    FitSettings settings =
        FitSettings.defaults()
            .withConfidence(common.confidence())
            .withLimits(options.limitMethod().orElse(LimitMethod.PROFILE));
    OptionalDouble shape = options.fixedShape();
    return shape.isPresent() ? settings.withFixedShape(shape.getAsDouble()) : settings;
  }

  /** The families a word of {@code --distribution} stands for. */
  static List<Family> families(String word) {
    if (word.equals("all")) {
      return List.of(Family.values());
    }
    return Arrays.stream(Family.values()).filter(f -> f.word().equals(word)).toList();
  }
}
