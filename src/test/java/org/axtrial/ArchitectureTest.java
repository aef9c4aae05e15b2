package org.axtrial;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Holds the product to its package layout, and each rule to catching what it is there to catch. */
class ArchitectureTest {

    private static final String BASE = "org.axtrial";
    private static final String FIXTURE_BASE = BASE + ".fixture";

    private static final JavaClasses PRODUCT = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages(BASE);
    private static final JavaClasses FIXTURES = new ClassFileImporter().importPackages(FIXTURE_BASE);
    private static final JavaClasses TESTS = new ClassFileImporter()
            .withImportOption(new ImportOption.OnlyIncludeTests())
            .withImportOption(location -> !location.contains("/org/axtrial/fixture/"))
            .importPackages(BASE);

    @ParameterizedTest
    @MethodSource
    void productKeeps(ArchRule rule) {
        rule.check(PRODUCT);
    }

    static List<ArchRule> productKeeps() {
        ArchitectureRules rules = new ArchitectureRules(BASE);
        return List.of(
                rules.layersUseOnlyWhatTheyMay(),
                rules.everyPackageIsDeclared(),
                rules.everyPackageIsNullMarked(),
                rules.layersHaveNoCycles(),
                rules.modbusLibraryOnlyInLink(),
                rules.serialLibraryOnlyInLink(),
                rules.scriptLibraryOnlyInScript(),
                rules.pdfPrinterOnlyInReport(),
                rules.pdfLibraryOnlyInReportAndSigning(),
                rules.testReportingLibraryOnlyInEvidence(),
                rules.testPlatformOnlyInEngineAndCli(),
                rules.socketsOnlyInLinkSimAndSigning(),
                rules.signatureLibraryOnlyInSigning(),
                rules.streamsAndExitOnlyInCli(),
                rules.waitingOnlyInTime(),
                rules.clockReadingOnlyInTime());
    }

    @Test
    void everyLayerOfTheTableExists() {
        Set<String> packages = new TreeSet<>();
        PRODUCT.forEach(type -> packages.add(type.getPackageName()));
        assertThat(packages)
                .containsAll(ArchitectureRules.LAYERS.keySet().stream()
                        .map(layer -> BASE + "." + layer)
                        .toList());
    }

    @Test
    void testsDoNotSleep() {
        assertThat(TESTS.contain(ArchitectureTest.class)).isTrue();
        // Tests wait on events and latches or use virtual time; the tests of package time may sleep like their subject.
        new ArchitectureRules(BASE).waitingOnlyInTime().check(TESTS);
    }

    /** The fixtures hold one offender per rule, and beside it a class in an allowed layer that does the same. */
    @ParameterizedTest
    @MethodSource
    void ruleNamesItsOffendersAndNobodyElse(ArchRule rule, Set<String> offenders) {
        Set<String> named = new TreeSet<>();
        for (String detail : rule.evaluate(FIXTURES).getFailureReport().getDetails()) {
            named.add(detail.substring(FIXTURE_BASE.length() + 1, detail.indexOf(':')));
        }
        assertThat(named).isEqualTo(offenders);
    }

    static Stream<Arguments> ruleNamesItsOffendersAndNobodyElse() {
        ArchitectureRules rules = new ArchitectureRules(FIXTURE_BASE);
        return Stream.of(
                Arguments.of(
                        rules.layersUseOnlyWhatTheyMay(),
                        Set.of("quantity.UsesTime", "time.UsesQuantity", "undeclared.UsesQuantity")),
                Arguments.of(rules.everyPackageIsDeclared(), Set.of("undeclared.UsesQuantity")),
                Arguments.of(rules.everyPackageIsNullMarked(), Set.of("undeclared.UsesQuantity")),
                Arguments.of(rules.modbusLibraryOnlyInLink(), Set.of("quantity.UsesModbusLibrary")),
                Arguments.of(rules.serialLibraryOnlyInLink(), Set.of("quantity.UsesSerialLibrary")),
                Arguments.of(rules.scriptLibraryOnlyInScript(), Set.of("quantity.UsesScriptLibrary")),
                Arguments.of(rules.pdfLibraryOnlyInReportAndSigning(), Set.of("quantity.UsesPdfLibrary")),
                Arguments.of(rules.pdfPrinterOnlyInReport(), Set.of("quantity.UsesPdfPrinter")),
                Arguments.of(rules.testReportingLibraryOnlyInEvidence(), Set.of("quantity.UsesTestReporting")),
                Arguments.of(rules.testPlatformOnlyInEngineAndCli(), Set.of("quantity.UsesTestPlatform")),
                Arguments.of(rules.socketsOnlyInLinkSimAndSigning(), Set.of("quantity.OpensSocket")),
                Arguments.of(rules.signatureLibraryOnlyInSigning(), Set.of("quantity.UsesSignatureLibrary")),
                Arguments.of(
                        rules.streamsAndExitOnlyInCli(),
                        Set.of("quantity.Prints", "quantity.EndsTheJvm", "quantity.PrintsStackTrace")),
                Arguments.of(rules.waitingOnlyInTime(), Set.of("quantity.Sleeps", "quantity.Parks")),
                Arguments.of(
                        rules.clockReadingOnlyInTime(),
                        Set.of(
                                "quantity.ReadsNanoTime",
                                "quantity.ReadsInstant",
                                "quantity.ReadsSystemClock",
                                "quantity.ReadsDate",
                                "quantity.RefersToClock")));
    }

    @Test
    void cycleRuleFindsTheCycle() {
        assertThat(new ArchitectureRules(FIXTURE_BASE)
                        .layersHaveNoCycles()
                        .evaluate(FIXTURES)
                        .getFailureReport()
                        .toString())
                .contains("quantity.UsesTime")
                .contains("time.UsesQuantity");
    }

    @Test
    void productIsNotEmpty() {
        assertThat(PRODUCT).extracting(JavaClass::getSimpleName).contains("Main");
    }
}
