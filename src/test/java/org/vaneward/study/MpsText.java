package org.vaneward.study;

import java.util.LinkedHashSet;
import java.util.Set;
import org.vaneward.schedule.Instances;
import org.vaneward.schedule.Job;
import org.vaneward.schedule.Schedule;

/**
 * A drawn fleet's calendar as a mixed-integer model in free MPS form, for any general solver: the
 * model of docs/methods/calendar.md, limits as weeks that may not be taken. It has no solution when
 * not every limit can be kept; those of {@link CalendarStudy} can.
 *
 * <p>Columns: x<i>j</i>_<i>w</i> is 1 when job j takes week w (the last week is after the horizon),
 * y<i>s</i>_<i>w</i> is 1 when site s is visited in week w.
 */
final class MpsText {
  private final Instances.Instance fleet;
  private final int[] places;
  private final StringBuilder rows = new StringBuilder(" N cost\n");
  private final StringBuilder right = new StringBuilder();
  private final StringBuilder bounds = new StringBuilder();

  /** A column's lines stand together, so visits gather theirs until every job is through. */
  private final StringBuilder columns = new StringBuilder();

  private final StringBuilder[][] visits;

  private MpsText(Instances.Instance fleet) {
    this.fleet = fleet;
    this.places = fleet.places();
    int sites = fleet.jobs().stream().mapToInt(Job::site).max().orElse(0) + 1;
    this.visits = new StringBuilder[sites][places.length];
  }

  static String of(Instances.Instance fleet) {
    return new MpsText(fleet).text();
  }

  /** The columns that a schedule sets to 1, one a line. */
  static String chosen(Instances.Instance fleet, Schedule schedule) {
    int[] weeks = schedule.weeks();
    Set<String> columns = new LinkedHashSet<>();
    for (int j = 0; j < fleet.jobs().size(); j++) {
      int week = weeks[j];
      columns.add(rebuild(j, week));
      if (week < fleet.places().length) {
        columns.add(visit(fleet.jobs().get(j).site(), week));
      }
    }
    return String.join("\n", columns) + "\n";
  }

  private static String rebuild(int job, int week) {
    return "x" + job + "_" + week;
  }

  private static String visit(int site, int week) {
    return "y" + site + "_" + week;
  }

  private String text() {
    for (int w = 0; w < places.length; w++) {
      row('L', "places" + w, places[w]);
    }
    for (int s = 0; s < visits.length; s++) {
      for (int w = 0; w < places.length; w++) {
        visits[s][w] = new StringBuilder();
        entry(visits[s][w], visit(s, w), "cost", fleet.visitCost());
        bounds.append(" BV b ").append(visit(s, w)).append('\n');
      }
    }
    for (int j = 0; j < fleet.jobs().size(); j++) {
      job(j, fleet.jobs().get(j));
    }
    for (StringBuilder[] ofSite : visits) {
      for (StringBuilder visit : ofSite) {
        columns.append(visit);
      }
    }
    return "NAME fleet\nROWS\n"
        + rows
        + "COLUMNS\n M1 'MARKER' 'INTORG'\n"
        + columns
        + " M2 'MARKER' 'INTEND'\nRHS\n"
        + right
        + "BOUNDS\n"
        + bounds
        + "ENDATA\n";
  }

  private void job(int j, Job job) {
    row('E', "once" + j, 1);
    for (int w = 0; w <= places.length; w++) {
      boolean after = w == places.length;
      if (job.daysLate(w) > 0 || (!after && places[w] == 0)) {
        continue;
      }
      String x = rebuild(j, w);
      entry(columns, x, "cost", job.cost(w));
      entry(columns, x, "once" + j, 1);
      bounds.append(" BV b ").append(x).append('\n');
      if (!after) {
        entry(columns, x, "places" + w, 1);
        needsVisit(x, job.site(), w);
      }
    }
  }

  /** A rebuild needs a visit: x - y is at most 0. */
  private void needsVisit(String x, int site, int w) {
    row('L', "visit" + x, 0);
    entry(columns, x, "visit" + x, 1);
    entry(visits[site][w], visit(site, w), "visit" + x, -1);
  }

  private void row(char kind, String name, int most) {
    rows.append(' ').append(kind).append(' ').append(name).append('\n');
    right.append(" r ").append(name).append(' ').append(most).append('\n');
  }

  private static void entry(StringBuilder into, String column, String row, double value) {
    into.append(' ').append(column).append(' ').append(row).append(' ').append(value).append('\n');
  }
}
