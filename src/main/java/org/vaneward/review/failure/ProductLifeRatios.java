package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.regression.Covariates;
import org.vaneward.stats.regression.RegressionFit;
import org.vaneward.stats.regression.RegressionSettings;
import org.vaneward.stats.regression.WeibullRegression;

/**
 * How long the parts of a component last on each product beside the mean of the others: contrasts
 * of one Weibull regression on product, duty, position, crew and number of earlier rebuilds.
 * Products without failures are left out; so is a covariate that makes the fit impossible.
 */
final class ProductLifeRatios {
  private static final String PRODUCT = "product";
  private static final String NUMBER = "earlier_rebuilds";
  private static final List<String> OTHERS = List.of("duty", "position", "crew", NUMBER);
  private static final String UNKNOWN = "(not on record)";
  private static final int MOST_TRIES = 30;

  private final Map<String, Estimate> ratios = new HashMap<>();
  private List<String> adjustedFor = List.of();

  ProductLifeRatios(Parts parts, String component, double confidence) {
    int[] rows =
        IntStream.range(0, parts.rows().rows())
            .filter(i -> parts.rows().text("component", i).equals(component))
            .toArray();
    Set<String> others = new LinkedHashSet<>(OTHERS);
    Set<String> left = new TreeSet<>();
    Map<String, Double> failures = new HashMap<>();
    for (int i : rows) {
      failures.merge(
          product(parts, i), parts.rows().failed(i) ? parts.rows().count(i) : 0, Double::sum);
    }
    failures.forEach(
        (product, n) -> {
          if (n > 0) {
            left.add(product);
          }
        });
    RegressionSettings settings =
        RegressionSettings.defaults().withConfidence(confidence).withTermTests(false);
    for (int tried = 0; tried < MOST_TRIES && left.size() > 1; tried++) {
      int[] kept = Arrays.stream(rows).filter(i -> left.contains(product(parts, i))).toArray();
      RegressionFit fit =
          WeibullRegression.fit(
              observations(parts, kept), covariates(parts, kept, others), settings);
      if (fit instanceof RegressionFit.Fitted fitted) {
        adjustedFor = List.copyOf(others);
        left.forEach(p -> ratios.put(p, ratio(fitted, p, left, failures, confidence)));
        return;
      }
      if (!drop(((RegressionFit.NotEstimable) fit).terms(), others, left)) {
        return;
      }
    }
  }

  /** Leaves out what is at fault, else the last covariate; false when nothing is left to. */
  private static boolean drop(List<String> terms, Set<String> others, Set<String> products) {
    boolean dropped = false;
    for (String term : terms) {
      String column = term.contains("=") ? term.substring(0, term.indexOf('=')) : term;
      dropped |= others.remove(column);
    }
    for (String term : dropped ? List.<String>of() : terms) {
      dropped |= products.remove(term.substring(term.indexOf('=') + 1));
    }
    if (!dropped && !others.isEmpty()) {
      dropped = others.remove(new ArrayList<>(others).get(others.size() - 1));
    }
    return dropped;
  }

  private static String product(Parts parts, int i) {
    String product = parts.rows().text(PRODUCT, i);
    return product.isEmpty() ? UNKNOWN : product;
  }

  private static Observations observations(Parts parts, int[] rows) {
    Observations.Builder builder = Observations.builder();
    for (int i : rows) {
      builder.add(parts.observations().get(i));
    }
    return builder.build();
  }

  private static Covariates covariates(Parts parts, int[] rows, Set<String> others) {
    Covariates.Builder builder =
        Covariates.builder(rows.length)
            .categorical(PRODUCT, Arrays.stream(rows).mapToObj(i -> product(parts, i)).toList());
    for (String column : others) {
      if (column.equals(NUMBER)) {
        builder.numeric(column, Arrays.stream(rows).mapToDouble(i -> number(parts, i)).toArray());
      } else {
        builder.categorical(
            column, Arrays.stream(rows).mapToObj(i -> text(parts, column, i)).toList());
      }
    }
    return builder.build();
  }

  private static double number(Parts parts, int i) {
    String text = parts.text(NUMBER, i);
    return text.isEmpty() ? 0 : Double.parseDouble(text);
  }

  private static String text(Parts parts, String column, int i) {
    String text = parts.text(column, i);
    return text.isEmpty() ? UNKNOWN : text;
  }

  /** A product against the mean of the others, each with its failures as weight. */
  private static Estimate ratio(
      RegressionFit.Fitted fit,
      String product,
      Set<String> products,
      Map<String, Double> failures,
      double confidence) {
    double rest = 0;
    for (String other : products) {
      rest += other.equals(product) ? 0 : failures.getOrDefault(other, 0.0);
    }
    double[] weight = new double[fit.covarianceOrder().size()];
    double log = 0;
    for (int k = 0; k < fit.coefficients().size(); k++) {
      String term = fit.coefficients().get(k).term();
      String level = term.startsWith(PRODUCT + "=") ? term.substring(PRODUCT.length() + 1) : "";
      if (products.contains(level)) {
        weight[k] = level.equals(product) ? 1 : -failures.getOrDefault(level, 0.0) / rest;
        log += weight[k] * fit.coefficients().get(k).value().estimate();
      }
    }
    double variance = 0;
    for (int j = 0; j < weight.length; j++) {
      for (int k = 0; k < weight.length; k++) {
        variance += weight[j] * weight[k] * fit.covariance().get(j).get(k);
      }
    }
    double half = Quantiles.twoSidedNormal(confidence) * Math.sqrt(variance);
    return new Estimate(Math.exp(log), Math.exp(log - half), Math.exp(log + half));
  }

  /** Life ratios by product; the product not on record under {@value #UNKNOWN}. */
  Map<String, Estimate> byProduct() {
    return ratios;
  }

  List<String> adjustedFor() {
    return ratios.isEmpty() ? List.of() : adjustedFor;
  }

  /** The name under which a product stands here. */
  static String nameOf(String product) {
    return product.isEmpty() ? UNKNOWN : product;
  }
}
