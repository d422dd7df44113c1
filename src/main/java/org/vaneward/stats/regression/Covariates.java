package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What is known of each life beside its age, as columns: one entry of each column for each row of
 * the lives. Immutable once built.
 *
 * <p>A categorical covariate enters a regression by treatment contrasts against its first level in
 * the natural order of strings, with a coefficient {@code name=level} for each other level; a
 * numeric one enters with one coefficient under its own name, per unit of the numbers given.
 */
public final class Covariates {
  /** One column. */
  sealed interface Column {
    String name();
  }

  /**
   * Levels in order, and which one each row has.
   *
   * @param name of the covariate
   * @param levels in their natural order
   * @param codes index of the level, row by row
   */
  @SuppressWarnings("ArrayRecordComponent") // never handed out
  record Categorical(String name, List<String> levels, int[] codes) implements Column {}

  /**
   * Numbers.
   *
   * @param name of the covariate
   * @param values row by row, all finite
   */
  @SuppressWarnings("ArrayRecordComponent") // never handed out
  record Numeric(String name, double[] values) implements Column {}

  private final int size;
  private final List<Column> columns;

  private Covariates(int size, List<Column> columns) {
    this.size = size;
    this.columns = List.copyOf(columns);
  }

  /**
   * A builder for a number of rows.
   *
   * @throws IllegalArgumentException when the number is negative
   */
  public static Builder builder(int rows) {
    if (rows < 0) {
      throw new IllegalArgumentException("a number of rows is not negative, as is " + rows);
    }
    return new Builder(rows);
  }

  /** No covariates for so many rows: a regression of the intercept alone. */
  public static Covariates none(int rows) {
    return builder(rows).build();
  }

  /** Number of rows. */
  public int size() {
    return size;
  }

  List<Column> columns() {
    return columns;
  }

  /** Collects columns. Not for use by several threads. */
  public static final class Builder {
    private final int rows;
    private final List<Column> columns = new ArrayList<>();

    private Builder(int rows) {
      this.rows = rows;
    }

    /**
     * Adds a categorical covariate.
     *
     * @param name not blank, not used before
     * @param values the level of each row. Not modified.
     * @throws IllegalArgumentException when the name or the number of values does not fit
     */
    public Builder categorical(String name, String... values) {
      check(name, values.length);
      Map<String, Integer> seen = new HashMap<>();
      List<String> found = new ArrayList<>();
      int[] codes = new int[rows];
      for (int i = 0; i < rows; i++) {
        Integer code = seen.get(values[i]);
        if (code == null) {
          code = found.size();
          seen.put(values[i], code);
          found.add(values[i]);
        }
        codes[i] = code;
      }
      List<String> levels = found.stream().sorted().toList();
      int[] place = new int[levels.size()];
      for (int i = 0; i < place.length; i++) {
        place[seen.getOrDefault(levels.get(i), 0)] = i;
      }
      for (int i = 0; i < rows; i++) {
        codes[i] = place[codes[i]];
      }
      columns.add(new Categorical(name, levels, codes));
      return this;
    }

    /** As {@link #categorical(String, String...)}. */
    public Builder categorical(String name, List<String> values) {
      return categorical(name, values.toArray(String[]::new));
    }

    /**
     * Adds a numeric covariate.
     *
     * @param name not blank, not used before
     * @param values the number of each row, finite. Not modified.
     * @throws IllegalArgumentException when the name, the number of values or a value does not fit
     */
    public Builder numeric(String name, double... values) {
      check(name, values.length);
      for (double value : values) {
        if (!(Math.abs(value) < Double.POSITIVE_INFINITY)) {
          throw new IllegalArgumentException(
              "covariate " + name + " takes finite numbers, not " + value);
        }
      }
      columns.add(new Numeric(name, Arrays.copyOf(values, rows)));
      return this;
    }

    /** The columns added so far. */
    public Covariates build() {
      return new Covariates(rows, columns);
    }

    private void check(String name, int length) {
      if (name.isBlank()) {
        throw new IllegalArgumentException("a covariate has a name that is not blank");
      }
      if (columns.stream().anyMatch(c -> c.name().equals(name))) {
        throw new IllegalArgumentException("covariate " + name + " is given twice");
      }
      if (length != rows) {
        throw new IllegalArgumentException(
            "covariate " + name + " has " + length + " values for " + rows + " rows");
      }
    }
  }
}
