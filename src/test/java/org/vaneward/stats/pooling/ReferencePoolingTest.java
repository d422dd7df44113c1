package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.ReferencePooling.Figure;

/** The posterior against one computed by brute force elsewhere. */
class ReferencePoolingTest {
  private static final Map<String, PooledFit.Fitted> FITS = new ConcurrentHashMap<>();

  static List<Figure> figures() {
    return ReferencePooling.figures();
  }

  /** Within the figure's own error and four standard deviations of the draws' Monte Carlo error. */
  @ParameterizedTest
  @MethodSource("figures")
  void theFigureIsMet(Figure figure) {
    Map<String, Observations> lives = ReferencePooling.lives(figure.caseName());
    PooledFit.Fitted fit =
        FITS.computeIfAbsent(
            figure.model() + figure.caseName(),
            c ->
                assertInstanceOf(
                    PooledFit.Fitted.class,
                    PartialPooling.fit(List.copyOf(lives.values()), figure.model().settings())));
    List<String> groups = List.copyOf(lives.keySet());
    double slack = figure.trusted() + 4 * ReferencePooling.noise(fit, groups, figure.quantity());
    assertEquals(
        figure.value(),
        ReferencePooling.got(fit, groups, figure.quantity()),
        slack,
        figure::toString);
  }
}
