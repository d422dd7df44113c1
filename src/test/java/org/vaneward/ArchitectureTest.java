package org.vaneward;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import org.junit.jupiter.api.Test;

/** Holds the map of DEVELOPERS.md: arrows go down only, and each outside library has one home. */
class ArchitectureTest {
  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("org.vaneward");

  @Test
  void arrowsGoDownOnly() {
    check(
        layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("cli")
            .definedBy("org.vaneward.cli..")
            .layer("api")
            .definedBy("org.vaneward.api..")
            .layer("page")
            .definedBy("org.vaneward.page..")
            .layer("report")
            .definedBy("org.vaneward.report..")
            .layer("chart")
            .definedBy("org.vaneward.chart..")
            .layer("backtest")
            .definedBy("org.vaneward.backtest..")
            .layer("plan")
            .definedBy("org.vaneward.plan..")
            .layer("spares")
            .definedBy("org.vaneward.spares..")
            .layer("schedule")
            .definedBy("org.vaneward.schedule..")
            .layer("policy")
            .definedBy("org.vaneward.policy..")
            .layer("review")
            .definedBy("org.vaneward.review..")
            .layer("model")
            .definedBy("org.vaneward.model..")
            .layer("life")
            .definedBy("org.vaneward.life..")
            .layer("ingest")
            .definedBy("org.vaneward.ingest..")
            .layer("adopt")
            .definedBy("org.vaneward.adopt..")
            .layer("fleet")
            .definedBy("org.vaneward.fleet..")
            .layer("sample")
            .definedBy("org.vaneward.sample..")
            .layer("io")
            .definedBy("org.vaneward.io..")
            .layer("stats")
            .definedBy("org.vaneward.stats..")
            .whereLayer("cli")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("api")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("page")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("report")
            .mayOnlyBeAccessedByLayers("cli", "api", "page")
            .whereLayer("chart")
            .mayOnlyBeAccessedByLayers("report", "api")
            .whereLayer("backtest")
            .mayOnlyBeAccessedByLayers("report", "cli", "api")
            .whereLayer("spares")
            .mayOnlyBeAccessedByLayers("report", "cli", "api")
            .whereLayer("plan")
            .mayOnlyBeAccessedByLayers("backtest", "spares", "report", "cli", "api", "page")
            .whereLayer("schedule")
            .mayOnlyBeAccessedByLayers("plan")
            .whereLayer("policy")
            .mayOnlyBeAccessedByLayers("backtest", "plan", "spares", "report", "cli", "api")
            .whereLayer("review")
            .mayOnlyBeAccessedByLayers("report", "cli", "api")
            .whereLayer("model")
            .mayOnlyBeAccessedByLayers(
                "backtest", "review", "policy", "plan", "spares", "report", "cli", "api")
            .whereLayer("life")
            .mayOnlyBeAccessedByLayers(
                "backtest", "model", "review", "policy", "plan", "spares", "report", "cli", "api")
            .whereLayer("adopt")
            .mayOnlyBeAccessedByLayers("report", "cli")
            .whereLayer("ingest")
            .mayOnlyBeAccessedByLayers("adopt", "report", "cli", "api")
            .whereLayer("sample")
            .mayOnlyBeAccessedByLayers("cli")
            .whereLayer("stats")
            .mayOnlyBeAccessedByLayers(
                "backtest",
                "life",
                "model",
                "review",
                "policy",
                "plan",
                "spares",
                "chart",
                "report",
                "cli",
                "api",
                "sample"));
  }

  @Test
  void noCyclesBetweenPackages() {
    check(slices().matching("org.vaneward.(**)").should().beFreeOfCycles());
  }

  @Test
  void statisticsStandAlone() {
    check(
        classes()
            .that()
            .resideInAPackage("org.vaneward.stats..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                "org.vaneward.stats..",
                "java..",
                "org.jspecify..",
                "org.apache.commons.math3..",
                "org.apache.commons.numbers..",
                "org.apache.commons.rng..",
                "org.apache.commons.statistics.."));
  }

  @Test
  void schedulingStandsAlone() {
    check(
        classes()
            .that()
            .resideInAPackage("org.vaneward.schedule..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                "org.vaneward.schedule..",
                "java..",
                "org.jspecify..",
                "com.google.ortools..",
                "com.google.protobuf.."));
  }

  @Test
  void statisticsNeverPrint() {
    check(
        noClasses()
            .that()
            .resideInAPackage("org.vaneward.stats..")
            .should()
            .accessField(System.class, "out")
            .orShould()
            .accessField(System.class, "err"));
  }

  @Test
  void commonsMathHasOneHome() {
    check(only("org.vaneward.stats.numeric..", "org.apache.commons.math3.."));
  }

  @Test
  void jacksonHasOneHome() {
    check(only("org.vaneward.io..", "com.fasterxml.jackson.."));
  }

  @Test
  void theCsvReaderHasOneHome() {
    check(only("org.vaneward.io..", "de.siegmar.."));
  }

  @Test
  void theWorkbookWriterHasOneHome() {
    check(only("org.vaneward.io..", "org.dhatim.."));
  }

  @Test
  void theSetterOfPagesHasOneHome() {
    check(only("org.vaneward.io..", "org.apache.fop.."));
    check(only("org.vaneward.io..", "org.apache.fontbox.."));
  }

  @Test
  void theConstraintSolverHasOneHome() {
    check(only("org.vaneward.schedule..", "com.google.ortools.."));
  }

  @Test
  void xchartHasOneHome() {
    check(only("org.vaneward.chart..", "org.knowm.."));
  }

  @Test
  void theCanvasHasOneHome() {
    check(only("org.vaneward.chart..", "org.apache.xmlgraphics.java2d.."));
  }

  @Test
  void templatesHaveOneHome() {
    check(only("org.vaneward.report..", "gg.jte.."));
  }

  @Test
  void commandLineParserHasOneHome() {
    check(only("org.vaneward.cli..", "picocli.."));
  }

  @Test
  void thePagesSideOfTheCompilerToJavaScriptHasOneHome() {
    check(only("org.vaneward.page..", "org.teavm.."));
  }

  @Test
  void tablesawStaysOutOfTheCore() {
    check(
        noClasses()
            .that()
            .resideInAnyPackage(
                "org.vaneward.stats..",
                "org.vaneward.io..",
                "org.vaneward.fleet..",
                "org.vaneward.ingest..",
                "org.vaneward.adopt..",
                "org.vaneward.sample..",
                "org.vaneward.chart..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("tech.tablesaw.."));
  }

  private static void check(ArchRule rule) {
    rule.check(CLASSES);
  }

  private static ArchRule only(String home, String library) {
    return noClasses()
        .that()
        .resideOutsideOfPackage(home)
        .should()
        .dependOnClassesThat()
        .resideInAPackage(library);
  }
}
