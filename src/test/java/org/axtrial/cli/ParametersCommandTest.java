package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.ParameterChange;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.sim.WireFault;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Scripts that read, change and save parameters, over real Modbus TCP. */
@Timeout(120)
class ParametersCommandTest {

    private static final int WRITE_SINGLE = 6;

    @TempDir
    private Path folder;

    private CommandBench bench;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
    }

    @AfterEach
    void stop() {
        bench.close();
    }

    @Test
    void aTrialChecksSetsAndLeavesTheDriveAsFound() throws Exception {
        bench.script("""
                t.check("Gain as found", axis.parameter("positionGain"), nominal(0, "1/s").plusMinus(0.05, "1/s"));
                axis.setParameter("positionGain", 62.5, "1/s");
                axis.setParameter("followingErrorTrip", 70000, "count");
                t.check("Gain of the trial", axis.parameter("positionGain"), nominal(62.5, "1/s").plusMinus(0.05, "1/s"));
                """);

        assertThat(bench.run()).isZero();

        assertThat(bench.parameter("positionGain")).isZero();
        assertThat(bench.parameter("followingErrorTrip")).isZero();
        assertThat(bench.writes("positionGain")).isEqualTo(2);
        TrialRecord.Attempt attempt = bench.onlyAttempt();
        assertThat(attempt.steps())
                .extracting(TrialRecord.Step::text)
                .contains(
                        "Set parameter positionGain from 0 1/s to 62.5 1/s, put back when the trial ends",
                        "Set parameter followingErrorTrip from 0 count to 70000 count, put back when the trial ends");
        assertThat(attempt.parameters()).hasSize(2).noneMatch(ParameterChange::leftBehind);
        assertThat(bench.pack().resolve("report.html"))
                .content()
                .contains("Parameters of the drive that this trial changed", "62.5 1/s", "put back");
        assertThat(bench.drive.saves()).isZero();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "throw new Error(\"broken\");",
                "axis.moveBy(1, \"parsec\");",
                "axis.enable(); axis.moveBy(10, \"rev\");",
                "while (true) {}"
            })
    void anErrorInTheScriptLeavesTheDriveAsFound(String trouble) throws Exception {
        bench.scriptText("import { trial } from \"axtrial\";\n"
                + "trial(\"A trial\", { id: \"T-1\", limit: [1, \"s\"] }, (axis, t) => {\n"
                + "axis.setParameter(\"positionGain\", 55, \"1/s\");\n" + trouble + "\n});\n");

        assertThat(bench.run()).isEqualTo(1);

        assertThat(bench.onlyAttempt().verdict()).isEqualTo(Verdict.ERROR);
        assertThat(bench.writes("positionGain")).isEqualTo(2);
        assertThat(bench.parameter("positionGain")).isZero();
    }

    @Test
    void aLostReplyIsLookedForInTheRegisterAndTheTrialGoesOn() throws Exception {
        bench.script("""
                axis.setParameter("positionGain", 55, "1/s");
                t.check("Gain", axis.parameter("positionGain"), nominal(55, "1/s").plusMinus(0.05, "1/s"));
                """);
        bench.server.fault(new WireFault.DropReply(new WireFault.Strikes(WRITE_SINGLE, 0, 1)));

        bench.run();

        assertThat(bench.writes("positionGain")).isEqualTo(2);
        assertThat(bench.parameter("positionGain")).isZero();
        assertThat(bench.onlyAttempt().parameters()).noneMatch(ParameterChange::leftBehind);
    }

    @Test
    void aSaveHappensOnceAndOnlyByName() throws Exception {
        bench.script("""
                axis.setParameter("positionGain", 55, "1/s", { keep: true });
                axis.saveParameters("storeParameters");
                t.check("Gain", axis.parameter("positionGain"), nominal(55, "1/s").plusMinus(0.05, "1/s"));
                """);

        assertThat(bench.run()).isZero();

        assertThat(bench.drive.saves()).isEqualTo(1);
        assertThat(bench.parameter("positionGain")).isEqualTo(55);
        assertThat(bench.pack().resolve("report.html"))
                .content()
                .contains("Axis TABLE, parameter positionGain: changed from 0 1/s to 55 1/s and kept");
    }

    @Test
    void everyMistakeIsToldWithItsPlaceAndSavesNothing() throws Exception {
        for (String[] mistake : List.of(
                new String[] {"axis.saveParameters(\"store\");", "storeParameters"},
                new String[] {"axis.setParameter(\"positionGain\", 55);", "has no unit"},
                new String[] {"axis.setParameter(\"positionGain\", 55, \"mm\");", "is in 1/s and cannot be set in mm"},
                new String[] {"axis.setParameter(\"positionGian\", 55, \"1/s\");", "did you mean \"positionGain\""},
                new String[] {"axis.setParameter(\"ratedTorque\", 1, \"Nm\");", "does not let the tool write"},
                new String[] {"axis.setParameter(\"relativeMove\", 1, \"count\");", "as part of a command"},
                new String[] {"axis.setParameter(\"positionGain\", 1e9, \"1/s\");", "positionGain"},
                new String[] {"axis.setParameter(\"positionGain\", 55, \"1/s\", { keep: 1 });", "true or false"},
                new String[] {"axis.parameter(\"gain\");", "declares no \"gain\""})) {
            try (CommandBench own = CommandBench.start(folder)) {
                own.script(mistake[0]);
                int code = own.command(
                        "rehearse",
                        own.site.toString(),
                        "--reports",
                        folder.resolve("p" + Integer.toHexString(mistake[0].hashCode()))
                                .toString());
                assertThat(code).as(mistake[0]).isEqualTo(1);
                assertThat(own.output).as(mistake[0]).contains(mistake[1], "t.js:3:");
                assertThat(own.drive.writes()).isZero();
            }
        }
    }
}
