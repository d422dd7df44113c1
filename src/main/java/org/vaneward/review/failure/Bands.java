package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Numbers;

/** Numbers cut into a few bands with about as many parts in each. */
final class Bands {
  private static final int MOST = 4;

  /** With so few different numbers each is a band of its own. */
  private static final int FEW = 5;

  private Bands() {}

  /** The numbers of a column, not a number where it is blank or no number. */
  static double[] numbers(Sample sample, String column) {
    double[] numbers = new double[sample.size()];
    for (int i = 0; i < numbers.length; i++) {
      String text = sample.text(column, i);
      numbers[i] = Numbers.isNumber(text) ? Double.parseDouble(text) : Double.NaN;
    }
    return numbers;
  }

  /** The bands of a column in rising order; rows without a number are in none. */
  static List<Group> of(Sample sample, String column) {
    double[] numbers = numbers(sample, column);
    double[] sorted = Arrays.stream(numbers).filter(x -> !Double.isNaN(x)).sorted().toArray();
    double[] distinct = Arrays.stream(sorted).distinct().toArray();
    List<Group> bands = new ArrayList<>();
    double from = Double.NEGATIVE_INFINITY;
    for (double to : distinct.length <= FEW ? distinct : upperEdges(sorted)) {
      double above = from;
      double[] inside = Arrays.stream(sorted).filter(x -> x > above && x <= to).toArray();
      if (inside.length > 0) {
        String name = name(inside);
        bands.add(Group.of(sample, i -> numbers[i] > above && numbers[i] <= to ? name : "").get(0));
      }
      from = to;
    }
    return bands;
  }

  private static double[] upperEdges(double[] sorted) {
    double[] edges = new double[MOST];
    for (int k = 0; k < MOST; k++) {
      edges[k] = sorted[(int) ((long) (k + 1) * sorted.length / MOST) - 1];
    }
    return Arrays.stream(edges).distinct().toArray();
  }

  private static String name(double[] inside) {
    String low = CsvWriter.plain(inside[0]);
    String high = CsvWriter.plain(inside[inside.length - 1]);
    return low.equals(high) ? low : low + " to " + high;
  }
}
