package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.acceptance.MergedFolder;
import org.axtrial.acceptance.MergedRecord;
import org.axtrial.acceptance.MergedRecord.MergedAttempt;
import org.axtrial.acceptance.MergedRecord.MergedTrial;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.verapdf.pdfa.flavours.PDFAFlavour;

/** Of all attempts at a trial on an axis exactly one decides, and page and paper mark that one. */
class MergedPageTest {

    private static final Instant AT = Instant.parse("2031-03-04T08:00:00Z");

    @TempDir
    private Path folder;

    /** An attempt at a trial: seconds after the start of the day at which it began and ended, and what came out. */
    private record Try(String trial, int number, int from, int to, Verdict verdict) {}

    private Path pack(String run, Try... tries) {
        EvidencePack pack = EvidencePack.create(folder, run, List.of());
        List<RunInfo.PlannedTrial> plan = Stream.of("T-1", "T-2", "T-3", "T-4", "T-5", "T-6")
                .map(id -> new RunInfo.PlannedTrial("a.js", id, "X", "Trial", ""))
                .toList();
        pack.accept(new RunEvent.RunStarted(
                AT,
                new RunInfo(run, RunInfo.Mode.REAL, "tool", "java", "", Map.of(), Map.of(), "rule", List.of(), plan)));
        for (Try one : tries) {
            TrialKey key = new TrialKey("a.js", one.trial(), "X", one.number());
            pack.accept(new RunEvent.TrialStarted(AT.plusSeconds(one.from()), key));
            pack.accept(new RunEvent.TrialFinished(AT.plusSeconds(one.to()), key, one.verdict(), ""));
        }
        pack.accept(new RunEvent.RunFinished(AT.plusSeconds(999), Optional.empty()));
        pack.finish();
        Manifest.write(pack.folder());
        return pack.folder();
    }

    private MergedRecord merged() {
        Path a = pack(
                "A",
                new Try("T-1", 1, 10, 11, Verdict.FAIL),
                new Try("T-1", 2, 12, 13, Verdict.FAIL),
                new Try("T-2", 1, 20, 21, Verdict.FAIL),
                new Try("T-2", 2, 22, 23, Verdict.PASS),
                new Try("T-3", 1, 30, 39, Verdict.FAIL),
                new Try("T-3", 2, 40, 45, Verdict.FAIL),
                new Try("T-5", 1, 50, 50, Verdict.PASS),
                new Try("T-6", 1, 60, 61, Verdict.PASS),
                new Try("T-6", 2, 62, 69, Verdict.PASS));
        Path b = pack(
                "B",
                new Try("T-2", 1, 24, 25, Verdict.PASS),
                new Try("T-2", 2, 26, 27, Verdict.PASS),
                new Try("T-3", 1, 39, 41, Verdict.PASS),
                new Try("T-5", 1, 50, 50, Verdict.PASS),
                new Try("T-6", 1, 66, 67, Verdict.FAIL),
                new Try("T-6", 2, 68, 70, Verdict.FAIL));
        return MergedFolder.record(List.of(a, b));
    }

    private static String decides(MergedRecord merged, String trial) {
        MergedTrial found = merged.trials().stream()
                .filter(one -> one.trial().equals(trial))
                .findFirst()
                .orElseThrow();
        Optional<MergedAttempt> decides = found.deciding();
        assertThat(found.decidedBy()).isEqualTo(decides.map(MergedAttempt::runId));
        assertThat(found.verdict())
                .isEqualTo(decides.map(MergedAttempt::verdict).orElse(Verdict.NOT_RUN));
        return decides.map(
                        one -> one.runId() + one.attempt() + " " + one.verdict().printed())
                .orElse("none");
    }

    // Common practice, no source: the rules of docs/evidence.md, merged runs.
    @Test
    void theLastAttemptDecidesAndTheWorstWhereRunsOverlap() {
        MergedRecord merged = merged();
        assertThat(decides(merged, "T-1")).isEqualTo("A2 FAIL");
        assertThat(decides(merged, "T-2")).isEqualTo("B2 PASS");
        assertThat(decides(merged, "T-3")).isEqualTo("A2 FAIL");
        assertThat(decides(merged, "T-4")).isEqualTo("none");
        assertThat(decides(merged, "T-5")).isEqualTo("A1 PASS");
        assertThat(decides(merged, "T-6")).isEqualTo("B2 FAIL");
    }

    @Test
    void exactlyOneAttemptOfEachTrialIsMarked() throws Exception {
        MergedRecord merged = merged();
        String page = new String(MergedPage.html(merged), StandardCharsets.UTF_8);
        for (MergedTrial trial : merged.trials()) {
            String row = page.substring(page.indexOf(">" + trial.trial() + "<"));
            row = row.substring(0, row.indexOf("</tr>"));
            assertThat(row.split("decides", -1))
                    .as(trial.trial())
                    .hasSize(trial.attempts().isEmpty() ? 1 : 2);
        }
        String text;
        try (var pdf = Loader.loadPDF(MergedPage.pdf(merged))) {
            text = new PDFTextStripper().getText(pdf);
        }
        assertThat(text.split(", decides", -1)).hasSize(1 + 5);
        assertThat(text).contains("run A, attempt 2, decides", "run B, attempt 2, decides");
    }

    // Source: veraPDF, rules of ISO 19005-2 level A and of ISO 14289-1.
    @Test
    void itsPaperIsPdfA2aAndUa1() throws Exception {
        byte[] pdf = MergedPage.pdf(merged());
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFA_2_A)).isEmpty();
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFUA_1)).isEmpty();
    }
}
