package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/**
 * Holds the simulation against values from outside, and the table of docs/simulation.md against what came out. With
 * {@code -Dsimulation.write=true} it writes the table instead.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SimulationTableTest {

    private static final Path DOCUMENT = Path.of("docs/simulation.md");
    private static final String BEGIN = "<!-- table begins -->\n";
    private static final String END = "<!-- table ends -->\n";
    private static final String HEAD = """
            | case | expected | simulated | deviation | bound | source |
            |---|---|---|---|---|---|
            """;

    private final List<SimulationCheck> checks = new ArrayList<>();

    @BeforeAll
    void simulate() {
        checks.addAll(RigidChecks.all());
        checks.addAll(TwoMassChecks.all());
        checks.addAll(IntegratorChecks.all());
    }

    @Test
    void everyCheckIsWithinItsBound() {
        assertThat(checks).hasSizeGreaterThan(30).allMatch(SimulationCheck::holds, "within its bound");
    }

    @Test
    void theCommittedTableIsThisOne() throws Exception {
        String document = Files.readString(DOCUMENT);
        int begin = document.indexOf(BEGIN) + BEGIN.length();
        int end = document.indexOf(END);
        String table = checks.stream().map(SimulationCheck::line).collect(Collectors.joining("\n", HEAD, "\n"));
        if (Boolean.getBoolean("simulation.write")) {
            Files.writeString(DOCUMENT, document.substring(0, begin) + table + document.substring(end));
            return;
        }
        assertThat(document.substring(begin, end)).isEqualTo(table);
    }
}
