package org.axtrial.cli;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import org.axtrial.evidence.Procedure;
import org.axtrial.evidence.RunRecord;

/**
 * How long the trials of a rehearsal will take on the machine, by its virtual time.
 *
 * @param together all trials, one after the other
 * @param parallel whether the axes of the site move at the same time
 * @param longest all trials of the axis whose trials take longest
 */
record ExpectedTime(Duration together, boolean parallel, Duration longest) {

    static ExpectedTime of(RunRecord record, boolean parallel) {
        Map<String, Duration> axes = new LinkedHashMap<>();
        record.trials()
                .forEach(trial -> trial.attempts()
                        .forEach(attempt -> axes.merge(trial.axis(), attempt.lasted(), Duration::plus)));
        return of(axes, parallel);
    }

    static ExpectedTime of(Procedure procedure, boolean parallel) {
        Map<String, Duration> axes = new LinkedHashMap<>();
        procedure
                .trials()
                .forEach(trial ->
                        axes.merge(trial.axis(), Duration.ofMillis(Math.round(trial.seconds() * 1e3)), Duration::plus));
        return of(axes, parallel);
    }

    private static ExpectedTime of(Map<String, Duration> axes, boolean parallel) {
        Duration together = axes.values().stream().reduce(Duration.ZERO, Duration::plus);
        Duration longest = axes.values().stream()
                .reduce((a, b) -> a.compareTo(b) < 0 ? b : a)
                .orElse(Duration.ZERO);
        return new ExpectedTime(together, parallel, longest);
    }

    void tell(Terminal terminal) {
        terminal.line("Expected on the machine: about " + words(parallel ? longest : together)
                + (parallel ? ", all axes side by side" : ", one trial after the other")
                + "; what people do comes on top");
    }

    private static String words(Duration time) {
        long seconds = Math.max(1, Math.round(time.toMillis() * 1e-3));
        if (seconds < 60) {
            return seconds + " s";
        }
        return seconds < 3600
                ? seconds / 60 + " min " + seconds % 60 + " s"
                : seconds / 3600 + " h " + seconds % 3600 / 60 + " min";
    }
}
