package org.vaneward.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.distribution.Weibull;

/**
 * The share of parts still running by age: product-limit steps, their limits, and a fitted life.
 */
public final class SurvivalPlot {
  private static final int CURVE_PIECES = 160;
  private static final double TICK_SHARE = 0.012;

  /**
   * A step of the product-limit curve.
   *
   * @param ageHours age of the failure in running hours, positive
   * @param survival share still running after it
   * @param lower lower limit of that share
   * @param upper upper limit of that share
   * @param atRisk parts running and watched just before it
   * @param events failures at that age
   */
  public record Step(
      double ageHours, double survival, double lower, double upper, double atRisk, double events) {
    /**
     * A step.
     *
     * @throws IllegalArgumentException when a value is outside its domain
     */
    public Step {
      Guard.positive("age in hours", ageHours);
      Guard.share("a survival", survival);
      Guard.limits(lower, upper);
      Guard.positive("number at risk", atRisk);
      Guard.positive("number of failures", events);
    }
  }

  /**
   * What is drawn.
   *
   * @param label what the lives are
   * @param steps the curve, ages ascending; not empty
   * @param sound ages in hours at which parts were last seen sound (censored); drawn as small ticks
   * @param fitted the fitted life, where there is one
   * @param confidence confidence of the limits, in (0, 1)
   * @param unit what ages are counted in
   */
  public record Input(
      String label,
      List<Step> steps,
      List<Double> sound,
      Optional<Weibull> fitted,
      double confidence,
      AgeUnit unit) {
    /**
     * An input.
     *
     * @throws IllegalArgumentException when there are no steps, ages do not ascend, or a value is
     *     outside its domain
     */
    public Input {
      steps = List.copyOf(steps);
      sound = sound.stream().sorted().toList();
      Guard.notEmpty("steps", steps);
      Guard.ascending("ages", steps.stream().mapToDouble(Step::ageHours).toArray());
      sound.forEach(age -> Guard.positive("age in hours", age));
      Guard.share("a confidence", confidence);
    }

    double lastFailureHours() {
      return steps.get(steps.size() - 1).ageHours();
    }

    /** The curve is known up to the last age watched. */
    double lastHours() {
      double lastSound = sound.isEmpty() ? 0 : sound.get(sound.size() - 1);
      return Math.max(lastFailureHours(), lastSound);
    }

    double failures() {
      return steps.stream().mapToDouble(Step::events).sum();
    }

    /** The curve's value just after an age. */
    double survivalAt(double ageHours) {
      double survival = 1;
      for (Step step : steps) {
        survival = step.ageHours() <= ageHours ? step.survival() : survival;
      }
      return survival;
    }
  }

  private SurvivalPlot() {}

  /** Draws the curve. */
  public static Picture draw(String title, Input input) {
    String fit =
        input
            .fitted()
            .map(
                life ->
                    " The fitted life (" + described(life, input.unit()) + ") is drawn through it.")
            .orElse(" No life is fitted.");
    String alternative =
        "Share still running against age, as steps, of "
            + input.label()
            + ": "
            + Words.percent(Math.rint(1e3 * input.survivalAt(input.lastHours())) / 1e3)
            + " after "
            + Words.age(input.lastHours(), input.unit())
            + ", with "
            + Words.counted((long) Math.rint(input.failures()), "failure", "failures")
            + "."
            + fit;
    List<String> columns =
        List.of(
            "age, " + input.unit().symbol(),
            "still running",
            "lower limit",
            "upper limit",
            "at risk",
            "failures");
    return paper(input).picture(title, alternative, columns, table(input));
  }

  static Paper paper(Input input) {
    Range ages = new Range(0, input.lastHours() * 1.04);
    Paper paper =
        new Paper(
            House.WIDTH, House.HEIGHT, new Paper.Margins(34, 26, 50, 56), ages, new Range(0, 1.02));
    double[] hours = Ticks.linear(0, ages.max(), 8);
    paper.gridX(hours, Arrays.stream(hours).mapToObj(Words::plain).toList());
    double[] shares = {0, 0.2, 0.4, 0.6, 0.8, 1};
    paper.gridY(shares, Arrays.stream(shares).mapToObj(Words::percent).toList());
    paper.baseLine();
    paper.titleX("age, " + input.unit().words());
    paper.titleY(input.label() + ": share still running");
    limits(paper, input);
    steps(paper, input);
    fitted(paper, input);
    return paper;
  }

  private static void limits(Paper paper, Input input) {
    double[] lower = input.steps().stream().mapToDouble(Step::lower).toArray();
    double[] upper = input.steps().stream().mapToDouble(Step::upper).toArray();
    paper.band(
        "limits", stairsX(input), stairsY(lower), stairsY(upper), House.tint(House.BLUE, 0.13));
  }

  private static void steps(Paper paper, Input input) {
    double[] survival = input.steps().stream().mapToDouble(Step::survival).toArray();
    double[] x = stairsX(input);
    double[] y = stairsY(survival);
    paper.line("steps", x, y, House.BLUE, House.CURVE);
    ticks(paper, input);
    String percent = Words.percent(input.confidence());
    paper.label(
        "steps",
        paper.beside(x, y, "observed, with " + percent + " limits", House.forText(House.BLUE)));
  }

  private static void ticks(Paper paper, Input input) {
    if (input.sound().isEmpty()) {
      return;
    }
    double pixel = paper.x().max() / paper.plotWidth();
    double[] ages = apart(input.sound(), pixel);
    double[] x = new double[3 * ages.length];
    double[] y = new double[x.length];
    int step = 0;
    double level = 1;
    for (int i = 0; i < ages.length; i++) {
      for (; step < input.steps().size() && input.steps().get(step).ageHours() <= ages[i]; step++) {
        level = input.steps().get(step).survival();
      }
      Arrays.fill(x, 3 * i, 3 * i + 3, ages[i]);
      y[3 * i] = level + TICK_SHARE;
      y[3 * i + 1] = level - TICK_SHARE;
      y[3 * i + 2] = Double.NaN;
    }
    paper.line("sound", x, y, House.BLUE, House.HAIR);
  }

  /** Of sorted ages those at least so far apart. */
  private static double[] apart(List<Double> ages, double least) {
    double[] kept = new double[ages.size()];
    int n = 0;
    for (double age : ages) {
      if (n == 0 || age - kept[n - 1] >= least) {
        kept[n++] = age;
      }
    }
    return Arrays.copyOf(kept, n);
  }

  private static void fitted(Paper paper, Input input) {
    if (input.fitted().isEmpty()) {
      return;
    }
    Weibull life = input.fitted().get();
    double[] x = new double[CURVE_PIECES + 1];
    double[] y = new double[CURVE_PIECES + 1];
    for (int i = 0; i <= CURVE_PIECES; i++) {
      x[i] = input.lastHours() * 1.04 * i / CURVE_PIECES;
      y[i] = life.survival(x[i]);
    }
    paper.line("fit", x, y, House.VERMILLION, House.DASHED);
    paper.label(
        "fit",
        paper.beside(
            x, y, "fitted: " + described(life, input.unit()), House.forText(House.VERMILLION)));
  }

  private static String described(Weibull life, AgeUnit unit) {
    return "Weibull shape "
        + Words.number(life.shape())
        + ", scale "
        + Words.age(life.scale(), unit);
  }

  /** Corners of the stairs: from age 0 along each level to the next age, and on to the last age. */
  private static double[] stairsX(Input input) {
    int n = input.steps().size();
    double[] x = new double[2 * n + 2];
    for (int i = 0; i < n; i++) {
      x[2 * i + 1] = input.steps().get(i).ageHours();
      x[2 * i + 2] = input.steps().get(i).ageHours();
    }
    x[2 * n + 1] = input.lastHours();
    return x;
  }

  private static double[] stairsY(double[] levels) {
    double[] y = new double[2 * levels.length + 2];
    y[0] = 1;
    y[1] = 1;
    for (int i = 0; i < levels.length; i++) {
      y[2 * i + 2] = levels[i];
      y[2 * i + 3] = levels[i];
    }
    return y;
  }

  private static List<List<String>> table(Input input) {
    List<List<String>> rows = new ArrayList<>();
    for (Step step : input.steps()) {
      rows.add(
          List.of(
              Words.plain(Math.rint(step.ageHours())),
              Words.share(step.survival()),
              Words.share(step.lower()),
              Words.share(step.upper()),
              Words.plain(step.atRisk()),
              Words.plain(step.events())));
    }
    return rows;
  }
}
