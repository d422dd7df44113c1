package org.vaneward.cli;

import java.io.PrintWriter;
import java.util.Objects;
import org.vaneward.io.BadInputException;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/** Turns failures into one line and an exit code; a stack trace only with {@code --debug}. */
final class Failures {
  static final int BAD_INPUT = 2;
  static final int INTERNAL_ERROR = 3;

  private Failures() {}

  static int badUsage(ParameterException failure, String[] args) {
    CommandLine command = failure.getCommandLine();
    PrintWriter err = command.getErr();
    err.println(
        oneLine(failure) + "; try '" + command.getCommandSpec().qualifiedName() + " --help'");
    UnmatchedArgumentException.printSuggestions(failure, err);
    return BAD_INPUT;
  }

  static int failed(Exception failure, CommandLine command, ParseResult parsed) {
    PrintWriter err = command.getErr();
    boolean badInput = failure instanceof BadInputException;
    err.println(
        badInput
            ? oneLine(failure)
            : "internal error: " + oneLine(failure) + "; run again with --debug for the details");
    if (wantsDetails(parsed)) {
      failure.printStackTrace(err);
    }
    return badInput ? BAD_INPUT : INTERNAL_ERROR;
  }

  private static boolean wantsDetails(ParseResult parsed) {
    ParseResult last = parsed;
    while (last.hasSubcommand()) {
      last = last.subcommand();
    }
    return last.hasMatchedOption("--debug");
  }

  private static String oneLine(Exception failure) {
    String message =
        Objects.requireNonNullElse(failure.getMessage(), failure.getClass().getSimpleName());
    return message.replaceAll("\\s*\\R\\s*", " ");
  }
}
