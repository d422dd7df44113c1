package org.vaneward.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.FitSettings;

/** Which fit a decision rests on. */
class ServiceModelsTest {
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
    rows.append(
        String.format(Locale.ROOT, "%s,%s,loading,%s,%s%n", component, product, lower, upper));
  }

  private ServiceModels models() throws IOException {
    Path file = folder.resolve("lives.csv");
    Files.writeString(file, rows);
    return ServiceModels.of(LivesTable.read(file), FitSettings.defaults());
  }

  private static LifeModel find(ServiceModels models, String product) {
    return models.find("seal", Optional.of(new Service(product, "loading"))).orElseThrow();
  }

  @Test
  void manyFailuresDecideOnTheirOwnFit() throws IOException {
    failures("seal", "petrol", 40, 2, 5000);
    failures("seal", "diesel", 40, 2, 9000);
    LifeModel petrol = find(models(), "petrol");
    assertEquals(Basis.OWN_FAILURES, petrol.basis());
    assertEquals(5000, petrol.weibull().scale(), 100);
    assertEquals(40, petrol.failures());
  }

  @Test
  void fewFailuresShareTheShapeAndKeepTheirScale() throws IOException {
    failures("seal", "petrol", 40, 2, 5000);
    failures("seal", "diesel", 40, 2, 9000);
    failures("seal", "urea", 5, 2, 3000);
    ServiceModels models = models();
    LifeModel urea = find(models, "urea");
    assertEquals(Basis.COMMON_SHAPE, urea.basis());
    assertEquals(3000, urea.weibull().scale(), 150);
    assertEquals(2, urea.weibull().shape(), 0.15);
    assertEquals(urea.shape().estimate(), urea.weibull().shape());
  }

  @Test
  void noFailureStandsOnAllServicesAtTheCommonShape() throws IOException {
    failures("seal", "petrol", 40, 2, 5000);
    running("seal", "kerosene", 3, 2000);
    LifeModel kerosene = find(models(), "kerosene");
    assertEquals(Basis.ALL_SERVICES, kerosene.basis());
    assertEquals(3, kerosene.lives());
    assertEquals(0, kerosene.failures());
    assertTrue(kerosene.weibull().scale() > 5000, "three survivors lengthen the life of all");
  }

  @Test
  void fewFailuresThatRuleTheCommonShapeOutStandApart() throws IOException {
    failures("seal", "petrol", 60, 2.2, 5000);
    failures("seal", "diesel", 60, 2.2, 9000);
    failures("seal", "heating oil", 15, 0.8, 9000);
    ServiceModels models = models();
    LifeModel apart = find(models, "heating oil");
    assertEquals(Basis.OWN_SHAPE_APART, apart.basis());
    assertTrue(apart.weibull().shape() < 1);
    ServiceModels.ComponentModels seal = models.components().iterator().next();
    assertEquals(List.of(Optional.of(new Service("heating oil", "loading"))), seal.apart());
    assertTrue(
        seal.commonShape() instanceof CommonShape.Fitted common
            && Math.abs(common.shape().estimate() - 2.2) < 0.15,
        "the others' shape, fitted without the one apart: " + seal.commonShape());
  }

  @Test
  void anUnknownServiceStandsOnAllServices() throws IOException {
    failures("seal", "petrol", 40, 2, 5000);
    ServiceModels models = models();
    assertEquals(Basis.ALL_SERVICES, models.find("seal", Optional.empty()).orElseThrow().basis());
    assertEquals(Basis.ALL_SERVICES, find(models, "never seen").basis());
  }

  @Test
  void aComponentThatNeverFailedHasNoModel() throws IOException {
    running("bearing", "petrol", 10, 8000);
    failures("seal", "petrol", 40, 2, 5000);
    assertEquals(
        Optional.empty(), models().find("bearing", Optional.of(new Service("petrol", "loading"))));
  }
}
