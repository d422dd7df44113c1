package org.vaneward.chart;

import java.awt.Color;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * What adds up to the most: a bar for each cause, mode or product from most to least, its number at
 * its end, and beside it the share of all that it and those above make together. Those that make
 * four fifths stand above a dotted line and are darker.
 */
public final class Pareto {
  /** At most so many bars; what is less is gathered in the last. */
  public static final int MOST_BARS = 15;

  private static final double MOST_OF_ALL = 0.8;
  private static final int ROW = 24;
  private static final int RIGHT = 92;
  private static final int TO_NUMBER = 6;
  private static final int MOST_NAMED = 5;
  private static final double HALF_BAR = 0.33;

  /**
   * One cause, mode or product.
   *
   * @param label its name
   * @param amount what is counted of it, at least 0
   */
  public record Bar(String label, double amount) {
    /**
     * A bar.
     *
     * @throws IllegalArgumentException when the amount is negative or not finite
     */
    public Bar {
      Guard.notNegative("an amount", amount);
    }
  }

  /** What is drawn: bars from most to least, the last perhaps several gathered. */
  private record Sorted(List<Bar> bars, boolean gathered, double all) {
    /** Share of all that the first bars make, up to and with one. */
    double upTo(int index) {
      double sum = bars.subList(0, index + 1).stream().mapToDouble(Bar::amount).sum();
      return all > 0 ? Math.min(1, sum / all) : 0;
    }

    /** How many of the first bars make most of all; none where the gathered would be needed. */
    int most() {
      int named = bars.size() - (gathered ? 1 : 0);
      for (int i = 0; i < named; i++) {
        // sums of thousandths must not miss four fifths by the last digit
        if (all > 0 && upTo(i) >= MOST_OF_ALL - 1e-9) {
          return i + 1;
        }
      }
      return 0;
    }

    /** Whether others follow those that make most of all. */
    boolean divided() {
      return most() > 0 && most() < bars.size();
    }
  }

  private Pareto() {}

  /**
   * Draws the bars from most to least; equal ones as given.
   *
   * @param what what is counted, such as {@code failures}, or a currency
   * @param by what each bar is, such as {@code cause}
   * @throws IllegalArgumentException when there are no bars or a label repeats
   */
  public static Picture draw(String title, String what, String by, List<Bar> bars) {
    Sorted sorted = sorted(bars);
    return paper(what, by, bars)
        .picture(
            title,
            inWords(what, by, bars.size(), sorted),
            List.of(by, what, "share", "together with those above"),
            table(sorted));
  }

  private static Sorted sorted(List<Bar> bars) {
    Guard.notEmpty("bars", bars);
    Guard.distinct("labels", bars.stream().map(Bar::label).toList());
    double all = bars.stream().mapToDouble(Bar::amount).sum();
    List<Bar> sorted =
        new ArrayList<>(
            bars.stream().sorted(Comparator.comparingDouble(Bar::amount).reversed()).toList());
    boolean gathered = sorted.size() > MOST_BARS;
    if (gathered) {
      List<Bar> rest = sorted.subList(MOST_BARS - 1, sorted.size());
      double amount = rest.stream().mapToDouble(Bar::amount).sum();
      Bar others = new Bar("others (" + rest.size() + ")", amount);
      rest.clear();
      sorted.add(others);
    }
    return new Sorted(List.copyOf(sorted), gathered, all);
  }

  static Paper paper(String what, String by, List<Bar> bars) {
    Sorted sorted = sorted(bars);
    int n = sorted.bars().size();
    int left = left(sorted.bars());
    Range amounts = new Range(0, reach(sorted.bars(), House.WIDTH - left - RIGHT));
    Paper paper =
        new Paper(
            House.WIDTH,
            68 + ROW * n,
            new Paper.Margins(34, RIGHT, 34, left),
            amounts,
            new Range(0, n));
    double[] ticks = Ticks.linear(0, amounts.max(), 6);
    paper.gridX(ticks, Arrays.stream(ticks).mapToObj(Words::plain).toList());
    for (int i = 0; i < n; i++) {
      bar(paper, sorted, i);
    }
    if (sorted.divided()) {
      // below the bars that make most of all
      paper.level("most", (double) n - sorted.most(), House.GREY, House.DOTTED);
    }
    paper.upright("zero", 0, House.AXIS, House.CURVE);
    String above =
        sorted.divided() ? "; above the dots " + percent(sorted.upTo(sorted.most() - 1)) : "";
    paper.titleY(what + " by " + by + ", most first" + above);
    paper.headRight("together");
    return paper;
  }

  private static int left(List<Bar> bars) {
    double widest =
        bars.stream().mapToDouble(b -> Words.width(b.label(), House.SMALL)).max().orElse(0);
    return (int) Math.max(60, Math.min(220, Math.ceil(widest) + 16));
  }

  /** The end of the axis: every bar and the number at its end fit. */
  private static double reach(List<Bar> bars, int plotWidth) {
    double reach = 0;
    for (Bar bar : bars) {
      double text = Words.width(number(bar.amount()), House.SMALL) + TO_NUMBER + 4;
      reach = Math.max(reach, bar.amount() / (1 - text / plotWidth));
    }
    return reach > 0 ? reach : 1;
  }

  private static void bar(Paper paper, Sorted sorted, int index) {
    Bar bar = sorted.bars().get(index);
    double level = sorted.bars().size() - 0.5 - index;
    boolean others = sorted.gathered() && index == sorted.bars().size() - 1;
    paper.labelY(level, bar.label(), others ? House.GREY : House.INK);
    if (bar.amount() > 0) {
      paper.bar(
          "bar " + index,
          new Range(0, bar.amount()),
          new Range(level - HALF_BAR, level + HALF_BAR),
          fill(others, index < sorted.most()));
    }
    paper.note(
        Note.at(
            paper.px(bar.amount()) + TO_NUMBER,
            paper.py(level) + 4,
            Note.Anchor.START,
            number(bar.amount()),
            House.INK,
            House.SMALL));
    if (sorted.all() > 0) {
      paper.labelRight(level, percent(sorted.upTo(index)), House.GREY);
    }
  }

  private static Color fill(boolean others, boolean amongMost) {
    return others ? House.tint(House.AXIS, 0.4) : House.tint(House.BLUE, amongMost ? 0.8 : 0.35);
  }

  /** Counts whole, small amounts with their digits, large ones to the nearest one. */
  private static String number(double amount) {
    boolean whole = Math.rint(amount) == amount;
    return whole || amount >= 100 ? Words.plain(Math.rint(amount)) : Words.number(amount);
  }

  private static String percent(double share) {
    return Words.plain(Math.rint(share * 100)) + "%";
  }

  private static String inWords(String what, String by, int given, Sorted sorted) {
    if (!(sorted.all() > 0)) {
      return "Of " + what + " by " + by + " there is nothing to add up: all " + given + " are 0.";
    }
    List<String> said =
        sorted.bars().stream().map(bar -> bar.label() + " " + number(bar.amount())).toList();
    return "Most first, "
        + what
        + " by "
        + by
        + ", "
        + number(sorted.all())
        + " in all: "
        + Words.some(said, MOST_NAMED)
        + "."
        + (sorted.divided() ? mostInWords(given, sorted) : "");
  }

  private static String mostInWords(int given, Sorted sorted) {
    int most = sorted.most();
    String first = most == 1 ? " The first of " : " The first " + most + " of ";
    String make = most == 1 ? " makes " : " make ";
    return first + given + make + percent(sorted.upTo(most - 1)) + " of all.";
  }

  private static List<List<String>> table(Sorted sorted) {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < sorted.bars().size(); i++) {
      Bar bar = sorted.bars().get(i);
      double share = sorted.all() > 0 ? bar.amount() / sorted.all() : 0;
      rows.add(List.of(bar.label(), number(bar.amount()), percent(share), percent(sorted.upTo(i))));
    }
    return rows;
  }
}
