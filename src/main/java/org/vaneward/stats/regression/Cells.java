package org.vaneward.stats.regression;

import java.util.Arrays;
import org.vaneward.stats.regression.Covariates.Categorical;
import org.vaneward.stats.regression.Covariates.Column;
import org.vaneward.stats.regression.Covariates.Numeric;

/** Rows that share all their covariates, as cells numbered in order of appearance. */
final class Cells {
  /** Tables of pairs up to this size are looked up directly. */
  private static final long LARGEST_TABLE = 1 << 22;

  private final int[] cellOf;
  private int count;

  private Cells(int rows) {
    cellOf = new int[rows];
    count = Math.min(rows, 1);
  }

  static Cells of(Covariates covariates) {
    Cells cells = new Cells(covariates.size());
    for (Column column : covariates.columns()) {
      if (column instanceof Categorical c) {
        cells.refine(c.codes(), c.levels().size());
      } else {
        cells.refine(((Numeric) column).values());
      }
    }
    return cells;
  }

  int count() {
    return count;
  }

  /** Cell of each row. */
  int[] ofRows() {
    return cellOf;
  }

  /** A row of each cell. */
  int[] firstRows() {
    int[] first = new int[count];
    for (int i = cellOf.length - 1; i >= 0; i--) {
      first[cellOf[i]] = i;
    }
    return first;
  }

  private void refine(double[] values) {
    Numbering numbering = new Numbering(values.length);
    int[] codes = new int[values.length];
    for (int i = 0; i < codes.length; i++) {
      // adding 0 makes one zero of the two
      codes[i] = numbering.of(Double.doubleToLongBits(values[i] + 0.0));
    }
    refine(codes, numbering.size);
  }

  private void refine(int[] codes, int levels) {
    if ((long) count * levels <= LARGEST_TABLE) {
      int[] table = new int[count * levels];
      int found = 0;
      for (int i = 0; i < codes.length; i++) {
        int pair = cellOf[i] * levels + codes[i];
        if (table[pair] == 0) {
          table[pair] = ++found;
        }
        cellOf[i] = table[pair] - 1;
      }
      count = found;
      return;
    }
    Numbering numbering = new Numbering(codes.length);
    for (int i = 0; i < codes.length; i++) {
      cellOf[i] = numbering.of((long) cellOf[i] * levels + codes[i]);
    }
    count = numbering.size;
  }

  /** Numbers keys in order of appearance, by open addressing. */
  private static final class Numbering {
    private final long[] keys;
    private final int[] numbers;
    private final int shift;
    private int size;

    Numbering(int most) {
      int bits = 64 - Long.numberOfLeadingZeros(2L * Math.max(most, 8) - 1);
      keys = new long[1 << bits];
      numbers = new int[1 << bits];
      Arrays.fill(numbers, -1);
      shift = 64 - bits;
    }

    int of(long key) {
      // multiplicative hashing by the golden ratio: high bits depend on all of the key
      int at = (int) (((key ^ (key >>> 32)) * 0x9E3779B97F4A7C15L) >>> shift);
      while (numbers[at] >= 0) {
        if (keys[at] == key) {
          return numbers[at];
        }
        at = (at + 1) & (keys.length - 1);
      }
      keys[at] = key;
      numbers[at] = size;
      return size++;
    }
  }
}
