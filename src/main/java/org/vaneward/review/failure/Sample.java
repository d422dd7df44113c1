package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.vaneward.life.LivesTable;
import org.vaneward.life.StartUpFailure;
import org.vaneward.stats.Observations;
import org.vaneward.stats.comparison.GammaPoisson;

/**
 * Parts with their failures, the failures to be expected of them and the stratum in which they are
 * held against others. Expected numbers are scaled so that each stratum expects what it had.
 */
final class Sample {
  private static final double ANY_CONFIDENCE = 0.90;

  private final Parts parts;
  private final Outcome outcome;
  private final String component;
  private final int[] tableRow;
  private final List<StartUpFailure> startUps;
  private final double[] observed;
  private final double[] expected;
  private final int[] stratum;
  private final double[] stratumObserved;
  private final int[] pump;
  private final double[] pumpExpected;

  /** Worked out when it is first asked for. */
  private OptionalDouble spread;

  /**
   * A sample whose pumps differ as far as it shows: first the rows of the lives table, then
   * start-up failures.
   *
   * @param observed failures of each part. Kept.
   * @param expected to be expected of it. Kept and modified.
   * @param stratum its stratum, from 0 on. Kept.
   */
  Sample(
      Parts parts,
      Outcome outcome,
      String component,
      int[] tableRow,
      List<StartUpFailure> startUps,
      double[] observed,
      double[] expected,
      int[] stratum) {
    this(
        parts,
        outcome,
        component,
        tableRow,
        startUps,
        observed,
        expected,
        stratum,
        new int[0],
        OptionalDouble.empty());
  }

  private Sample(
      Parts parts,
      Outcome outcome,
      String component,
      int[] tableRow,
      List<StartUpFailure> startUps,
      double[] observed,
      double[] expected,
      int[] stratum,
      int[] pumpNumber,
      OptionalDouble spread) {
    this.parts = parts;
    this.outcome = outcome;
    this.component = component;
    this.tableRow = tableRow;
    this.startUps = startUps;
    this.observed = observed;
    this.expected = expected;
    this.stratum = stratum;
    stratumObserved = new double[Arrays.stream(stratum).max().orElse(-1) + 1];
    scale();
    pump = pumpNumber.length == observed.length ? renumbered(pumpNumber) : numbered();
    pumpExpected = new double[Arrays.stream(pump).max().orElse(-1) + 1];
    sumPumps();
    this.spread = spread;
  }

  private int[] numbered() {
    Map<String, Integer> numbers = new HashMap<>();
    int[] pumps = new int[observed.length];
    for (int i = 0; i < pumps.length; i++) {
      pumps[i] = numbers.computeIfAbsent(text("pump", i), name -> numbers.size());
    }
    return pumps;
  }

  /** Numbers from 0 on, in the order in which pumps come. */
  private static int[] renumbered(int[] old) {
    int[] next = new int[Arrays.stream(old).max().orElse(-1) + 1];
    Arrays.fill(next, -1);
    int[] pumps = new int[old.length];
    int known = 0;
    for (int i = 0; i < pumps.length; i++) {
      if (next[old[i]] < 0) {
        next[old[i]] = known++;
      }
      pumps[i] = next[old[i]];
    }
    return pumps;
  }

  /** The same with the spread of the pumps stated. */
  Sample withSpread(double stated) {
    return new Sample(
        parts,
        outcome,
        component,
        tableRow,
        startUps,
        observed,
        expected,
        stratum,
        pump,
        OptionalDouble.of(stated));
  }

  private void scale() {
    double[] sum = new double[stratumObserved.length];
    for (int i = 0; i < observed.length; i++) {
      stratumObserved[stratum[i]] += observed[i];
      sum[stratum[i]] += expected[i];
    }
    for (int i = 0; i < observed.length; i++) {
      double all = sum[stratum[i]];
      expected[i] *= all > 0 ? stratumObserved[stratum[i]] / all : 0;
    }
  }

  private void sumPumps() {
    for (int i = 0; i < observed.length; i++) {
      pumpExpected[pump[i]] += expected[i];
    }
  }

  private double ownSpread() {
    double[] failures = new double[pumpExpected.length];
    for (int i = 0; i < observed.length; i++) {
      failures[pump[i]] += observed[i];
    }
    double[] exposure = new double[failures.length];
    for (int u = 0; u < exposure.length; u++) {
      // A pump whose strata had no failures has nothing expected and no failures either.
      exposure[u] = failures[u] > 0 ? Math.max(pumpExpected[u], 1e-9) : pumpExpected[u];
    }
    return GammaPoisson.fit(failures, exposure, ANY_CONFIDENCE) instanceof GammaPoisson.Spread s
        ? s.betweenUnitCv() * s.betweenUnitCv()
        : 0;
  }

  Outcome outcome() {
    return outcome;
  }

  String component() {
    return component;
  }

  int size() {
    return observed.length;
  }

  double observed(int i) {
    return observed[i];
  }

  double expected(int i) {
    return expected[i];
  }

  int stratum(int i) {
    return stratum[i];
  }

  int strata() {
    return stratumObserved.length;
  }

  /** Failures of a stratum, which are also the failures expected in it. */
  double stratumObserved(int s) {
    return stratumObserved[s];
  }

  double failures() {
    return Arrays.stream(stratumObserved).sum();
  }

  int pump(int i) {
    return pump[i];
  }

  double pumpExpected(int u) {
    return pumpExpected[u];
  }

  int pumps() {
    return pumpExpected.length;
  }

  /** Square of the coefficient of variation of the pumps' true rates, 0 when none is seen. */
  double spread() {
    if (spread.isEmpty()) {
      spread = OptionalDouble.of(ownSpread());
    }
    return spread.getAsDouble();
  }

  String text(String column, int i) {
    return i < tableRow.length
        ? parts.text(column, tableRow[i])
        : Parts.text(column, startUps.get(i - tableRow.length));
  }

  /** Age run through in a row; 0 for a start-up failure. */
  double running(int i) {
    if (i >= tableRow.length) {
      return 0;
    }
    Observations all = parts.observations();
    int row = tableRow[i];
    double to = all.isRightCensored(row) ? all.lower(row) : all.upper(row);
    return all.count(row) * (to - all.entry(row));
  }

  /** Some rows as observations; start-up failures have no age and are passed over. */
  Observations observations(int[] rows) {
    Observations.Builder builder = Observations.builder();
    for (int i : rows) {
      if (i < tableRow.length) {
        builder.add(parts.observations().get(tableRow[i]));
      }
    }
    return builder.build();
  }

  /** Number of the life a row belongs to; that of a start-up failure cannot be a life's. */
  String life(int i) {
    return i < tableRow.length
        ? parts.text(LivesTable.LIFE, tableRow[i])
        : "start-up/" + startUps.get(i - tableRow.length).row();
  }

  FailureRecord record(int i) {
    return i < tableRow.length
        ? parts.record(tableRow[i])
        : Parts.record(startUps.get(i - tableRow.length));
  }

  /** Failures of some rows, in order of date. */
  List<FailureRecord> records(int[] rows) {
    return Arrays.stream(rows)
        .filter(i -> observed[i] > 0)
        .mapToObj(this::record)
        .sorted(Comparator.comparing(FailureRecord::date))
        .toList();
  }

  /** The sample without the rows of some lives. */
  Sample without(Set<String> lives) {
    return where(i -> !lives.contains(life(i)));
  }

  /** Some rows of the sample. */
  Sample where(IntPredicate keep) {
    int[] kept = IntStream.range(0, size()).filter(keep).toArray();
    int fromTable = (int) Arrays.stream(kept).filter(i -> i < tableRow.length).count();
    double[] keptObserved = new double[kept.length];
    double[] keptExpected = new double[kept.length];
    int[] keptStratum = new int[kept.length];
    int[] keptPump = new int[kept.length];
    int[] keptRow = new int[fromTable];
    List<StartUpFailure> keptFailures = new ArrayList<>();
    for (int k = 0; k < kept.length; k++) {
      keptObserved[k] = observed[kept[k]];
      keptExpected[k] = expected[kept[k]];
      keptStratum[k] = stratum[kept[k]];
      keptPump[k] = pump[kept[k]];
      if (k < fromTable) {
        keptRow[k] = tableRow[kept[k]];
      } else {
        keptFailures.add(startUps.get(kept[k] - tableRow.length));
      }
    }
    return new Sample(
        parts,
        outcome,
        component,
        keptRow,
        keptFailures,
        keptObserved,
        keptExpected,
        keptStratum,
        keptPump,
        OptionalDouble.of(spread()));
  }
}
