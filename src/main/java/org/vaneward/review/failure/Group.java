package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.vaneward.stats.comparison.RateRatio;

/** Some parts of a sample, to be held against the rest of it. */
final class Group {
  private final String name;
  private final int[] rows;
  private final boolean isPump;

  Group(String name, int[] rows) {
    this(name, rows, false);
  }

  private Group(String name, int[] rows, boolean isPump) {
    this.name = name;
    this.rows = rows;
    this.isPump = isPump;
  }

  /**
   * The same parts as those of one pump: how pumps differ is then the question, and no allowance.
   */
  Group ofOnePump() {
    return new Group(name, rows, true);
  }

  /** The same group among fewer rows. */
  Group with(int... fewer) {
    return new Group(name, fewer, isPump);
  }

  String name() {
    return name;
  }

  int[] rows() {
    return rows;
  }

  /** The groups that a text makes of a sample, by name; rows where it is blank are in none. */
  static List<Group> of(Sample sample, String column) {
    return of(sample, i -> sample.text(column, i));
  }

  static List<Group> of(Sample sample, IntFunction<String> nameOf) {
    Map<String, IntStream.Builder> rows = new TreeMap<>();
    for (int i = 0; i < sample.size(); i++) {
      String name = nameOf.apply(i);
      if (!name.isEmpty()) {
        rows.computeIfAbsent(name, x -> IntStream.builder()).add(i);
      }
    }
    List<Group> groups = new ArrayList<>();
    rows.forEach((name, builder) -> groups.add(new Group(name, builder.build().toArray())));
    return groups;
  }

  /** The sample without the rows in none of the groups. */
  static Sample known(Sample sample, List<Group> groups) {
    boolean[] known = new boolean[sample.size()];
    groups.forEach(group -> Arrays.stream(group.rows).forEach(i -> known[i] = true));
    return sample.where(i -> known[i]);
  }

  double expected(Sample sample) {
    return Arrays.stream(rows).mapToDouble(sample::expected).sum();
  }

  double observed(Sample sample) {
    return Arrays.stream(rows).mapToDouble(sample::observed).sum();
  }

  Set<String> lives(Sample sample) {
    Set<String> lives = new HashSet<>();
    Arrays.stream(rows).forEach(i -> lives.add(sample.life(i)));
    return lives;
  }

  /**
   * The group against the rest of the sample, pumps taken to differ as far as the sample shows
   * unless the group is a pump.
   *
   * @param sample the sample the rows belong to
   */
  RateRatio.Builder against(Sample sample) {
    double[] observed = new double[sample.strata()];
    double[] expected = new double[sample.strata()];
    for (int i : rows) {
      observed[sample.stratum(i)] += sample.observed(i);
      expected[sample.stratum(i)] += sample.expected(i);
    }
    RateRatio.Builder builder = RateRatio.builder(sample.strata());
    double all = 0;
    double mean = 0;
    double variance = 0;
    for (int s = 0; s < sample.strata(); s++) {
      double total = sample.stratumObserved(s);
      double rest = total - expected[s];
      // What rounding leaves of a stratum that is all the group's is no rest to compare with.
      if (expected[s] > 0 && rest > 1e-9 * total) {
        builder.add(observed[s], expected[s], total - observed[s], rest);
        all += total;
        mean += expected[s];
        variance += expected[s] * rest / total;
      }
    }
    boolean plain = isPump || !(variance > 0) || sample.spread() == 0;
    return builder.dispersion(
        plain ? 1 : 1 + sample.spread() * clusters(sample, mean / all) / variance);
  }

  /**
   * What a pump's own rate adds to the variance of the group's failures less its share of all of
   * them, for rates that vary by once their mean: sum over pumps of (expected in the group - share
   * x expected of the pump)². A pump with parts on both sides adds little, since its rate is in
   * both.
   */
  private double clusters(Sample sample, double share) {
    double[] inGroup = new double[sample.pumps()];
    for (int i : rows) {
      inGroup[sample.pump(i)] += sample.expected(i);
    }
    double sum = 0;
    for (int u = 0; u < inGroup.length; u++) {
      double excess = inGroup[u] - share * sample.pumpExpected(u);
      sum += excess * excess;
    }
    return sum;
  }
}
