package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.vaneward.review.failure.Evidence.Measure;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.comparison.RateRatio;
import org.vaneward.stats.comparison.RateRatio.Compared;
import org.vaneward.stats.comparison.RateSlope;

/** Do some parts fail more than their like, and do failures change with a number? */
final class GroupQuestions {
  /** A group of whom less is to be expected cannot tell anything, whatever comes of it. */
  private static final double LEAST_EXPECTED = 0.2;

  /** What is left of a group's expected failures must be this share for a second look. */
  private static final double ENOUGH_LEFT = 0.2;

  private final Parts parts;
  private final double confidence;

  GroupQuestions(Parts parts, double confidence) {
    this.parts = parts;
    this.confidence = confidence;
  }

  /** One question for each group that a topic's column makes of a sample. */
  List<Asked> groups(Sample sample, Topic topic) {
    List<Group> groups =
        Group.of(sample, topic.column()).stream()
            .map(g -> topic == Topic.PUMP ? g.ofOnePump() : g)
            .toList();
    return questions(sample, topic, groups, UnaryOperator.identity());
  }

  /**
   * Whether failures change with a number, and a question for its lowest and its highest band where
   * either end may be at fault.
   */
  List<Asked> number(Sample sample, Topic topic) {
    List<Group> bands = Bands.of(sample, topic.column());
    if (bands.size() < 2) {
      return List.of();
    }
    Sample known = Group.known(sample, bands);
    List<Asked> asked = new ArrayList<>();
    if (topic == Topic.END_CLEARANCE) {
      List<Group> ends = Bands.of(known, topic.column());
      List<Group> outer = List.of(ends.get(0), ends.get(ends.size() - 1));
      asked.addAll(questions(known, topic, outer, name -> topic.column() + " " + name));
    }
    RateSlope slope = slope(known, topic.column(), confidence);
    if (slope instanceof RateSlope.Fitted fitted) {
      // A pump that was opened more often is under suspicion of one thing only.
      boolean oneSided = topic == Topic.EARLIER_REBUILDS;
      asked.add(
          new Asked(
              topic,
              sample.outcome(),
              sample.component(),
              topic.column() + (oneSided || fitted.ratio().estimate() > 1 ? " rises" : " falls"),
              "",
              oneSided ? fitted.pRises() : fitted.p(),
              () -> slopeEvidence(known, fitted),
              () -> Set.of(),
              lives -> slopeWithout(known, topic.column(), lives)));
    }
    return asked;
  }

  private OptionalDouble slopeWithout(Sample known, String column, Set<String> lives) {
    Sample rest = known.without(lives);
    return rest.failures() >= ENOUGH_LEFT * known.failures()
            && slope(rest, column, confidence) instanceof RateSlope.Fitted fitted
        ? OptionalDouble.of(fitted.p())
        : OptionalDouble.empty();
  }

  private Evidence slopeEvidence(Sample sample, RateSlope.Fitted fitted) {
    int[] all = IntStream.range(0, sample.size()).toArray();
    return new Evidence(
        sample.failures(),
        sample.failures(),
        Measure.RATIO_PER_UNIT,
        fitted.ratio(),
        lifeRatio(sample, fitted.ratio()),
        OptionalDouble.empty(),
        "",
        sample.records(all));
  }

  /** How failures change with a number, pumps taken to differ as far as the sample shows. */
  static RateSlope slope(Sample sample, String column, double confidence) {
    double[] x = Bands.numbers(sample, column);
    double[] observed = new double[sample.size()];
    double[] expected = new double[sample.size()];
    int[] stratum = new int[sample.size()];
    for (int i = 0; i < x.length; i++) {
      observed[i] = sample.observed(i);
      expected[i] = sample.expected(i);
      stratum[i] = sample.stratum(i);
    }
    return RateSlope.fit(observed, expected, stratum, x, clustering(sample, x), confidence);
  }

  /**
   * By how much the variance of the score exceeds that of chance where pumps' rates vary: 1 +
   * spread x (sum over pumps of (sum of expected (x - mean))²) / (sum of expected (x - mean)²), the
   * mean being the stratum's.
   */
  private static double clustering(Sample sample, double[] x) {
    double[] weight = new double[sample.strata()];
    double[] mean = new double[sample.strata()];
    for (int i = 0; i < x.length; i++) {
      weight[sample.stratum(i)] += sample.expected(i);
      mean[sample.stratum(i)] += sample.expected(i) * x[i];
    }
    double[] byPump = new double[sample.pumps()];
    double squares = 0;
    for (int i = 0; i < x.length; i++) {
      int s = sample.stratum(i);
      double deviation = weight[s] > 0 ? x[i] - mean[s] / weight[s] : 0;
      byPump[sample.pump(i)] += sample.expected(i) * deviation;
      squares += sample.expected(i) * deviation * deviation;
    }
    double clusters = 0;
    for (double sum : byPump) {
      clusters += sum * sum;
    }
    return squares > 0 ? 1 + sample.spread() * clusters / squares : 1;
  }

  private List<Asked> questions(
      Sample sample, Topic topic, List<Group> groups, UnaryOperator<String> subject) {
    List<Asked> asked = new ArrayList<>();
    if (groups.size() < 2) {
      return asked;
    }
    for (Group group : groups) {
      if (group.expected(sample) >= LEAST_EXPECTED
          && group.against(sample).withoutLimits().compare() instanceof Compared compared) {
        asked.add(
            new Asked(
                topic,
                sample.outcome(),
                sample.component(),
                subject.apply(group.name()),
                topic == Topic.PUMP ? group.name() : "",
                compared.pMore(),
                () -> evidence(sample, group),
                () -> group.lives(sample),
                lives -> without(sample, group, lives)));
      }
    }
    return asked;
  }

  Evidence evidence(Sample sample, Group group) {
    RateRatio compared = group.against(sample).confidence(confidence).compare();
    Estimate ratio = ((Compared) compared).ratio();
    return new Evidence(
        compared.observed(),
        compared.expected(),
        Measure.RATE_RATIO,
        ratio,
        lifeRatio(sample, ratio),
        OptionalDouble.empty(),
        "",
        sample.records(group.rows()));
  }

  /**
   * What a ratio of rates at the same age means for how long parts last: ratio ^ (-1 / shape); none
   * for start-up failures or parts of several shapes.
   */
  Optional<Estimate> lifeRatio(Sample sample, Estimate ratio) {
    if (sample.outcome() != Outcome.LIFE || sample.component().isEmpty()) {
      return Optional.empty();
    }
    double power = -1 / parts.shape(sample.component());
    return Optional.of(
        new Estimate(
            Math.pow(ratio.estimate(), power),
            Math.pow(ratio.upper(), power),
            Math.pow(ratio.lower(), power)));
  }

  private static OptionalDouble without(Sample sample, Group group, Set<String> lives) {
    double left =
        Arrays.stream(group.rows())
            .filter(i -> !lives.contains(sample.life(i)))
            .mapToDouble(sample::expected)
            .sum();
    if (left < ENOUGH_LEFT * group.expected(sample)) {
      return OptionalDouble.empty();
    }
    Sample rest = sample.without(lives);
    Set<String> mine = group.lives(sample);
    Group remaining =
        group.with(
            IntStream.range(0, rest.size()).filter(i -> mine.contains(rest.life(i))).toArray());
    return remaining.against(rest).withoutLimits().compare() instanceof Compared compared
        ? OptionalDouble.of(compared.pMore())
        : OptionalDouble.empty();
  }
}
