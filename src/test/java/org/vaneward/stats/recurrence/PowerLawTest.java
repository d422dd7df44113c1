package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.recurrence.PowerLawFit.Fitted;
import org.vaneward.stats.recurrence.PowerLawFit.LimitMethod;
import org.vaneward.stats.recurrence.PowerLawFit.NotEstimable;

class PowerLawTest {
  private static final PowerLawSettings DEFAULTS = PowerLawSettings.defaults();

  private static Fitted fitted(EventHistories histories, PowerLawSettings settings) {
    return assertInstanceOf(Fitted.class, PowerLaw.fit(histories, settings));
  }

  private static double logLikelihood(EventHistories histories, double logScale, double logShape) {
    PowerLawProcess process = new PowerLawProcess(Math.exp(logShape), Math.exp(logScale));
    double sum = 0;
    for (int i = 0; i < histories.size(); i++) {
      sum -= process.meanCount(histories.start(i), histories.end(i));
      for (double t : histories.ages(i)) {
        sum += Math.log(process.intensity(t));
      }
    }
    return sum;
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4})
  void theOptimumBeatsItsNeighbours(long seed) {
    EventHistories histories = new Simulated(seed).units(25);
    Fitted fit = fitted(histories, DEFAULTS);
    double a = Math.log(fit.process().scale());
    double b = Math.log(fit.process().shape());
    assertEquals(logLikelihood(histories, a, b), fit.logLikelihood(), 1e-9 * -fit.logLikelihood());
    Simulated simulated = new Simulated(100 + seed);
    for (int k = 0; k < 200; k++) {
      double reach = Math.pow(10, -3.0 * simulated.uniform());
      double da = reach * (simulated.uniform() - 0.5);
      double db = reach * (simulated.uniform() - 0.5);
      assertTrue(logLikelihood(histories, a + da, b + db) < fit.logLikelihood());
    }
  }

  @Test
  void covarianceIsTheInverseOfDifferencedInformation() {
    EventHistories histories = new Simulated(5).units(25);
    Fitted fit = fitted(histories, DEFAULTS);
    double a = Math.log(fit.process().scale());
    double b = Math.log(fit.process().shape());
    double h = 1e-3;
    double top = fit.logLikelihood();
    double aa = second(histories, a, b, h, 0, top);
    double bb = second(histories, a, b, 0, h, top);
    double both = second(histories, a, b, h, h, top);
    double ab = (both - aa - bb) / 2;
    double determinant = aa * bb - ab * ab;
    assertEquals(-bb / determinant, fit.covariance().scaleScale(), 1e-3 * -bb / determinant);
    assertEquals(-aa / determinant, fit.covariance().shapeShape(), 1e-3 * -aa / determinant);
    assertEquals(ab / determinant, fit.covariance().scaleShape(), 1e-3 * -aa / determinant);
  }

  private static double second(
      EventHistories histories, double a, double b, double da, double db, double top) {
    double step = Math.max(da, db);
    return (logLikelihood(histories, a + da, b + db)
            - 2 * top
            + logLikelihood(histories, a - da, b - db))
        / (step * step);
  }

  @Test
  void aUnitSplitIntoSpansIsTheSameUnit() {
    EventHistories.Builder whole = EventHistories.builder();
    EventHistories.Builder split = EventHistories.builder();
    Simulated simulated = new Simulated(6);
    for (int i = 0; i < 12; i++) {
      double end = 50 + 10 * i;
      double[] ages = simulated.powerLaw(1.7, 30, 0, end);
      whole.addUnit(0, ages, end);
      split.addUnit(0, Arrays.stream(ages).filter(t -> t <= 40).toArray(), 40);
      split.addUnit(40, Arrays.stream(ages).filter(t -> t > 40).toArray(), end);
    }
    Fitted a = fitted(whole.build(), DEFAULTS);
    Fitted b = fitted(split.build(), DEFAULTS);
    assertEquals(a.shape().estimate(), b.shape().estimate(), 1e-10);
    assertEquals(a.logLikelihood(), b.logLikelihood(), 1e-9);
    assertEquals(a.shape().upper(), b.shape().upper(), 1e-8);
    assertEquals(a.intensityAtEnd().lower(), b.intensityAtEnd().lower(), 1e-8);
  }

  @Test
  void profileLimitsBoundTheRegionAndTouchIt() {
    EventHistories histories = new Simulated(7).units(8);
    Fitted fit = fitted(histories, DEFAULTS.withLimits(LimitMethod.PROFILE));
    double floor = fit.logLikelihood() - Quantiles.chiSquare(0.90, 1) / 2;
    double age = 33;
    Estimate count = PowerLaw.meanCounts(histories, fit, age).get(0);
    double[] least = new double[4];
    double[] most = new double[4];
    Arrays.fill(least, Double.POSITIVE_INFINITY);
    Simulated simulated = new Simulated(8);
    for (int k = 0; k < 40_000; k++) {
      double shape = fit.process().shape() * Math.exp(simulated.uniform() - 0.5);
      double scale = fit.process().scale() * Math.exp(2 * simulated.uniform() - 1);
      if (logLikelihood(histories, Math.log(scale), Math.log(shape)) >= floor) {
        PowerLawProcess process = new PowerLawProcess(shape, scale);
        double[] q = {
          shape, scale, process.intensity(histories.greatestEnd()), process.meanCount(age)
        };
        for (int i = 0; i < q.length; i++) {
          least[i] = Math.min(least[i], q[i]);
          most[i] = Math.max(most[i], q[i]);
        }
      }
    }
    Estimate[] limits = {fit.shape(), fit.scale(), fit.intensityAtEnd(), count};
    for (int i = 0; i < limits.length; i++) {
      assertTrue(limits[i].lower() <= least[i] && most[i] <= limits[i].upper());
      assertEquals(1, limits[i].lower() / least[i], 0.03);
      assertEquals(1, limits[i].upper() / most[i], 0.03);
    }
  }

  @Test
  void theMethodsAgreeOnManyEvents() {
    double[] ages = new Simulated(9).powerLaw(1.5, 1, 0, 300);
    EventHistories histories = EventHistories.ofOne(ages, 300);
    Fitted exact = fitted(histories, DEFAULTS);
    Fitted profile = fitted(histories, DEFAULTS.withLimits(LimitMethod.PROFILE));
    Fitted wald = fitted(histories, DEFAULTS.withLimits(LimitMethod.WALD));
    assertEquals(LimitMethod.EXACT, exact.shapeMethod());
    assertEquals(LimitMethod.PROFILE, exact.intensityMethod());
    assertEquals(exact.shape().lower(), profile.shape().lower(), 2e-3);
    assertEquals(wald.shape().upper(), profile.shape().upper(), 2e-3);
    assertEquals(1, wald.scale().upper() / profile.scale().upper(), 0.02);
    assertEquals(1, wald.intensityAtEnd().upper() / profile.intensityAtEnd().upper(), 2e-3);
  }

  /** Share of 20,000 draws: its standard deviation is 0.0021. */
  @ParameterizedTest
  @ValueSource(ints = {2, 5, 40})
  void exactLimitsOfTheIntensityHoldItAsOftenAsTheySay(int events) {
    Estimate factors = ExactIntensity.of(1, events, 0.90);
    Simulated simulated = new Simulated(events);
    int below = 0;
    int above = 0;
    for (int draw = 0; draw < 20_000; draw++) {
      double count = 0;
      double[] counts = new double[events];
      for (int j = 0; j < events; j++) {
        count += simulated.exponential();
        counts[j] = count;
      }
      double sum = 0;
      for (double c : counts) {
        sum += Math.log(count / c);
      }
      // shape 1 and scale 1: intensity 1, estimated as n shape / T
      double ratio = count * sum / events / events;
      below += ratio < factors.lower() ? 1 : 0;
      above += ratio > factors.upper() ? 1 : 0;
    }
    assertEquals(0.05, below / 20_000.0, 0.007);
    assertEquals(0.05, above / 20_000.0, 0.007);
  }

  @Test
  void exactLimitsAreUsedForAUnitStoppedByItsLastEvent() {
    Fitted fit = fitted(EventHistories.ofOne(new double[] {3, 9, 20}, 20), DEFAULTS);
    assertEquals(LimitMethod.EXACT, fit.intensityMethod());
    assertEquals(1 / fit.intensityAtEnd().lower(), fit.mtbfAtEnd().upper(), 0);
    assertTrue(ModifiedPowerLaw.of(fit, 0.90).isEmpty());
    assertTrue(fit.intensityAtEnd().lower() < fit.intensityAtEnd().estimate());
  }

  @ParameterizedTest
  @CsvSource({"1e-6", "1", "1e6"})
  void theUnitOfAgeDoesNotMatter(double unit) {
    EventHistories histories = new Simulated(10).units(10);
    EventHistories.Builder other = EventHistories.builder();
    for (int i = 0; i < histories.size(); i++) {
      double[] ages = Arrays.stream(histories.ages(i)).map(t -> t * unit).toArray();
      other.addUnit(histories.start(i) * unit, ages, histories.end(i) * unit);
    }
    Fitted a = fitted(histories, DEFAULTS);
    Fitted b = fitted(other.build(), DEFAULTS);
    assertEquals(a.shape().estimate(), b.shape().estimate(), 1e-9);
    assertEquals(a.scale().upper() * unit, b.scale().upper(), 1e-7 * unit);
    assertEquals(a.intensityAtEnd().upper() / unit, b.intensityAtEnd().upper(), 1e-7 / unit);
    assertEquals(a.constantRate().statistic(), b.constantRate().statistic(), 1e-8);
  }

  @Test
  void agesOverTwelveOrders() {
    double[] ages = {1e-6, 1e-3, 1, 1e3, 9.9e5};
    Fitted fit = fitted(EventHistories.ofOne(ages, 1e6), DEFAULTS);
    double sum = Arrays.stream(ages).map(t -> Math.log(1e6 / t)).sum();
    assertEquals(5 / sum, fit.shape().estimate(), 1e-12);
    Fitted late = fitted(EventHistories.ofOne(new double[] {1 - 1e-12}, 1), DEFAULTS);
    assertEquals(1 / 1e-12, late.shape().estimate(), 1e-4 / 1e-12);
  }

  @Test
  void oneEventSaysLittleAndAllAtOneAgeSaysTheSame() {
    Fitted one = fitted(EventHistories.ofOne(new double[] {5}, 10), DEFAULTS);
    assertEquals(1 / Math.log(2), one.shape().estimate(), 1e-14);
    assertTrue(one.shape().upper() / one.shape().lower() > 50);
    assertEquals(OptionalDouble.empty(), one.shapeBiasCorrected());
    Fitted tied = fitted(EventHistories.ofOne(new double[] {5, 5, 5, 5}, 10), DEFAULTS);
    assertEquals(1 / Math.log(2), tied.shape().estimate(), 1e-14);
  }

  @Test
  void thousandsOfUnitsWithoutEvents() {
    EventHistories.Builder builder = EventHistories.builder();
    for (int i = 0; i < 5_000; i++) {
      builder.addUnit(0, i < 3 ? new double[] {40 + 10 * i} : new double[0], 100);
    }
    Fitted fit = fitted(builder.build(), DEFAULTS);
    assertEquals(3 / 5_000.0, fit.process().meanCount(100), 1e-12);
    assertEquals(LimitMethod.EXACT, fit.shapeMethod());
  }

  @Test
  void whatHasNoMaximumIsRefused() {
    refused("no events", EventHistories.ofOne(new double[0], 10));
    refused("no events", EventHistories.builder().build());
    refused("one event, at the greatest age", EventHistories.ofOne(new double[] {10}, 10));
    refused(
        "all events at the greatest age: the likelihood keeps rising with the shape",
        EventHistories.ofOne(new double[] {10, 10}, 10));
    refused(
        "events thin out with age faster than any power law",
        EventHistories.builder().addUnit(10, new double[] {11, 11.5, 12}, 1000).build());
  }

  private static void refused(String reason, EventHistories histories) {
    NotEstimable none = assertInstanceOf(NotEstimable.class, PowerLaw.fit(histories, DEFAULTS));
    assertEquals(reason, none.reason());
    assertEquals(histories.events(), none.events());
  }

  @Test
  void unitsOfSeveralEndsHaveNoExactLaw() {
    EventHistories two =
        EventHistories.builder()
            .addUnit(0, new double[] {1, 4}, 5)
            .addUnit(0, new double[] {3}, 8)
            .build();
    Fitted fit = fitted(two, DEFAULTS);
    assertEquals(LimitMethod.PROFILE, fit.shapeMethod());
    assertTrue(fit.shapeBiasCorrected().isEmpty());
    assertFalse(fit.shape().upper() <= fit.shape().estimate());
  }
}
