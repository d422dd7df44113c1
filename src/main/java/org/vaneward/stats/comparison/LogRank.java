package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Log-rank test: do the lives of several groups follow one curve?
 *
 * <p>At each age at which lives failed, the failures are shared out over the groups in proportion
 * to the lives at risk; observed less expected failures, summed over ages, are held against their
 * covariance, which is the hypergeometric one at each age: d (n - d) / (n - 1) times [n_g / n (g =
 * h) - n_g n_h / n^2]. The statistic is the quadratic form with a generalised inverse. A life is at
 * risk at ages in (entry, age]; ties need no breaking. With strata, observed, expected and
 * covariance are summed over strata first: lives are compared only within a stratum. (N. Mantel,
 * Cancer Chemotherapy Reports 50, 1966; J. D. Kalbfleisch and R. L. Prentice, The Statistical
 * Analysis of Failure Time Data, 2nd ed. 2002, section 1.5; both from memory.)
 *
 * <p>The covariance is that of a network: groups are linked when they were at risk together at an
 * age where some but not all failed. Each set of linked groups takes away one degree of freedom,
 * and a group linked to none adds nothing: the degrees of freedom are the groups that are linked
 * less the number of sets, so one less than the groups compared in the usual case.
 *
 * <p>Counts stand for that many lives and should be whole numbers. Interval failures have no place
 * in the test: they are left out and counted. Work: n log n for the sorting, and groups squared for
 * each age with a failure.
 */
public sealed interface LogRank {
  /** What each group came to, in the order given. */
  List<Group> groups();

  /** Number of interval failures left out. */
  double leftOut();

  /**
   * One group.
   *
   * @param lives lives taken in
   * @param observed failures among them
   * @param expected failures to be expected if all groups were alike
   */
  record Group(double lives, double observed, double expected) {
    /**
     * Observed over expected failures: above 1, the group fails sooner than the others. Not a
     * number when none were expected.
     */
    public double ratio() {
      return observed / expected;
    }
  }

  /**
   * The test.
   *
   * @param groups observed and expected by group
   * @param variance covariance of the observed failures, one row for each group; rows sum to 0
   * @param statistic chi-square statistic
   * @param degreesOfFreedom its degrees of freedom
   * @param p chance of a statistic as great or greater if all groups were alike
   * @param leftOut interval failures left out
   */
  record Tested(
      List<Group> groups,
      List<List<Double>> variance,
      double statistic,
      int degreesOfFreedom,
      double p,
      double leftOut)
      implements LogRank {
    /** Copies. */
    public Tested {
      groups = List.copyOf(groups);
      variance = variance.stream().map(List::copyOf).toList();
    }
  }

  /**
   * Nothing could be compared.
   *
   * @param groups observed and expected by group
   * @param leftOut interval failures left out
   * @param reason why, in one short phrase
   */
  record NotTested(List<Group> groups, double leftOut, String reason) implements LogRank {
    /** Copies. */
    public NotTested {
      groups = List.copyOf(groups);
    }
  }

  /**
   * The test without strata.
   *
   * @param groups lives of each group
   */
  static LogRank of(List<Observations> groups) {
    return of(groups, groups.stream().map(g -> new int[g.size()]).toList());
  }

  /**
   * The stratified test.
   *
   * @param groups lives of each group
   * @param strata for each group the stratum of each of its rows: any whole numbers. Not modified.
   * @throws IllegalArgumentException when there is not one stratum for each row
   */
  static LogRank of(List<Observations> groups, List<int[]> strata) {
    if (groups.size() != strata.size()) {
      throw new IllegalArgumentException(
          "strata are given for " + strata.size() + " groups of " + groups.size());
    }
    for (int g = 0; g < groups.size(); g++) {
      if (strata.get(g).length != groups.get(g).size()) {
        throw new IllegalArgumentException(
            "strata are given for "
                + strata.get(g).length
                + " rows of "
                + groups.get(g).size()
                + " in group "
                + (g + 1));
      }
    }
    RiskSweep sweep = new RiskSweep(groups, strata);
    return result(sweep);
  }

  private static LogRank result(RiskSweep sweep) {
    List<Group> groups = sweep.groups();
    if (groups.size() < 2) {
      return new NotTested(groups, sweep.leftOut(), "fewer than two groups");
    }
    if (!(groups.stream().mapToDouble(Group::observed).sum() > 0)) {
      return new NotTested(groups, sweep.leftOut(), "no failures at a known age");
    }
    LinkedGroups linked = new LinkedGroups(sweep.variance());
    if (linked.degreesOfFreedom() == 0) {
      return new NotTested(
          groups,
          sweep.leftOut(),
          "no two groups were at risk together at an age where some but not all failed");
    }
    double[] difference = new double[groups.size()];
    for (int g = 0; g < difference.length; g++) {
      difference[g] = groups.get(g).observed() - groups.get(g).expected();
    }
    double statistic = linked.quadraticForm(difference);
    if (!(statistic >= 0 && statistic < Double.POSITIVE_INFINITY)) {
      return new NotTested(groups, sweep.leftOut(), "the variance is singular");
    }
    int df = linked.degreesOfFreedom();
    double p = Quantiles.chiSquareTail(statistic, df);
    return new Tested(groups, rows(sweep.variance()), statistic, df, p, sweep.leftOut());
  }

  private static List<List<Double>> rows(double[][] matrix) {
    List<List<Double>> rows = new ArrayList<>();
    for (double[] row : matrix) {
      List<Double> cells = new ArrayList<>();
      for (double cell : row) {
        cells.add(cell);
      }
      rows.add(cells);
    }
    return rows;
  }
}
