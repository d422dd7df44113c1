package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.LimitPoint;
import org.vaneward.chart.Picture;
import org.vaneward.chart.ProbabilityPlot;
import org.vaneward.chart.SurvivalPlot;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.nonparametric.Turnbull;

/**
 * Draws lives and a Weibull fitted to them.
 *
 * @param confidence of the limits drawn
 * @param unit of the ages
 */
public record LifePictures(double confidence, AgeUnit unit) {
  /** Fewer points than this make no picture worth drawing. */
  private static final int FEWEST_POINTS = 3;

  /** Turnbull masses below this are none. */
  private static final double LEAST_MASS = 1e-6;

  private static final int BAND_AGES = 30;

  /**
   * The share failed by age on Weibull paper; failures known to an interval stand there by
   * Turnbull's estimate. Empty when there are too few points to draw.
   */
  public Optional<Picture> paper(
      String title, String label, Observations lives, Optional<Fitted> fit) {
    boolean hidden = hasIntervals(lives);
    List<ProbabilityPlot.Point> points = hidden ? turnbull(lives) : productLimit(lives);
    if (points.size() < FEWEST_POINTS) {
      return Optional.empty();
    }
    ProbabilityPlot.Group group =
        new ProbabilityPlot.Group(
            label,
            points,
            fit.map(Fitted::weibull),
            fit.map(f -> band(lives, f, points)).orElse(List.of()),
            unit);
    return Optional.of(
        ProbabilityPlot.draw(
            hidden ? title + " (points: Turnbull's estimate, at the look that found them)" : title,
            List.of(group)));
  }

  private static boolean hasIntervals(Observations lives) {
    for (int i = 0; i < lives.size(); i++) {
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        return true;
      }
    }
    return false;
  }

  private List<ProbabilityPlot.Point> productLimit(Observations lives) {
    List<ProbabilityPlot.Point> points = new ArrayList<>();
    for (ProductLimit.Point point : curve(lives).points()) {
      addPoint(points, point.age(), point.survival());
    }
    return points;
  }

  /** Failures known to an interval have no place in the product limit; they do in Turnbull's. */
  private static List<ProbabilityPlot.Point> turnbull(Observations lives) {
    List<ProbabilityPlot.Point> points = new ArrayList<>();
    Turnbull estimate = Turnbull.of(lives);
    if (estimate.converged()) {
      for (Turnbull.Mass mass : estimate.masses()) {
        if (mass.mass() > LEAST_MASS && mass.to() < Double.POSITIVE_INFINITY) {
          addPoint(points, mass.to(), mass.survivalAfter());
        }
      }
    }
    return points;
  }

  private static void addPoint(List<ProbabilityPlot.Point> points, double age, double survival) {
    if (survival > 0 && survival < 1) {
      points.add(new ProbabilityPlot.Point(age, 1 - survival));
    }
  }

  /** Limits of the failed share, at ages evenly spread in log over the points. */
  private static List<LimitPoint> band(
      Observations lives, Fitted fit, List<ProbabilityPlot.Point> points) {
    double first = Math.log(points.get(0).ageHours());
    double last = Math.log(points.get(points.size() - 1).ageHours());
    if (!(last > first)) {
      return List.of();
    }
    double[] ages = new double[BAND_AGES];
    for (int i = 0; i < BAND_AGES; i++) {
      ages[i] = Math.exp(first + (last - first) * i / (BAND_AGES - 1));
    }
    List<Estimate> survival = WeibullFitter.survival(lives, fit, ages);
    List<LimitPoint> band = new ArrayList<>();
    for (int i = 0; i < BAND_AGES; i++) {
      band.add(new LimitPoint(ages[i], 1 - survival.get(i).upper(), 1 - survival.get(i).lower()));
    }
    return band;
  }

  /**
   * The share still running by age, by the product limit, with the fitted line through it. Empty
   * when there are too few points to draw, or failures known only to an interval, which have no
   * place in the product limit.
   */
  public Optional<Picture> survival(
      String title, String label, Observations lives, Optional<Fitted> fit) {
    if (hasIntervals(lives)) {
      return Optional.empty();
    }
    List<SurvivalPlot.Step> steps = new ArrayList<>();
    for (ProductLimit.Point p : curve(lives).points()) {
      if (p.survival() > 0) {
        steps.add(
            new SurvivalPlot.Step(
                p.age(), p.survival(), p.lower(), p.upper(), p.atRisk(), p.events()));
      }
    }
    if (steps.size() < FEWEST_POINTS) {
      return Optional.empty();
    }
    List<Double> censored = new ArrayList<>();
    for (int i = 0; i < lives.size(); i++) {
      if (lives.isRightCensored(i)) {
        censored.add(lives.lower(i));
      }
    }
    Optional<Weibull> line = fit.map(Fitted::weibull);
    return Optional.of(
        SurvivalPlot.draw(
            title, new SurvivalPlot.Input(label, steps, censored, line, confidence, unit)));
  }

  private ProductLimit curve(Observations lives) {
    return ProductLimit.of(lives, confidence);
  }
}
