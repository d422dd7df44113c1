package org.vaneward.study;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.pooling.Draws;
import org.vaneward.stats.pooling.PartialPooling;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

/**
 * Simulation-based calibration of the pooled model. Typical shape and scale, their spreads between
 * groups, and each group's own are drawn from the priors, lives from them; the rank of each true
 * value among the posterior draws must then be uniform (S. Talts and others, Validating Bayesian
 * inference algorithms with simulation-based calibration, arXiv 1804.06788, 2018, from memory).
 *
 * <p>When observation begins and ends, and where a failure is looked for, rests on lives seen
 * before and on chance, never on the true values, so that the likelihood of the lives is all there
 * is to know. A data set that is refused is refused for what the data are, so leaving it out keeps
 * ranks uniform.
 */
public final class PooledCalibration {
  /** Posterior draws; ranks go from 0 to this number. */
  private static final int DRAWS = 199;

  private static final int BINS = 20;

  private static final int MOST_GROUPS = 7;

  /** The centre of the prior of the typical scale. */
  private static final double TYPICAL = 1000;

  private static final double SHARE = 0.10;
  private static final int DATA_SETS = 1000;

  /** Chance of being rejected when all is right, over all quantities. */
  private static final double LEVEL = 0.01;

  /** Ratio of the edges of intervals in which failures are looked for. */
  private static final double LOOKS = 1.25;

  private PooledCalibration() {}

  /** What is ranked. */
  enum Quantity {
    SHAPE("log shape, typical group"),
    SHAPES_BETWEEN("sd of log shape"),
    FIRST_SHAPE("log shape, first group"),
    UNSEEN_SHAPE("log shape, group never seen"),
    BETWEEN("sd of log scale"),
    TYPICAL("log scale, typical group"),
    FIRST("log scale, first group"),
    TENTH("log 10% life, first group"),
    UNSEEN("log scale, group never seen");

    private final String words;

    Quantity(String words) {
      this.words = words;
    }
  }

  /** How the centre of the prior of the typical scale is come by. */
  enum Centre {
    /** Stated: a proper prior, from which the truth is drawn. */
    STATED,
    /** Worked out from the lives, as fits do unless told otherwise. */
    FROM_LIVES
  }

  /** What is done to a draw before the truth is ranked among them; for checks that must fail. */
  @FunctionalInterface
  interface Spoil {
    /**
     * A draw in place of one.
     *
     * @param quantity what was drawn
     * @param draw the draw, a logarithm but for the spreads between groups
     * @param middle mean of all draws
     */
    double of(Quantity quantity, double draw, double middle);
  }

  /** Ranks of the true values, and how many data sets had no posterior. */
  record Ranks(Map<Quantity, int[]> bins, int dataSets, int refused) {
    Ranks {
      bins = Map.copyOf(bins);
    }

    int[] bins(Quantity quantity) {
      return Optional.ofNullable(bins.get(quantity)).orElseThrow().clone();
    }

    /** Chance of ranks so uneven when they are uniform. */
    double p(Quantity quantity) {
      int[] counts = bins(quantity);
      double expected = Arrays.stream(counts).sum() / (double) BINS;
      double chi =
          Arrays.stream(counts).mapToDouble(n -> (n - expected) * (n - expected) / expected).sum();
      return Quantiles.chiSquareTail(chi, BINS - 1);
    }

    /** The same, adjusted for looking at all quantities (Holm). */
    Map<Quantity, Double> adjusted() {
      Map<Quantity, Double> adjusted = new EnumMap<>(Quantity.class);
      List<Quantity> order =
          Arrays.stream(Quantity.values()).sorted(Comparator.comparingDouble(this::p)).toList();
      double least = 0;
      for (int i = 0; i < order.size(); i++) {
        least = Math.max(least, Math.min(1, (order.size() - i) * p(order.get(i))));
        adjusted.put(order.get(i), least);
      }
      return adjusted;
    }

    /** Quantities whose ranks are not uniform. */
    List<Quantity> rejected() {
      return adjusted().entrySet().stream()
          .filter(e -> e.getValue() < LEVEL)
          .map(Map.Entry::getKey)
          .toList();
    }
  }

  /** What is true of a data set; the last scale and shape are those of a group never seen. */
  private record Truth(
      double logShape,
      double shapesBetween,
      double between,
      double typical,
      List<Double> logScales,
      List<Double> logShapes) {}

  /** Ranks over some data sets, seeds from {@code first} on, on all cores. */
  static Ranks ranks(Centre centre, long first, int dataSets) {
    return ranks(centre, first, dataSets, List.of((quantity, draw, middle) -> draw)).get(0);
  }

  /** The same, once for each way of spoiling the draws. */
  static List<Ranks> ranks(Centre centre, long first, int dataSets, List<Spoil> spoils) {
    List<Optional<Posterior>> posteriors =
        LongStream.range(first, first + dataSets)
            .parallel()
            .mapToObj(seed -> posterior(centre, seed))
            .toList();
    List<Posterior> all = posteriors.stream().flatMap(Optional::stream).toList();
    return spoils.stream()
        .map(spoil -> new Ranks(bins(all, spoil), dataSets, dataSets - all.size()))
        .toList();
  }

  private static Map<Quantity, int[]> bins(List<Posterior> posteriors, Spoil spoil) {
    Map<Quantity, int[]> bins = new EnumMap<>(Quantity.class);
    for (Quantity quantity : Quantity.values()) {
      int[] counts = new int[BINS];
      posteriors.forEach(one -> counts[one.rank(quantity, spoil) * BINS / (DRAWS + 1)]++);
      bins.put(quantity, counts);
    }
    return bins;
  }

  /** What is true of a data set, and what its posterior says. */
  private record Posterior(Truth truth, Draws draws) {
    /** How many draws lie below the true value. */
    int rank(Quantity quantity, Spoil spoil) {
      double[] column =
          IntStream.range(0, draws.size()).mapToDouble(i -> of(quantity, draws, i)).toArray();
      double middle = Arrays.stream(column).average().orElseThrow();
      double value = of(quantity, truth);
      return (int) Arrays.stream(column).filter(x -> spoil.of(quantity, x, middle) < value).count();
    }
  }

  /** The posterior of one data set; none when it is refused. */
  private static Optional<Posterior> posterior(Centre centre, long seed) {
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(seed);
    Priors priors = Priors.defaults();
    Truth truth = truth(rng, priors);
    PoolingSettings settings =
        PoolingSettings.defaults()
            .withDraws(DRAWS)
            .withSeed(seed)
            .withShares(List.of())
            .withPriors(centre == Centre.STATED ? priors.withTypicalScale(TYPICAL) : priors);
    return PartialPooling.fit(new Shop(rng, truth).groups(), settings)
            instanceof PooledFit.Fitted fit
        ? Optional.of(new Posterior(truth, fit.draws()))
        : Optional.empty();
  }

  private static Truth truth(UniformRandomProvider rng, Priors priors) {
    ZigguratSampler.NormalizedGaussian normal = ZigguratSampler.NormalizedGaussian.of(rng);
    double between = Math.abs(priors.betweenScale() * normal.sample());
    double typical = Math.log(TYPICAL) + priors.scaleLogSd() * normal.sample();
    double logShape = Math.log(priors.shapeMedian()) + priors.shapeLogSd() * normal.sample();
    double shapesBetween = Math.abs(priors.shapesBetweenScale() * normal.sample());
    List<Double> logScales = new ArrayList<>();
    List<Double> logShapes = new ArrayList<>();
    for (int left = 2 + rng.nextInt(MOST_GROUPS); left > 0; left--) {
      logScales.add(typical + between * normal.sample());
      logShapes.add(logShape + shapesBetween * normal.sample());
    }
    return new Truth(logShape, shapesBetween, between, typical, logScales, logShapes);
  }

  private static double of(Quantity quantity, Draws draws, int i) {
    return switch (quantity) {
      case SHAPE -> Math.log(draws.populationShape(i));
      case SHAPES_BETWEEN -> draws.shapesBetweenSd(i);
      case FIRST_SHAPE -> Math.log(draws.shape(0, i));
      case UNSEEN_SHAPE -> Math.log(draws.newGroupShape(i));
      case BETWEEN -> draws.betweenSd(i);
      case TYPICAL -> Math.log(draws.populationScale(i));
      case FIRST -> Math.log(draws.scale(0, i));
      case TENTH -> Math.log(draws.scale(0, i)) + logTenth(draws.shape(0, i));
      case UNSEEN -> Math.log(draws.newGroupScale(i));
    };
  }

  private static double of(Quantity quantity, Truth truth) {
    List<Double> logScales = truth.logScales();
    return switch (quantity) {
      case SHAPE -> truth.logShape();
      case SHAPES_BETWEEN -> truth.shapesBetween();
      case FIRST_SHAPE -> truth.logShapes().get(0);
      case UNSEEN_SHAPE -> truth.logShapes().get(logScales.size() - 1);
      case BETWEEN -> truth.between();
      case TYPICAL -> truth.typical();
      case FIRST -> logScales.get(0);
      case TENTH -> logScales.get(0) + logTenth(Math.exp(truth.logShapes().get(0)));
      case UNSEEN -> logScales.get(logScales.size() - 1);
    };
  }

  private static double logTenth(double shape) {
    return Math.log(-Math.log1p(-SHARE)) / shape;
  }

  /**
   * Watches lives. The first life of the last group is seen to fail; about its age the others are
   * watched from ages and to ages of their own, to a number of failures, or by looks now and then.
   */
  private static final class Shop {
    private static final int MOST_LIVES = 40;

    private final UniformRandomProvider rng;
    private final Truth truth;

    /** An age seen to be ordinary. */
    private double ordinary;

    Shop(UniformRandomProvider rng, Truth truth) {
      this.rng = rng;
      this.truth = truth;
    }

    List<Observations> groups() {
      int seen = truth.logScales().size() - 1;
      ordinary = life(seen - 1, 0);
      List<Observations> groups = new ArrayList<>();
      for (int s = 0; s < seen; s++) {
        Observations.Builder group = Observations.builder();
        if (s == seen - 1) {
          group.addFailure(0, ordinary, 1);
        }
        watch(s, group);
        groups.add(group.build());
      }
      return groups;
    }

    private void watch(int s, Observations.Builder group) {
      int lives = (int) Math.exp(Math.log(MOST_LIVES) * rng.nextDouble());
      switch (rng.nextInt(4)) {
        case 0 -> untilAges(s, group, lives, false);
        case 1 -> untilAges(s, group, lives, true);
        case 2 -> untilFailures(s, group, lives);
        default -> byLooks(s, group, lives);
      }
    }

    /** Running from {@code entry} on, an age at failure. */
    private double life(int s, double entry) {
      double shape = Math.exp(truth.logShapes().get(s));
      double logScale = truth.logScales().get(s);
      double before = entry > 0 ? Math.exp(shape * (Math.log(entry) - logScale)) : 0;
      double hazard = before - Math.log1p(-rng.nextDouble());
      return Math.exp(logScale + Math.log(hazard) / shape);
    }

    /** Late ones come under observation at an age that others of the group have run. */
    private void untilAges(int s, Observations.Builder group, int lives, boolean late) {
      double run = 0;
      for (int i = 0; i < lives; i++) {
        double entry = late && rng.nextBoolean() ? run * rng.nextDouble() : 0;
        double age = life(s, entry);
        double end = entry + ordinary * 4 * rng.nextDouble();
        add(group, entry, age, end);
        run = i == 0 ? Math.min(age, end) : Math.min(run, Math.min(age, end));
      }
    }

    /** All begin together and are watched until some of them have failed. */
    private void untilFailures(int s, Observations.Builder group, int lives) {
      double[] ages = IntStream.range(0, lives).mapToDouble(i -> life(s, 0)).sorted().toArray();
      double end = ages[rng.nextInt(lives)];
      for (double age : ages) {
        add(group, 0, age, end);
      }
    }

    private static void add(Observations.Builder group, double entry, double age, double end) {
      if (age <= end) {
        group.addFailure(entry, age, 1);
      } else {
        group.addRightCensored(entry, end, 1);
      }
    }

    /** Failures are known to lie between two looks, whose ages stand in one ratio. */
    private void byLooks(int s, Observations.Builder group, int lives) {
      for (int i = 0; i < lives; i++) {
        double age = life(s, 0);
        double end = ordinary * 4 * rng.nextDouble();
        double look = Math.pow(LOOKS, Math.ceil(Math.log(age) / Math.log(LOOKS)));
        if (age <= end) {
          group.add(Observation.failedBetween(look / LOOKS, Math.min(look, end)));
        } else {
          group.addRightCensored(0, end, 1);
        }
      }
    }
  }

  /** Counts in bins and p, a line for each quantity. */
  static String table(Ranks ranks) {
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(
            Locale.ROOT,
            "%-28s %-62s %7s %7s%n",
            "quantity",
            "ranks in " + BINS + " bins",
            "p",
            "Holm"));
    Map<Quantity, Double> adjusted = ranks.adjusted();
    for (Quantity quantity : Quantity.values()) {
      String bins =
          Arrays.stream(ranks.bins(quantity))
              .mapToObj(n -> String.format(Locale.ROOT, "%3d", n))
              .collect(Collectors.joining());
      text.append(
          String.format(
              Locale.ROOT,
              "%-28s %-62s %7.3f %7.3f%n",
              quantity.words,
              bins,
              ranks.p(quantity),
              adjusted.getOrDefault(quantity, 1.0)));
    }
    return text.toString();
  }

  /** Both centres, as text. */
  public static String text(int dataSets) {
    StringBuilder text = new StringBuilder();
    for (Centre centre : Centre.values()) {
      Ranks ranks = ranks(centre, 1, dataSets);
      text.append(
          String.format(
              Locale.ROOT,
              "%s: %,d data sets, of which %d refused%n",
              centre == Centre.STATED ? "centre stated" : "centre worked out from the lives",
              ranks.dataSets(),
              ranks.refused()));
      text.append(table(ranks));
      List<Quantity> rejected = ranks.rejected();
      text.append(
          rejected.isEmpty()
              ? "no quantity is rejected at 1%\n"
              : "rejected at 1%: "
                  + rejected.stream().map(q -> q.words).collect(Collectors.joining("; "))
                  + "\n");
      text.append(centre == Centre.STATED ? "\n" : "");
    }
    return text.toString();
  }

  /** Prints the ranks; the number of data sets is 1,000 unless given. */
  public static void main(String[] args) {
    System.out.print(text(args.length > 0 ? Integer.parseInt(args[0]) : DATA_SETS));
  }
}
