package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.SortOrder;

/** Goes once through the ages of each stratum with the number at risk in each group. */
final class RiskSweep {
  private final int groupCount;
  private final double[] lives;
  private final double[] observed;
  private final double[] expected;
  private final double[][] variance;
  private double leftOut;

  private double[] entry;
  private double[] end;
  private double[] count;
  private boolean[] failed;
  private int[] group;
  private int[] stratum;

  RiskSweep(List<Observations> groups, List<int[]> strata) {
    groupCount = groups.size();
    lives = new double[groupCount];
    observed = new double[groupCount];
    expected = new double[groupCount];
    variance = new double[groupCount][groupCount];
    int rows = groups.stream().mapToInt(Observations::size).sum();
    entry = new double[rows];
    end = new double[rows];
    count = new double[rows];
    failed = new boolean[rows];
    group = new int[rows];
    stratum = new int[rows];
    int taken = 0;
    for (int g = 0; g < groupCount; g++) {
      taken = take(groups.get(g), strata.get(g), g, taken);
    }
    cutTo(taken);
    sweepStrata();
  }

  private int take(Observations from, int[] strata, int g, int taken) {
    int n = taken;
    for (int i = 0; i < from.size(); i++) {
      if (!from.isExact(i) && !from.isRightCensored(i)) {
        leftOut += from.count(i);
        continue;
      }
      entry[n] = from.entry(i);
      end[n] = from.lower(i);
      count[n] = from.count(i);
      failed[n] = from.isExact(i);
      group[n] = g;
      stratum[n] = strata[i];
      lives[g] += count[n];
      n++;
    }
    return n;
  }

  private void cutTo(int taken) {
    entry = Arrays.copyOf(entry, taken);
    end = Arrays.copyOf(end, taken);
    count = Arrays.copyOf(count, taken);
    failed = Arrays.copyOf(failed, taken);
    group = Arrays.copyOf(group, taken);
    stratum = Arrays.copyOf(stratum, taken);
  }

  private void sweepStrata() {
    int[] codes = Arrays.stream(stratum).sorted().distinct().toArray();
    int[] starts = new int[codes.length + 1];
    int[] place = new int[stratum.length];
    for (int i = 0; i < stratum.length; i++) {
      place[i] = Arrays.binarySearch(codes, stratum[i]);
      starts[place[i] + 1]++;
    }
    for (int s = 0; s < codes.length; s++) {
      starts[s + 1] += starts[s];
    }
    int[] byEnd = grouped(SortOrder.ascending(end), place, starts);
    int[] byEntry = grouped(SortOrder.ascending(entry), place, starts);
    for (int s = 0; s < codes.length; s++) {
      sweep(byEnd, byEntry, starts[s], starts[s + 1]);
    }
  }

  /** The order, stratum after stratum. */
  private static int[] grouped(int[] order, int[] place, int[] starts) {
    int[] next = starts.clone();
    int[] grouped = new int[order.length];
    for (int row : order) {
      grouped[next[place[row]]++] = row;
    }
    return grouped;
  }

  private void sweep(int[] byEnd, int[] byEntry, int from, int to) {
    double[] atRisk = new double[groupCount];
    double[] failures = new double[groupCount];
    int entering = from;
    int i = from;
    while (i < to) {
      double age = end[byEnd[i]];
      while (entering < to && entry[byEntry[entering]] < age) {
        atRisk[group[byEntry[entering]]] += count[byEntry[entering]];
        entering++;
      }
      Arrays.fill(failures, 0);
      int next = i;
      while (next < to && end[byEnd[next]] == age) {
        int row = byEnd[next++];
        if (failed[row]) {
          failures[group[row]] += count[row];
        }
      }
      take(atRisk, failures);
      for (; i < next; i++) {
        atRisk[group[byEnd[i]]] -= count[byEnd[i]];
      }
    }
  }

  /** The failures at one age. */
  private void take(double[] atRisk, double[] failures) {
    double n = 0;
    double d = 0;
    for (int g = 0; g < groupCount; g++) {
      n += atRisk[g];
      d += failures[g];
    }
    if (d == 0) {
      return;
    }
    // with one life at risk, or when all fail, nothing was left to chance
    double factor = n > 1 && n > d ? d * (n - d) / (n - 1) : 0;
    for (int g = 0; g < groupCount; g++) {
      double share = atRisk[g] / n;
      observed[g] += failures[g];
      expected[g] += d * share;
      if (factor > 0 && share > 0) {
        for (int h = 0; h < groupCount; h++) {
          variance[g][h] += factor * share * ((g == h ? 1 : 0) - atRisk[h] / n);
        }
      }
    }
  }

  List<LogRank.Group> groups() {
    List<LogRank.Group> groups = new ArrayList<>();
    for (int g = 0; g < groupCount; g++) {
      groups.add(new LogRank.Group(lives[g], observed[g], expected[g]));
    }
    return groups;
  }

  double[][] variance() {
    return variance;
  }

  double leftOut() {
    return leftOut;
  }
}
