package org.vaneward.stats.nonparametric;

import java.util.List;
import org.vaneward.stats.distribution.Weibull;

/**
 * A straight line by least squares through failures on Weibull probability paper, where log age and
 * log(-log(1 - F)) lie on a line of slope shape.
 *
 * <p><b>A check only: no decision rests on it.</b> The points are not independent of each other,
 * their scatter is far greater at the lower end, and both directions of the regression treat them
 * as if neither were so; suspensions count only through the ranks; nothing says how sure the line
 * is. Maximum likelihood has none of these faults. What the line is good for: a fit by likelihood
 * that lies far from it says that the data, or the Weibull form, want a look.
 */
public sealed interface RankRegression {
  /** Which of the two is taken to be free of scatter. */
  enum Direction {
    /** Log age on plotting position: what reliability handbooks call X on Y. */
    AGE_ON_POSITION,
    /** Plotting position on log age: Y on X. */
    POSITION_ON_AGE
  }

  /** Which plotting position an adjusted rank is given. */
  enum Position {
    /** The exact median rank. */
    MEDIAN_RANK,
    /** Benard's approximation of it. */
    BENARD
  }

  /**
   * The line.
   *
   * @param weibull the distribution whose line it is
   * @param correlation of log age and plotting position; high for any points in order of age, so a
   *     low one says more than a high one
   * @param points number of points
   * @param direction which way the squares are taken
   */
  record Line(Weibull weibull, double correlation, int points, Direction direction)
      implements RankRegression {}

  /**
   * There is no line.
   *
   * @param reason why, in one short phrase
   */
  record NotEstimable(String reason) implements RankRegression {}

  /** The line through ranked failures. */
  static RankRegression of(AdjustedRanks.Ranked ranks, Position position, Direction direction) {
    List<AdjustedRanks.Point> points = ranks.points();
    double[] ages = new double[points.size()];
    double[] shares = new double[points.size()];
    for (int i = 0; i < ages.length; i++) {
      ages[i] = points.get(i).age();
      shares[i] = position == Position.BENARD ? points.get(i).benard() : points.get(i).medianRank();
    }
    return of(ages, shares, direction);
  }

  /**
   * The line through points.
   *
   * @param ages positive and finite. Not modified.
   * @param shares share failed at each, between 0 and 1. Not modified.
   * @throws IllegalArgumentException when a number is out of its range or there are not as many
   *     shares as ages
   */
  static RankRegression of(double[] ages, double[] shares, Direction direction) {
    if (ages.length != shares.length) {
      throw new IllegalArgumentException(
          "shares are given for " + shares.length + " ages of " + ages.length);
    }
    int n = ages.length;
    double[] x = new double[n];
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      if (!(ages[i] > 0 && ages[i] < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("an age is positive and finite, not " + ages[i]);
      }
      if (!(shares[i] > 0 && shares[i] < 1)) {
        throw new IllegalArgumentException("a share is between 0 and 1, not " + shares[i]);
      }
      x[i] = Math.log(ages[i]);
      y[i] = Math.log(-Math.log1p(-shares[i]));
    }
    return line(x, y, direction);
  }

  private static RankRegression line(double[] x, double[] y, Direction direction) {
    int n = x.length;
    if (n < 2) {
      return new NotEstimable("fewer than two failures");
    }
    double meanX = mean(x);
    double meanY = mean(y);
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int i = 0; i < n; i++) {
      xx += (x[i] - meanX) * (x[i] - meanX);
      xy += (x[i] - meanX) * (y[i] - meanY);
      yy += (y[i] - meanY) * (y[i] - meanY);
    }
    double shape = direction == Direction.POSITION_ON_AGE ? xy / xx : yy / xy;
    // rounding of equal logs leaves a spread of the size of their last digits
    boolean spread = xx > n * 1e-24 * Math.max(1, meanX * meanX);
    double scale = Math.exp(meanX - meanY / shape);
    if (!(spread && shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      return new NotEstimable(
          spread ? "the points do not rise with age" : "all failures at one age");
    }
    if (!(scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      return new NotEstimable("the scale is beyond what a number can hold");
    }
    return new Line(new Weibull(shape, scale), xy / Math.sqrt(xx * yy), n, direction);
  }

  private static double mean(double[] values) {
    double sum = 0;
    for (double v : values) {
      sum += v;
    }
    return sum / values.length;
  }
}
