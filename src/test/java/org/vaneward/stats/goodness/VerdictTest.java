package org.vaneward.stats.goodness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Locale;
import org.junit.jupiter.api.Test;

class VerdictTest {
  private static final Verdict GOOD = Verdict.on("Weibull", 23).withGoodnessP(0.41);

  @Test
  void aGoodFitWithClearWear() {
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41); wear-out is clear (shape 2.30, p below"
            + " 0.001).",
        GOOD.withAgeing(2.3, 1e-5).sentence());
  }

  @Test
  void tooFewFailures() {
    assertEquals(
        "Too few failures (3) to check the shape of the curve.",
        Verdict.on("Weibull", 3).withGoodnessP(0.2).withAgeing(5, 0.001).sentence());
    assertEquals(
        "No failures: the shape of the curve cannot be checked.",
        Verdict.on("Weibull", 0).sentence());
    assertEquals(
        "No curve can be fitted to this 1 failure: one failure, at the greatest age.",
        Verdict.notEstimable(1, "one failure, at the greatest age"));
    assertEquals(
        "No curve can be fitted to these 0 failures: no failures.",
        Verdict.notEstimable(0, "no failures"));
  }

  @Test
  void fewFailuresAllowNoMoreThanNoObjection() {
    assertEquals(
        "Nothing in these 7 failures speaks against the Weibull (p 0.80), though so few would show"
            + " only a gross misfit; whether the risk changes with age is open (shape 1.30, p"
            + " 0.22).",
        Verdict.on("Weibull", 7).withGoodnessP(0.8).withAgeing(1.3, 0.22).sentence());
  }

  @Test
  void theFitByItsP() {
    Verdict on = Verdict.on("lognormal", 40);
    assertEquals(
        "The lognormal was fitted to these 40 failures, its shape not checked.", on.sentence());
    assertEquals(
        "The lognormal fits these 40 failures fairly (p 0.070).",
        on.withGoodnessP(0.07).sentence());
    assertEquals(
        "It is doubtful that the lognormal fits these 40 failures (p 0.030).",
        on.withGoodnessP(0.03).sentence());
    assertEquals(
        "The lognormal does not fit these 40 failures (p 0.004).",
        on.withGoodnessP(0.004).sentence());
  }

  /** The shape of a curve that does not fit says nothing about wear. */
  @Test
  void aRejectedFitSaysNothingOfWear() {
    assertEquals(
        "The Weibull does not fit these 60 failures (p 0.002); the ages look like two kinds of"
            + " failure mixed (p 0.010), so look for the causes.",
        Verdict.on("Weibull", 60)
            .withGoodnessP(0.002)
            .withMixtureP(0.01)
            .withAgeing(1.1, 0.003)
            .sentence());
  }

  @Test
  void knownCausesComeBeforeAGuessedMixture() {
    assertEquals(
        "The Weibull does not fit these 60 failures (p 0.002); the 3 known causes follow more than"
            + " one curve (p below 0.001), so plan by cause.",
        Verdict.on("Weibull", 60)
            .withGoodnessP(0.002)
            .withMixtureP(0.01)
            .withModes(3, 0)
            .sentence());
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41).",
        GOOD.withModes(2, 0.3).withMixtureP(0.5).sentence());
  }

  @Test
  void otherFamilies() {
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41); the lognormal describes them better"
            + " (AICc lower by 5.1).",
        GOOD.withOther("exponential", 9).withOther("lognormal", -5.1).sentence());
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41); the lognormal describes them somewhat"
            + " better (AICc lower by 3.0).",
        GOOD.withOther("lognormal", -3).sentence());
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41); the lognormal does about as well, and"
            + " these failures do not settle which.",
        GOOD.withOther("lognormal", 1.4).sentence());
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41).",
        GOOD.withOther("lognormal", 6).sentence());
  }

  @Test
  void ageingByItsPAndItsSide() {
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41); wear-out is likely (shape 1.50, p"
            + " 0.030).",
        GOOD.withAgeing(1.5, 0.03).sentence());
    assertEquals(
        "The Weibull fits these 23 failures well (p 0.41); a risk that falls with age is clear"
            + " (shape 0.60, p 0.005).",
        GOOD.withAgeing(0.6, 0.005).sentence());
  }

  @Test
  void theTestsOwnResultIsTakenWhenThereIsOne() {
    GoodnessOfFit tested =
        new GoodnessOfFit.Tested(
            new GoodnessOfFit.Statistic(0.4, 0.41), new GoodnessOfFit.Statistic(0.1, 0.2), 99, 0);
    assertEquals(GOOD, Verdict.on("Weibull", 23).withGoodness(tested));
    assertEquals(
        Verdict.on("Weibull", 23),
        Verdict.on("Weibull", 23).withGoodness(new GoodnessOfFit.NotAvailable("few")));
  }

  /** Every sentence there can be is one sentence and claims no proof. */
  @Test
  void noSentenceOverclaims() {
    for (double failures : new double[] {0, 1, 4, 5, 9, 10, 500, 7.5}) {
      for (double p : new double[] {0, 0.009, 0.03, 0.07, 0.5, 1}) {
        for (double other : new double[] {-50, -3, 0, 8}) {
          String sentence =
              Verdict.on("Weibull", failures)
                  .withGoodnessP(p)
                  .withAgeing(2, p)
                  .withMixtureP(1 - p)
                  .withModes(2, p)
                  .withOther("lognormal", other)
                  .sentence();
          assertFalse(
              sentence.toLowerCase(Locale.ROOT).matches(".*(prove|proof|certain|sure).*"),
              sentence);
          assertEquals(sentence.length() - 1, sentence.replaceAll("\\d\\.\\d", "0,0").indexOf('.'));
        }
      }
    }
  }

  @Test
  void numbersOutOfRangeAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> GOOD.withGoodnessP(1.2));
    assertThrows(IllegalArgumentException.class, () -> GOOD.withMixtureP(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> GOOD.withAgeing(-1, 0.5));
    assertThrows(IllegalArgumentException.class, () -> GOOD.withModes(1, 0.5));
    assertThrows(IllegalArgumentException.class, () -> GOOD.withOther("x", Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> Verdict.on("Weibull", -1));
  }
}
