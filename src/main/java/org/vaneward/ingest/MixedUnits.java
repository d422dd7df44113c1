package org.vaneward.ingest;

import java.util.Arrays;
import java.util.Optional;

/**
 * Tells two units in one column by the size of its numbers: they fall into two heaps, far apart,
 * and the usual factor between two units brings one heap onto the other. Meant for quantities that
 * vary little from pump to pump, such as clearances and pressures, not for running hours.
 */
public final class MixedUnits {
  /** Fewer numbers than this are no heap. */
  private static final int LEAST = 3;

  /** Numbers needed before anything is said. */
  private static final int LEAST_IN_ALL = 8;

  /** Nothing within one unit spreads over a gap this wide. */
  private static final double GAP = 5;

  /** How far the middle of one heap, converted, may lie from that of the other. */
  private static final double ALIKE = 1.5;

  private MixedUnits() {}

  /**
   * Two heaps.
   *
   * @param lowestOfAll the lowest number
   * @param highest the highest number of the lower heap
   * @param lowest the lowest number of the upper heap
   * @param highestOfAll the highest number
   * @param inLower how many there are in the lower heap
   * @param inUpper how many there are in the upper heap
   * @param otherIsUpper whether the upper heap is the one in another unit
   * @param other the unit that the other heap seems to be in
   */
  public record Heaps(
      double lowestOfAll,
      double highest,
      double lowest,
      double highestOfAll,
      int inLower,
      int inUpper,
      boolean otherIsUpper,
      Unit other) {
    /** Whether {@code value} seems to be in the other unit. */
    public boolean isOther(double value) {
      return value > 0 && (otherIsUpper ? value >= lowest : value <= highest);
    }
  }

  /**
   * The heaps in {@code values}; empty when there is one, or no unit of {@code quantity} explains
   * the other.
   *
   * @param values in the unit {@code taken}; those that are not above 0 do not count
   * @param taken the unit they are taken to be in
   */
  public static Optional<Heaps> find(double[] values, Unit taken) {
    double[] sorted = Arrays.stream(values).filter(v -> v > 0).sorted().toArray();
    if (sorted.length < LEAST_IN_ALL) {
      return Optional.empty();
    }
    int cut = 0;
    double widest = 0;
    for (int i = LEAST; i <= sorted.length - LEAST; i++) {
      double gap = sorted[i] / sorted[i - 1];
      if (gap > widest) {
        widest = gap;
        cut = i;
      }
    }
    if (widest < GAP) {
      return Optional.empty();
    }
    return heaps(sorted, cut, taken);
  }

  private static Optional<Heaps> heaps(double[] sorted, int cut, Unit taken) {
    double ratio = middle(sorted, cut, sorted.length) / middle(sorted, 0, cut);
    // The heap with more numbers is in the unit stated.
    boolean otherIsUpper = sorted.length - cut <= cut;
    Optional<Unit> best = Optional.empty();
    double nearest = ALIKE;
    for (Unit unit : Unit.values()) {
      if (unit.quantity() != taken.quantity() || unit == taken || !unit.isRatio()) {
        continue;
      }
      double factor = taken.size() / unit.size();
      double apart = otherIsUpper ? ratio / factor : ratio * factor;
      double off = Math.max(apart, 1 / apart);
      if (off < nearest) {
        nearest = off;
        best = Optional.of(unit);
      }
    }
    return best.map(
        unit ->
            new Heaps(
                sorted[0],
                sorted[cut - 1],
                sorted[cut],
                sorted[sorted.length - 1],
                cut,
                sorted.length - cut,
                otherIsUpper,
                unit));
  }

  private static double middle(double[] sorted, int from, int to) {
    int length = to - from;
    return length % 2 == 1
        ? sorted[from + length / 2]
        : (sorted[from + length / 2 - 1] + sorted[from + length / 2]) / 2;
  }
}
