package org.vaneward.api;

import java.util.List;
import java.util.Optional;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.life.LivesTable;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.PositionRisk;
import org.vaneward.report.LifePictures;
import org.vaneward.report.Words;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * A Weibull life fitted to lives, or the reason why none can be.
 *
 * <pre>{@code
 * PartFit bearings = records.lives().where("component", "bearing").fit();
 * if (bearings.notEstimable().isEmpty()) {
 *   System.out.println(bearings.shape() + ", " + bearings.scale() + ", " + bearings.mean());
 *   Chart paper = bearings.probabilityPlot();
 *   Chart running = bearings.survivalCurve();
 * }
 * }</pre>
 */
public final class PartFit {
  private final LivesTable table;
  private final Observations lives;
  private final FitSettings settings;
  private final Clock clock;
  private final WeibullFit fit;

  PartFit(LivesTable table, FitSettings settings, Clock clock) {
    this.table = table;
    this.lives = table.observations();
    this.settings = settings;
    this.clock = clock;
    this.fit = WeibullFitter.fit(lives, settings);
  }

  /** Why there is none; empty when there is one. */
  public Optional<String> notEstimable() {
    return fit instanceof NotEstimable none ? Optional.of(none.reason()) : Optional.empty();
  }

  private Fitted fitted() {
    if (fit instanceof Fitted fitted) {
      return fitted;
    }
    throw new IllegalStateException("not estimable: " + notEstimable().orElseThrow());
  }

  /**
   * The shape: above 1, parts fail more as they age; below, less.
   *
   * @throws IllegalStateException when {@link #notEstimable}
   */
  public Figure shape() {
    return Figure.of(fitted().shape());
  }

  /**
   * The scale: the age by which 63.2% have failed.
   *
   * @throws IllegalStateException when {@link #notEstimable}
   */
  public Figure scale() {
    return Figure.of(fitted().scale());
  }

  /**
   * The mean life.
   *
   * @throws IllegalStateException when {@link #notEstimable}
   */
  public Figure mean() {
    return Figure.of(WeibullFitter.mean(lives, fitted()));
  }

  /**
   * The age by which a share has failed.
   *
   * <pre>{@code
   * Figure half = fit.age(0.50);
   * }</pre>
   *
   * @param share between 0 and 1
   * @throws IllegalArgumentException when it is not
   * @throws IllegalStateException when {@link #notEstimable}
   */
  public Figure age(double share) {
    if (!(share > 0 && share < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + share);
    }
    return Figure.of(WeibullFitter.quantiles(lives, fitted(), share).get(0).age());
  }

  /**
   * The share that outlives an age.
   *
   * <pre>{@code
   * Figure left = fit.survival(8000);
   * }</pre>
   *
   * @param age above 0
   * @throws IllegalArgumentException when it is not
   * @throws IllegalStateException when {@link #notEstimable}
   */
  public Figure survival(double age) {
    if (!(age > 0 && age < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an age is above 0, not " + age);
    }
    return Figure.of(WeibullFitter.survival(lives, fitted(), age).get(0));
  }

  /**
   * How far to trust it, in a sentence or two: whether the lives look like a Weibull's, whether
   * they age, and what few failures do to that.
   *
   * <pre>{@code
   * String verdict = fit.verdict();
   * }</pre>
   */
  public String verdict() {
    FitQuestion question = FitQuestion.weibull(List.of(), settings).withTest();
    return FamilyFits.of(table, question).fits().get(0).verdict();
  }

  /**
   * The lives on Weibull paper, with the fitted line and its limits.
   *
   * @throws IllegalStateException when there are too few failures to draw
   */
  public Chart probabilityPlot() {
    return drawn(pictures().paper("Failed by age", label(), lives, line()));
  }

  /**
   * The share still running by age, by the product limit, with the fitted curve through it.
   *
   * @throws IllegalStateException when there are too few failures to draw, or failures known only
   *     to an interval
   */
  public Chart survivalCurve() {
    return drawn(pictures().survival("Share still running", label(), lives, line()));
  }

  private LifePictures pictures() {
    return new LifePictures(settings.confidence(), AgeUnit.valueOf(clock.name()));
  }

  private Optional<Fitted> line() {
    return fit instanceof Fitted fitted ? Optional.of(fitted) : Optional.empty();
  }

  private String label() {
    return Words.count(Math.round(table.lives()), "life", "lives");
  }

  private static Chart drawn(Optional<Picture> picture) {
    return new Chart(
        picture.orElseThrow(
            () ->
                new IllegalStateException(
                    "nothing to draw: fewer than 3 failures at different ages, or failures known"
                        + " only to an interval")));
  }

  /**
   * The interval at which it costs least to renew the part, were the fitted life the true one: it
   * knows nothing of how sure the fit is, nor of any other part or limit. {@link
   * Decisions#intervals} does, for a pump as a whole.
   *
   * <pre>{@code
   * PartFit bearings = records.lives().where("component", "bearing").fit();
   * BestInterval best = bearings.bestInterval(1600, 5200);
   * }</pre>
   *
   * @param planned cost of renewing it as planned, above 0
   * @param unplanned cost when it fails first, renewal included, 0 or more
   * @throws IllegalArgumentException when a cost is out of range
   * @throws IllegalStateException when {@link #notEstimable}
   */
  public BestInterval bestInterval(double planned, double unplanned) {
    if (!(planned > 0 && planned < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a planned cost is above 0, not " + planned);
    }
    if (!(unplanned >= 0 && unplanned < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an unplanned cost is 0 or more, not " + unplanned);
    }
    PositionRisk risk = PositionRisk.announcing("the part", "part", fitted().weibull(), unplanned);
    return BestInterval.of(IntervalSearch.best(new CostModel(planned, List.of(risk))));
  }

  /** In words: shape and scale with limits, or why there are none. */
  @Override
  public String toString() {
    String counts = label() + ", " + Words.count(Math.round(fit.failures()), "failure", "failures");
    return fit instanceof Fitted
        ? "Weibull of "
            + counts
            + ": shape "
            + shape()
            + ", scale "
            + scale()
            + " "
            + Words.unit(clock)
        : "Weibull of " + counts + ": not estimable, " + notEstimable().orElseThrow();
  }
}
