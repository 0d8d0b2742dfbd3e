package org.sideport;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The floors of DEVELOPERS.md, proved. */
@AnalyzeClasses(packages = "org.sideport", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    @ArchTest
    static final ArchRule eachFloorUsesOnlyFloorsBelowIt = layeredArchitecture()
            .consideringOnlyDependenciesInAnyPackage("org.sideport..")
            .layer("app")
            .definedBy("org.sideport.app..")
            .layer("cli")
            .definedBy("org.sideport.cli..")
            .layer("workflow")
            .definedBy("org.sideport.workflow..")
            .layer("report")
            .definedBy("org.sideport.report..")
            .layer("demo")
            .definedBy("org.sideport.demo..")
            .layer("store")
            .definedBy("org.sideport.store..")
            .layer("chart")
            .definedBy("org.sideport.chart..")
            .layer("media")
            .definedBy("org.sideport.media..")
            .layer("player")
            .definedBy("org.sideport.player..")
            .layer("rubric")
            .definedBy("org.sideport.rubric..")
            .layer("timing")
            .definedBy("org.sideport.timing..")
            .layer("stats")
            .definedBy("org.sideport.stats..")
            .layer("model")
            .definedBy("org.sideport.model..")
            .whereLayer("cli")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("app")
            .mayOnlyBeAccessedByLayers("cli")
            .whereLayer("workflow")
            .mayOnlyBeAccessedByLayers("app", "cli")
            .whereLayer("report")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow")
            .whereLayer("demo")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow")
            .whereLayer("store")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow", "report", "demo")
            .whereLayer("media")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow", "report", "demo", "store")
            .whereLayer("player")
            .mayOnlyBeAccessedByLayers("app")
            .whereLayer("chart")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow", "report")
            .whereLayer("rubric")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow", "report", "demo", "store")
            .whereLayer("timing")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow", "report", "demo", "store", "chart")
            .whereLayer("stats")
            .mayOnlyBeAccessedByLayers("app", "cli", "workflow", "report", "demo", "media", "rubric", "timing");

    @ArchTest
    static final ArchRule floorsHaveNoCycles =
            slices().matching("org.sideport.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule modelDependsOnTheJdkOnly = classes()
            .that()
            .resideInAPackage("org.sideport.model..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage("java..", "org.sideport.model..", "org.jspecify..");

    @ArchTest
    static final ArchRule javaFxIsForTheAppAndThePlayersSurface = noClasses()
            .that()
            .resideOutsideOfPackages("org.sideport.app..", "org.sideport.player..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("javafx..", "atlantafx..", "org.kordamp..");

    @ArchTest
    static final ArchRule vlcIsForThePlayer = only("org.sideport.player..", "uk.co.caprica..", "com.sun.jna..");

    @ArchTest
    static final ArchRule ffmpegIsForMedia = only("org.sideport.media..", "org.bytedeco..");

    @ArchTest
    static final ArchRule poiIsForReports = only("org.sideport.report..", "org.apache.poi..");

    @ArchTest
    static final ArchRule templatesAndPdfAreForReports = only(
            "org.sideport.report..",
            "io.pebbletemplates..",
            "com.openhtmltopdf..",
            "org.apache.pdfbox..",
            "de.rototor..");

    @ArchTest
    static final ArchRule hipparchusIsForStats = only("org.sideport.stats..", "org.hipparchus..");

    @ArchTest
    static final ArchRule theChartLibraryIsForCharts = only("org.sideport.chart..", "org.jfree..");

    @ArchTest
    static final ArchRule picocliIsForTheCommandLine = only("org.sideport.cli..", "picocli..");

    @ArchTest
    static final ArchRule theDatabaseIsForTheStore =
            only("org.sideport.store..", "org.jdbi..", "org.flywaydb..", "org.sqlite..", "java.sql..");

    @ArchTest
    static final ArchRule oneMathsLibrary = noClasses()
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.apache.commons.math3..", "com.fasterxml.jackson.databind..")
            .because("Hipparchus and Jackson 3 are ours; the others come along with libraries");

    @ArchTest
    static final ArchRule viewModelsKnowNoScene = noClasses()
            .that()
            .haveSimpleNameEndingWith("ViewModel")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("javafx.scene..", "javafx.stage..");

    @ArchTest
    static final ArchRule oneClassPostsToTheFxThread = noClasses()
            .that()
            .doNotHaveFullyQualifiedName("org.sideport.app.FxThread")
            .should()
            .callMethod("javafx.application.Platform", "runLater", Runnable.class.getName());

    @ArchTest
    static final ArchRule onlyTheCommandLineWritesToStandardStreams = noClasses()
            .that()
            .resideOutsideOfPackage("org.sideport.cli..")
            .should()
            .accessField(System.class, "out")
            .orShould()
            .accessField(System.class, "err")
            .orShould()
            .callMethod(System.class, "exit", int.class);

    @ArchTest
    static final ArchRule noStaticState = fields().that()
            .areStatic()
            .and()
            .areDeclaredInClassesThat()
            .resideInAPackage("org.sideport..")
            .should()
            .beFinal();

    @ArchTest
    static final ArchRule modernDates = noClasses()
            .that()
            .resideOutsideOfPackage("org.sideport.report..")
            .should()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.util.Date")
            .because("java.time says what it means; only a workbook's properties need the old class");

    private static ArchRule only(String owner, String... libraries) {
        return noClasses()
                .that()
                .resideOutsideOfPackage(owner)
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(libraries);
    }
}
