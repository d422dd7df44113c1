package org.vaneward.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The program itself; the work is in its commands. */
@Command(
    name = "vaneward",
    mixinStandardHelpOptions = true,
    versionProvider = VersionText.class,
    description = {
      "Reads the rebuild records of a fleet of sliding-vane fuel-transfer pumps and says when to"
          + " rebuild each pump next, what it will cost, how sure that is, and why parts fail.",
      "",
      "Without a command: report sample-fleet --out target/fleet-report"
    },
    subcommands = {
      AdoptCommand.class,
      CheckCommand.class,
      LivesCommand.class,
      FitCommand.class,
      IntervalCommand.class,
      PlanCommand.class,
      SparesCommand.class,
      ReviewCommand.class,
      BacktestCommand.class,
      ReportCommand.class,
      SampleCommand.class
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:done, and something needs attention",
      "2:bad input or usage; one line says what and where",
      "3:internal error"
    })
final class Vaneward implements Callable<Integer> {
  @Spec private CommandSpec spec;

  Vaneward() {
    // Set again by the parser before any command runs.
    spec = CommandSpec.create();
  }

  @Override
  public Integer call() {
    throw new ParameterException(spec.commandLine(), "no command given");
  }
}
