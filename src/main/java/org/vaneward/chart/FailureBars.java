package org.vaneward.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/** Failures of one component per 1,000 running hours, by product pumped, with their limits. */
public final class FailureBars {
  /** More bars than this are too many for one picture. */
  public static final int MOST_BARS = 24;

  private static final int ROW = 34;
  private static final int MOST_NAMED = 6;
  private static final double HALF_BAR = 0.28;
  private static final double HALF_CAP = 0.13;

  /**
   * One product.
   *
   * @param product its name
   * @param failures failures counted, at least 0
   * @param hours running hours over which they were counted, positive
   * @param perThousandHours failures per 1,000 running hours
   * @param lower lower limit of that, at most {@code perThousandHours}
   * @param upper upper limit of that, at least {@code perThousandHours}
   * @param unit what the running is counted in
   */
  public record Bar(
      String product,
      int failures,
      double hours,
      double perThousandHours,
      double lower,
      double upper,
      AgeUnit unit) {
    /**
     * A bar.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Bar {
      Guard.notNegative("a number of failures", failures);
      Guard.positive("running hours", hours);
      Guard.notNegative("a failure rate", perThousandHours);
      Guard.notNegative("a lower limit", lower);
      Guard.notNegative("an upper limit", upper);
      if (!(lower <= perThousandHours && perThousandHours <= upper)) {
        throw new IllegalArgumentException(
            "limits hold the rate " + perThousandHours + ", not so " + lower + " to " + upper);
      }
    }
  }

  private FailureBars() {}

  /**
   * Draws the bars from top to bottom as given.
   *
   * @param component the component that fails
   * @param confidence confidence of the limits, in (0, 1)
   * @throws IllegalArgumentException when there are no bars, more than {@link #MOST_BARS}, or a
   *     product repeats
   */
  public static Picture draw(String title, String component, List<Bar> bars, double confidence) {
    Guard.share("a confidence", confidence);
    return paper(component, bars, confidence)
        .picture(
            title,
            inWords(component, bars, confidence),
            List.of(
                "product",
                "failures",
                unit(bars).words(),
                "failures per 1,000 " + unit(bars).symbol(),
                "lower limit",
                "upper limit"),
            table(bars));
  }

  private static AgeUnit unit(List<Bar> bars) {
    return bars.get(0).unit();
  }

  static Paper paper(String component, List<Bar> bars, double confidence) {
    Guard.notEmpty("products", bars);
    Guard.distinct("products", bars.stream().map(Bar::product).toList());
    if (bars.size() > MOST_BARS) {
      throw new IllegalArgumentException(
          "at most " + MOST_BARS + " bars fit one picture, not " + bars.size());
    }
    int n = bars.size();
    double widest =
        bars.stream().mapToDouble(bar -> Words.width(bar.product(), House.SMALL)).max().orElse(0);
    int left = (int) Math.max(60, Math.min(180, Math.ceil(widest) + 16));
    Range rates = new Range(0, top(bars) * 1.05);
    Paper paper =
        new Paper(
            House.WIDTH,
            84 + ROW * n,
            new Paper.Margins(34, 142, 50, left),
            rates,
            new Range(0, n));
    double[] ticks = Ticks.linear(0, rates.max(), 6);
    paper.gridX(ticks, Arrays.stream(ticks).mapToObj(Words::plain).toList());
    for (int i = 0; i < n; i++) {
      bar(paper, bars.get(i), n - 0.5 - i, i);
    }
    // bars start here, so this line is the one to be seen
    paper.upright("zero", 0, House.AXIS, House.CURVE);
    paper.titleX("failures per 1,000 " + unit(bars).words());
    paper.headRight("counted");
    paper.titleY(
        component + ": bar, rate observed; whisker, " + Words.percent(confidence) + " limits");
    return paper;
  }

  private static double top(List<Bar> bars) {
    double highest = bars.stream().mapToDouble(Bar::upper).max().orElse(0);
    return highest > 0 ? highest : 1;
  }

  private static void bar(Paper paper, Bar bar, double level, int index) {
    paper.labelY(level, bar.product(), House.INK);
    if (bar.perThousandHours() > 0) {
      paper.bar(
          "rate " + index,
          new Range(0, bar.perThousandHours()),
          new Range(level - HALF_BAR, level + HALF_BAR),
          House.tint(House.SKY, 0.75));
    }
    if (bar.lower() < bar.upper()) {
      whisker(paper, "limits " + index, bar, level);
    }
    String counted = Words.plain(bar.failures()) + " in " + Words.age(bar.hours(), bar.unit());
    paper.labelRight(level, counted, House.INK);
  }

  private static void whisker(Paper paper, String name, Bar bar, double level) {
    double gap = Double.NaN;
    double low = bar.lower();
    double high = bar.upper();
    paper.line(
        name,
        new double[] {low, low, low, low, high, high, high, high},
        new double[] {
          level - HALF_CAP,
          level + HALF_CAP,
          gap,
          level,
          level,
          gap,
          level - HALF_CAP,
          level + HALF_CAP
        },
        House.INK,
        House.THIN);
  }

  private static String inWords(String component, List<Bar> bars, double confidence) {
    List<String> said =
        bars.stream()
            .sorted(Comparator.comparingDouble(Bar::perThousandHours).reversed())
            .map(FailureBars::inWords)
            .toList();
    return "Failures of "
        + component
        + " per 1,000 "
        + unit(bars).words()
        + " by product, with "
        + Words.percent(confidence)
        + " limits, most first: "
        + Words.some(said, MOST_NAMED)
        + ".";
  }

  private static String inWords(Bar bar) {
    String limits = " (" + Words.number(bar.lower()) + " to " + Words.number(bar.upper()) + ")";
    return bar.product() + " " + Words.number(bar.perThousandHours()) + limits;
  }

  private static List<List<String>> table(List<Bar> bars) {
    List<List<String>> rows = new ArrayList<>();
    for (Bar bar : bars) {
      rows.add(
          List.of(
              bar.product(),
              Words.plain(bar.failures()),
              Words.plain(Math.rint(bar.hours())),
              Words.number(bar.perThousandHours()),
              Words.number(bar.lower()),
              Words.number(bar.upper())));
    }
    return rows;
  }
}
