package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.plan.PumpDates;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.plan.WhatIf;
import org.vaneward.policy.CostModels;
import org.vaneward.report.ServiceInterval.Advised;
import org.vaneward.report.ServiceInterval.Group;

/**
 * What a question to a fleet comes to: intervals, dates, kits. Cell for cell what {@code interval}
 * and {@code plan} print for the same question, but for the calendar, which is not asked.
 *
 * @param asked the question in words; empty when nothing is asked
 * @param services a row for each service and model, under {@link #serviceHeadings}
 * @param pumps a row for each pump, the most urgent first, under {@link #pumpHeadings}
 * @param due how many pumps are due within 90 days
 * @param parts a row for each kit and loose part those take, under {@link #partHeadings}
 * @param partsCost what the parts cost, as money
 */
public record WhatIfAnswer(
    String asked,
    List<List<String>> services,
    List<List<String>> pumps,
    int due,
    List<List<String>> parts,
    String partsCost) {
  public WhatIfAnswer {
    services = services.stream().map(List::copyOf).toList();
    pumps = pumps.stream().map(List::copyOf).toList();
    parts = parts.stream().map(List::copyOf).toList();
  }

  /**
   * Answers {@code question}.
   *
   * @param progress is told how far the work has come
   * @throws org.vaneward.io.BadInputException when the question does not fit the fleet
   */
  public static WhatIfAnswer of(PlanInputs inputs, WhatIf question, Consumer<String> progress) {
    FleetSettings settings = question.of(inputs.settings());
    List<PumpNow> pumps = question.of(inputs.pumps());
    List<List<String>> services = new ArrayList<>();
    String unit = Words.unit(settings.clock());
    List<Group> groups = Group.of(pumps);
    for (Group group : groups) {
      progress.accept("interval " + (services.size() + 1) + " of " + groups.size());
      services.add(IntervalView.cells(group, advised(inputs, settings, group), unit));
    }
    PumpDates dates = new PumpDates(settings, inputs.lookup(), inputs.confidence());
    List<PumpPlan> plans = new ArrayList<>();
    for (PumpNow pump : pumps) {
      progress.accept("pump " + (plans.size() + 1) + " of " + pumps.size());
      plans.add(dates.of(pump));
    }
    plans.sort(PumpDates.urgency(settings.asOf()));
    DueParts parts = DueParts.of(settings, pumps, plans);
    return new WhatIfAnswer(
        question.words(),
        services,
        plans.stream().map(PlanView::cells).toList(),
        parts.pumps().size(),
        parts.lines(settings).stream().map(PlanView::partCells).toList(),
        Words.money(parts.cost(), settings.currency()));
  }

  private static Optional<Advised> advised(PlanInputs inputs, FleetSettings settings, Group group) {
    CostModels.Outcome outcome =
        CostModels.forService(
            settings, group.model(), Optional.of(group.service()), inputs.lookup());
    return outcome instanceof CostModels.Available available
        ? Optional.of(
            Advised.of(
                available,
                settings.limits(),
                group.agePerWeek(settings.clock()),
                inputs.confidence()))
        : Optional.empty();
  }

  /** Headings of {@link #services}. */
  public static List<String> serviceHeadings(FleetSettings settings) {
    return IntervalView.headings(settings.currency(), Words.unit(settings.clock()));
  }

  /** Headings of {@link #pumps}. */
  public static List<String> pumpHeadings(FleetSettings settings) {
    return PlanView.headings(settings.currency());
  }

  /** Headings of {@link #parts}. */
  public static List<String> partHeadings(FleetSettings settings) {
    return PlanView.partHeadings(settings.currency());
  }
}
