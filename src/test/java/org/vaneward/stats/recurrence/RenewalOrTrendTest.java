package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.recurrence.RenewalOrTrend.Verdict;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

class RenewalOrTrendTest {
  private static EventHistories renewals(long seed, int units, double factor, double end) {
    Simulated simulated = new Simulated(seed);
    EventHistories.Builder builder = EventHistories.builder();
    for (int i = 0; i < units; i++) {
      builder.addUnit(0, simulated.renewals(2.5, 10, factor, end), end);
    }
    return builder.build();
  }

  @Test
  void renewalsAreAsGoodAsNewHoweverTheyWear() {
    RenewalOrTrend result = RenewalOrTrend.of(renewals(51, 20, 1, 80));
    assertEquals(Verdict.NO_TREND, result.verdict());
    RenewalOrTrend.Model renewal = result.renewal().orElseThrow();
    assertEquals(2.5, renewal.shape(), 0.4);
    assertTrue(renewal.betterThanConstantRate().orElseThrow() < 1e-6);
    assertTrue(renewal.aicc().orElseThrow() < result.powerLaw().orElseThrow().aicc().orElseThrow());
    String sentence = result.sentence("These pumps");
    assertTrue(
        sentence.startsWith(
            "These pumps come back as good as new as far as "
                + result.effect().orElseThrow().gaps()
                + " gaps can tell: no sign"),
        sentence);
  }

  @Test
  void gapsThatShrinkOrGrowAreSeen() {
    RenewalOrTrend worse = RenewalOrTrend.of(renewals(52, 12, 0.8, 40));
    assertEquals(Verdict.SHORTER, worse.verdict());
    assertTrue(worse.effect().orElseThrow().factor().upper() < 1);
    assertTrue(worse.sentence("These pumps").startsWith("These pumps do not come back"));
    LewisRobinson.Tested test = assertInstanceOf(LewisRobinson.Tested.class, worse.lewisRobinson());
    assertTrue(test.statistic() > 2 && test.permutationP() < 0.01);
    RenewalOrTrend better = RenewalOrTrend.of(renewals(53, 12, 1.25, 120));
    assertEquals(Verdict.LONGER, better.verdict());
    assertTrue(better.effect().orElseThrow().factor().lower() > 1);
  }

  @Test
  void fewGapsAreNoEvidence() {
    EventHistories few =
        EventHistories.builder()
            .addUnit(0, new double[] {9, 12}, 14)
            .addUnit(0, new double[] {8, 10}, 20)
            .build();
    RenewalOrTrend result = RenewalOrTrend.of(few);
    assertEquals(Verdict.TOO_FEW, result.verdict());
    assertEquals(0.5, result.effect().orElseThrow().smallestP(), 0);
    assertEquals(
        "These pumps have too few gaps between events (4) to tell whether they come back as good"
            + " as new.",
        result.sentence("These pumps"));
    RenewalOrTrend five =
        RenewalOrTrend.of(EventHistories.ofOne(new double[] {9, 26, 29, 47, 52}, 60));
    assertEquals(Verdict.NO_TREND, five.verdict());
    assertTrue(
        five.sentence("These pumps").contains("5 gaps leave room for much"),
        five.sentence("These pumps"));
  }

  @Test
  void nothingAtAllIsAVerdictToo() {
    for (EventHistories histories :
        List.of(
            EventHistories.builder().build(),
            EventHistories.ofOne(new double[0], 5),
            EventHistories.ofOne(new double[] {5}, 5),
            EventHistories.ofOne(new double[] {2, 4, 6, 8, 10, 12}, 12))) {
      RenewalOrTrend result = RenewalOrTrend.of(histories);
      assertEquals(Verdict.TOO_FEW, result.verdict());
      assertTrue(result.sentence("They").contains("too few complete gaps"));
      assertInstanceOf(LewisRobinson.NotTestable.class, result.lewisRobinson());
    }
  }

  /** Exact permutation tests reject at most as often as their level: 200 samples, sd 0.015. */
  @Test
  void renewalIsAccusedAsOftenAsPromised() {
    int accused = 0;
    for (int k = 0; k < 200; k++) {
      Verdict verdict = RenewalOrTrend.of(renewals(1_000 + k, 5, 1, 45)).verdict();
      accused += verdict == Verdict.SHORTER || verdict == Verdict.LONGER ? 1 : 0;
    }
    assertEquals(0.05, accused / 200.0, 0.045);
  }

  @Test
  void eventsAtOneAgeAreOneOccasionAndUnknownFirstGapsAreLeftOut() {
    EventHistories histories =
        EventHistories.builder()
            .addUnit(0, new double[] {4, 4, 9}, 12)
            .addUnit(5, new double[] {7, 8, 11}, 11)
            .addUnit(5, new double[0], 30)
            .build();
    Gaps gaps = new Gaps(histories);
    assertEquals(1, gaps.merged);
    assertEquals(2, gaps.occasions.size());
    assertEquals(4, gaps.occasions.events());
    assertEquals(List.of(4.0, 5.0), boxed(gaps.complete.get(0)));
    assertEquals(List.of(1.0, 3.0), boxed(gaps.complete.get(1)));
    assertEquals(5, gaps.lives.lives(), 0);
    assertEquals(4, gaps.lives.failures(), 0);
    assertEquals(gaps.occasions.totalTime(), 4 + 5 + 3 + 1 + 3, 1e-12);
  }

  private static List<Double> boxed(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }

  @Test
  void modelsAreComparable() {
    RenewalOrTrend result = RenewalOrTrend.of(renewals(54, 6, 1, 50));
    double constant = result.constantRate().orElseThrow().logLikelihood();
    assertTrue(result.renewal().orElseThrow().logLikelihood() >= constant);
    assertTrue(result.powerLaw().orElseThrow().logLikelihood() >= constant);
    assertEquals(1, result.constantRate().orElseThrow().parameters());
  }

  @Test
  void lewisRobinsonOfOneUnitIsLaplaceOverTheCoefficientOfVariation() {
    double[] gaps = {5, 35, 3, 132, 214, 323, 35, 48, 504, 179};
    double[] ages = new double[gaps.length];
    double age = 0;
    double squares = 0;
    for (int i = 0; i < gaps.length; i++) {
      age += gaps[i];
      ages[i] = age;
    }
    double mean = age / gaps.length;
    for (double gap : gaps) {
      squares += (gap - mean) * (gap - mean);
    }
    EventHistories toTheLast = EventHistories.ofOne(ages, age);
    Tested laplace = assertInstanceOf(Tested.class, Trend.laplace(toTheLast));
    double variation = Math.sqrt(squares / (gaps.length - 1)) / mean;
    LewisRobinson.Tested test =
        assertInstanceOf(
            LewisRobinson.Tested.class, LewisRobinson.test(EventHistories.ofOne(ages, 1500)));
    assertEquals(laplace.statistic() / variation, test.statistic(), 1e-12);
    assertEquals(test.p(), test.permutationP(), 0.05);
    LewisRobinson.NotTestable none =
        assertInstanceOf(
            LewisRobinson.NotTestable.class,
            LewisRobinson.test(EventHistories.ofOne(new double[] {2}, 5)));
    assertEquals("no unit has two complete gaps", none.reason());
  }

  /**
   * Parts that wear and are renewed make young units look as if they grew worse; their gaps do not.
   * 60 samples: more than 10 accused at 0.05 would have a chance below 0.001.
   */
  @Test
  void laplaceMistakesWearForTrendAndLewisRobinsonDoesNot() {
    int byLaplace = 0;
    int byGaps = 0;
    for (int k = 0; k < 60; k++) {
      EventHistories histories = renewals(2_000 + k, 30, 1, 25);
      Tested laplace = assertInstanceOf(Tested.class, Trend.laplace(histories));
      LewisRobinson.Tested test =
          assertInstanceOf(LewisRobinson.Tested.class, LewisRobinson.test(histories));
      byLaplace += laplace.p() <= 0.05 ? 1 : 0;
      byGaps += test.permutationP() <= 0.05 ? 1 : 0;
    }
    assertTrue(byLaplace > 20, "Laplace accuses " + byLaplace);
    assertTrue(byGaps <= 10, "Lewis-Robinson accuses " + byGaps);
  }
}
