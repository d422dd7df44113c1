package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.ReferencePooling.Figure;
import org.vaneward.stats.pooling.ReferencePooling.Model;

/**
 * The posterior against one computed by brute force elsewhere: within the figure's own error and
 * four standard deviations of the draws' Monte Carlo error.
 */
class ReferencePoolingTest {
  private static final String CASES =
      """
      ONE_SHAPE, one
      ONE_SHAPE, two
      ONE_SHAPE, few
      SHAPES, two
      SHAPES, few
      """;

  @ParameterizedTest
  @CsvSource(textBlock = CASES)
  @Tag("long")
  void theFiguresAreMet(Model model, String caseName) {
    assertMet(model, caseName, 40_000);
  }

  /** The same with wider errors, in a fraction of the time. */
  @ParameterizedTest
  @CsvSource(textBlock = CASES)
  void fewDrawsMeetThemToo(Model model, String caseName) {
    assertMet(model, caseName, 2_000);
  }

  private static void assertMet(Model model, String caseName, int draws) {
    Map<String, Observations> lives = ReferencePooling.lives(caseName);
    PooledFit.Fitted fit =
        assertInstanceOf(
            PooledFit.Fitted.class,
            PartialPooling.fit(List.copyOf(lives.values()), model.settings().withDraws(draws)));
    List<String> groups = List.copyOf(lives.keySet());
    List<Figure> figures =
        ReferencePooling.figures().stream()
            .filter(f -> f.model() == model && f.caseName().equals(caseName))
            .toList();
    assertFalse(figures.isEmpty(), "no figures of " + model + " " + caseName);
    assertAll(figures.stream().map(figure -> () -> assertMet(figure, fit, groups)));
  }

  private static void assertMet(Figure figure, PooledFit.Fitted fit, List<String> groups) {
    double slack = figure.trusted() + 4 * ReferencePooling.noise(fit, groups, figure.quantity());
    assertEquals(
        figure.value(),
        ReferencePooling.got(fit, groups, figure.quantity()),
        slack,
        figure::toString);
  }
}
