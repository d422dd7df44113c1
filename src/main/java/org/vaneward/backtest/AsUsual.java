package org.vaneward.backtest;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.vaneward.stats.Streams;
import org.vaneward.stats.renewal.CountDistribution;

/**
 * A half-year lived forward many times as the shop would have carried on: planned rebuilds at the
 * intervals it had kept, stops mended or rebuilt in full as often as before. What came cannot be
 * held against a forecast under another plan.
 *
 * <p>Every pump in every future has random numbers of its own, made from the seed and both numbers.
 */
final class AsUsual {
  private final Habits habits;
  private final List<PumpThen> pumps;
  private final int futures;
  private final long seed;
  private final int draws;

  /** What came of each future, and in how many each pump stopped. */
  private final int[] stops;

  private final int[] kits;
  private final int[] planned;
  private final int[] stopped;

  private AsUsual(Habits habits, List<PumpThen> pumps, int futures, long seed) {
    this.habits = habits;
    this.pumps = pumps;
    this.futures = futures;
    this.seed = seed;
    this.draws = pumps.stream().mapToInt(PumpThen::draws).max().orElse(1);
    this.stops = new int[futures];
    this.kits = new int[futures];
    this.planned = new int[futures];
    this.stopped = new int[pumps.size()];
  }

  /**
   * What the futures come to.
   *
   * @param forecast unplanned stops, and each pump's chance of one
   * @param kits kits fitted
   * @param planned planned rebuilds
   */
  record Ahead(Forecast forecast, CountDistribution kits, CountDistribution planned) {}

  static Ahead of(Habits habits, List<PumpThen> pumps, int futures, long seed) {
    AsUsual usual = new AsUsual(habits, pumps, futures, seed);
    usual.live();
    // By a half off 0 and 1: that no future had a stop does not rule one out.
    List<Double> chances =
        IntStream.of(usual.stopped).mapToObj(n -> (n + 0.5) / (futures + 1.0)).toList();
    return new Ahead(
        new Forecast(CountDistribution.ofDraws(usual.stops), chances),
        CountDistribution.ofDraws(usual.kits),
        CountDistribution.ofDraws(usual.planned));
  }

  /** Pump by pump: whole numbers add up to the same in any order. */
  private void live() {
    for (int p = 0; p < pumps.size(); p++) {
      int number = p;
      PumpThen pump = pumps.get(p);
      stopped[p] =
          (int)
              IntStream.range(0, futures)
                  .parallel()
                  .filter(f -> new Run(pump, f, number).live())
                  .count();
    }
  }

  /** One pump in one future. */
  private final class Run {
    private final PumpThen pump;
    private final int future;
    private final int draw;
    private final SplittableRandom random;
    private final double horizon;
    private final double[] stopAt;

    Run(PumpThen pump, int future, int number) {
      this.pump = pump;
      this.future = future;
      this.draw = future % draws;
      this.random = Streams.of(seed, future, number);
      this.horizon = pump.ahead * Math.exp(pump.relativeSd * random.nextGaussian());
      this.stopAt = new double[pump.parts()];
    }

    /** Whether the pump stopped. */
    boolean live() {
      for (int k = 0; k < stopAt.length; k++) {
        stopAt[k] = pump.firstStop(k, draw, random);
      }
      double due = interval(pump.sinceRebuild) - pump.sinceRebuild;
      boolean stoppedOnce = false;
      while (true) {
        int first = first();
        double stop = first < 0 ? Double.POSITIVE_INFINITY : stopAt[first];
        double at = Math.min(stop, due);
        if (!(at <= horizon)) {
          return stoppedOnce;
        }
        boolean isStop = stop <= due;
        boolean full = !isStop || random.nextDouble() < habits.fullAtStop;
        count(isStop, full);
        stoppedOnce |= isStop;
        if (full) {
          for (int k = 0; k < stopAt.length; k++) {
            stopAt[k] = at + pump.freshStop(k, draw, random);
          }
          due = at + interval(0);
        } else {
          stopAt[first] = at + pump.freshStop(first, draw, random);
        }
      }
    }

    /** Each future is on one thread at a time, and pumps come one after another. */
    private void count(boolean isStop, boolean full) {
      double kit = isStop ? (full ? habits.kitFull : habits.kitMended) : habits.kitPlanned;
      stops[future] += isStop ? 1 : 0;
      planned[future] += isStop ? 0 : 1;
      kits[future] += random.nextDouble() < kit ? 1 : 0;
    }

    private int first() {
      int first = -1;
      for (int k = 0; k < stopAt.length; k++) {
        if (first < 0 || stopAt[k] < stopAt[first]) {
          first = k;
        }
      }
      return first;
    }

    /** An interval of those longer than what has been run; at once when it was longer than all. */
    private double interval(double run) {
      double[] all = pump.intervals;
      int from = 0;
      while (from < all.length && !(all[from] > run)) {
        from++;
      }
      return from == all.length ? run : all[from + random.nextInt(all.length - from)];
    }
  }
}
