package org.vaneward.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** What each month ahead brings, planned below and unplanned above, and what is enough. */
public final class MonthBars {
  /** More months than this are too many for one picture. */
  public static final int MOST_MONTHS = 125;

  private static final int RIGHT = 92;
  private static final double HALF_BAR = 0.36;
  private static final double HEADROOM = 1.06;
  private static final int MOST_NAMED = 3;

  /**
   * One month.
   *
   * @param month its name, such as {@code 2026-09}
   * @param planned mean of what is planned, at least 0
   * @param unplanned mean of what comes unplanned, at least 0
   * @param enough what both together stay within in 80 of 100 futures, at least 0
   */
  public record Bar(String month, double planned, double unplanned, double enough) {
    /** Checks. */
    public Bar {
      Guard.notNegative("what is planned", planned);
      Guard.notNegative("what comes unplanned", unplanned);
      Guard.notNegative("what is enough", enough);
    }
  }

  private MonthBars() {}

  /**
   * Draws the months from left to right as given.
   *
   * @param what what is counted, with its unit, such as {@code openings} or {@code EUR}
   * @param bars at least one and at most {@value #MOST_MONTHS}, each month once
   */
  public static Picture draw(String title, String what, List<Bar> bars) {
    return paper(what, bars)
        .picture(
            title,
            inWords(what, bars),
            List.of(
                "month", what + ", planned", what + ", unplanned", what + ", enough in 80 of 100"),
            table(bars));
  }

  static Paper paper(String what, List<Bar> bars) {
    Guard.notEmpty("months", bars);
    Guard.distinct("months", bars.stream().map(Bar::month).toList());
    if (bars.size() > MOST_MONTHS) {
      throw new IllegalArgumentException(
          "at most " + MOST_MONTHS + " months fit one picture, not " + bars.size());
    }
    Range up = new Range(0, top(bars) * HEADROOM);
    Paper paper =
        new Paper(
            House.WIDTH,
            260,
            new Paper.Margins(34, RIGHT, 34, 62),
            new Range(-0.7, bars.size() - 0.3),
            up);
    double[] ticks = Ticks.linear(0, up.max(), 5);
    paper.gridY(ticks, Arrays.stream(ticks).mapToObj(Words::plain).toList());
    for (int i = 0; i < bars.size(); i++) {
      bar(paper, bars.get(i), i);
    }
    paper.baseLine();
    paper.namesX(bars.stream().map(Bar::month).toList());
    sides(paper, bars.get(bars.size() - 1));
    paper.titleY(what + " a month, mean; tick: enough in 80 of 100 futures");
    return paper;
  }

  private static double top(List<Bar> bars) {
    double highest = 0;
    for (Bar bar : bars) {
      highest = Math.max(highest, Math.max(bar.enough(), bar.planned() + bar.unplanned()));
    }
    return highest > 0 ? highest : 1;
  }

  private static void bar(Paper paper, Bar bar, int i) {
    Range across = new Range(i - HALF_BAR, i + HALF_BAR);
    if (bar.planned() > 0) {
      paper.bar("planned " + i, across, new Range(0, bar.planned()), House.tint(House.BLUE, 0.9));
    }
    if (bar.unplanned() > 0) {
      paper.bar(
          "unplanned " + i,
          across,
          new Range(bar.planned(), bar.planned() + bar.unplanned()),
          House.tint(House.VERMILLION, 0.45));
    }
    paper.line(
        "enough " + i,
        new double[] {across.min(), across.max()},
        new double[] {bar.enough(), bar.enough()},
        House.INK,
        House.CURVE);
  }

  /** What the parts of a bar are, beside the last one. */
  private static void sides(Paper paper, Bar last) {
    paper.labelsRight(
        List.of(
            new Paper.Side(last.planned() / 2, "planned", House.BLUE),
            new Paper.Side(last.planned() + last.unplanned() / 2, "unplanned", House.VERMILLION),
            new Paper.Side(last.enough(), "80 of 100", House.INK)));
  }

  private static String inWords(String what, List<Bar> bars) {
    List<String> most =
        bars.stream()
            .sorted((a, b) -> Double.compare(b.enough(), a.enough()))
            .limit(MOST_NAMED)
            .map(b -> b.month() + " (" + Words.plain(Math.rint(b.enough())) + ")")
            .toList();
    return "Planned below, unplanned above. Highest months, "
        + what
        + " enough in 80 of 100 futures: "
        + String.join(", ", most)
        + ".";
  }

  private static List<List<String>> table(List<Bar> bars) {
    List<List<String>> rows = new ArrayList<>();
    for (Bar bar : bars) {
      rows.add(
          List.of(
              bar.month(),
              Words.number(bar.planned()),
              Words.number(bar.unplanned()),
              Words.number(bar.enough())));
    }
    return rows;
  }
}
