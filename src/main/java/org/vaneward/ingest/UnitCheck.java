package org.vaneward.ingest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.RowRef;
import org.vaneward.ingest.MixedUnits.Heaps;

/**
 * Tells of measurements that seem to be in another unit than the rest of their column. They are
 * used as they are written: a clearance really may be forty times the others.
 */
final class UnitCheck {
  private final Map<Group, Measured> groups = new LinkedHashMap<>();

  /**
   * Measurements that should be alike.
   *
   * @param file where they stand
   * @param column as the file calls it
   * @param of what was measured
   * @param taken the unit they are taken to be in
   * @param effect what a wrong unit changes
   */
  private record Group(String file, String column, String of, Unit taken, Effect effect) {}

  /** Numbers with their rows; there may be millions. */
  private static final class Measured {
    private final List<RowRef> rows = new ArrayList<>();
    private double[] values = new double[16];

    void add(double value, RowRef row) {
      if (rows.size() == values.length) {
        values = Arrays.copyOf(values, 2 * values.length);
      }
      values[rows.size()] = value;
      rows.add(row);
    }

    double[] values() {
      return Arrays.copyOf(values, rows.size());
    }
  }

  /** Takes in a measurement of a row that is used. */
  void add(Cells cells, String column, String of, double value) {
    Effect effect = column.equals("measured_mm") ? Effect.WEAR_UNSURE : Effect.UNIT_UNSURE;
    Group group =
        new Group(cells.ref().file(), cells.written(column), of, cells.unitTaken(column), effect);
    groups
        .computeIfAbsent(group, g -> new Measured())
        .add(value / group.taken().size(), cells.ref());
  }

  /** Notes each measurement that seems to be in another unit. */
  void report(Ledger ledger) {
    groups.forEach(
        (group, all) -> {
          double[] values = all.values();
          MixedUnits.find(values, group.taken())
              .ifPresent(heaps -> report(ledger, group, values, all.rows, heaps));
        });
  }

  private static void report(
      Ledger ledger, Group group, double[] values, List<RowRef> rows, Heaps heaps) {
    int others = heaps.otherIsUpper() ? heaps.inLower() : heaps.inUpper();
    for (int i = 0; i < values.length; i++) {
      double value = values[i];
      if (heaps.isOther(value)) {
        ledger.repair(
            rows.get(i),
            group.column(),
            group.column()
                + " "
                + Where.hours(value)
                + ": far from the "
                + others
                + " others (from "
                + Where.hours(heaps.otherIsUpper() ? heaps.lowestOfAll() : heaps.lowest())
                + " to "
                + Where.hours(heaps.otherIsUpper() ? heaps.highest() : heaps.highestOfAll())
                + "); would fit "
                + heaps.other().word()
                + " and is taken as "
                + group.taken().word()
                + "; write the unit into the cell if it is another",
            group.effect());
      }
    }
  }
}
