package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.axtrial.acceptance.MergedRecord;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunSetup.Fact;
import org.axtrial.evidence.Sha256;

/** The report of merged runs, as a page and for paper: functions of the merged record alone. */
public final class MergedPage {

    /** Name of the page in a merged folder. */
    public static final String FILE = "report.html";

    /** Name of the printed report in a merged folder. */
    public static final String PDF = "report.pdf";

    record Page(
            String style,
            String mark,
            String hash,
            String ended,
            String state,
            List<String> because,
            View.Word verdict,
            List<Fact> machine,
            List<Run> runs,
            List<Trial> trials,
            List<String> punch,
            List<String> differences) {}

    record Run(String id, String when, String ended, String operator, View.Word verdict, String recordHash) {}

    record Trial(String id, String axis, String title, View.Word verdict, String deviation, List<Attempt> attempts) {}

    record Attempt(String run, int number, String when, View.Word verdict, String reason, boolean decides) {}

    private MergedPage() {}

    /** The page; the same record gives the same bytes. */
    public static byte[] html(MergedRecord merged) {
        try {
            return Templates.fill("merged", Map.of("p", page(merged))).getBytes(StandardCharsets.UTF_8);
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the merged report cannot be made: " + e.getMessage(), e);
        }
    }

    /** The printed report on A4; the same record gives the same bytes. */
    public static byte[] pdf(MergedRecord merged) {
        try {
            Page page = page(merged);
            return PdfPrinter.print(
                    Templates.fill("print-merged", Map.of("p", page)),
                    new PdfPrinter.Sheet(
                            page.state() + ": merged runs",
                            "Acceptance test report of several runs, " + MergedRecord.FILE + " " + page.hash(),
                            merged.lastRunEnded(),
                            PdfPrinter.Paper.A4,
                            "Acceptance test report",
                            page.mark(),
                            Words.count(page.runs().size(), "run", "runs"),
                            "record " + page.hash().substring(0, 16) + "…"));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the merged report cannot be printed: " + e.getMessage(), e);
        }
    }

    private static Page page(MergedRecord merged) throws IOException {
        return new Page(
                Templates.resource("report.css"),
                merged.simulated() ? "SIMULATED" : "",
                Sha256.of(merged.json()),
                Words.dateTime(merged.lastRunEnded()),
                merged.state().printed(),
                merged.because(),
                View.Word.of(merged.verdict()),
                merged.machine().stream()
                        .map(fact -> new Fact(Words.label(fact.name()), fact.value()))
                        .toList(),
                merged.sources().stream()
                        .map(run -> new Run(
                                run.runId(),
                                Words.dateTime(run.startedAt()),
                                run.ended().name(),
                                run.operator(),
                                View.Word.of(run.verdict()),
                                run.recordHash()))
                        .toList(),
                merged.trials().stream().map(MergedPage::trial).toList(),
                merged.punch().stream()
                        .map(item -> item.grade() + ": " + item.text() + " (item " + item.number() + " of run "
                                + item.runId() + ")")
                        .toList(),
                merged.differences());
    }

    private static Trial trial(MergedRecord.MergedTrial trial) {
        MergedRecord.MergedAttempt decides = trial.deciding().orElse(null);
        return new Trial(
                trial.trial(),
                trial.axis(),
                trial.title(),
                View.Word.of(trial.verdict()),
                trial.deviation().orElse(""),
                trial.attempts().stream()
                        .map(one -> new Attempt(
                                one.runId(),
                                one.attempt(),
                                Words.dateTime(one.startedAt()),
                                View.Word.of(one.verdict()),
                                Words.minus(one.reason()
                                        + one.retestReason()
                                                .map(why -> " Tried again: " + why)
                                                .orElse("")),
                                one.equals(decides)))
                        .toList());
    }
}
