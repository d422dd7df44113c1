package org.vaneward.report;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.IntervalAdvice;
import org.vaneward.policy.NoInterval;
import org.vaneward.policy.Window;

/** Advice for stated lives and costs, for people and for programs. */
public final class IntervalCalculatorView implements View {
  private final String policy;
  private final CostModel model;
  private final IntervalAdvice advice;

  /** A view of {@code advice} for {@code model}. */
  public IntervalCalculatorView(String policy, CostModel model, IntervalAdvice advice) {
    this.policy = policy;
    this.model = model;
    this.advice = advice;
  }

  /** The advice in a few lines. */
  @Override
  public String text() {
    StringBuilder text = new StringBuilder();
    if (advice.intervalHours().isPresent()) {
      line(text, "Rebuild every", Words.significant(advice.intervalHours().getAsDouble()) + rule());
      line(
          text,
          "Within 2% of it",
          advice.window().map(IntervalCalculatorView::inWords).orElse(Words.NONE));
      line(text, "Cost per 1,000 h", Words.significant(1000 * advice.costPerHour()));
    } else {
      line(
          text,
          "No planned interval",
          advice.noInterval().map(NoInterval::words).orElse("none pays"));
    }
    line(
        text,
        block() ? "Mending for ever" : "Running to failure",
        Words.significant(1000 * advice.runToFailureCostPerHour()) + " per 1,000 h");
    if (advice.intervalHours().isPresent()) {
      line(text, "Saved against it", Words.percent(advice.saving()));
      line(
          text,
          block() ? "Planned openings" : "Planned rebuilds",
          Words.percent(advice.plannedShare())
              + " of all; the rest are failures before the interval");
    }
    line(text, "Positions", String.valueOf(model.positions().size()));
    return text.toString();
  }

  private boolean block() {
    return policy.equals("block");
  }

  private String rule() {
    return block()
        ? " h; before that, renew only the part that failed"
        : " h, or at the first failure";
  }

  private static void line(StringBuilder text, String what, String says) {
    text.append(String.format(Locale.ROOT, "%-22s%s%n", what, says).replace("\r\n", "\n"));
  }

  private static String inWords(Window window) {
    OptionalDouble to = window.toHours();
    return Words.significant(window.fromHours())
        + " to "
        + (to.isPresent() ? Words.significant(to.getAsDouble()) + " h" : "no upper end");
  }

  /** The same numbers, unrounded. */
  @Override
  public String json() {
    return Json.write(document());
  }

  /**
   * A map, so that the interval and the ends of the window are null, not left out, where there are
   * none. Where running to failure is cheapest, the window is the intervals that cost hardly more.
   */
  private Map<String, Object> document() {
    Optional<Window> window = advice.window();
    Map<String, Object> ends = new LinkedHashMap<>();
    ends.put("from", window.map(Window::fromHours).orElse(Double.NaN));
    ends.put("to", window.map(w -> w.toHours().orElse(Double.NaN)).orElse(Double.NaN));
    Map<String, Object> document = new LinkedHashMap<>();
    document.put("policy", policy);
    document.put("interval", advice.intervalHours().orElse(Double.NaN));
    document.put("cost_rate", advice.costPerHour());
    document.put("run_to_failure_cost_rate", advice.runToFailureCostPerHour());
    document.put("window", ends);
    document.put("planned_share", advice.plannedShare());
    return document;
  }

  /** The same numbers as one row. */
  @Override
  public String csv() {
    Optional<Window> window = advice.window();
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "policy",
            "interval",
            "cost_rate",
            "run_to_failure_cost_rate",
            "window_from",
            "window_to",
            "planned_share");
    table
        .cell(policy)
        .cell(advice.intervalHours())
        .cell(advice.costPerHour())
        .cell(advice.runToFailureCostPerHour())
        .cell(window.map(w -> OptionalDouble.of(w.fromHours())).orElse(OptionalDouble.empty()))
        .cell(window.map(Window::toHours).orElse(OptionalDouble.empty()))
        .cell(advice.plannedShare())
        .endRow();
    return table.text();
  }
}
