package org.vaneward.stats.regression;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.regression.RegressionFit.Fitted;
import org.vaneward.stats.regression.RegressionFit.NotEstimable;

/** What keeps a regression from having a maximum is found, and named. Fixed seeds. */
class FaultsTest {
  private static final Observations SIX =
      Observations.of(
          Observation.failedAt(3),
          Observation.failedAt(5),
          Observation.rightCensoredAt(6),
          Observation.failedAt(4),
          Observation.failedAt(9),
          Observation.rightCensoredAt(7));

  private static void refused(
      Observations lives, Covariates covariates, String reason, String... terms) {
    NotEstimable none = Samples.refused(lives, covariates);
    assertEquals(reason, none.reason());
    assertEquals(List.of(terms), none.terms());
  }

  @Test
  void constantCovariatesAreNamed() {
    Covariates covariates =
        Covariates.builder(6)
            .numeric("speed", 7, 7, 7, 7, 7, 7)
            .numeric("load", 1, 2, 3, 4, 5, 6)
            .categorical("duty", "a", "a", "a", "a", "a", "a")
            .build();
    refused(SIX, covariates, "speed and duty the same in all lives: leave out", "speed", "duty");
  }

  @Test
  void aCovariateThatIsAnotherInAnotherUnitIsNamed() {
    Covariates covariates =
        Covariates.builder(6)
            .numeric("celsius", 10, 20, 35, 40, 55, 60)
            .numeric("fahrenheit", 50, 68, 95, 104, 131, 140)
            .build();
    refused(
        SIX,
        covariates,
        "fahrenheit says the same as celsius: leave out one of them",
        "fahrenheit",
        "celsius");
  }

  @Test
  void aCombinationNamesItsPartsAndNoOthers() {
    double[] a = {1, 5, 2, 8, 3, 4};
    double[] b = {2, 2, 7, 1, 9, 3};
    double[] other = {0, 1, 0, 0, 1, 1};
    double[] sum = new double[6];
    for (int i = 0; i < 6; i++) {
      sum[i] = 3 * a[i] - b[i] + 1000;
    }
    Covariates covariates =
        Covariates.builder(6)
            .numeric("a", a)
            .numeric("other", other)
            .numeric("b", b)
            .numeric("sum", sum)
            .build();
    refused(
        SIX, covariates, "sum is a combination of a and b: leave out one of them", "sum", "a", "b");
  }

  @Test
  void aFactorThatAnotherFixesIsNamed() {
    Covariates covariates =
        Covariates.builder(6)
            .categorical("crew", "1", "2", "3", "1", "2", "3")
            .categorical("site", "n", "s", "s", "n", "s", "s")
            .build();
    refused(
        SIX,
        covariates,
        "site=s is a combination of crew=2 and crew=3: leave out one of them",
        "site=s",
        "crew=2",
        "crew=3");
  }

  @Test
  void levelsWithoutFailuresAreNamedTheFirstLevelToo() {
    Covariates covariates =
        Covariates.builder(6).categorical("duty", "b", "b", "a", "b", "b", "c").build();
    refused(
        SIX,
        covariates,
        "no failures at duty=a and duty=c: leave out or merge with another",
        "duty=a",
        "duty=c");
  }

  @Test
  void aNumericCovariateThatPartsSurvivorsIsNamed() {
    Covariates covariates =
        Covariates.builder(6)
            .numeric("clearance", 3, 1, 2, 5, 2, 4)
            .numeric("late", 0, 0, 1, 0, 0, 1)
            .build();
    refused(
        SIX,
        covariates,
        "late parts lives that never failed from the others: leave it out",
        "late");
  }

  @Test
  void aNumericCovariateThatFailuresAlsoVaryInIsFitted() {
    // the survivors lie beyond all failures, and still the coefficient is finite
    Covariates covariates = Covariates.builder(6).numeric("x", 1, 2, 8, 3, 4, 9).build();
    Fitted fit = Samples.fitted(SIX, covariates);
    assertTrue(fit.coefficient("x").value().estimate() > 0);
  }

  @Test
  void theFailuresOfOneAndTheSameTemperatureSayNothingOfTheSlope() {
    Covariates hot = Covariates.builder(6).numeric("x", 1, 1, 2, 1, 1, 3).build();
    refused(SIX, hot, "x parts lives that never failed from the others: leave it out", "x");
    // survivors on both sides hold the slope
    Covariates between = Covariates.builder(6).numeric("x", 2, 2, 1, 2, 2, 3).build();
    assertEquals(4, Samples.fitted(SIX, between).failures());
  }

  @Test
  void twoCovariatesTogetherCanPartWhatNeitherDoesAlone() {
    // failures on the line x = y; survivors off it, on one side
    Covariates covariates =
        Covariates.builder(6).numeric("x", 1, 2, 4, 3, 4, 5).numeric("y", 1, 2, 1, 3, 4, 2).build();
    refused(
        SIX,
        covariates,
        "x and y together part lives that never failed from the others: leave out one of them",
        "x",
        "y");
    Covariates bothSides =
        Covariates.builder(6).numeric("x", 1, 2, 4, 3, 4, 1).numeric("y", 1, 2, 1, 3, 4, 4).build();
    assertEquals(6, Samples.fitted(SIX, bothSides).lives());
  }

  @Test
  void asManyTermsAsFailuresExplainThemAll() {
    Observations lives =
        Observations.of(
            Observation.failedAt(3), Observation.failedAt(9), Observation.rightCensoredAt(2));
    refused(
        lives,
        Covariates.builder(3).categorical("duty", "a", "b", "a").build(),
        "the covariates explain every age at failure: too few failures for the terms");
    refused(
        lives,
        Covariates.builder(3).numeric("x", 1, 2, 1.5).build(),
        "the covariates explain every age at failure: too few failures for the terms");
    // a survivor that outran the line keeps the shape from growing
    Observations outran =
        Observations.of(
            Observation.failedAt(3), Observation.failedAt(9), Observation.rightCensoredAt(20));
    assertEquals(
        2,
        Samples.fitted(outran, Covariates.builder(3).numeric("x", 1, 2, 1.5).build()).failures());
  }

  @Test
  void hardLivesGiveReasons() {
    Observations none = Observations.of(Observation.rightCensoredAt(5));
    refused(none, Covariates.none(1), "no failures");
    refused(Observations.of(), Covariates.none(0), "no failures");
    refused(
        Observations.of(Observation.failedAt(5), Observation.failedAt(5)),
        Covariates.none(2),
        "all failures may have come at one age and nothing ran longer");
    refused(
        Observations.of(Observation.failedBetween(0, 5), Observation.failedBetween(0, 7)),
        Covariates.none(2),
        "no life was seen to run: every failure lies in its first interval");
  }

  /** Whatever comes in, out comes a proven fit or a reason that names what is at fault. */
  @Test
  void anyLivesGiveAProvenFitOrAReason() {
    SplittableRandom random = new SplittableRandom(20260301);
    int fitted = 0;
    int refused = 0;
    for (int run = 0; run < 500; run++) {
      int n = 1 + random.nextInt(30);
      List<Observation> lives = new ArrayList<>();
      List<String> level = new ArrayList<>();
      double[] x = new double[n];
      double decades = 1 + random.nextInt(12);
      for (int i = 0; i < n; i++) {
        lives.add(life(random, decades));
        level.add("l" + random.nextInt(1 + run % 4));
        x[i] = run % 3 == 0 ? random.nextInt(2) : random.nextDouble() * 1e6;
      }
      Covariates covariates =
          Covariates.builder(n).categorical("level", level).numeric("x", x).build();
      RegressionFit fit =
          WeibullRegression.fit(Observations.of(lives), covariates, RegressionSettings.defaults());
      String what = "run " + run + " " + fit;
      if (fit instanceof Fitted f) {
        fitted++;
        assertTrue(f.proof().gradientNorm() <= WeibullRegression.STEEPEST, what);
        assertTrue(f.proof().smallestCurvature() >= WeibullRegression.FLATTEST, what);
        f.coefficients()
            .forEach(c -> assertTrue(c.stdError() > 0 && c.p() >= 0 && c.p() <= 1, what));
      } else {
        refused++;
        NotEstimable none = assertInstanceOf(NotEstimable.class, fit);
        assertTrue(!none.reason().isBlank() && !none.reason().contains("proved"), what);
      }
    }
    assertTrue(fitted > 150 && refused > 100, fitted + " fitted, " + refused + " refused");
  }

  /** Hard lives without covariates: the same answer as the fit of one group, by another search. */
  @Test
  void withoutCovariatesWhatCanBeFittedIsWhatOneGroupCan() {
    SplittableRandom random = new SplittableRandom(20260303);
    int fitted = 0;
    int refused = 0;
    for (int run = 0; run < 400; run++) {
      int n = 1 + random.nextInt(12);
      List<Observation> list = new ArrayList<>();
      double decades = 1 + random.nextInt(6);
      for (int i = 0; i < n; i++) {
        list.add(life(random, decades));
      }
      Observations lives = Observations.of(list);
      WeibullFit one =
          WeibullFitter.fit(lives, FitSettings.defaults().withLimits(LimitMethod.WALD));
      RegressionFit fit =
          WeibullRegression.fit(lives, Covariates.none(n), RegressionSettings.defaults());
      String what = "run " + run + " " + one + " " + fit + " " + list;
      if (one instanceof WeibullFit.Fitted group) {
        Fitted alone = assertInstanceOf(Fitted.class, fit, what);
        assertEquals(
            group.logLikelihood(),
            alone.logLikelihood(),
            1e-9 * (1 + Math.abs(group.logLikelihood())),
            what);
        fitted++;
      } else {
        assertInstanceOf(NotEstimable.class, fit, what);
        refused++;
      }
    }
    assertTrue(fitted > 200 && refused > 20, fitted + " fitted, " + refused + " refused");
  }

  @Test
  void oneFailureAmongThousandsOfSurvivors() {
    int n = 5000;
    List<Observation> lives = new ArrayList<>();
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      lives.add(i == 2000 ? Observation.failedAt(700) : Observation.rightCensoredAt(500 + i));
      x[i] = i % 7;
    }
    Covariates covariates = Covariates.builder(n).numeric("x", x).build();
    Fitted fit = Samples.fitted(Observations.of(lives), covariates);
    assertEquals(1, fit.failures());
    // the one failure, at x = 5, lies between survivors' x: the coefficient is finite but unsure
    assertTrue(fit.coefficient("x").p() > 0.05);
  }

  private static Observation life(SplittableRandom random, double decades) {
    double age = Math.pow(10, decades * random.nextDouble() - 3);
    if (random.nextInt(4) == 0) {
      age = 1 + random.nextInt(3);
    }
    double entry = random.nextInt(5) == 0 ? age * random.nextDouble() : 0;
    int count = 1 + random.nextInt(3);
    return switch (random.nextInt(4)) {
      case 0 -> new RightCensored(entry, age, count);
      case 1 -> new Observation.Interval(entry, entry, age, count);
      case 2 -> new Observation.Interval(entry, entry + (age - entry) / 2, age, count);
      default -> new Observation.Exact(entry, age, count);
    };
  }

  /** A refusal for a direction is true: along it the likelihood of a fit with ridge goes on. */
  @Test
  void whatIsFittedDoesNotDriftAndWhatDriftsIsRefused() {
    SplittableRandom random = new SplittableRandom(20260302);
    int drifting = 0;
    for (int run = 0; run < 300; run++) {
      int n = 8;
      List<Observation> lives = new ArrayList<>();
      double[] x = new double[n];
      double[] y = new double[n];
      for (int i = 0; i < n; i++) {
        x[i] = random.nextInt(3);
        y[i] = random.nextInt(3);
        double age = 1 + 9 * random.nextDouble();
        boolean failed = random.nextInt(3) == 0;
        lives.add(failed ? Observation.failedAt(age) : Observation.rightCensoredAt(age));
      }
      Covariates covariates = Covariates.builder(n).numeric("x", x).numeric("y", y).build();
      RegressionFit fit =
          WeibullRegression.fit(Observations.of(lives), covariates, RegressionSettings.defaults());
      boolean parted = fit instanceof NotEstimable none && none.reason().contains("never failed");
      if (parted || fit instanceof Fitted) {
        assertEquals(drifts(lives, x, y), parted, "run " + run + " " + fit);
        drifting += parted ? 1 : 0;
      }
    }
    assertTrue(drifting > 30, "drifting " + drifting);
  }

  /**
   * By trying: is there a plane a + b x + c y that is 0 at every failure, nowhere negative at a
   * survivor and somewhere positive? On a grid of covariates from 0 to 2 whole numbers are enough.
   */
  private static boolean drifts(List<Observation> lives, double[] x, double[] y) {
    for (int b = -4; b <= 4; b++) {
      for (int c = -4; c <= 4; c++) {
        for (int a = -16; a <= 16; a++) {
          boolean holds = true;
          boolean moves = false;
          for (int i = 0; i < x.length && holds; i++) {
            double v = a + b * x[i] + c * y[i];
            boolean failed = lives.get(i) instanceof Observation.Exact;
            holds = failed ? v == 0 : v >= 0;
            moves |= v > 0;
          }
          if (holds && moves) {
            return true;
          }
        }
      }
    }
    return false;
  }
}
