package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.ModelRanking.Ranked;

class ModelRankingTest {
  private static List<LifeFit> fits(double... ages) {
    Observations.Builder lives = Observations.builder();
    for (double age : ages) {
      lives.addFailure(0, age, 1);
    }
    return LifeFits.all(lives.build(), FitSettings.defaults());
  }

  /** exp(-difference / 2), as a share of their sum. */
  @Test
  void weightsAreAkaikes() {
    ModelRanking ranking = ModelRanking.of(fits(310, 420, 500, 610, 660, 720, 800, 1100));
    assertEquals(Family.values().length, ranking.ranked().size());
    double best = ranking.ranked().get(0).aicc().orElseThrow();
    double sum = 0;
    for (Ranked one : ranking.ranked()) {
      double difference = one.aicc().orElseThrow() - best;
      assertEquals(difference, one.difference().orElseThrow(), 1e-12);
      sum += Math.exp(-difference / 2);
    }
    for (Ranked one : ranking.ranked()) {
      double difference = one.difference().orElseThrow();
      assertEquals(Math.exp(-difference / 2) / sum, one.weight(), 1e-12);
    }
    assertTrue(ranking.ranked().get(1).weight() > 0.01, "a weight to be seen");
  }

  /** Three lives are too few for two parameters: the criterion is the exponential's alone. */
  @Test
  void aFitWithoutTheCriterionComesLastAndWeighsNothing() {
    ModelRanking ranking = ModelRanking.of(fits(310, 420, 1100));
    Ranked first = ranking.ranked().get(0);
    assertEquals(Family.EXPONENTIAL, first.fit().family());
    assertEquals(1, first.weight(), 1e-15);
    for (Ranked one : ranking.ranked().subList(1, ranking.ranked().size())) {
      assertTrue(one.aicc().isEmpty() && one.difference().isEmpty());
      assertEquals(0, one.weight());
    }
  }

  /** Two lives are too few for any: by the plain criterion then, nobody with a weight. */
  @Test
  void withNoCriterionAtAllNobodyHasAWeight() {
    ModelRanking ranking = ModelRanking.of(fits(310, 420));
    double before = Double.NEGATIVE_INFINITY;
    for (Ranked one : ranking.ranked()) {
      assertEquals(0, one.weight());
      assertTrue(one.fit().aic() >= before);
      before = one.fit().aic();
    }
  }

  @Test
  void whatHasNoFitIsLeftOut() {
    ModelRanking ranking = ModelRanking.of(fits(310));
    assertEquals(
        List.of(Family.EXPONENTIAL), ranking.ranked().stream().map(r -> r.fit().family()).toList());
    assertEquals(2, ranking.leftOut().size());
  }

  @Test
  void fitsOfOtherLivesAreRefused() {
    LifeFit two = fits(310, 420).get(0);
    LifeFit three = fits(310, 420, 500).get(0);
    Observations survivor =
        Observations.of(Observation.failedAt(310), Observation.rightCensoredAt(420));
    LifeFit fewer = LifeFits.all(survivor, FitSettings.defaults()).get(0);
    assertThrows(IllegalArgumentException.class, () -> ModelRanking.of(List.of(two, three)));
    assertThrows(IllegalArgumentException.class, () -> ModelRanking.of(List.of(two, fewer)));
  }
}
