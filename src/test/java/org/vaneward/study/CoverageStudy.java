package org.vaneward.study;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.vaneward.life.LivesTable;
import org.vaneward.model.GroupFit;
import org.vaneward.model.GroupFits;
import org.vaneward.report.FleetLives;
import org.vaneward.sample.Truth;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;

/**
 * How often the limits of the fits hold the truth of the scenario that drew the fleet. Run as a
 * program, it draws fleets of a scenario and prints the table.
 */
public final class CoverageStudy {
  private static final List<String> BY_SERVICE = List.of("component", "product", "duty");

  private static final String FAILURES = " failures";

  private CoverageStudy() {}

  /** Fits seen, and how many of their limits hold the true value. */
  public static final class Count {
    int fits;
    int scaleHeld;
    int shapeHeld;
    double logScaleError;

    void add(WeibullFit.Fitted fit, Truth.Lifetime truth) {
      fits++;
      scaleHeld += holds(fit.scale(), truth.scale()) ? 1 : 0;
      shapeHeld += holds(fit.shape(), truth.shape()) ? 1 : 0;
      logScaleError += Math.log(fit.scale().estimate() / truth.scale());
    }

    private static boolean holds(Estimate estimate, double truth) {
      return estimate.lower() <= truth && truth <= estimate.upper();
    }
  }

  /** Counts by component, and by number of failures, for one fleet folder whose truth is known. */
  static Map<String, Count> count(Path folder, Truth truth, Map<String, Count> counts) {
    LivesTable table = LivesTable.of(FleetLives.read(folder).lives());
    for (GroupFit group : GroupFits.of(table, BY_SERVICE, FitSettings.defaults())) {
      if (group.fit() instanceof WeibullFit.Fitted fit) {
        String component = group.group().getOrDefault("component", "");
        truth.lifetimes().stream()
            .filter(life -> life.component().equals(component))
            .filter(life -> life.product().equals(group.group().get("product")))
            .filter(life -> life.duty().equals(group.group().get("duty")))
            .findFirst()
            .ifPresent(
                life -> {
                  counts.computeIfAbsent(component, c -> new Count()).add(fit, life);
                  counts.computeIfAbsent(bin(fit.failures()), c -> new Count()).add(fit, life);
                });
      }
    }
    return counts;
  }

  private static String bin(double failures) {
    if (failures < 5) {
      return " 1 to 4" + FAILURES;
    }
    if (failures < 10) {
      return " 5 to 9" + FAILURES;
    }
    return (failures < 20 ? "10 to 19" : "20 or more") + FAILURES;
  }

  /** Draws {@code fleets} fleets of a scenario, seeds from 1 on, and counts over all of them. */
  public static Map<String, Count> count(Path scenario, int fleets) {
    Map<String, Count> counts = new TreeMap<>();
    for (int seed = 1; seed <= fleets; seed++) {
      DrawnFleet.look(scenario, seed, (folder, truth) -> count(folder, truth, counts));
    }
    return counts;
  }

  /** All components together. */
  static Count total(Map<String, Count> counts) {
    Count total = new Count();
    counts.forEach(
        (key, c) -> {
          if (!key.endsWith(FAILURES)) {
            total.fits += c.fits;
            total.scaleHeld += c.scaleHeld;
            total.shapeHeld += c.shapeHeld;
          }
        });
    return total;
  }

  /** The counts as a table, a line for each component and for each range of failures. */
  public static String table(Map<String, Count> counts) {
    StringBuilder text = new StringBuilder();
    text.append("                       fits  scale held  shape held  mean log(scale / true)\n");
    counts.forEach(
        (component, c) ->
            text.append(
                String.format(
                    Locale.ROOT,
                    "%-19s %7d %10.1f%% %10.1f%% %23.3f%n",
                    component,
                    c.fits,
                    100.0 * c.scaleHeld / c.fits,
                    100.0 * c.shapeHeld / c.fits,
                    c.logScaleError / c.fits)));
    return text.toString();
  }

  /** Prints the table for a scenario file and a number of fleets. */
  public static void main(String[] args) {
    System.out.print(table(count(Path.of(args[0]), Integer.parseInt(args[1]))));
  }
}
