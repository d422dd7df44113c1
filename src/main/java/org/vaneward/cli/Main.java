package org.vaneward.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.TimeZone;
import picocli.CommandLine;
import picocli.CommandLine.Model.UsageMessageSpec;

/** Entry point of the program. */
public final class Main {
  /** What runs when no command is named, so that one command shows the main job. */
  private static final List<String> MAIN_JOB =
      List.of("report", "sample-fleet", "--out", "target/fleet-report");

  private static final int HELP_WIDTH = 100;

  private Main() {}

  /**
   * Runs one command and exits with its code: 0 done, 1 needs attention, 2 bad input, 3 internal
   * error.
   */
  public static void main(String[] args) {
    // Before anything touches AWT: charts are drawn on machines without a screen.
    System.setProperty("java.awt.headless", "true");
    // Days have no zone, yet a PDF names the moment it was made: the same bytes everywhere.
    TimeZone.setDefault(TimeZone.getTimeZone("UTC"));
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    int code = run(args, out, err);
    out.flush();
    err.flush();
    System.exit(code);
  }

  /**
   * Runs one command without exiting.
   *
   * @param args command and arguments; none runs the report on the sample fleet
   * @param out where results go
   * @param err where messages and progress go
   * @return the exit code
   */
  public static int run(String[] args, PrintWriter out, PrintWriter err) {
    String[] words = args.length == 0 ? MAIN_JOB.toArray(new String[0]) : args;
    return execute(commandLine(out, err), words);
  }

  /** Also what the machine runs out of is an internal error, and not exit code 1. */
  static int execute(CommandLine program, String... words) {
    try {
      return program.execute(words);
    } catch (VirtualMachineError | LinkageError e) {
      PrintWriter err = program.getErr();
      err.println("internal error: " + e);
      err.flush();
      return Failures.INTERNAL_ERROR;
    }
  }

  static CommandLine commandLine(PrintWriter out, PrintWriter err) {
    CommandLine program = new CommandLine(new Vaneward());
    UsageMessageSpec usage = program.getCommandSpec().usageMessage();
    for (CommandLine command : program.getSubcommands().values()) {
      command
          .getCommandSpec()
          .usageMessage()
          .abbreviateSynopsis(true)
          .exitCodeListHeading(usage.exitCodeListHeading())
          .exitCodeList(usage.exitCodeList());
    }
    return program
        .setUsageHelpWidth(HELP_WIDTH)
        .setOut(out)
        .setErr(err)
        .setCaseInsensitiveEnumValuesAllowed(true)
        .setParameterExceptionHandler(Failures::badUsage)
        .setExecutionExceptionHandler(Failures::failed);
  }
}
