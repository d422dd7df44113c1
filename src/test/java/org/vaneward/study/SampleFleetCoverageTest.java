package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.vaneward.sample.Sample;
import org.vaneward.study.CoverageStudy.Count;

/** Limits of fits against the truth of the scenarios that drew the fleets. */
class SampleFleetCoverageTest {
  /**
   * The sample fleet's own truth: at least nine fits in ten hold the true scale, and as many the
   * true shape. About one draw in three of the scenario does so for both; the seed of the committed
   * fleet is one of them.
   */
  @Test
  void theSampleFleetsFitsHoldTheTruth() {
    Map<String, Count> counts =
        CoverageStudy.count(
            Path.of("sample-fleet"),
            Sample.draw(Path.of("seeds/depots-six.json"), OptionalLong.empty()).truth(),
            new TreeMap<>());
    Count all = CoverageStudy.total(counts);
    assertTrue(all.fits >= 25, "fits: " + all.fits);
    assertTrue(all.scaleHeld >= 0.9 * all.fits, all.scaleHeld + " of " + all.fits);
    assertTrue(all.shapeHeld >= 0.9 * all.fits, all.shapeHeld + " of " + all.fits);
  }

  /**
   * Over 40 fleets without flaws or planted causes. With some 1,400 fits a true coverage of 88%
   * falls outside 85% to 92% by chance in fewer than one run in a thousand; the seeds are fixed.
   */
  @Test
  void overManyFleetsTheLimitsHoldAsOftenAsTheySay() {
    Count all = CoverageStudy.total(CoverageStudy.count(Path.of("seeds/depots-plain.json"), 40));
    assertTrue(all.fits > 1000, "fits: " + all.fits);
    double scale = (double) all.scaleHeld / all.fits;
    double shape = (double) all.shapeHeld / all.fits;
    assertTrue(scale > 0.85 && scale < 0.92, "scale: " + scale);
    assertTrue(shape > 0.85 && shape < 0.92, "shape: " + shape);
  }
}
