package org.axtrial.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;

/** The last words of a run. */
final class Summary {

    /** More would push the verdict of the run off a small screen; the report has them all. */
    private static final int MOST_TOLD = 10;

    private static final Set<Verdict> PROVEN_OR_NOT_TRIED =
            Set.of(Verdict.PASS, Verdict.NOT_APPLICABLE, Verdict.NOT_RUN);

    private final Terminal terminal;

    Summary(Terminal terminal) {
        this.terminal = terminal;
    }

    void print(RunRecord record, Path folder) {
        terminal.line("");
        notPassed(record);
        String counts = record.totals().stream()
                .filter(total -> total.trials() > 0)
                .map(total -> total.trials() + " " + total.verdict().printed())
                .collect(Collectors.joining(", "));
        String stopped = record.stopReason().isEmpty() ? "" : "  STOPPED: " + record.stopReason();
        terminal.line(record.verdict().printed() + "  (" + (counts.isEmpty() ? "no trials" : counts) + ")" + stopped
                + (record.simulated() ? "  SIMULATED" : ""));
        terminal.line("Report: " + folder.resolve("report.html"));
    }

    /** Which trials did not pass, and why: of many axes at once the lines above tell it far apart. */
    private void notPassed(RunRecord record) {
        List<TrialRecord> open = record.trials().stream()
                .filter(trial -> !PROVEN_OR_NOT_TRIED.contains(trial.verdict()))
                .toList();
        open.stream()
                .limit(MOST_TOLD)
                .forEach(trial -> terminal.line(trial.verdict().printed() + "  " + trial.axis() + "  " + trial.trial()
                        + (trial.reason().isEmpty() ? "" : ": " + trial.reason())));
        if (open.size() > MOST_TOLD) {
            terminal.line("… and " + (open.size() - MOST_TOLD) + " more; the report has them all");
        }
        if (!open.isEmpty()) {
            terminal.line("");
        }
    }
}
