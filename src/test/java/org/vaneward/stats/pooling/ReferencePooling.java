package org.vaneward.stats.pooling;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;

/** The brute-force posterior under {@code reference-own/pooling}: its lives and its figures. */
public final class ReferencePooling {
  private ReferencePooling() {}

  /**
   * A figure.
   *
   * @param model what it is a figure of
   * @param trusted greatest error of the value
   */
  public record Figure(
      Model model, String caseName, String quantity, double value, double trusted) {
    @Override
    public String toString() {
      return model + " " + caseName + " " + quantity;
    }
  }

  /** Which model figures are of. */
  public enum Model {
    /** One shape for all groups. */
    ONE_SHAPE("expected.csv", 0),
    /** A shape for each group. */
    SHAPES("expected-shapes.csv", 0.3);

    private final String file;
    private final double shapesBetweenScale;

    Model(String file, double shapesBetweenScale) {
      this.file = file;
      this.shapesBetweenScale = shapesBetweenScale;
    }

    /** As the figures have it, integrated closely; 40,000 draws. */
    public PoolingSettings settings() {
      return PoolingSettings.defaults()
          .withDraws(40_000)
          .withPrecision(Precision.FINE)
          .withPriors(PoolingSettings.Priors.defaults().withShapesBetweenScale(shapesBetweenScale));
    }
  }

  /** Lives by group of a case, groups in the order of the file. */
  public static Map<String, Observations> lives(String caseName) {
    Map<String, List<Observation>> groups = new LinkedHashMap<>();
    for (String line : lines("lives.csv")) {
      String[] cell = line.split(",", -1);
      if (cell[0].equals(caseName)) {
        groups.computeIfAbsent(cell[1], g -> new ArrayList<>()).add(observation(cell));
      }
    }
    Map<String, Observations> lives = new LinkedHashMap<>();
    groups.forEach((name, list) -> lives.put(name, Observations.of(list)));
    return lives;
  }

  private static Observation observation(String[] cell) {
    double entry = Double.parseDouble(cell[2]);
    double lower = Double.parseDouble(cell[3]);
    double count = Double.parseDouble(cell[5]);
    if (cell[4].isEmpty()) {
      return new Observation.RightCensored(entry, lower, count);
    }
    double upper = Double.parseDouble(cell[4]);
    return lower == upper
        ? new Observation.Exact(entry, upper, count)
        : new Observation.Interval(entry, lower, upper, count);
  }

  /** All figures. */
  public static List<Figure> figures() {
    List<Figure> figures = new ArrayList<>();
    for (Model model : Model.values()) {
      for (String line : lines(model.file)) {
        String[] cell = line.split(",", -1);
        figures.add(
            new Figure(
                model, cell[0], cell[1], Double.parseDouble(cell[2]), Double.parseDouble(cell[3])));
      }
    }
    return figures;
  }

  private static List<String> lines(String file) {
    String path = "/reference-own/pooling/" + file;
    try (InputStream in = ReferencePooling.class.getResourceAsStream(path)) {
      byte[] bytes = Objects.requireNonNull(in, path).readAllBytes();
      return new String(bytes, StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What a fit says of a quantity of the file. */
  public static double got(PooledFit.Fitted fit, List<String> groups, String quantity) {
    String[] part = quantity.split(":", -1);
    if (part[0].equals("log_marginal")) {
      return fit.diagnostics().logMarginalLikelihood();
    }
    double[] x = column(fit.draws(), part, groups);
    if (part[0].equals("below")) {
      double limit = Double.parseDouble(part[2]);
      double below = 0;
      for (double value : x) {
        below += value <= limit ? 1 : 0;
      }
      return below / x.length;
    }
    return part[0].startsWith("mean") ? mean(x) : Math.sqrt(variance(x));
  }

  /** A standard deviation of the Monte Carlo error of {@link #got}. */
  public static double noise(PooledFit.Fitted fit, List<String> groups, String quantity) {
    String[] part = quantity.split(":", -1);
    if (part[0].equals("log_marginal")) {
      return 0;
    }
    if (part[0].equals("below")) {
      double p = got(fit, groups, quantity);
      return Math.sqrt(p * (1 - p) / fit.draws().size());
    }
    double[] x = column(fit.draws(), part, groups);
    if (part[0].startsWith("mean")) {
      return Math.sqrt(variance(x) / x.length);
    }
    double mean = mean(x);
    double[] squares = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      squares[i] = (x[i] - mean) * (x[i] - mean);
    }
    return Math.sqrt(variance(squares) / x.length / variance(x)) / 2;
  }

  private static double[] column(Draws draws, String[] part, List<String> groups) {
    double[] x = new double[draws.size()];
    for (int i = 0; i < x.length; i++) {
      if (part[0].endsWith("own_log_shape")) {
        x[i] = Math.log(draws.shape(groups.indexOf(part[1]), i));
      } else if (part.length > 1) {
        x[i] = Math.log(draws.scale(groups.indexOf(part[1]), i));
      } else if (part[0].endsWith("shape")) {
        x[i] = Math.log(draws.populationShape(i));
      } else if (part[0].endsWith("population")) {
        x[i] = Math.log(draws.populationScale(i));
      } else if (part[0].endsWith("shapes_between")) {
        x[i] = draws.shapesBetweenSd(i);
      } else {
        x[i] = draws.betweenSd(i);
      }
    }
    return x;
  }

  private static double mean(double[] x) {
    double sum = 0;
    for (double value : x) {
      sum += value;
    }
    return sum / x.length;
  }

  private static double variance(double[] x) {
    double mean = mean(x);
    double sum = 0;
    for (double value : x) {
      sum += (value - mean) * (value - mean);
    }
    return sum / (x.length - 1);
  }
}
