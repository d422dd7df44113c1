package org.vaneward.cli;

import java.util.concurrent.Callable;
import org.vaneward.report.CheckView;
import org.vaneward.report.FleetLives;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Reads the records and accounts for every row. */
@Command(
    name = "check",
    description =
        "Reads the records of a fleet and accounts for every row: used, repaired or set aside, and why.")
final class CheckCommand implements Callable<Integer> {
  private static final int NEEDS_ATTENTION = 1;

  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    CheckView view = new CheckView(FleetLives.read(fleet.folder, common::say));
    common.deliver(view);
    return view.setAside() > 0 ? NEEDS_ATTENTION : 0;
  }
}
