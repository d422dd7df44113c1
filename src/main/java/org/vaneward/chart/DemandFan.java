package org.vaneward.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * How much of something is taken up to the end of each month ahead: a fan of what the futures come
 * to, which opens as one looks further.
 */
public final class DemandFan {
  private static final int RIGHT = 92;
  private static final double HEADROOM = 1.04;

  /**
   * What is taken up to the end of a month.
   *
   * @param month its name, such as {@code 2026-09}
   * @param p10 enough in 10 of 100 futures, at least 0
   * @param p50 enough in half of them
   * @param p80 enough in 80 of 100
   * @param p95 enough in 95 of 100
   */
  public record Reach(String month, double p10, double p50, double p80, double p95) {
    /**
     * A month.
     *
     * @throws IllegalArgumentException when a level is below the one before it
     */
    public Reach {
      Guard.notNegative("what is taken", p10);
      if (!(p10 <= p50 && p50 <= p80 && p80 <= p95)) {
        throw new IllegalArgumentException(
            month + ": levels do not rise: " + List.of(p10, p50, p80, p95));
      }
    }
  }

  private DemandFan() {}

  /**
   * Draws the months from left to right as given.
   *
   * @param what what is taken, such as {@code kit K-1}
   * @param months at least one, each once
   */
  public static Picture draw(String title, String what, List<Reach> months) {
    return paper(what, months)
        .picture(
            title,
            inWords(what, months),
            List.of("up to the end of", "P10", "P50", "P80", "P95"),
            table(months));
  }

  static Paper paper(String what, List<Reach> months) {
    Guard.notEmpty("months", months);
    Guard.distinct("months", months.stream().map(Reach::month).toList());
    Reach last = months.get(months.size() - 1);
    double top = months.stream().mapToDouble(Reach::p95).max().orElse(0);
    Range up = new Range(0, (top > 0 ? top : 1) * HEADROOM);
    Paper paper =
        new Paper(
            House.WIDTH,
            260,
            new Paper.Margins(34, RIGHT, 34, 62),
            new Range(-0.5, Math.max(1, months.size() - 1) + 0.0),
            up);
    double[] ticks = Ticks.linear(0, up.max(), 5);
    paper.gridY(ticks, Arrays.stream(ticks).mapToObj(Words::plain).toList());
    double[] x = new double[months.size()];
    Arrays.setAll(x, i -> i);
    double[] p10 = months.stream().mapToDouble(Reach::p10).toArray();
    double[] p50 = months.stream().mapToDouble(Reach::p50).toArray();
    double[] p80 = months.stream().mapToDouble(Reach::p80).toArray();
    double[] p95 = months.stream().mapToDouble(Reach::p95).toArray();
    paper.band("P10 to P95", x, p10, p95, House.tint(House.BLUE, 0.14));
    paper.band("P10 to P80", x, p10, p80, House.tint(House.BLUE, 0.18));
    paper.line("P80", x, p80, House.INK, House.DASHED);
    paper.line("P50", x, p50, House.BLUE, House.CURVE);
    paper.baseLine();
    paper.namesX(months.stream().map(Reach::month).toList());
    paper.labelsRight(
        List.of(
            side(last.p10(), "P10", House.BLUE),
            side(last.p50(), "P50", House.BLUE),
            side(last.p80(), "P80", House.INK),
            side(last.p95(), "P95", House.BLUE)));
    paper.titleY(what + ", taken up to the end of the month");
    return paper;
  }

  private static Paper.Side side(double at, String level, Color colour) {
    return new Paper.Side(at, level + ": " + Words.plain(Math.rint(at)), colour);
  }

  private static String inWords(String what, List<Reach> months) {
    Reach last = months.get(months.size() - 1);
    return "Of "
        + what
        + ", "
        + Words.plain(Math.rint(last.p50()))
        + " up to the end of "
        + last.month()
        + " are enough in half of the futures, "
        + Words.plain(Math.rint(last.p80()))
        + " in 80 of 100 (dashed) and "
        + Words.plain(Math.rint(last.p95()))
        + " in 95 of 100. The fan opens with time: what is far ahead is known less well.";
  }

  private static List<List<String>> table(List<Reach> months) {
    List<List<String>> rows = new ArrayList<>();
    for (Reach month : months) {
      rows.add(
          List.of(
              month.month(),
              Words.number(month.p10()),
              Words.number(month.p50()),
              Words.number(month.p80()),
              Words.number(month.p95())));
    }
    return rows;
  }
}
