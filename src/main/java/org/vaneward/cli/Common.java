package org.vaneward.cli;

import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.io.SafeFiles;
import org.vaneward.report.View;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/** Options every command takes. */
final class Common {
  private static final double DEFAULT_CONFIDENCE = 0.90;
  private static final long DEFAULT_SEED = 1;

  /** What a result is written as. */
  enum Format {
    TEXT,
    JSON,
    CSV
  }

  @Option(
      names = "--format",
      defaultValue = "text",
      paramLabel = "text|json|csv",
      description = "text for people (default), json or csv for programs")
  Format format = Format.TEXT;

  @Option(
      names = "--out",
      paramLabel = "PATH",
      description = "write the result there; report and sample: the folder")
  @Nullable Path out;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description =
          "seed of random draws (default 1; sample: the scenario's); same seed, same bytes")
  @Nullable Long seed;

  private double confidence = DEFAULT_CONFIDENCE;

  @Option(names = "--quiet", description = "no progress and no remarks")
  boolean quiet;

  @Option(names = "--debug", description = "show the stack trace of a failure")
  boolean debug;

  @Option(names = "--help", usageHelp = true, description = "show this help")
  boolean help;

  private CommandSpec owner = CommandSpec.create();

  @Spec(Target.MIXEE)
  void owner(CommandSpec spec) {
    owner = spec;
  }

  @Option(
      names = "--confidence",
      paramLabel = "P",
      description = "confidence of two-sided limits (default 0.90)")
  void confidence(double value) {
    if (!(value > 0 && value < 1)) {
      throw new ParameterException(
          owner.commandLine(),
          "--confidence " + value + ": a confidence is between 0 and 1, such as 0.90");
    }
    confidence = value;
  }

  /** The confidence asked for, between 0 and 1. */
  double confidence() {
    return confidence;
  }

  /** The seed asked for, 1 unless one is. */
  long seed() {
    return Optional.ofNullable(seed).orElse(DEFAULT_SEED);
  }

  /** Where the result goes, when not to standard output. */
  Optional<Path> path() {
    return Optional.ofNullable(out);
  }

  /**
   * The folder a command writes its files into.
   *
   * @param command the command's name
   * @param writes what it writes, for the refusal of {@code --format}
   * @throws BadInputException when {@code --out} is missing or another format is asked for
   */
  Path folder(String command, String writes) {
    if (format != Format.TEXT) {
      throw new BadInputException(
          command + " writes " + writes + "; --format does not apply to it");
    }
    return path()
        .orElseThrow(
            () ->
                new BadInputException(
                    command + " needs --out FOLDER, such as --out my-" + command));
  }

  /** Writes a result in the format asked for to {@code --out}, or prints it. */
  void deliver(View view) {
    Optional<Path> target = path();
    if (target.isPresent()) {
      SafeFiles.write(
          target.get(),
          SafeFiles.Sync.LAZY,
          out -> {
            Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
            write(view, writer);
            writer.flush();
          });
      say("wrote " + target.get());
      return;
    }
    PrintWriter writer = owner.commandLine().getOut();
    try {
      write(view, writer);
    } catch (IOException e) {
      throw new UncheckedIOException("a print writer fails in silence", e);
    }
    writer.flush();
  }

  private void write(View view, Writer writer) throws IOException {
    switch (format) {
      case TEXT -> writer.write(view.text());
      case JSON -> writer.write(view.json());
      case CSV -> view.writeCsv(writer);
    }
  }

  /** A remark or a sign of progress, on standard error, unless {@code --quiet}. */
  void say(String remark) {
    if (!quiet) {
      PrintWriter err = owner.commandLine().getErr();
      err.println(remark);
      err.flush();
    }
  }

  /**
   * A whole number given with an option, or the usual one.
   *
   * @throws BadInputException when it is out of range
   */
  static int between(String option, @Nullable Integer given, int usual, int least, int most) {
    int value = Optional.ofNullable(given).orElse(usual);
    if (value < least || value > most) {
      throw new BadInputException(
          option + " " + value + ": a number from " + least + " to " + most + " belongs here");
    }
    return value;
  }
}
