package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.policy.PolicyComparison;
import org.vaneward.policy.PolicyComparison.Rule;
import org.vaneward.report.ServiceInterval.Costed;

/** Rules for opening a pump side by side, one line for each service and model. */
final class RuleTable {
  static final List<String> HEADINGS =
      List.of(
          "service, model",
          "full rebuild",
          "mend before it",
          "mend up to",
          "then cost",
          "to failure",
          "now",
          "now costs more a year");

  static final List<String> EXPLAINED =
      List.of(
          "full rebuild: everything at the interval or at the first failure",
          "mend before it: everything at an interval, before it only what fails",
          "mend up to: only what fails while less has been run since the last full rebuild, then"
              + " everything",
          "now: what the records show of the shop's own practice, priced the same way");

  private static final double THOUSAND = 1000;

  private final String unit;

  RuleTable(String unit) {
    this.unit = unit;
  }

  /** Those with a cost model. */
  List<List<String>> rows(List<ServiceInterval> intervals) {
    List<List<String>> rows = new ArrayList<>();
    for (ServiceInterval one : intervals) {
      one.costed().ifPresent(costed -> rows.add(row(one, costed)));
    }
    return rows;
  }

  private List<String> row(ServiceInterval one, Costed costed) {
    return List.of(
        one.label(),
        cost(costed, Rule.FULL_REBUILD),
        cost(costed, Rule.MEND_BETWEEN),
        find(costed, Rule.THRESHOLD).map(this::threshold).orElse(Words.NONE),
        cost(costed, Rule.THRESHOLD),
        toFailure(costed),
        cost(costed, Rule.PRACTICE),
        find(costed, Rule.PRACTICE)
            .flatMap(row -> one.yearly(c -> row.more()))
            .map(IntervalView::money)
            .orElse(Words.NONE));
  }

  private static Optional<PolicyComparison.Row> find(Costed costed, Rule rule) {
    return costed.rules().rows().stream().filter(r -> r.rule() == rule).findFirst();
  }

  private static String cost(Costed costed, Rule rule) {
    return find(costed, rule)
        .map(r -> Words.whole(THOUSAND * r.cost().estimate()))
        .orElse(Words.NONE);
  }

  /** The cheaper of rebuilding and mending after each failure. */
  private static String toFailure(Costed costed) {
    return costed.rules().rows().stream()
        .filter(r -> r.rule() == Rule.TO_FAILURE_REBUILD || r.rule() == Rule.TO_FAILURE_MEND)
        .mapToDouble(r -> r.cost().estimate())
        .min()
        .stream()
        .mapToObj(x -> Words.whole(THOUSAND * x))
        .findFirst()
        .orElse(Words.NONE);
  }

  private String threshold(PolicyComparison.Row row) {
    double hours = row.thresholdHours().orElse(0);
    if (hours == Double.POSITIVE_INFINITY) {
      return "for ever";
    }
    return hours > 0 ? Words.age(hours, unit) : "never";
  }
}
