package org.axtrial.cli;

import java.nio.file.Path;
import java.util.stream.Collectors;
import org.axtrial.evidence.RunRecord;

/** The last words of a run. */
final class Summary {

    private final Terminal terminal;

    Summary(Terminal terminal) {
        this.terminal = terminal;
    }

    void print(RunRecord record, Path folder) {
        terminal.line("");
        String counts = record.totals().stream()
                .filter(total -> total.trials() > 0)
                .map(total -> total.trials() + " " + total.verdict().printed())
                .collect(Collectors.joining(", "));
        String stopped = record.stopReason().isEmpty() ? "" : "  STOPPED: " + record.stopReason();
        terminal.line(record.verdict().printed() + "  (" + (counts.isEmpty() ? "no trials" : counts) + ")" + stopped
                + (record.simulated() ? "  SIMULATED" : ""));
        terminal.line("Report: " + folder.resolve("report.html"));
    }
}
