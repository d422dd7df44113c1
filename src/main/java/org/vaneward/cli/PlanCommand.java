package org.vaneward.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.SafeFiles;
import org.vaneward.plan.CalendarRequest;
import org.vaneward.report.CalendarOptions;
import org.vaneward.report.CalendarView;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.PlanView;
import org.vaneward.stats.fit.FitSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Plans the next rebuild of each pump. */
@Command(
    name = "plan",
    description =
        "Says when to rebuild each pump next and why, and books the rebuilds into the workshop's"
            + " weeks at least expected cost.")
final class PlanCommand implements Callable<Integer> {
  private static final int NEEDS_ATTENTION = 1;
  private static final int MOST_WEEKS = 520;

  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private WhatIfOptions whatIf = new WhatIfOptions();
  @Mixin private Common common = new Common();
  @Spec private CommandSpec spec = CommandSpec.create();

  private int weeks = CalendarRequest.WEEKS;

  @Option(
      names = "--committed",
      paramLabel = "FILE",
      description =
          "CSV of rebuilds that keep their week: columns pump, week (2026-W36) or date, and note"
              + " where there is one; what --calendar writes will do")
  @Nullable Path committed;

  @Option(
      names = "--calendar",
      paramLabel = "FILE",
      description = "write the calendar there as CSV as well")
  @Nullable Path calendarFile;

  @Option(
      names = "--ics",
      paramLabel = "FILE",
      description = "write the calendar there as iCalendar (RFC 5545) as well")
  @Nullable Path icsFile;

  @Option(
      names = "--weeks",
      paramLabel = "N",
      description = "weeks the calendar covers, 1 to 520 (default 104)")
  void weeks(int value) {
    if (value < 1 || value > MOST_WEEKS) {
      throw new ParameterException(
          spec.commandLine(),
          "--weeks " + value + ": a calendar covers 1 to " + MOST_WEEKS + " weeks, such as 104");
    }
    weeks = value;
  }

  @Override
  public Integer call() {
    FitSettings settings = FitSettings.defaults().withConfidence(common.confidence());
    CalendarOptions options = new CalendarOptions(weeks, Optional.ofNullable(committed));
    FleetAnalysis analysis =
        FleetAnalysis.of(
            fleet.folder, settings, common.seed(), options, whatIf.question(), common::say);
    PlanView view = new PlanView(analysis);
    CalendarView calendar = new CalendarView(analysis);
    common.deliver(view);
    write(Optional.ofNullable(calendarFile), calendar.csv());
    write(Optional.ofNullable(icsFile), calendar.ics());
    return view.limitBroken() ? NEEDS_ATTENTION : 0;
  }

  private void write(Optional<Path> file, String text) {
    file.ifPresent(
        path -> {
          SafeFiles.write(path, text);
          common.say("wrote " + path);
        });
  }
}
