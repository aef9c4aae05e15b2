package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.ParameterChange;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The program as a process of its own, ended from outside while an axis moves. */
@Timeout(120)
@DisabledOnOs(value = OS.WINDOWS, disabledReason = "signals of POSIX")
class EndOfProgramTest {

    /** Passes one check, then moves for a minute, so that there is something to lose and something to stop. */
    private static final String LONG = """
            import { trial, nominal } from "axtrial";
            trial("Short", { id: "T-1", axes: "all" }, (axis, t) => {
              axis.enable();
              const out = axis.moveBy(0.1, "rev");
              t.check("Position change", out.travel(), nominal(0.1, "rev").plusMinus(0.5, "deg"));
            });
            trial("Long", { id: "T-2", axes: "all" }, (axis, t) => {
              axis.enable();
              axis.setParameter("positionGain", 55, "1/s");
              t.step("going");
              axis.moveBy(1.8, "rev", { speed: [6, "rpm"] });
            });
            trial("Never", { id: "T-3", axes: "all" }, (axis, t) => {
              axis.enable();
            });
            """;

    @TempDir
    private Path folder;

    private CommandBench bench;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
        bench.scriptText(LONG);
    }

    @AfterEach
    void stop() {
        bench.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"INT", "TERM", "HUP"})
    void aSignalStopsTheAxisAndFinishesTheReport(String signal) throws Exception {
        Process program = runUntil("going");

        signal(program, signal);

        assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(program.exitValue()).isEqualTo(ExitCode.STOPPED.code());
        assertThat(bench.stands()).isTrue();
        RunRecord record = bench.record();
        assertThat(record.ended()).isEqualTo(RunRecord.Ended.STOPPED);
        assertThat(record.trials())
                .extracting(TrialRecord::verdict)
                .containsExactly(Verdict.PASS, Verdict.INCONCLUSIVE, Verdict.NOT_RUN);
        TrialRecord.Attempt stopped = record.trials().get(1).attempts().get(0);
        assertThat(stopped.stops()).isNotEmpty().allMatch(TrialRecord.Stop::standstill);
        assertThat(stopped.parameters())
                .extracting(ParameterChange::name, ParameterChange::leftBehind)
                .containsExactly(tuple("positionGain", false));
        assertThat(bench.parameter("positionGain")).isZero();
        assertThat(bench.pack().resolve("report.html")).exists();
        assertThat(Manifest.verify(bench.pack())).isEmpty();
    }

    @Test
    void aKillLosesNothingThatWasCompletedAndReportFinishesThePack() throws Exception {
        Process program = runUntil("going");

        program.destroyForcibly();
        assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();

        assertThat(bench.command("report", bench.pack().toString())).isEqualTo(ExitCode.STOPPED.code());
        RunRecord record = bench.record();
        assertThat(record.ended()).isEqualTo(RunRecord.Ended.STOPPED);
        assertThat(record.trials())
                .extracting(TrialRecord::verdict)
                .containsExactly(Verdict.PASS, Verdict.INCONCLUSIVE, Verdict.NOT_RUN);
        assertThat(record.trials().get(0).attempts().get(0).checks()).hasSize(1);
        assertThat(bench.pack().resolve("report.html"))
                .content()
                .containsIgnoringCase("stopped")
                .contains("Axis TABLE, parameter positionGain: may still be 55 1/s instead of 0 1/s");
        assertThat(Manifest.verify(bench.pack())).isEmpty();
        assertThat(bench.output).contains("STOPPED");
    }

    /** Starts the program and reads its lines until one contains the text. */
    private Process runUntil(String text) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                Main.class.getName(),
                "run",
                bench.site.toString(),
                "--arm",
                "TABLE",
                "--reports",
                bench.reports().toString()));
        Process program = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectInput(Files.createFile(folder.resolve("nothing")).toFile())
                .start();
        BufferedReader lines =
                new BufferedReader(new InputStreamReader(program.getInputStream(), StandardCharsets.UTF_8));
        List<String> seen = new ArrayList<>();
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            seen.add(line);
            if (line.contains(text)) {
                return program;
            }
        }
        throw new AssertionError("the program ended before it said \"" + text + "\":\n" + String.join("\n", seen));
    }

    private static void signal(Process program, String signal) throws IOException, InterruptedException {
        Process kill = new ProcessBuilder("kill", "-" + signal, Long.toString(program.pid())).start();
        assertThat(kill.waitFor()).isZero();
    }
}
