package org.vaneward.stats.regression;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.ForkJoinPool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.CommonShapeFit;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.regression.RegressionFit.Coefficient;
import org.vaneward.stats.regression.RegressionFit.Fitted;

/** What must not change a regression, and what it must agree with. Fixed seeds. */
class WeibullRegressionTest {
  private static final FitSettings WALD = FitSettings.defaults().withLimits(LimitMethod.WALD);

  /** Lives of all kinds with a level and two numbers each. */
  @SuppressWarnings("ArrayRecordComponent") // stays within this class
  private record Sample(List<Observation> lives, List<String> crew, double[] x, double[] y) {
    static Sample drawn(long seed, int n) {
      SplittableRandom random = new SplittableRandom(seed);
      List<Observation> lives = new ArrayList<>();
      List<String> crew = new ArrayList<>();
      double[] x = new double[n];
      double[] y = new double[n];
      for (int i = 0; i < n; i++) {
        int level = random.nextInt(3);
        crew.add(List.of("day", "late", "night").get(level));
        x[i] = 300 + 40 * random.nextDouble();
        y[i] = random.nextInt(2);
        double scale = Math.exp(7 + 0.3 * level - 0.02 * (x[i] - 320) + 0.4 * y[i]);
        double age = scale * Math.pow(-Math.log(1 - random.nextDouble()), 1 / 1.7);
        lives.add(life(random, age));
      }
      return new Sample(lives, crew, x, y);
    }

    private static Observation life(SplittableRandom random, double age) {
      double stop = 400 + 3000 * random.nextDouble();
      double entry = random.nextInt(3) == 0 ? 0.7 * Math.min(age, stop) * random.nextDouble() : 0;
      if (age > stop) {
        return new RightCensored(entry, stop, 1 + random.nextInt(2));
      }
      return random.nextInt(4) == 0
          ? new Interval(entry, Math.max(entry, age * 0.8), age * 1.1, 1)
          : new Exact(entry, age, 1);
    }

    Covariates covariates() {
      return Covariates.builder(lives.size())
          .categorical("crew", crew)
          .numeric("x", x)
          .numeric("y", y)
          .build();
    }

    Fitted fit() {
      return Samples.fitted(Observations.of(lives), covariates());
    }
  }

  private static void same(double expected, double got, double relative) {
    assertEquals(expected, got, relative * (1 + Math.abs(expected)));
  }

  private static void same(Estimate expected, Estimate got) {
    same(expected.estimate(), got.estimate(), 1e-8);
    same(expected.lower(), got.lower(), 1e-8);
    same(expected.upper(), got.upper(), 1e-8);
  }

  private static void sameBut(Fitted expected, Fitted got, double inLogAge) {
    same(expected.shape(), got.shape());
    for (int j = 0; j < expected.coefficients().size(); j++) {
      Estimate e = expected.coefficients().get(j).value();
      double shift = j == 0 ? inLogAge : 0;
      same(
          new Estimate(e.estimate() + shift, e.lower() + shift, e.upper() + shift),
          got.coefficients().get(j).value());
    }
    for (int i = 0; i < expected.termTests().size(); i++) {
      same(expected.termTests().get(i).statistic(), got.termTests().get(i).statistic(), 1e-8);
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void theUnitOfAgeMovesTheInterceptAlone(long seed) {
    Sample sample = Sample.drawn(seed, 150);
    List<Observation> scaled = new ArrayList<>();
    for (Observation o : sample.lives) {
      scaled.add(times(o, 1e-3));
    }
    sameBut(
        sample.fit(), Samples.fitted(Observations.of(scaled), sample.covariates()), Math.log(1e-3));
  }

  private static Observation times(Observation o, double f) {
    if (o instanceof Exact e) {
      return new Exact(e.entry() * f, e.age() * f, e.count());
    }
    if (o instanceof RightCensored r) {
      return new RightCensored(r.entry() * f, r.age() * f, r.count());
    }
    Interval i = (Interval) o;
    return new Interval(i.entry() * f, i.lower() * f, i.upper() * f, i.count());
  }

  @Test
  void orderAndRepeatedRowsDoNotMatter() {
    Sample sample = Sample.drawn(4, 150);
    List<Observation> lives = new ArrayList<>();
    List<String> crew = new ArrayList<>();
    List<Integer> rows = new ArrayList<>();
    for (int i = sample.lives.size() - 1; i >= 0; i--) {
      Observation o = sample.lives.get(i);
      for (int k = 0; k < o.count(); k++) {
        lives.add(o instanceof RightCensored r ? new RightCensored(r.entry(), r.age(), 1) : o);
        crew.add(sample.crew.get(i));
        rows.add(i);
      }
    }
    Covariates covariates =
        Covariates.builder(lives.size())
            .categorical("crew", crew)
            .numeric("x", rows.stream().mapToDouble(i -> sample.x[i]).toArray())
            .numeric("y", rows.stream().mapToDouble(i -> sample.y[i]).toArray())
            .build();
    Fitted fit = Samples.fitted(Observations.of(lives), covariates);
    sameBut(sample.fit(), fit, 0);
    same(sample.fit().logLikelihood(), fit.logLikelihood(), 1e-10);
  }

  @Test
  void anotherFirstLevelAndAnotherUnitOfACovariateChangeNothing() {
    Sample sample = Sample.drawn(5, 200);
    Fitted first = sample.fit();
    List<String> renamed = sample.crew.stream().map(c -> c.equals("late") ? "a late" : c).toList();
    double[] fahrenheit = new double[sample.x.length];
    for (int i = 0; i < fahrenheit.length; i++) {
      fahrenheit[i] = sample.x[i] * 1.8 - 459.67;
    }
    Covariates covariates =
        Covariates.builder(sample.lives.size())
            .numeric("x", fahrenheit)
            .categorical("crew", renamed)
            .numeric("y", sample.y)
            .build();
    Fitted other = Samples.fitted(Observations.of(sample.lives), covariates);
    same(first.logLikelihood(), other.logLikelihood(), 1e-11);
    same(first.shape(), other.shape());
    same(value(first, "x") / 1.8, value(other, "x"), 1e-9);
    same(value(first, "y"), value(other, "y"), 1e-9);
    same(-value(first, "crew=late"), value(other, "crew=day"), 1e-8);
    same(value(first, "crew=night") - value(first, "crew=late"), value(other, "crew=night"), 1e-8);
    same(first.termTests().get(0).statistic(), other.termTests().get(1).statistic(), 1e-8);
    same(first.termTests().get(1).statistic(), other.termTests().get(0).statistic(), 1e-8);
    assertEquals(List.of("crew=day"), first.references());
    assertEquals(List.of("crew=a late"), other.references());
    assertArrayEquals(
        CoxSnell.logScale(sample.covariates(), first), CoxSnell.logScale(covariates, other), 1e-8);
  }

  private static double value(Fitted fit, String term) {
    return fit.coefficient(term).value().estimate();
  }

  @Test
  void cuttingLivesIntoSpansChangesNothingButTheirNumber() {
    Sample sample = Sample.drawn(6, 150);
    List<Observation> spans = new ArrayList<>();
    List<String> crew = new ArrayList<>();
    List<Integer> rows = new ArrayList<>();
    for (int i = 0; i < sample.lives.size(); i++) {
      Observation o = sample.lives.get(i);
      double end = Observations.of(o).lower(0);
      double cut = o.entry() + 0.4 * (end - o.entry());
      if (cut > o.entry()) {
        spans.add(new RightCensored(o.entry(), cut, o.count()));
        crew.add(sample.crew.get(i));
        rows.add(i);
      }
      spans.add(cut > o.entry() ? from(o, cut) : o);
      crew.add(sample.crew.get(i));
      rows.add(i);
    }
    assertTrue(spans.size() > 280);
    Covariates covariates =
        Covariates.builder(spans.size())
            .categorical("crew", crew)
            .numeric("x", rows.stream().mapToDouble(i -> sample.x[i]).toArray())
            .numeric("y", rows.stream().mapToDouble(i -> sample.y[i]).toArray())
            .build();
    Fitted cut = Samples.fitted(Observations.of(spans), covariates);
    sameBut(sample.fit(), cut, 0);
    same(sample.fit().logLikelihood(), cut.logLikelihood(), 1e-11);
    same(
        sample.fit().nullLogLikelihood().orElseThrow(),
        cut.nullLogLikelihood().orElseThrow(),
        1e-11);
  }

  private static Observation from(Observation o, double entry) {
    if (o instanceof Exact e) {
      return new Exact(entry, e.age(), e.count());
    }
    if (o instanceof RightCensored r) {
      return new RightCensored(entry, r.age(), r.count());
    }
    Interval i = (Interval) o;
    return new Interval(entry, i.lower(), i.upper(), i.count());
  }

  @ParameterizedTest
  @ValueSource(longs = {7, 8, 9})
  void withoutCovariatesItIsTheFitOfOneGroup(long seed) {
    Observations lives = Observations.of(Sample.drawn(seed, 80).lives);
    WeibullFit.Fitted one =
        assertInstanceOf(WeibullFit.Fitted.class, WeibullFitter.fit(lives, WALD));
    Fitted fit = Samples.fitted(lives, Covariates.none(lives.size()));
    Estimate intercept = fit.coefficient("intercept").value();
    same(one.scale().estimate(), Math.exp(intercept.estimate()), 1e-10);
    same(one.scale().lower(), Math.exp(intercept.lower()), 1e-8);
    same(one.scale().upper(), Math.exp(intercept.upper()), 1e-8);
    same(one.shape(), fit.shape());
    same(one.logLikelihood(), fit.logLikelihood(), 1e-12);
    same(one.covariance().scaleShape(), fit.covariance().get(0).get(1), 1e-8);
    assertTrue(fit.overall().isEmpty());
    assertEquals(fit.logLikelihood(), fit.nullLogLikelihood().orElseThrow());
  }

  @ParameterizedTest
  @ValueSource(longs = {10, 11})
  void oneFactorIsTheCommonShapeOfItsGroups(long seed) {
    Sample sample = Sample.drawn(seed, 120);
    List<String> levels = List.of("day", "late", "night");
    List<Observations> groups = new ArrayList<>();
    for (String level : levels) {
      List<Observation> own = new ArrayList<>();
      for (int i = 0; i < sample.lives.size(); i++) {
        if (sample.crew.get(i).equals(level)) {
          own.add(sample.lives.get(i));
        }
      }
      groups.add(Observations.of(own));
    }
    CommonShape.Fitted common =
        assertInstanceOf(CommonShape.Fitted.class, CommonShapeFit.fit(groups, WALD));
    Covariates crew =
        Covariates.builder(sample.lives.size()).categorical("crew", sample.crew).build();
    Fitted fit = Samples.fitted(Observations.of(sample.lives), crew);
    same(common.shape(), fit.shape());
    same(common.logLikelihood(), fit.logLikelihood(), 1e-12);
    double base = value(fit, "intercept");
    same(common.groups().get(0).scale().estimate(), Math.exp(base), 1e-9);
    same(common.groups().get(1).scale().estimate(), Math.exp(base + value(fit, "crew=late")), 1e-9);
    same(
        common.groups().get(2).scale().estimate(), Math.exp(base + value(fit, "crew=night")), 1e-9);
  }

  @Test
  void nothingNearByIsBetter() {
    SplittableRandom random = new SplittableRandom(12);
    for (long seed = 20; seed < 26; seed++) {
      Sample sample = Sample.drawn(seed, 60);
      Fitted fit = sample.fit();
      double best = logLikelihood(sample, fit.shape().estimate(), coefficients(fit));
      assertEquals(fit.logLikelihood(), best, 1e-9 * Math.abs(best));
      for (int i = 0; i < 60; i++) {
        double size = Math.exp(-6 * random.nextDouble());
        double[] moved = coefficients(fit);
        for (int j = 0; j < moved.length; j++) {
          double error = fit.coefficients().get(j).stdError();
          moved[j] += size * error * (2 * random.nextDouble() - 1);
        }
        double shape = fit.shape().estimate() * Math.exp(size * (random.nextDouble() - 0.5));
        assertTrue(logLikelihood(sample, shape, moved) <= best + 1e-9 * Math.abs(best));
      }
    }
  }

  private static double[] coefficients(Fitted fit) {
    return fit.coefficients().stream().mapToDouble(c -> c.value().estimate()).toArray();
  }

  /** The definition, life by life. */
  private static double logLikelihood(Sample sample, double shape, double[] b) {
    double sum = 0;
    for (int i = 0; i < sample.lives.size(); i++) {
      double u = b[0] + b[3] * sample.x[i] + b[4] * sample.y[i];
      u += sample.crew.get(i).equals("late") ? b[1] : 0;
      u += sample.crew.get(i).equals("night") ? b[2] : 0;
      Observation o = sample.lives.get(i);
      double each = hazard(o.entry(), shape, u);
      if (o instanceof Exact e) {
        double z = Math.log(e.age()) - u;
        each += Math.log(shape) - Math.log(e.age()) + shape * z - hazard(e.age(), shape, u);
      } else if (o instanceof RightCensored r) {
        each -= hazard(r.age(), shape, u);
      } else {
        Interval v = (Interval) o;
        each +=
            Math.log(
                Math.exp(-hazard(v.lower(), shape, u)) - Math.exp(-hazard(v.upper(), shape, u)));
      }
      sum += o.count() * each;
    }
    return sum;
  }

  private static double hazard(double age, double shape, double logScale) {
    return Math.exp(shape * (Math.log(age) - logScale));
  }

  @Test
  void hazardRatioLimitsFollowFromTheCovariance() {
    Fitted fit = Sample.drawn(13, 200).fit();
    int n = fit.coefficients().size();
    for (int j = 1; j < n; j++) {
      Coefficient c = fit.coefficients().get(j);
      double b = fit.shape().estimate();
      double g = c.value().estimate();
      // log hazard ratio -shape g: derivatives -shape in g, -shape g in log shape
      double variance =
          b
              * b
              * (fit.covariance().get(j).get(j)
                  + 2 * g * fit.covariance().get(j).get(n)
                  + g * g * fit.covariance().get(n).get(n));
      double half = 1.6448536269514722 * Math.sqrt(variance);
      Estimate ratio = c.hazardRatio().orElseThrow();
      same(Math.exp(-b * g), ratio.estimate(), 1e-10);
      same(Math.exp(-b * g - half), ratio.lower(), 1e-8);
      same(Math.exp(-b * g + half), ratio.upper(), 1e-8);
    }
  }

  @Test
  void profileLimitsOfTheInterceptAloneAreThoseOfTheScale() {
    Observations lives = Observations.of(Sample.drawn(14, 40).lives);
    WeibullFit.Fitted one =
        assertInstanceOf(WeibullFit.Fitted.class, WeibullFitter.fit(lives, FitSettings.defaults()));
    RegressionSettings profile = RegressionSettings.defaults().withLimits(LimitMethod.PROFILE);
    Fitted fit = Samples.fitted(lives, Covariates.none(lives.size()), profile);
    Estimate intercept = fit.coefficient("intercept").value();
    same(one.scale().lower(), Math.exp(intercept.lower()), 1e-7);
    same(one.scale().upper(), Math.exp(intercept.upper()), 1e-7);
    same(one.shape().lower(), fit.shape().lower(), 1e-7);
    same(one.shape().upper(), fit.shape().upper(), 1e-7);
  }

  /** The intercept is where the number is 0, however its column was centred for the climb. */
  @Test
  void profileLimitsOfTheInterceptAreThoseOfTheGroupAtNought() {
    Sample sample = Sample.drawn(15, 80);
    List<Observation> nought = new ArrayList<>();
    List<Observation> rest = new ArrayList<>();
    for (int i = 0; i < sample.lives.size(); i++) {
      (sample.y[i] == 0 ? nought : rest).add(sample.lives.get(i));
    }
    CommonShape.Fitted common =
        assertInstanceOf(
            CommonShape.Fitted.class,
            CommonShapeFit.fit(
                List.of(Observations.of(nought), Observations.of(rest)), FitSettings.defaults()));
    Covariates number = Covariates.builder(sample.lives.size()).numeric("y", sample.y).build();
    RegressionSettings profile = RegressionSettings.defaults().withLimits(LimitMethod.PROFILE);
    Fitted fit = Samples.fitted(Observations.of(sample.lives), number, profile);
    Estimate intercept = fit.coefficient("intercept").value();
    Estimate scale = common.groups().get(0).scale();
    same(scale.estimate(), Math.exp(intercept.estimate()), 1e-9);
    same(scale.lower(), Math.exp(intercept.lower()), 1e-7);
    same(scale.upper(), Math.exp(intercept.upper()), 1e-7);
    same(common.shape().lower(), fit.shape().lower(), 1e-7);
    same(common.shape().upper(), fit.shape().upper(), 1e-7);
  }

  @Test
  void profileLimitsDoNotDependOnTheFirstLevelOrTheOriginOfACovariate() {
    Case larynx = Samples.reference("larynx-stage-age");
    RegressionSettings profile = RegressionSettings.defaults().withLimits(LimitMethod.PROFILE);
    Fitted fit = Samples.fitted(larynx.lives(), Samples.covariates(larynx), profile);
    List<String> stage = new ArrayList<>();
    double[] age = new double[larynx.rows().size()];
    for (int i = 0; i < age.length; i++) {
      String own = larynx.rows().get(i).getOrDefault("stage", "");
      stage.add(own.equals("IV") ? "0" : own);
      age[i] = Double.parseDouble(larynx.rows().get(i).getOrDefault("age_years", "")) - 60;
    }
    Covariates other =
        Covariates.builder(age.length).categorical("stage", stage).numeric("age", age).build();
    Fitted moved = Samples.fitted(larynx.lives(), other, profile);
    same(fit.shape().lower(), moved.shape().lower(), 1e-7);
    Estimate mine = fit.coefficient("stage=IV").value();
    Estimate theirs = moved.coefficient("stage=I").value();
    same(mine.lower(), -theirs.upper(), 1e-7);
    same(mine.upper(), -theirs.lower(), 1e-7);
    same(
        fit.coefficient("age_years").value().lower(),
        moved.coefficient("age").value().lower(),
        1e-7);
    // Near the limits by the covariance, but not the same.
    Estimate wald = Samples.fitted(larynx, 0.90).coefficient("stage=IV").value();
    assertEquals(wald.lower(), mine.lower(), 0.2);
    assertTrue(Math.abs(wald.lower() - mine.lower()) > 1e-4);
  }

  @Test
  void residualsAreUnitExponentialLives() {
    Sample sample = Sample.drawn(15, 4000);
    Observations lives = Observations.of(sample.lives);
    Observations residuals = CoxSnell.residuals(lives, sample.covariates(), sample.fit());
    assertEquals(lives.size(), residuals.size());
    // At the optimum the score of the intercept is 0: failures equal hazard run through; intervals
    // aside.
    List<Observation> known = new ArrayList<>();
    for (Observation o : residuals.asList()) {
      known.add(o instanceof Interval i ? new Exact(i.entry(), i.upper(), i.count()) : o);
    }
    ProductLimit curve = ProductLimit.of(Observations.of(known), 0.90);
    for (double h : new double[] {0.3, 0.7, 1.2}) {
      assertEquals(Math.exp(-h), curve.survivalAt(h).orElseThrow(), 0.05);
    }
  }

  @Test
  void theResultIsTheSameOnOneThread() throws Exception {
    Sample sample = Sample.drawn(16, 60_000);
    Observations lives = Observations.of(sample.lives);
    Covariates crew = Covariates.builder(lives.size()).categorical("crew", sample.crew).build();
    Fitted many = Samples.fitted(lives, crew);
    ForkJoinPool alone = new ForkJoinPool(1);
    try {
      Fitted one = alone.submit(() -> Samples.fitted(lives, crew)).get();
      assertEquals(many, one);
    } finally {
      alone.shutdown();
    }
  }

  @Test
  void misuseIsRefused() {
    Covariates.Builder builder = Covariates.builder(2).numeric("x", 1, 2);
    assertThrows(IllegalArgumentException.class, () -> builder.numeric("x", 1, 2));
    assertThrows(IllegalArgumentException.class, () -> builder.numeric(" ", 1, 2));
    assertThrows(IllegalArgumentException.class, () -> builder.numeric("y", 1));
    assertThrows(IllegalArgumentException.class, () -> builder.numeric("y", 1, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> builder.categorical("y", "a"));
    assertThrows(IllegalArgumentException.class, () -> Covariates.builder(-1));
    RegressionSettings settings = RegressionSettings.defaults();
    assertThrows(IllegalArgumentException.class, () -> settings.withConfidence(1));
    Observations three =
        Observations.of(Observation.failedAt(1), Observation.failedAt(2), Observation.failedAt(3));
    Covariates two = builder.build();
    assertThrows(IllegalArgumentException.class, () -> WeibullRegression.fit(three, two, settings));
  }

  /** Failures known to a thousand-millionth of their age are nearly exact, but for its log. */
  @ParameterizedTest
  @ValueSource(doubles = {1e-6, 1e-9})
  void narrowIntervalsAreNearlyExactLives(double width) {
    double[] ages = {310, 450, 700, 820, 990, 1210, 1500, 1900, 2300};
    double[] loads = {3, 2.5, 2, 2.2, 1.5, 1.1, 1.4, 0.6, 0.9};
    Observations.Builder exact = Observations.builder();
    Observations.Builder narrow = Observations.builder();
    double widths = 0;
    for (double age : ages) {
      exact.addFailure(50, age, 1);
      double upper = age * (1 + width);
      narrow.add(new Interval(50, age, upper, 1));
      widths += Math.log(upper - age);
    }
    exact.addRightCensored(0, 1000, 2);
    narrow.addRightCensored(0, 1000, 2);
    double[] numbers = Arrays.copyOf(loads, loads.length + 1);
    numbers[loads.length] = 1.8;
    Covariates load = Covariates.builder(numbers.length).numeric("load", numbers).build();
    Fitted one = Samples.fitted(exact.build(), load);
    Fitted other = Samples.fitted(narrow.build(), load);
    double slack = 20 * width + 1e-8;
    assertEquals(one.logLikelihood() + widths, other.logLikelihood(), 100 * slack);
    assertEquals(one.shape().estimate(), other.shape().estimate(), slack * one.shape().estimate());
    for (int i = 0; i < one.coefficients().size(); i++) {
      assertEquals(
          one.coefficients().get(i).value().estimate(),
          other.coefficients().get(i).value().estimate(),
          slack * 10);
    }
  }

  /** Numbers that all differ make as many cells as rows, more than a table of pairs would hold. */
  @Test
  void manyDifferentNumbersAreToldApart() {
    SplittableRandom random = new SplittableRandom(77);
    int n = 6000;
    double[] first = random.doubles(n).toArray();
    double[] second = random.doubles(n).toArray();
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double scale = 1000 * Math.exp(0.5 * first[i] - 0.8 * second[i]);
      lives.addFailure(0, new Weibull(2, scale).quantile(random.nextDouble(1e-12, 1)), 1);
    }
    Covariates both = Covariates.builder(n).numeric("a", first).numeric("b", second).build();
    Fitted fit = Samples.fitted(lives.build(), both);
    assertEquals(0.5, value(fit, "a"), 4 * 0.5 * Math.sqrt(12.0 / n));
    assertEquals(-0.8, value(fit, "b"), 4 * 0.5 * Math.sqrt(12.0 / n));
  }
}
