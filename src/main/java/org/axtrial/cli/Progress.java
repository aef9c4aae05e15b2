package org.axtrial.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Printed;
import org.axtrial.measure.Verdict;

/**
 * Tells what a run does while it does it. Before a person it keeps one line for each axis up to date below the lines
 * that stay: axis, trial, step, and the last measured value against the expected one. Into a file or a pipe it writes
 * plain lines.
 */
final class Progress implements Consumer<RunEvent> {

    private static final String ERASE_LINE = "\u001b[2K";
    private static final String LINE_UP = "\u001b[1A\r";

    private final Terminal terminal;
    private final int columns;
    private final Map<String, Status> axes = new LinkedHashMap<>();
    private final Map<TrialKey, List<String>> attention = new LinkedHashMap<>();
    private int axisWidth = 4;
    private int trialWidth = 6;
    private int drawn;
    private boolean held;

    /** What one axis is doing. */
    private static final class Status {
        private String trial = "";
        private String step = "";
        private String last = "";
    }

    /**
     * Progress on a terminal.
     *
     * @param columns width of a status line, at least 40
     */
    Progress(Terminal terminal, int columns) {
        this.terminal = terminal;
        this.columns = Math.max(40, columns);
    }

    @Override
    public synchronized void accept(RunEvent event) {
        if (event instanceof RunEvent.RunStarted started) {
            begin(started);
        } else if (event instanceof RunEvent.TrialStarted started) {
            Status status = status(started.key());
            status.trial = started.key().trial();
            status.step = "";
            status.last = "";
        } else if (event instanceof RunEvent.StepDone step) {
            status(step.key()).step = step.text();
            plain(step.key(), "", step.text());
        } else if (event instanceof RunEvent.CheckJudged check) {
            checked(check);
        } else if (event instanceof RunEvent.TrialBroken broken) {
            String place = broken.place()
                    .map(at -> "\n      at " + at + "  " + at.text())
                    .orElse("");
            note(broken.key(), broken.verdict().printed() + "  " + broken.message() + place);
            plain(broken.key(), broken.verdict().printed(), broken.message() + place);
        } else if (event instanceof RunEvent.AxisStopped stopped) {
            stopped(stopped);
        } else if (event instanceof RunEvent.ParameterPutBack end) {
            end.trouble().ifPresent(why -> stay("  " + end.axis() + ": " + end.name() + " NOT PUT BACK. " + why));
        } else if (event instanceof RunEvent.TrialFinished finished) {
            finished(finished);
        } else if (event instanceof RunEvent.RunFinished) {
            erase();
            drawn = 0;
            return;
        }
        draw();
    }

    /** Leaves the screen to a question: what is drawn stays, and nothing is drawn over until {@link #release}. */
    synchronized void hold() {
        held = true;
        drawn = 0;
    }

    synchronized void release() {
        held = false;
        draw();
    }

    private void begin(RunEvent.RunStarted started) {
        started.info().axes().forEach(axis -> {
            axisWidth = Math.max(axisWidth, axis.name().length());
            axes.put(axis.name(), new Status());
        });
        started.info()
                .plan()
                .forEach(
                        trial -> trialWidth = Math.max(trialWidth, trial.trial().length()));
    }

    private void checked(RunEvent.CheckJudged check) {
        Judgement judgement = check.judgement();
        String told = check.name() + ": " + Printed.value(judgement) + ", expected "
                + judgement.criterion().printed();
        status(check.key()).last = told + " " + judgement.verdict().printed();
        boolean passed = judgement.verdict() == Verdict.PASS;
        plain(check.key(), judgement.verdict().printed(), told + (passed ? "" : reason(judgement.reason())));
        if (!passed) {
            note(check.key(), judgement.verdict().printed() + "  " + told + reason(judgement.reason()));
        }
    }

    private static String reason(String reason) {
        return reason.isEmpty() ? "" : "\n      " + reason;
    }

    private void stopped(RunEvent.AxisStopped stopped) {
        if (!stopped.standstill()) {
            stay("  " + stopped.axis() + ": STANDSTILL NOT SEEN. " + stopped.detail());
        }
    }

    private void finished(RunEvent.TrialFinished finished) {
        Status status = status(finished.key());
        status.step = "";
        stay(String.format(
                "  %-" + axisWidth + "s  %-" + trialWidth + "s  %s",
                finished.key().axis(),
                finished.key().trial(),
                finished.verdict().printed()));
        List<String> notes = attention.remove(finished.key());
        if (notes != null && terminal.isInteractive()) {
            notes.forEach(note -> stay("    " + note));
        }
    }

    private void note(TrialKey key, String text) {
        attention.computeIfAbsent(key, unused -> new ArrayList<>()).add(text);
    }

    /** A line that only a log wants; before a person the status lines say the same. */
    private void plain(TrialKey key, String word, String text) {
        if (!terminal.isInteractive()) {
            terminal.line(String.format(
                    "  %-" + axisWidth + "s  %-" + trialWidth + "s    %-6s %s", key.axis(), key.trial(), word, text));
        }
    }

    private Status status(TrialKey key) {
        return axes.computeIfAbsent(key.axis(), unused -> new Status());
    }

    /** A line that stays, above the status lines. */
    private void stay(String text) {
        erase();
        drawn = 0;
        terminal.line(text);
    }

    private void draw() {
        if (!terminal.isInteractive() || held) {
            return;
        }
        erase();
        StringBuilder lines = new StringBuilder();
        axes.forEach((name, status) -> lines.append(clip(String.format(
                        "> %-" + axisWidth + "s  %-" + trialWidth + "s  %s%s",
                        name,
                        status.trial,
                        status.step,
                        status.last.isEmpty() ? "" : "  [" + status.last + "]")))
                .append('\n'));
        terminal.raw(lines.toString());
        drawn = axes.size();
    }

    private void erase() {
        if (drawn > 0) {
            terminal.raw((LINE_UP + ERASE_LINE).repeat(drawn));
        }
    }

    private String clip(String line) {
        return line.length() < columns ? line : line.substring(0, columns - 2) + "…";
    }
}
