package org.vaneward.stats.recurrence;

/**
 * The log-likelihood of a power-law process with its rate eliminated: a function of the shape.
 *
 * <p>Ages are taken relative to the greatest end. With n events at log ages u, and G(b) the sum
 * over units of end^b - start^b,
 *
 * <pre>{@code   l(b) = n log n - n log G(b) + n log b + (b - 1) sum(u) - n - n log(greatest end)}
 * </pre>
 *
 * is concave in b, as b events share the log ages like an exponential family: its slope is n [mean
 * of u - m(b)], with m(b) the mean log age of an event under b.
 */
final class PowerLawLikelihood {
  final int events;
  final double logGreatest;
  final double meanLog;
  private final double[] end;
  private final double[] width;
  private final double[] weight;

  PowerLawLikelihood(EventHistories histories) {
    int units = histories.size();
    events = histories.events();
    double greatest = histories.greatestEnd();
    logGreatest = Math.log(greatest);
    end = new double[units];
    width = new double[units];
    weight = new double[units];
    double sum = 0;
    for (int i = 0; i < units; i++) {
      end[i] = LogAgeWindow.logShareOf(histories.end(i), greatest);
      width[i] = width(histories, i);
      for (int j = 0; j < histories.events(i); j++) {
        sum += LogAgeWindow.logShareOf(histories.age(i, j), greatest);
      }
    }
    meanLog = events == 0 ? 0 : sum / events;
  }

  static double width(EventHistories histories, int i) {
    double start = histories.start(i);
    return start == 0
        ? Double.POSITIVE_INFINITY
        : -LogAgeWindow.logShareOf(start, histories.end(i));
  }

  /**
   * What one shape gives.
   *
   * @param shape the shape
   * @param logSum log G
   * @param mean mean log age of an event under the shape
   * @param variance variance of that log age
   */
  record At(double shape, double logSum, double mean, double variance) {}

  At at(double shape) {
    double largest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < end.length; i++) {
      weight[i] = shape * end[i] + LogAgeWindow.logShare(shape, width[i]);
      largest = Math.max(largest, weight[i]);
    }
    double sum = 0;
    double mean = 0;
    for (int i = 0; i < end.length; i++) {
      weight[i] = Math.exp(weight[i] - largest);
      sum += weight[i];
      mean += weight[i] * (end[i] - LogAgeWindow.meanBelowEnd(shape, width[i]));
    }
    mean /= sum;
    double variance = 0;
    for (int i = 0; i < end.length; i++) {
      double off = end[i] - LogAgeWindow.meanBelowEnd(shape, width[i]) - mean;
      variance += weight[i] * (LogAgeWindow.variance(shape, width[i]) + off * off);
    }
    return new At(shape, largest + Math.log(sum), mean, variance / sum);
  }

  double value(At at) {
    double perEvent =
        Math.log(events)
            - at.logSum()
            + Math.log(at.shape())
            + (at.shape() - 1) * meanLog
            - 1
            - logGreatest;
    return events * perEvent;
  }

  double value(double logShape) {
    return value(at(Math.exp(logShape)));
  }

  /** Slope of the log-likelihood in the shape, for each event. */
  double slope(double shape) {
    return meanLog - at(shape).mean();
  }

  /** Log of the process's scale, relative to the greatest end, at the best rate for a shape. */
  double logScale(At at) {
    return (at.logSum() - Math.log(events)) / at.shape();
  }

  /**
   * Whether the slope is positive as the shape falls to 0. With a unit watched from age 0 it always
   * is; otherwise log ages are then spread evenly over the windows.
   */
  boolean risesFromZero() {
    double total = 0;
    double mean = 0;
    for (int i = 0; i < end.length; i++) {
      if (width[i] == Double.POSITIVE_INFINITY) {
        return true;
      }
      total += width[i];
      mean += width[i] * (end[i] - width[i] / 2);
    }
    return meanLog > mean / total;
  }
}
