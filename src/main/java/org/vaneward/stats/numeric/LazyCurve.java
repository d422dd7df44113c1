package org.vaneward.stats.numeric;

import java.util.HashMap;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;

/**
 * A smooth function that is costly to evaluate, replaced by Chebyshev polynomials on cells. A cell
 * is worked out when it is first asked for, and halved until its last coefficients are below {@link
 * #ACCURACY} of its greatest one (or of 1, if that is greater).
 *
 * <p>Not for use by several threads.
 */
public final class LazyCurve {
  /** Size, relative to the values, of the coefficients at which the series is cut. */
  public static final double ACCURACY = 1e-12;

  private static final int POINTS = 20;
  private static final int DEEPEST = 10;
  private static final double[] NODES = new double[POINTS];
  private static final double[][] COSINES = new double[POINTS][POINTS];

  static {
    for (int j = 0; j < POINTS; j++) {
      double angle = Math.PI * (j + 0.5) / POINTS;
      NODES[j] = Math.cos(angle);
      for (int k = 0; k < POINTS; k++) {
        COSINES[k][j] = Math.cos(k * angle) * (k == 0 ? 1.0 : 2.0) / POINTS;
      }
    }
  }

  private final DoubleUnaryOperator f;
  private final double width;
  private final Map<Long, Cell> cells = new HashMap<>();
  private long evaluations;

  /**
   * A curve of which nothing is worked out yet.
   *
   * @param f smooth
   * @param width of the widest cells, positive
   */
  public LazyCurve(DoubleUnaryOperator f, double width) {
    if (!(width > 0 && width < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a cell's width is positive and finite, not " + width);
    }
    this.f = f;
    this.width = width;
  }

  /** The function at {@code x}, as good as its cell. */
  public double value(double x) {
    long index = (long) Math.floor(x / width);
    Cell cell = cells.get(index);
    if (cell == null) {
      cell = cell(index * width, (index + 1) * width, 0);
      cells.put(index, cell);
    }
    return cell.value(x);
  }

  /** How often the function itself was evaluated so far. */
  public long evaluations() {
    return evaluations;
  }

  private Cell cell(double low, double high, int depth) {
    double middle = low + (high - low) / 2;
    double half = (high - low) / 2;
    double[] values = new double[POINTS];
    for (int j = 0; j < POINTS; j++) {
      values[j] = f.applyAsDouble(middle + half * NODES[j]);
    }
    evaluations += POINTS;
    double[] series = new double[POINTS];
    double greatest = 1;
    for (int k = 0; k < POINTS; k++) {
      for (int j = 0; j < POINTS; j++) {
        series[k] += COSINES[k][j] * values[j];
      }
      greatest = Math.max(greatest, Math.abs(series[k]));
    }
    double tail = Math.abs(series[POINTS - 1]) + Math.abs(series[POINTS - 2]);
    if (tail <= ACCURACY * greatest || depth == DEEPEST || Double.isNaN(tail)) {
      return new Series(middle, half, series);
    }
    return new Halves(middle, cell(low, middle, depth + 1), cell(middle, high, depth + 1));
  }

  /** A stretch of the curve. */
  private sealed interface Cell {
    double value(double x);
  }

  private record Halves(double middle, Cell left, Cell right) implements Cell {
    @Override
    public double value(double x) {
      return x < middle ? left.value(x) : right.value(x);
    }
  }

  /** A Chebyshev series, summed by Clenshaw's recurrence. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Series(double middle, double half, double[] series) implements Cell {
    @Override
    public double value(double x) {
      double t = (x - middle) / half;
      double next = 0;
      double at = 0;
      for (int k = series.length - 1; k > 0; k--) {
        double before = 2 * t * at - next + series[k];
        next = at;
        at = before;
      }
      return t * at - next + series[0];
    }
  }
}
