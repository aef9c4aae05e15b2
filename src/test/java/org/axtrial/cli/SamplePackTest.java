package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The sample pack that is shown to newcomers: whole, true to its journal, and of the demonstration. */
class SamplePackTest {

    private static final Path SAMPLE = Path.of("reports/sample");

    @TempDir
    private Path folder;

    @Test
    void isAsItsManifestSays() {
        assertThat(Manifest.verify(SAMPLE)).isEmpty();
    }

    @Test
    void holdsARunOfTheDemonstrationInWhichAllPassed() {
        RunRecord record = RunRecord.read(SAMPLE);

        assertThat(record.verdict()).isEqualTo(Verdict.PASS);
        assertThat(record.exitCode()).isZero();
        assertThat(record.simulated()).isTrue();
        assertThat(record.trials()).hasSizeGreaterThanOrEqualTo(8 * 3);
    }

    @Test
    void hasTheReportsThatThisProgramMakesOfIt() {
        assertThat(RemadeReports.differences(SAMPLE, RunRecord.read(SAMPLE))).isEmpty();
    }

    @Test
    void isRebuiltFromItsJournalToTheSameRecord() throws IOException {
        Path copy = folder.resolve("sample");
        try (Stream<Path> files = Files.walk(SAMPLE)) {
            for (Path file : files.toList()) {
                Files.copy(file, copy.resolve(SAMPLE.relativize(file).toString()));
            }
        }
        Files.delete(copy.resolve("record.json"));

        EvidencePack.recover(copy);

        assertThat(Files.readAllBytes(copy.resolve("record.json")))
                .isEqualTo(Files.readAllBytes(SAMPLE.resolve("record.json")));
    }
}
