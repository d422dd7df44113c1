package org.vaneward.plan;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.fleet.Service;
import org.vaneward.policy.Bound;

/**
 * One sentence that says why a pump is due when it is.
 *
 * @param service what the pump does
 * @param usage day of record and unit
 * @param cost what cost alone says
 * @param limits what the limits say
 */
record Why(Optional<Service> service, Usage usage, CostSide cost, LimitDates limits) {

  String sentence(Bound bound) {
    List<String> clauses = new ArrayList<>();
    switch (bound) {
      case COST -> clauses.addAll(onCost());
      case FAILURE_PROBABILITY -> {
        clauses.add(limits.ceiling().map(this::ceiling).orElse(""));
        clauses.add(costAlone());
      }
      case MANDATED -> {
        clauses.add(limits.mandated().map(this::mandated).orElse(""));
        clauses.add(costAlone());
      }
      case NONE -> clauses.add("no planned rebuild: " + cost.whyNone().orElse("none is due"));
    }
    clauses.addAll(alsoPast(bound));
    String why = Words.sentence(String.join("; ", clauses));
    List<String> more = howSure(bound);
    return more.isEmpty() ? why : why + " " + Words.sentence(String.join("; ", more));
  }

  /** A second sentence: what was risked so far, where the date may lie, what no date prevents. */
  private List<String> howSure(Bound bound) {
    List<String> clauses = new ArrayList<>();
    cost.run()
        .filter(r -> bound == Bound.COST)
        .ifPresent(
            r ->
                clauses.add(
                    "since then the chance of a stop was "
                        + Words.percent(Math.rint(100 * r.chance()) / 100)));
    cost.range()
        .filter(r -> bound == Bound.COST)
        .ifPresent(
            r ->
                clauses.add(
                    "the records leave room for any day from "
                        + r.earliest()
                        + r.latest().map(l -> " to " + l).orElse(" on")));
    if (!cost.notPrevented().isEmpty()) {
      clauses.add(
          "there is no planned interval for "
              + String.join(" and ", cost.notPrevented())
              + " failures here: look for the reason");
    }
    return clauses;
  }

  private List<String> onCost() {
    List<String> clauses = new ArrayList<>();
    cost.driver().ifPresent(d -> clauses.add(driver(d)));
    LocalDate date = cost.date().orElseThrow();
    if (date.isBefore(usage.asOf())) {
      clauses.add(
          "waiting has cost more than opening since " + date + Words.ago(date, usage.asOf()));
    } else if (date.equals(usage.asOf())) {
      clauses.add("from today, " + date + ", waiting costs more than opening");
    } else {
      clauses.add("from " + date + " waiting costs more than opening");
    }
    return clauses;
  }

  private String driver(CostSide.Driver driver) {
    return driver.position()
        + " has run "
        + Words.amount(driver.age(), usage.unit())
        + " (half fail by "
        + Words.amount(driver.halfFailBy(), usage.unit())
        + " in "
        + Words.service(service)
        + ")";
  }

  private String ceiling(LimitDates.Ceiling ceiling) {
    LocalDate by = ceiling.by();
    return "the chance of a "
        + ceiling.ceiling().component()
        + " failure since fitting "
        + (by.isBefore(usage.asOf()) ? "reached" : "reaches")
        + " its ceiling of "
        + Words.percent(ceiling.ceiling().ceiling())
        + " on "
        + by
        + Words.ago(by, usage.asOf());
  }

  private String mandated(LimitDates.Mandated mandated) {
    LocalDate by = mandated.by();
    return "the "
        + mandated.months()
        + "-month limit, counted from "
        + (mandated.rebuilt() ? "the last full rebuild on " : "the first day on record, ")
        + mandated.since()
        + ", "
        + (by.isBefore(usage.asOf()) ? "ended" : "ends")
        + " on "
        + by
        + Words.ago(by, usage.asOf());
  }

  private String costAlone() {
    return cost.date()
        .map(day -> "cost alone would wait until " + day)
        .orElseGet(() -> "cost sets no date: " + cost.whyNone().orElse("none is due"));
  }

  /** Limits that are past too, though an earlier day binds; those yet to come say nothing new. */
  private List<String> alsoPast(Bound bound) {
    List<String> clauses = new ArrayList<>();
    if (bound != Bound.MANDATED) {
      limits
          .mandated()
          .filter(m -> isPast(m.by()))
          .ifPresent(m -> clauses.add(past("the " + m.months() + "-month limit", m.by())));
    }
    if (bound != Bound.FAILURE_PROBABILITY) {
      limits
          .ceiling()
          .filter(c -> isPast(c.by()))
          .ifPresent(
              c ->
                  clauses.add(
                      past("the ceiling on " + c.ceiling().component() + " failures", c.by())));
    }
    return clauses;
  }

  private boolean isPast(LocalDate by) {
    return by.isBefore(usage.asOf());
  }

  private static String past(String limit, LocalDate by) {
    return limit + " is past as well, since " + by;
  }
}
