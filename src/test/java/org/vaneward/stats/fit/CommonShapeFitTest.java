package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.numeric.Minimum;

class CommonShapeFitTest {
  static Stream<Case> cases() {
    return Reference.cases("common_shape").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(3, cases().count());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    JsonNode e = c.expected();
    Map<String, Observations> groups = c.groups();
    List<Observations> inOrder = new ArrayList<>();
    int i = 0;
    for (JsonNode name : e.get("groups")) {
      Observations lives = Objects.requireNonNull(groups.get(name.asText()), name.asText());
      inOrder.add(lives);
      WeibullFit own = WeibullFitter.fit(lives, FitSettings.defaults());
      c.holds(
          "separate shape",
          e.get("separate_shapes").get(i++),
          assertInstanceOf(WeibullFit.Fitted.class, own).weibull().shape());
    }
    assertEquals(groups.size(), i);
    CommonShape.Fitted fit = fitted(inOrder, FitSettings.defaults());
    c.holds("common shape", e.get("common_shape"), fit.shape().estimate());
    c.holds("log-likelihood", e.get("log_likelihood_common"), fit.logLikelihood());
    LikelihoodRatio test = fit.equalShapes().orElseThrow();
    c.holds(
        "separate", e.get("log_likelihood_separate"), fit.logLikelihoodSeparate().orElseThrow());
    c.holds("statistic", e.get("statistic"), test.statistic());
    assertEquals(e.get("df").asInt(), test.degreesOfFreedom());
    c.holds("p", e.get("p"), test.p());
    assertTrue(fit.proof().gradientNorm() <= WeibullFitter.STEEPEST);
  }

  /** Alone, a group has the limits of its own fit, by either method. */
  @ParameterizedTest
  @EnumSource(value = LimitMethod.class, names = "LIFTED", mode = EnumSource.Mode.EXCLUDE)
  void oneGroupIsItsOwnFit(LimitMethod method) {
    FitSettings settings = FitSettings.defaults().withLimits(method);
    Observations lives = Reference.cases("right_censored_fits").get(0).lives();
    WeibullFit.Fitted alone =
        assertInstanceOf(WeibullFit.Fitted.class, WeibullFitter.fit(lives, settings));
    CommonShape.Fitted common = fitted(List.of(lives), settings);
    close(alone.shape(), common.shape());
    close(alone.scale(), common.groups().get(0).scale());
    close(alone.quantiles().get(2).age(), common.groups().get(0).quantiles().get(2).age());
    assertTrue(common.equalShapes().isEmpty());
    assertTrue(common.equalShapesNote().contains("two groups"));
  }

  /**
   * Groups alike but for the unit of age: the common shape is each one's own, its variance is
   * divided by their number, and the scales are in proportion.
   */
  @Test
  void groupsAlikeButForTheUnit() {
    Observations lives = Reference.cases("right_censored_fits").get(0).lives();
    Observations.Builder other = Observations.builder();
    for (Observation o : lives.asList()) {
      if (o instanceof Observation.Exact x) {
        other.addFailure(0, x.age() * 1000, x.count());
      } else if (o instanceof Observation.RightCensored x) {
        other.addRightCensored(0, x.age() * 1000, x.count());
      }
    }
    WeibullFit.Fitted alone =
        assertInstanceOf(WeibullFit.Fitted.class, WeibullFitter.fit(lives, FitSettings.defaults()));
    CommonShape.Fitted both = fitted(List.of(lives, other.build()), FitSettings.defaults());
    assertEquals(alone.weibull().shape(), both.shape().estimate(), 1e-10);
    assertEquals(alone.covariance().shapeShape() / 2, both.shapeVariance(), 1e-10);
    assertEquals(alone.proof().smallestCurvature(), both.proof().smallestCurvature(), 1e-9);
    assertTrue(both.proof().gradientNorm() >= 0);
    Estimate first = both.groups().get(0).scale();
    Estimate second = both.groups().get(1).scale();
    close(
        new Estimate(first.estimate() * 1000, first.lower() * 1000, first.upper() * 1000), second);
    assertEquals(0, both.equalShapes().orElseThrow().statistic(), 1e-9);
    assertEquals(1, both.equalShapes().orElseThrow().p(), 1e-4);
  }

  /** With no failures a group adds nothing; its scale has a lower limit only. */
  @Test
  void aGroupWithoutFailures() {
    List<Observations> groups =
        new ArrayList<>(cases().findFirst().orElseThrow().groups().values());
    List<Observations> carrying = List.copyOf(groups);
    CommonShape.Fitted without = fitted(carrying, FitSettings.defaults());
    Observations.Builder none = Observations.builder();
    none.addRightCensored(0, 5, 30).addRightCensored(2, 9, 4);
    groups.add(1, none.build());
    CommonShape.Fitted with = fitted(groups, FitSettings.defaults());
    close(without.shape(), with.shape());
    assertEquals(without.logLikelihood(), with.logLikelihood());
    CommonShape.Group group = with.groups().get(1);
    assertTrue(group.weibull().isEmpty());
    assertTrue(group.note().contains("no failures"));
    assertEquals(Double.POSITIVE_INFINITY, group.scale().estimate());
    assertEquals(Double.POSITIVE_INFINITY, group.scale().upper());
    assertEquals(
        with.logLikelihood() - WeibullFitter.drop(with.confidence()),
        -Minimum.between(
                s -> -together(carrying, groups.get(1), group.scale().lower(), s), -3, 3, 201)
            .value(),
        1e-8);
    double shape = with.shape().estimate();
    double known = knownShapeLimit(shape, 30 * Math.pow(5, shape) + gained(shape));
    assertTrue(
        group.scale().lower() > 0 && group.scale().lower() <= known * (1 + 1e-12),
        () -> group.scale() + " " + known);
    assertEquals(
        with.equalShapes().orElseThrow().statistic(),
        without.equalShapes().orElseThrow().statistic());
  }

  /** Best log-likelihood at a log shape, the scale of the group without failures held. */
  private static double together(
      List<Observations> carrying, Observations survivors, double scale, double logShape) {
    double sum = WeibullLikelihood.of(survivors).derivatives(Math.log(scale), logShape)[0];
    for (Observations lives : carrying) {
      sum += WeibullLikelihood.of(lives).at(logShape).value();
    }
    return sum;
  }

  private static double gained(double shape) {
    return 4 * (Math.pow(9, shape) - Math.pow(2, shape));
  }

  /** Were the shape known, the drop would be the cumulative hazard alone. */
  private static double knownShapeLimit(double shape, double sum) {
    return Math.pow(sum / WeibullFitter.drop(0.9), 1 / shape);
  }

  @Test
  void aGroupWithoutAFitOfItsOwnStillHasAScale() {
    Observations one = Observations.of(Observation.failedAt(100), Observation.rightCensoredAt(50));
    Observations more =
        Observations.of(
            Observation.failedAt(80), Observation.failedAt(120), Observation.rightCensoredAt(200));
    CommonShape.Fitted fit = fitted(List.of(one, more), FitSettings.defaults());
    assertTrue(fit.groups().get(0).weibull().isPresent());
    assertTrue(fit.equalShapes().isEmpty());
    assertTrue(fit.equalShapesNote().contains("no fit of its own"));
  }

  @Test
  void noMaximumIsSaid() {
    Observations one = Observations.of(Observation.failedAt(100), Observation.rightCensoredAt(50));
    says("at one age and nothing ran longer", one, one);
    says("no group has a failure", Observations.of(Observation.rightCensoredAt(50)));
    says("no group has a failure", Observations.of(new Interval(0, 0, 100, 5)));
    says("seen at one age only", oneLook(9), oneLook(400));
    Observations between =
        Observations.of(new Interval(0, 50, 100, 5), new RightCensored(0, 40, 1));
    says("may have come at one age", between, between);
    says("may have come at one age", between, one);
    Observations early =
        Observations.of(
            new Interval(0, 0, 1, 3), new RightCensored(0, 1000, 5), new RightCensored(0, 10, 1));
    says("falls to zero", early, early);
    assertThrows(
        IllegalArgumentException.class,
        () -> CommonShapeFit.fit(List.of(one), FitSettings.defaults().withFixedShape(2)));
  }

  /** Looked at once: three had failed, four had not. */
  private static Observations oneLook(double age) {
    return Observations.of(new Interval(0, 0, age, 3), new RightCensored(0, age, 4));
  }

  private static void says(String part, Observations... groups) {
    String reason =
        assertInstanceOf(
                CommonShape.NotEstimable.class,
                CommonShapeFit.fit(List.of(groups), FitSettings.defaults()),
                part)
            .reason();
    assertTrue(reason.contains(part), reason);
  }

  private static void close(Estimate expected, Estimate got) {
    assertEquals(expected.estimate(), got.estimate(), 1e-9 * expected.estimate());
    assertEquals(expected.lower(), got.lower(), 1e-8 * expected.lower());
    assertEquals(expected.upper(), got.upper(), 1e-8 * expected.upper());
  }

  private static CommonShape.Fitted fitted(List<Observations> groups, FitSettings settings) {
    return assertInstanceOf(CommonShape.Fitted.class, CommonShapeFit.fit(groups, settings));
  }
}
