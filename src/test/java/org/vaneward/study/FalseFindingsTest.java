package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.vaneward.review.failure.Topic;

/** A small run of the study: nothing is found where there is nothing, what is planted is found. */
class FalseFindingsTest {
  @Test
  void whereNothingIsPlantedNextToNothingIsFound() {
    List<FalseFindings.Case> cases =
        FalseFindings.review(Path.of("seeds/depots-alike.json"), 1, 16);
    long with = cases.stream().filter(c -> !c.findings().isEmpty()).count();
    // At one fleet in ten, six or more of sixteen has a chance of 0.3% (binomial).
    assertTrue(with <= 5, with + " of 16 fleets");
    assertTrue(cases.get(0).questions() > 500);
  }

  @Test
  void whatIsPlantedIsFoundInOtherDrawsToo() {
    List<FalseFindings.Case> cases = FalseFindings.review(Path.of("seeds/depots-six.json"), 1, 6);
    for (FalseFindings.Case one : cases) {
      assertTrue(one.finds(Topic.LOT, "S2021-1R"), "lot, seed " + one.seed());
      assertTrue(one.finds(Topic.PRODUCT, "urea solution"), "product, seed " + one.seed());
    }
    long crew = cases.stream().filter(c -> c.finds(Topic.CREW, "contract crew")).count();
    assertTrue(crew >= 5, crew + " of 6 fleets");
  }
}
