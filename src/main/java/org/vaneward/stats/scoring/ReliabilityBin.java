package org.vaneward.stats.scoring;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;

/**
 * How often what was given a chance between two bounds came: a calibrated forecast brings about as
 * many as it foretold.
 *
 * @param from lower bound of the chances
 * @param to upper bound
 * @param forecasts how many chances lay between them
 * @param foretold their mean
 * @param came how often the event came
 * @param share share that came, with equal-tailed exact limits (C. J. Clopper and E. S. Pearson,
 *     Biometrika 26, 1934, 404-413, from memory), which take the events as independent
 */
public record ReliabilityBin(
    double from, double to, int forecasts, double foretold, int came, Estimate share) {

  /**
   * The bins in which there are forecasts.
   *
   * @param chances forecast, each from 0 to 1
   * @param came whether the event of each came
   * @param edges of the bins, rising from 0 to 1; a chance on an edge is in the bin above it
   * @param confidence of the limits, between 0 and 1
   * @throws IllegalArgumentException when there are not as many events as chances
   */
  public static List<ReliabilityBin> of(
      double[] chances, boolean[] came, double[] edges, double confidence) {
    if (chances.length != came.length) {
      throw new IllegalArgumentException(chances.length + " chances, " + came.length + " events");
    }
    List<ReliabilityBin> bins = new ArrayList<>();
    for (int b = 0; b + 1 < edges.length; b++) {
      int n = 0;
      int events = 0;
      double sum = 0;
      boolean last = b + 2 == edges.length;
      for (int i = 0; i < chances.length; i++) {
        if (chances[i] >= edges[b] && (chances[i] < edges[b + 1] || last)) {
          n++;
          sum += chances[i];
          events += came[i] ? 1 : 0;
        }
      }
      if (n > 0) {
        bins.add(
            new ReliabilityBin(
                edges[b], edges[b + 1], n, sum / n, events, share(events, n, confidence)));
      }
    }
    return bins;
  }

  /** A share with exact limits. */
  static Estimate share(int events, int n, double confidence) {
    double tail = (1 - confidence) / 2;
    return new Estimate(
        (double) events / n,
        events == 0 ? 0 : Quantiles.beta(tail, events, n - events + 1.0),
        events == n ? 1 : Quantiles.beta(1 - tail, events + 1.0, n - events));
  }
}
