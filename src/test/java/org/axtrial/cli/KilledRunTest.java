package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.SampleRun;
import org.axtrial.signing.Trust;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * Runs that end at any moment. A kill leaves the journal cut at some byte, so a hundred cuts at random bytes stand for a
 * hundred kills; five processes that are really killed show that a cut is what a kill leaves. Every tenth pack of a cut
 * gets its report too, which takes longer than all the rest.
 */
@Timeout(240)
class KilledRunTest {

    private static final int CUTS = 100;

    @TempDir
    private Path folder;

    private static void report(Path pack) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
        int code = Main.run(Terminal.on(stream, stream), "report", pack.toString());
        String text = out.toString(StandardCharsets.UTF_8);
        assertThat(code).as(text).isEqualTo(ExitCode.STOPPED.code());
    }

    private static long checks(RunRecord record) {
        return record.trials().stream()
                .flatMap(trial -> trial.attempts().stream())
                .mapToLong(attempt -> attempt.checks().size())
                .sum();
    }

    private static void requireWhole(Path pack, long checksAtLeast, boolean withReport, String what) {
        if (withReport) {
            report(pack);
        } else {
            EvidencePack.recover(pack);
            Manifest.write(pack);
        }
        RunRecord record = RunRecord.read(pack);
        assertThat(record.ended()).as(what).isEqualTo(RunRecord.Ended.STOPPED);
        assertThat(checks(record)).as(what).isGreaterThanOrEqualTo(checksAtLeast);
        assertThat(PackCheck.of(pack, SiteSession.TOOL).problems()).as(what).isEmpty();
        if (withReport) {
            assertThat(PackVerification.of(pack, Trust.NONE).problems())
                    .as(what)
                    .isEmpty();
        }
    }

    @Test
    void aHundredCutsAtRandomBytesLoseNoCompletedCheckAndThePackVerifies() throws IOException {
        EvidencePack writer = EvidencePack.create(folder.resolve("whole"), SampleRun.RUN_ID, List.of());
        SampleRun.full(RunInfo.Mode.REHEARSAL, Instant.parse("2031-03-04T10:11:12Z"))
                .forEach(writer::accept);
        writer.close();
        byte[] journal = Files.readAllBytes(writer.folder().resolve("journal.jsonl"));
        int lastLine = new String(journal, StandardCharsets.ISO_8859_1).lastIndexOf('\n', journal.length - 2) + 1;
        Random random = new Random(1701);
        for (int i = 0; i < CUTS; i++) {
            int length = random.nextInt(lastLine + 1);
            Path pack = folder.resolve("cut" + i).resolve(SampleRun.RUN_ID);
            Files.createDirectories(pack.resolve("traces"));
            try (Stream<Path> traces = Files.list(writer.folder().resolve("traces"))) {
                for (Path trace : traces.toList()) {
                    Files.copy(trace, pack.resolve("traces").resolve(String.valueOf(trace.getFileName())));
                }
            }
            byte[] cut = Arrays.copyOf(journal, length);
            Files.write(pack.resolve("journal.jsonl"), cut);
            String text = new String(cut, StandardCharsets.UTF_8);
            String complete = text.substring(0, text.lastIndexOf('\n') + 1);
            long expected = complete.lines()
                    .filter(line -> line.contains("\"type\":\"CheckJudged\""))
                    .count();
            requireWhole(pack, expected, i % 10 == 0, "cut at byte " + length);
        }
    }

    @Test
    @DisabledOnOs(value = OS.WINDOWS, disabledReason = "signals of POSIX")
    void fiveKilledProcessesLoseNoCheckThatTheyHadTold() throws Exception {
        Random random = new Random(42);
        for (int i = 0; i < 5; i++) {
            Path reports = folder.resolve("killed" + i);
            Process program = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                            KilledWriter.class.getName(),
                            reports.toString())
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            int wanted = 1 + random.nextInt(40);
            int told = 0;
            try (BufferedReader lines =
                    new BufferedReader(new InputStreamReader(program.getInputStream(), StandardCharsets.UTF_8))) {
                while (told < wanted) {
                    String line = lines.readLine();
                    assertThat(line).as("the program ended by itself").isNotNull();
                    told = Integer.parseInt(line);
                }
                // SIGKILL; nothing in the program runs after it.
                program.destroyForcibly();
                assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();
            }
            assertThat(program.exitValue()).isEqualTo(128 + 9);
            requireWhole(reports.resolve(SampleRun.RUN_ID), told, true, "killed after check " + told);
        }
    }
}
