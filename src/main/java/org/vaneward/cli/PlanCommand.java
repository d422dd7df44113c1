package org.vaneward.cli;

import java.util.concurrent.Callable;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.PlanView;
import org.vaneward.stats.fit.FitSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Plans the next rebuild of each pump. */
@Command(
    name = "plan",
    description =
        "Says when to rebuild each pump next and why, and levels the rebuilds to the workshop's weeks.")
final class PlanCommand implements Callable<Integer> {
  private static final int NEEDS_ATTENTION = 1;

  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    FitSettings settings = FitSettings.defaults().withConfidence(common.confidence());
    PlanView view =
        new PlanView(FleetAnalysis.of(fleet.folder, settings, common.seed(), common::say));
    common.deliver(view);
    return view.limitBroken() ? NEEDS_ATTENTION : 0;
  }
}
