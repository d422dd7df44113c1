package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Estimate;
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
    int n = result.occasions();
    assertEquals(n * Math.log(n / 300.0) - n, constant, 1e-10);
    List<RenewalOrTrend.Model> models =
        List.of(
            result.constantRate().orElseThrow(),
            result.renewal().orElseThrow(),
            result.powerLaw().orElseThrow());
    for (RenewalOrTrend.Model model : models) {
      double k = model.parameters();
      // Hurvich and Tsai 1989, Biometrika 76, 297-307
      double aicc = 2 * k - 2 * model.logLikelihood() + 2 * k * (k + 1) / (n - k - 1);
      assertEquals(aicc, model.aicc().orElseThrow(), 1e-10);
    }
  }

  /** The slope of log gap on its place within units, its limits by the spread of the logs. */
  @Test
  void theEffectIsTheSlopeOfLogGaps() {
    double[][] gaps = {{9, 4, 6, 2}, {5, 8, 1}};
    EventHistories.Builder builder = EventHistories.builder();
    double slope = 0;
    double places = 0;
    double variance = 0;
    for (double[] own : gaps) {
      double[] ages = new double[own.length];
      double mean = 0;
      double age = 0;
      for (int k = 0; k < own.length; k++) {
        age += own[k];
        ages[k] = age;
        mean += Math.log(own[k]) / own.length;
      }
      builder.addUnit(0, ages, age + 1);
      double spread = 0;
      double own2 = 0;
      for (int k = 0; k < own.length; k++) {
        double place = k - (own.length - 1) / 2.0;
        slope += place * Math.log(own[k]);
        own2 += place * place;
        spread += Math.pow(Math.log(own[k]) - mean, 2);
      }
      places += own2;
      variance += own2 * spread / (own.length - 1);
    }
    double middle = slope / places;
    // Student's law with 7 gaps less 2 units less 1 degrees of freedom; 2.131847 by table
    double half = 2.1318467863 * Math.sqrt(variance) / places;
    RenewalOrTrend.GapEffect effect = RenewalOrTrend.of(builder.build()).effect().orElseThrow();
    assertEquals(7, effect.gaps());
    assertEquals(2, effect.units());
    assertEquals(Math.exp(middle), effect.factor().estimate(), 1e-12);
    assertEquals(Math.exp(middle - half), effect.factor().lower(), 1e-9);
    assertEquals(Math.exp(middle + half), effect.factor().upper(), 1e-9);
    assertEquals(2.0 / (24 * 6), effect.smallestP(), 1e-15);
  }

  private static String said(Verdict verdict, double factor, double lower, double upper, double p) {
    RenewalOrTrend some = RenewalOrTrend.of(renewals(51, 3, 1, 40));
    RenewalOrTrend.GapEffect effect =
        new RenewalOrTrend.GapEffect(new Estimate(factor, lower, upper), 3, 12, 0.001, p);
    return new RenewalOrTrend(
            3,
            12,
            0,
            some.constantRate(),
            some.renewal(),
            some.powerLaw(),
            some.lewisRobinson(),
            Optional.of(effect),
            verdict)
        .sentence("Seals");
  }

  @Test
  void sentencesSayHowMuchIsKnown() {
    assertEquals(
        "Seals come back as good as new as far as 12 gaps can tell: no sign that gaps get shorter or"
            + " longer (p 0.40; from one gap to the next, between 12% shorter and 20% longer).",
        said(Verdict.NO_TREND, 1.02, 0.88, 1.2, 0.4));
    assertEquals(
        "Seals show no sign that gaps get shorter or longer (p 0.40), but 12 gaps leave room for"
            + " much: from one gap to the next, between no change and 3.5 times as long.",
        said(Verdict.NO_TREND, 1.8, 1.001, 3.5, 0.4));
    assertEquals(
        "Seals do not come back as good as new: gaps between events get shorter (p below 0.01, 12"
            + " gaps; from one gap to the next, between 40% shorter and 10% shorter).",
        said(Verdict.SHORTER, 0.75, 0.6, 0.9, 0.002));
    assertEquals(
        "Seals run longer after each event than before it (p 0.03, 12 gaps; from one gap to the"
            + " next, between 5% longer and 99% longer).",
        said(Verdict.LONGER, 1.5, 1.05, 1.99, 0.03));
    assertEquals(
        "Seals leave it open whether they come back as good as new: the order of 12 gaps shows no"
            + " trend (p 0.20), but age describes the events better than time since the last.",
        said(Verdict.UNCLEAR, 0.9, 0.8, 1.1, 0.2));
    assertEquals(
        "Seals have too few gaps between events (12) to tell whether they come back as good as new.",
        said(Verdict.TOO_FEW, 0.9, 0.8, 1.1, 0.2));
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
