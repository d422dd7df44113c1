package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;

class MeanOfShapeTest {
  private static final double[] SHAPES = {0.3, 0.8, 1, 2.5, 7};

  @ParameterizedTest
  @EnumSource
  void itIsTheLogOfTheMeanWhereTheScaleIsOne(MeanOfShape mean) {
    for (double shape : SHAPES) {
      double expected =
          mean == MeanOfShape.WEIBULL
              ? new Weibull(shape, 1).mean()
              : new Lognormal(0, 1 / shape).mean();
      assertEquals(Math.log(expected), mean.log(shape), 1e-12);
    }
  }

  @ParameterizedTest
  @EnumSource
  void theSlopeIsThatInLogShape(MeanOfShape mean) {
    double h = 1e-5;
    for (double shape : SHAPES) {
      double slope = (mean.log(shape * Math.exp(h)) - mean.log(shape * Math.exp(-h))) / (2 * h);
      assertEquals(slope, mean.slope(shape), 1e-7 * (1 + Math.abs(slope)));
    }
  }
}
