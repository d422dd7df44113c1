package org.vaneward.cli;

import java.util.concurrent.Callable;
import org.vaneward.report.FleetLives;
import org.vaneward.report.LivesView;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Writes the lives table. */
@Command(
    name = "lives",
    description = {
      "Builds the life of every part from the records.",
      "text sums up by component; csv and json hold the table, a row for each stretch of a life in one service."
    })
final class LivesCommand implements Callable<Integer> {
  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    LivesView view = new LivesView(FleetLives.read(fleet.folder, common::say));
    common.deliver(view);
    return 0;
  }
}
