package org.vaneward.ingest;

import java.util.ArrayList;
import java.util.HashMap;
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
  private final Map<Group, List<Measured>> groups = new HashMap<>();

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

  private record Measured(double value, RowRef row) {}

  /** Takes in a measurement of a row that is used. */
  void add(Cells cells, String column, String of, double value) {
    Effect effect = column.equals("measured_mm") ? Effect.WEAR_UNSURE : Effect.UNIT_UNSURE;
    Group group =
        new Group(cells.ref().file(), cells.written(column), of, cells.unitTaken(column), effect);
    groups.computeIfAbsent(group, g -> new ArrayList<>()).add(new Measured(value, cells.ref()));
  }

  /** Notes each measurement that seems to be in another unit. */
  void report(Ledger ledger) {
    groups.forEach(
        (group, all) -> {
          double size = group.taken().size();
          double[] values = all.stream().mapToDouble(measured -> measured.value() / size).toArray();
          MixedUnits.find(values, group.taken())
              .ifPresent(heaps -> report(ledger, group, all, heaps));
        });
  }

  private static void report(Ledger ledger, Group group, List<Measured> all, Heaps heaps) {
    int others = heaps.otherIsUpper() ? heaps.inLower() : heaps.inUpper();
    for (Measured measured : all) {
      double value = measured.value() / group.taken().size();
      if (heaps.isOther(value)) {
        ledger.repair(
            measured.row(),
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
