package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.axtrial.quantity.Quantity;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.Expectation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a description expects values to read, and what a set of approved parameters says. */
class ExpectedValuesTest {

    private static final String WATCHDOG = "watchdogTime: { address: 110, type: uint16, unit: ms";

    @TempDir
    Path folder;

    private SiteBench with(String keys) {
        return new SiteBench(folder).drive(WATCHDOG, WATCHDOG + ", " + keys);
    }

    @Test
    void constantsAndRangesAreKept() throws Exception {
        DriveDescription constant = with("constant: 1000").load().axes().get(0).drive();
        assertThat(constant.expectations()).isEqualTo(Map.of("watchdogTime", Expectation.of(1000)));
        DriveDescription range =
                with("plausible: [100, 5000]").load().axes().get(0).drive();
        assertThat(range.expectations()).isEqualTo(Map.of("watchdogTime", Expectation.between(100, 5000)));
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThat(with("constant: -1").problems()).singleElement().asString().contains("uint16 can never show -1");
        assertThat(with("plausible: [5, 5]").problems())
                .singleElement()
                .asString()
                .contains("expected [lowest, highest]");
        assertThat(with("constant: 5, plausible: [1, 9]").problems())
                .singleElement()
                .asString()
                .contains("a constant needs no plausible range");
    }

    @Test
    void approvedParametersAreReadAsYamlAndJson() throws Exception {
        Path yaml = Files.writeString(folder.resolve("a.yaml"), "TABLE: { torque: 2.4 Nm, gear: 3 }\n");
        Path json = Files.writeString(folder.resolve("a.json"), "{\"TABLE\": {\"torque\": \"2.4 Nm\", \"gear\": 3}}");
        Map<String, Map<String, Quantity>> wanted =
                Map.of("TABLE", Map.of("torque", Quantity.parse("2.4 Nm"), "gear", Quantity.parse("3 1")));
        assertThat(ApprovedParameters.read(yaml)).isEqualTo(wanted);
        assertThat(ApprovedParameters.read(json)).isEqualTo(wanted);
    }

    @Test
    void everyValueWithoutAMeaningIsToldWithItsLine() throws Exception {
        Path file = Files.writeString(folder.resolve("a.yaml"), "TABLE:\n  torque: strong\n  gear: [1]\nSLIDE: 5\n");
        assertThatThrownBy(() -> ApprovedParameters.read(file))
                .isInstanceOf(SiteProblemsException.class)
                .hasMessageContaining("a.yaml:2:11")
                .hasMessageContaining("a.yaml:3:9")
                .hasMessageContaining("a.yaml:4:8");
    }

    @Test
    void keysAreFoundWithTheirLines() throws Exception {
        KeyLines keys = KeyLines.read(new SiteBench(folder).write().resolveSibling("drive.yaml"));
        assertThat(keys.line("identity.model.address")).contains(19);
        assertThat(keys.text("identity.model.address")).isEqualTo("100");
        assertThat(keys.text("wordOrder")).isEqualTo("high-first");
        assertThat(keys.line("identity.model.reference")).isEmpty();
        assertThat(keys.text("identity.model")).isEmpty();
    }
}
