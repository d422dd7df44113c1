package org.vaneward.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.vaneward.io.Json;
import org.vaneward.report.Page.Grid;

/**
 * What a study of invented fleets whose true lives are known found: how often limits hold the truth
 * and what advice costs beyond the best there is. {@code docs/known-truth.md} has all of it.
 *
 * @param fleets how many were drawn
 * @param confidence of the limits
 * @param cells by size and length of records
 */
record KnownTruth(int fleets, double confidence, List<Cell> cells) {
  private static final String RESOURCE = "known-truth.json";

  KnownTruth {
    cells = List.copyOf(cells);
  }

  /**
   * Fleets of one size, with records of one length.
   *
   * @param pumps how many pumps
   * @param years length of the records
   * @param fleets how many fleets
   * @param scale share of limits of the scale that held the truth
   * @param shape the same of the shape
   * @param tenth the same of the age by which a tenth has failed
   * @param median regret of the advised interval: what it costs beyond the best, as a share
   * @param ninetieth the regret that one pump in ten exceeds
   */
  record Cell(
      int pumps,
      int years,
      int fleets,
      double scale,
      double shape,
      double tenth,
      double median,
      double ninetieth) {}

  static KnownTruth read() {
    return Json.read(RESOURCE, Embedded.style(RESOURCE), KnownTruth.class);
  }

  /** Of fleets with records about as long as these, by size. */
  private List<Cell> like(double years) {
    double nearest =
        cells.stream()
            .map(Cell::years)
            .min(Comparator.comparingDouble(y -> Math.abs(Math.log(y / Math.max(1, years)))))
            .orElseThrow();
    return cells.stream().filter(c -> c.years() == nearest).toList();
  }

  /** The same of fleets about as large. */
  Cell nearest(int pumps, double years) {
    return like(years).stream()
        .min(Comparator.comparingDouble(c -> Math.abs(Math.log((double) c.pumps() / pumps))))
        .orElseThrow();
  }

  String summary(int pumps, double years) {
    Cell near = nearest(pumps, years);
    return "On "
        + Words.whole(fleets)
        + " invented fleets whose true lives are known, the same methods were held against the truth."
        + " In those most like this one ("
        + Words.count(near.pumps(), "pump", "pumps")
        + ", "
        + Words.count(near.years(), "year", "years")
        + " of records), "
        + Words.percent(confidence)
        + " limits held the true age by which a tenth of the parts fail in "
        + Words.percent(near.tenth())
        + " of cases, the true scale in "
        + Words.percent(near.scale())
        + ", the true shape in "
        + Words.percent(near.shape())
        + "; the advised interval cost "
        + fine(near.median())
        + " more than the best there is for half of the pumps, and up to "
        + fine(near.ninetieth())
        + " more for nine in ten. Least sure are the limits of a service whose parts fail in another"
        + " way than elsewhere, while few of them have failed.";
  }

  Grid grid(double years) {
    List<List<String>> rows = new ArrayList<>();
    for (Cell c : like(years)) {
      rows.add(
          List.of(
              Words.whole(c.pumps()),
              Words.whole(c.years()),
              Words.whole(c.fleets()),
              Words.percent(c.tenth()),
              Words.percent(c.scale()),
              Words.percent(c.shape()),
              fine(c.median()),
              fine(c.ninetieth())));
    }
    return Grid.ofNumbers(
        List.of(
            "Pumps",
            "Years",
            "Fleets",
            "10% life held",
            "Scale held",
            "Shape held",
            "Beyond the best: median",
            "9 in 10 pumps"),
        rows,
        "");
  }

  private static String fine(double share) {
    return String.format(Locale.ROOT, share < 0.01 ? "%.2f%%" : "%.1f%%", 100 * share);
  }
}
