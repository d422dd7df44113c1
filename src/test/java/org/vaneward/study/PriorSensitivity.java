package org.vaneward.study;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.PartialPooling;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

/**
 * How much the priors of a pooled fit matter where data are few: each prior's standard deviation
 * halved and doubled, on an invented fleet of six services with 0 to 8 failures. Run as a program,
 * it prints the table.
 */
public final class PriorSensitivity {
  private static final int DRAWS = 20_000;

  private PriorSensitivity() {}

  /** Ages in running hours: failures, then the ages of those still good. */
  private static final double[][][] FLEET = {
    {{}, {900, 1400, 2100, 2600, 3100}},
    {{1750, 2900}, {800, 1500, 2400, 3000, 3300}},
    {{1200, 1900, 2300, 3400}, {1000, 2000, 2800}},
    {{700, 1300, 1500, 1800, 2200}, {600, 1600, 2500}},
    {{2600, 3300, 3900}, {1500, 2000, 3000, 4000, 4100, 4200}},
    {{950, 1600, 1900, 2050, 2500, 2700, 3000, 3600}, {1100, 1700, 2900, 3200}}
  };

  private static List<Observations> fleet() {
    List<Observations.Builder> groups = new ArrayList<>();
    for (double[][] service : FLEET) {
      Observations.Builder group = Observations.builder();
      for (double age : service[0]) {
        group.addFailure(0, age, 1);
      }
      for (double age : service[1]) {
        group.addRightCensored(0, age, 1);
      }
      groups.add(group);
    }
    return groups.stream().map(Observations.Builder::build).toList();
  }

  private static Map<String, Priors> variants() {
    Priors p = Priors.defaults();
    Map<String, Priors> variants = new LinkedHashMap<>();
    variants.put("as they are", p);
    variants.put("shape sd halved", p.withShapeLogSd(p.shapeLogSd() / 2));
    variants.put("shape sd doubled", p.withShapeLogSd(p.shapeLogSd() * 2));
    variants.put("shapes' sd halved", p.withShapesBetweenScale(p.shapesBetweenScale() / 2));
    variants.put("shapes' sd doubled", p.withShapesBetweenScale(p.shapesBetweenScale() * 2));
    variants.put("one shape", p.withShapesBetweenScale(0));
    variants.put("scale sd halved", p.withScaleLogSd(p.scaleLogSd() / 2));
    variants.put("scale sd doubled", p.withScaleLogSd(p.scaleLogSd() * 2));
    variants.put("between sd halved", p.withBetweenScale(p.betweenScale() / 2));
    variants.put("between sd doubled", p.withBetweenScale(p.betweenScale() * 2));
    return variants;
  }

  /** The fit under some priors. */
  static PooledFit.Fitted fit(Priors priors) {
    PoolingSettings settings = PoolingSettings.defaults().withPriors(priors).withDraws(DRAWS);
    if (PartialPooling.fit(fleet(), settings) instanceof PooledFit.Fitted fit) {
      return fit;
    }
    throw new IllegalStateException("the invented fleet is not fitted");
  }

  /** The table. */
  static String table() {
    StringBuilder text =
        new StringBuilder(
            "priors              scale, 0 failures    scale, 2 failures    scale, 8 failures"
                + "    between sd          shape, 8 failures\n");
    variants()
        .forEach(
            (name, priors) -> {
              PooledFit.Fitted fit = fit(priors);
              text.append(
                  String.format(
                      Locale.ROOT,
                      "%-18s  %-19s  %-19s  %-19s  %-18s  %s\n",
                      name,
                      hours(fit.groups().get(0).scale()),
                      hours(fit.groups().get(1).scale()),
                      hours(fit.groups().get(5).scale()),
                      number(fit.betweenSd()),
                      number(fit.groups().get(5).shape())));
            });
    return text.toString();
  }

  private static String hours(Estimate e) {
    return String.format(
        Locale.ROOT, "%.0f (%.0f-%.0f)", tens(e.estimate()), tens(e.lower()), tens(e.upper()));
  }

  private static double tens(double x) {
    return 10 * Math.rint(x / 10);
  }

  private static String number(Estimate e) {
    return String.format(Locale.ROOT, "%.2f (%.2f-%.2f)", e.estimate(), e.lower(), e.upper());
  }

  /** Prints the table. */
  public static void main(String[] args) {
    System.out.print(table());
  }
}
