package org.vaneward;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Holds the map of DEVELOPERS.md: arrows go down only, and each outside library has one home. */
@AnalyzeClasses(
    packages = "org.vaneward",
    importOptions = {ImportOption.DoNotIncludeTests.class})
class ArchitectureTest {

  @ArchTest
  static final ArchRule arrowsGoDownOnly =
      layeredArchitecture()
          .consideringOnlyDependenciesInLayers()
          .layer("cli")
          .definedBy("org.vaneward.cli..")
          .layer("report")
          .definedBy("org.vaneward.report..")
          .layer("chart")
          .definedBy("org.vaneward.chart..")
          .layer("plan")
          .definedBy("org.vaneward.plan..")
          .layer("policy")
          .definedBy("org.vaneward.policy..")
          .layer("model")
          .definedBy("org.vaneward.model..")
          .layer("life")
          .definedBy("org.vaneward.life..")
          .layer("ingest")
          .definedBy("org.vaneward.ingest..")
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
          .whereLayer("report")
          .mayOnlyBeAccessedByLayers("cli")
          .whereLayer("chart")
          .mayOnlyBeAccessedByLayers("report")
          .whereLayer("plan")
          .mayOnlyBeAccessedByLayers("report", "cli")
          .whereLayer("policy")
          .mayOnlyBeAccessedByLayers("plan", "report", "cli")
          .whereLayer("model")
          .mayOnlyBeAccessedByLayers("policy", "plan", "report", "cli")
          .whereLayer("life")
          .mayOnlyBeAccessedByLayers("model", "policy", "plan", "report", "cli")
          .whereLayer("ingest")
          .mayOnlyBeAccessedByLayers("report", "cli")
          .whereLayer("sample")
          .mayOnlyBeAccessedByLayers("cli")
          .whereLayer("stats")
          .mayOnlyBeAccessedByLayers(
              "life", "model", "policy", "plan", "chart", "report", "cli", "sample");

  @ArchTest
  static final ArchRule noCyclesBetweenPackages =
      slices().matching("org.vaneward.(**)").should().beFreeOfCycles();

  @ArchTest
  static final ArchRule statisticsStandAlone =
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
              "org.apache.commons.statistics..");

  @ArchTest
  static final ArchRule statisticsNeverPrint =
      noClasses()
          .that()
          .resideInAPackage("org.vaneward.stats..")
          .should()
          .accessField(System.class, "out")
          .orShould()
          .accessField(System.class, "err");

  @ArchTest
  static final ArchRule commonsMathHasOneHome =
      only("org.vaneward.stats.numeric..", "org.apache.commons.math3..");

  @ArchTest
  static final ArchRule jacksonHasOneHome = only("org.vaneward.io..", "com.fasterxml.jackson..");

  @ArchTest
  static final ArchRule theCsvReaderHasOneHome = only("org.vaneward.io..", "de.siegmar..");

  @ArchTest static final ArchRule xchartHasOneHome = only("org.vaneward.chart..", "org.knowm..");

  @ArchTest
  static final ArchRule batikHasOneHome = only("org.vaneward.chart..", "org.apache.batik..");

  @ArchTest static final ArchRule templatesHaveOneHome = only("org.vaneward.report..", "gg.jte..");

  @ArchTest
  static final ArchRule commandLineParserHasOneHome = only("org.vaneward.cli..", "picocli..");

  @ArchTest
  static final ArchRule tablesawStaysOutOfTheCore =
      noClasses()
          .that()
          .resideInAnyPackage(
              "org.vaneward.stats..",
              "org.vaneward.io..",
              "org.vaneward.fleet..",
              "org.vaneward.ingest..",
              "org.vaneward.sample..",
              "org.vaneward.chart..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("tech.tablesaw..");

  private static ArchRule only(String home, String library) {
    return noClasses()
        .that()
        .resideOutsideOfPackage(home)
        .should()
        .dependOnClassesThat()
        .resideInAPackage(library);
  }
}
