package org.vaneward.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.knowm.xchart.style.markers.SeriesMarkers;

/** What was foretold for each half-year, as a range with its mean, and what came. */
public final class ForecastBands {
  private static final double HEADROOM = 1.12;
  private static final int HEIGHT = 280;

  /**
   * One half-year.
   *
   * @param from its first month, such as {@code 2024-07}
   * @param lower lower limit foretold, at least 0
   * @param mean mean foretold
   * @param upper upper limit foretold
   * @param came what came
   */
  public record Stretch(String from, double lower, double mean, double upper, int came) {
    /**
     * A half-year.
     *
     * @throws IllegalArgumentException when the limits do not rise or a number is negative
     */
    public Stretch {
      Guard.notNegative("a lower limit", lower);
      Guard.notNegative("a mean", mean);
      if (!(lower <= upper)) {
        throw new IllegalArgumentException(from + ": limits do not rise: " + lower + ", " + upper);
      }
    }

    boolean missed() {
      return came < lower || came > upper;
    }
  }

  private ForecastBands() {}

  /**
   * Draws the half-years from left to right as given.
   *
   * @param what what was foretold, such as {@code unplanned stops}
   * @param confidence confidence of the limits, in (0, 1)
   * @param stretches at least one, each once
   */
  public static Picture draw(
      String title, String what, double confidence, List<Stretch> stretches) {
    Guard.share("a confidence", confidence);
    List<List<String>> rows = new ArrayList<>();
    for (Stretch s : stretches) {
      rows.add(
          List.of(
              s.from(),
              Words.plain(s.lower()),
              Words.number(s.mean()),
              Words.plain(s.upper()),
              Words.plain(s.came())));
    }
    return paper(what, confidence, stretches)
        .picture(
            title,
            inWords(what, confidence, stretches),
            List.of("half-year from", "lower limit", "mean foretold", "upper limit", "came"),
            rows);
  }

  private static String inWords(String what, double confidence, List<Stretch> stretches) {
    List<String> missed =
        stretches.stream()
            .filter(Stretch::missed)
            .map(s -> Words.plain(s.came()) + " from " + s.from() + " on")
            .toList();
    int within = stretches.size() - missed.size();
    return "Of "
        + Words.counted(stretches.size(), "half-year", "half-years")
        + ", "
        + within
        + " brought a number of "
        + what
        + " within the "
        + Words.percent(confidence)
        + " limits foretold at their beginning"
        + (missed.isEmpty() ? "" : "; outside: " + Words.some(missed, 5))
        + ". Bars are what was foretold, the line across them its mean, dots what came (diamonds where outside).";
  }

  static Paper paper(String what, double confidence, List<Stretch> stretches) {
    Guard.notEmpty("half-years", stretches);
    Guard.distinct("half-years", stretches.stream().map(Stretch::from).toList());
    double top = stretches.stream().mapToDouble(s -> Math.max(s.upper(), s.came())).max().orElse(1);
    Range up = new Range(0, Math.max(1, top) * HEADROOM);
    int n = stretches.size();
    Paper paper =
        new Paper(
            House.WIDTH,
            HEIGHT,
            new Paper.Margins(34, 26, 34, 62),
            new Range(-0.7, Math.max(1, n - 1) + 0.7),
            up);
    double[] ticks = Ticks.linear(0, up.max(), 5);
    paper.gridY(ticks, Arrays.stream(ticks).mapToObj(Words::plain).toList());
    for (int i = 0; i < n; i++) {
      Stretch s = stretches.get(i);
      double[] x = {i - 0.3, i + 0.3};
      paper.bar(
          "limits " + i,
          new Range(x[0], x[1]),
          new Range(s.lower(), s.upper()),
          House.tint(House.BLUE, 0.22));
      paper.line("mean " + i, x, new double[] {s.mean(), s.mean()}, House.BLUE, House.CURVE);
    }
    dots(paper, stretches, false);
    dots(paper, stretches, true);
    paper.baseLine();
    paper.namesX(stretches.stream().map(Stretch::from).toList());
    paper.titleY(
        what + " in the half-year, with " + Words.percent(confidence) + " limits foretold");
    return paper;
  }

  private static void dots(Paper paper, List<Stretch> stretches, boolean missed) {
    List<Integer> which = new ArrayList<>();
    for (int i = 0; i < stretches.size(); i++) {
      if (stretches.get(i).missed() == missed) {
        which.add(i);
      }
    }
    if (!which.isEmpty()) {
      double[] x = which.stream().mapToDouble(i -> i).toArray();
      double[] y = which.stream().mapToDouble(i -> stretches.get(i).came()).toArray();
      paper.points(
          missed ? "came outside" : "came",
          x,
          y,
          missed ? House.VERMILLION : House.INK,
          missed ? SeriesMarkers.DIAMOND : SeriesMarkers.CIRCLE);
    }
  }
}
