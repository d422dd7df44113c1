package org.vaneward.model;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.model.ServiceModels.ComponentModels;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.PoolingSettings;

/** What decisions believe of lives, and what it rests on. */
class ServiceModelsTest {
  private static final PoolingSettings SETTINGS = PoolingSettings.defaults().withDraws(2000);

  @TempDir Path folder = Path.of("unset");

  private final StringBuilder rows = new StringBuilder("component,product,duty,lower,upper\n");

  /** {@code n} failures at evenly spread quantiles of a Weibull, so that its fit comes near it. */
  private void failures(String component, String product, int n, double shape, double scale) {
    Weibull life = new Weibull(shape, scale);
    for (int i = 0; i < n; i++) {
      double age = life.quantile((i + 0.5) / n);
      row(component, product, age, Double.toString(age));
    }
  }

  private void running(String component, String product, int n, double age) {
    for (int i = 0; i < n; i++) {
      row(component, product, age, "");
    }
  }

  private void row(String component, String product, double lower, String upper) {
    String duty = product.isEmpty() ? "" : "loading";
    rows.append(
        String.format(Locale.ROOT, "%s,%s,%s,%s,%s%n", component, product, duty, lower, upper));
  }

  /** Three services that wear out alike, with plenty of failures. */
  private void wearingFleet() {
    failures("seal", "petrol", 60, 2.2, 5000);
    failures("seal", "diesel", 60, 2.2, 8000);
    failures("seal", "ethanol", 60, 2.2, 4000);
  }

  private ServiceModels models(PoolingSettings settings) throws IOException {
    Path file = folder.resolve("lives.csv");
    Files.writeString(file, rows);
    return ServiceModels.of(LivesTable.read(file), settings);
  }

  private ServiceModels models() throws IOException {
    return models(SETTINGS);
  }

  private static LifeModel find(ServiceModels models, String product) {
    return find(models, "seal", product);
  }

  private static LifeModel find(ServiceModels models, String component, String product) {
    return models.find(component, Optional.of(new Service(product, "loading"))).orElseThrow();
  }

  private static double width(Estimate estimate) {
    return Math.log(estimate.upper() / estimate.lower());
  }

  private static double[] scales(LifeModel model) {
    return IntStream.range(0, model.draws().size()).mapToDouble(model.draws()::scale).toArray();
  }

  @Test
  void manyFailuresKeepToTheirOwn() throws IOException {
    wearingFleet();
    LifeModel petrol = find(models(), "petrol");
    assertEquals(Basis.OWN_FAILURES, petrol.basis());
    assertEquals(5000, petrol.weibull().scale(), 100);
    assertEquals(60, petrol.failures());
    assertEquals(60, petrol.lives());
    assertTrue(petrol.fromOthers() < 0.05, "from the others: " + petrol.fromOthers());
  }

  /** Two failures at a third of the others' lives: drawn towards them, not all the way. */
  @Test
  void fewFailuresLeanOnTheOthers() throws IOException {
    wearingFleet();
    failures("seal", "urea", 2, 2.2, 1800);
    LifeModel urea = find(models(), "urea");
    assertEquals(Basis.LEANS_ON_OTHERS, urea.basis());
    assertTrue(
        urea.weibull().scale() > 1850 && urea.weibull().scale() < 4000,
        "scale: " + urea.weibull().scale());
    assertTrue(urea.fromOthers() > 0.2 && urea.fromOthers() < 0.8, "" + urea.fromOthers());
  }

  /** The fewer the failures, the more of what is known comes from elsewhere, the wider it is. */
  @Test
  void moreFailuresLeanLess() throws IOException {
    wearingFleet();
    failures("seal", "two", 2, 2.2, 5000);
    failures("seal", "five", 5, 2.2, 5000);
    failures("seal", "twenty", 20, 2.2, 5000);
    running("seal", "none", 2, 1000);
    ServiceModels models = models();
    List<LifeModel> inOrder =
        List.of(
            find(models, "none"),
            find(models, "two"),
            find(models, "five"),
            find(models, "twenty"));
    for (int i = 1; i < inOrder.size(); i++) {
      LifeModel fewer = inOrder.get(i - 1);
      LifeModel more = inOrder.get(i);
      assertTrue(fewer.fromOthers() > more.fromOthers(), more.service() + " leans more");
      assertTrue(width(fewer.scale()) > width(more.scale()), more.service() + " is wider");
    }
  }

  @Test
  void withoutFailuresAServiceRestsOnTheOthersWithinWideLimits() throws IOException {
    wearingFleet();
    running("seal", "kerosene", 3, 2000);
    ServiceModels models = models();
    LifeModel kerosene = find(models, "kerosene");
    assertEquals(Basis.OTHER_SERVICES, kerosene.basis());
    assertEquals(3, kerosene.lives());
    assertEquals(0, kerosene.failures());
    assertTrue(width(kerosene.scale()) > 4 * width(find(models, "petrol").scale()));
    assertTrue(kerosene.scale().lower() > 1500, "three ran 2,000 h: " + kerosene.scale());
  }

  /** The others wear out; this one's own failures say clearly that it does not. */
  @Test
  void aShapeOfItsOwnIsSeen() throws IOException {
    wearingFleet();
    failures("seal", "heating oil", 40, 0.8, 9000);
    ServiceModels models = models();
    LifeModel odd = find(models, "heating oil");
    assertEquals(Basis.OWN_FAILURES, odd.basis());
    assertTrue(odd.shape().upper() < 1.3, "no rising hazard is inherited: " + odd.shape());
    ComponentModels seal = models.components().get(0);
    assertEquals(List.of(new Service("heating oil", "loading")), seal.below());
    assertEquals(2.2, find(models, "petrol").shape().estimate(), 0.25);
  }

  /** Two odd services bend what the others seem to share; both are found. */
  @Test
  void oneOddServiceDoesNotHideAnother() throws IOException {
    wearingFleet();
    failures("seal", "gas", 40, 0.9, 5000);
    failures("seal", "heating oil", 25, 1.0, 9000);
    ComponentModels seal = models().components().get(0);
    assertEquals(
        List.of(new Service("gas", "loading"), new Service("heating oil", "loading")),
        seal.below());
  }

  /** Three failures hint at a falling hazard, no more: the shape leans on the others'. */
  @Test
  void aHintIsNotEnough() throws IOException {
    wearingFleet();
    failures("seal", "heating oil", 3, 1.2, 9000);
    ServiceModels models = models();
    LifeModel hint = find(models, "heating oil");
    assertEquals(Basis.LEANS_ON_OTHERS, hint.basis());
    assertTrue(hint.shape().lower() < 1.8 && hint.shape().upper() > 2, "" + hint.shape());
    assertEquals(List.of(), models.components().get(0).below());
  }

  @Test
  void aServiceNeverSeenIsDrawnAnewFromAll() throws IOException {
    wearingFleet();
    ServiceModels models = models();
    LifeModel unseen = find(models, "never seen");
    assertEquals(Basis.OTHER_SERVICES, unseen.basis());
    assertEquals(1, unseen.fromOthers());
    assertEquals(0, unseen.lives());
    assertEquals(Optional.of(unseen), models.components().get(0).unseen());
    assertTrue(unseen.scale().lower() < 4000 && unseen.scale().upper() > 8000, "" + unseen.scale());
    assertEquals(unseen, models.find("seal", Optional.empty()).orElseThrow());
  }

  /** Their lives inform the pool, but a pump whose service is unknown may be in any. */
  @Test
  void pumpsWithoutAServiceOnRecordTakeTheNewService() throws IOException {
    wearingFleet();
    failures("seal", "", 10, 2.2, 6000);
    ServiceModels models = models();
    ComponentModels seal = models.components().get(0);
    assertEquals(seal.unseen(), models.find("seal", Optional.empty()));
    assertEquals(3, seal.services().size());
    assertTrue(seal.pooled() instanceof PooledFit.Fitted pooled && pooled.groups().size() == 4);
  }

  @Test
  void aComponentThatNeverFailedHasNoModel() throws IOException {
    running("bearing", "petrol", 10, 8000);
    wearingFleet();
    ServiceModels models = models();
    assertEquals(
        Optional.empty(), models.find("bearing", Optional.of(new Service("petrol", "loading"))));
    assertEquals(Optional.empty(), models.find("vanes", Optional.empty()));
    assertTrue(models.components().get(0).pooled() instanceof PooledFit.NotEstimable);
  }

  /** With one service there is nobody to lean on. */
  @Test
  void theOnlyServiceStandsOnItsOwn() throws IOException {
    failures("seal", "petrol", 1, 2, 5000);
    running("seal", "petrol", 4, 5000);
    LifeModel petrol = find(models(), "petrol");
    assertEquals(Basis.OWN_FAILURES, petrol.basis());
    assertEquals(0, petrol.fromOthers());
  }

  @Test
  void theMiddleAndTheLimitsAreThoseOfTheDraws() throws IOException {
    wearingFleet();
    LifeModel petrol = find(models(), "petrol");
    double logs = 0;
    int below = 0;
    for (double scale : scales(petrol)) {
      logs += Math.log(scale) / petrol.draws().size();
      below += scale < petrol.scale().lower() ? 1 : 0;
    }
    assertEquals(Math.exp(logs), petrol.weibull().scale(), 1e-9 * petrol.weibull().scale());
    assertEquals(petrol.shape().estimate(), petrol.weibull().shape());
    assertEquals(0.05 * petrol.draws().size(), below, 1);
  }

  @Test
  void aHigherConfidenceWidensTheLimitsAndMovesNothingElse() throws IOException {
    wearingFleet();
    LifeModel usual = find(models(), "petrol");
    LifeModel surer = find(models(SETTINGS.withConfidence(0.99)), "petrol");
    assertEquals(usual.weibull(), surer.weibull());
    assertTrue(surer.scale().lower() < usual.scale().lower());
    assertTrue(surer.scale().upper() > usual.scale().upper());
    assertTrue(width(surer.shape()) > 1.3 * width(usual.shape()));
  }

  @Test
  void theSameSeedGivesTheSameDrawsAndAnotherOthers() throws IOException {
    wearingFleet();
    failures("seal", "heating oil", 25, 0.8, 9000);
    ServiceModels one = models();
    ServiceModels same = models();
    ServiceModels other = models(SETTINGS.withSeed(2));
    for (String product : List.of("petrol", "heating oil", "never seen")) {
      double[] scales = scales(find(one, product));
      assertEquals(2000, scales.length);
      assertArrayEquals(scales, scales(find(same, product)));
      assertNotEquals(scales[0], find(other, product).draws().scale(0));
    }
  }

  /** The same lives twice under two names: draws that went together would be the same. */
  @Test
  void drawsOfComponentsAreIndependent() throws IOException {
    wearingFleet();
    failures("bearing", "petrol", 60, 2.2, 5000);
    failures("bearing", "diesel", 60, 2.2, 8000);
    failures("bearing", "ethanol", 60, 2.2, 4000);
    ServiceModels models = models();
    double[] seal = scales(find(models, "seal", "petrol"));
    double[] bearing = scales(find(models, "bearing", "petrol"));
    // With 2,000 independent draws a correlation beyond 0.09 comes once in 17,000 times.
    assertEquals(0, correlation(seal, bearing), 0.09);
  }

  private static double correlation(double[] x, double[] y) {
    double meanX = IntStream.range(0, x.length).mapToDouble(i -> x[i]).average().orElseThrow();
    double meanY = IntStream.range(0, y.length).mapToDouble(i -> y[i]).average().orElseThrow();
    double xy = 0;
    double xx = 0;
    double yy = 0;
    for (int i = 0; i < x.length; i++) {
      xy += (x[i] - meanX) * (y[i] - meanY);
      xx += (x[i] - meanX) * (x[i] - meanX);
      yy += (y[i] - meanY) * (y[i] - meanY);
    }
    return xy / Math.sqrt(xx * yy);
  }
}
