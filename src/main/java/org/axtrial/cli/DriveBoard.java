package org.axtrial.cli;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Supplier;
import org.axtrial.sim.StepLag;
import org.axtrial.site.ServedAxis;
import org.axtrial.time.TimeSource;

/**
 * Shows what served drives are doing. On a screen it keeps a table above the line that is typed in; elsewhere it prints a
 * line when the state, the connections or the faults of a drive have changed, and when steps have been late.
 */
final class DriveBoard {

    private static final String SAVE_CURSOR = "\u001b7";
    private static final String RESTORE_CURSOR = "\u001b8";
    private static final String ERASE_LINE = "\u001b[2K";
    private static final String ERASE_BELOW = "\u001b[J";
    private static final String PROMPT = "> ";

    private final Terminal terminal;
    private final List<ServedAxis> axes;
    private final TimeSource time;
    private final Supplier<ScreenSize> size;
    private final DriveTable table = new DriveTable();
    private final Map<String, List<Object>> told = new HashMap<>();
    private final long[] requests;
    private final double[] rates;
    private long countedNanos;
    private long overrunsTold;
    private ScreenSize screen = ScreenSize.USUAL;
    private int drawn;

    /**
     * A board that shows nothing yet.
     *
     * @param size asked when something has been typed, because windows change
     */
    DriveBoard(Terminal terminal, List<ServedAxis> axes, TimeSource time, Supplier<ScreenSize> size) {
        this.terminal = terminal;
        this.axes = List.copyOf(axes);
        this.time = time;
        this.size = size;
        this.requests = new long[axes.size()];
        this.rates = new double[axes.size()];
        this.countedNanos = time.nanos();
    }

    /** Shows the drives for the first time. */
    synchronized void begin() {
        if (terminal.isInteractive()) {
            screen = size.get();
            draw(lines());
        } else {
            rows().forEach(row -> told.put(row.axis(), row.occasion()));
        }
    }

    /** Brings the requests per second and what is shown up to date. */
    synchronized void refresh() {
        count();
        if (terminal.isInteractive()) {
            redraw();
        } else {
            tellChanges();
        }
    }

    private void count() {
        long now = time.nanos();
        double seconds = (now - countedNanos) * 1e-9;
        if (seconds <= 0) {
            return;
        }
        for (int i = 0; i < axes.size(); i++) {
            long total = axes.get(i).requests();
            rates[i] = (total - requests[i]) / seconds;
            requests[i] = total;
        }
        countedNanos = now;
    }

    private List<DriveRow> rows() {
        List<DriveRow> rows = new ArrayList<>();
        for (int i = 0; i < axes.size(); i++) {
            rows.add(DriveRow.of(axes.get(i), rates[i]));
        }
        return rows;
    }

    private List<String> lines() {
        // One line is typed in, and the cursor stands one below it when it has been.
        return table.fitted(rows(), screen.columns(), screen.lines() - 2);
    }

    private void draw(List<String> lines) {
        terminal.raw(String.join("\n", lines) + "\n" + PROMPT);
        drawn = lines.size();
    }

    /** Rewrites the table in its place; what is being typed below it stays. */
    private void redraw() {
        List<String> lines = lines();
        StringBuilder text = new StringBuilder(SAVE_CURSOR).append('\r').append(up(drawn));
        lines.forEach(line -> text.append(ERASE_LINE).append(line).append('\n'));
        terminal.raw(text.append(RESTORE_CURSOR).toString());
    }

    private static String up(int lines) {
        return "\u001b[" + lines + "A";
    }

    private void tellChanges() {
        List<DriveRow> rows = rows();
        List<DriveRow> changed = rows.stream()
                .filter(row -> !row.occasion().equals(told.put(row.axis(), row.occasion())))
                .toList();
        List<String> lines = table.table(changed);
        lines.subList(1, lines.size()).forEach(terminal::line);
        long overruns = rows.stream().mapToLong(DriveRow::overruns).sum();
        if (overruns > overrunsTold) {
            overrunsTold = overruns;
            terminal.line(DriveTable.overruns(rows));
        }
    }

    /** Says what has come of a typed line. */
    synchronized void answer(String typed, List<String> lines, List<String> errors) {
        if (!terminal.isInteractive()) {
            lines.forEach(terminal::line);
            errors.forEach(terminal::error);
            return;
        }
        terminal.raw("\r" + up(drawn + 1) + ERASE_BELOW);
        terminal.line(PROMPT + typed);
        lines.forEach(terminal::line);
        errors.forEach(terminal::line);
        screen = size.get();
        draw(lines());
    }

    /** Every drive with all of its line. */
    synchronized List<String> list() {
        List<DriveRow> rows = rows();
        List<String> lines = new ArrayList<>(table.table(rows));
        lines.add(DriveTable.totals(rows));
        lines.add(DriveTable.overruns(rows));
        return lines;
    }

    /** The last word: what was served, and each drive that did not keep up with the clock. */
    synchronized void end() {
        if (terminal.isInteractive()) {
            terminal.line("");
        }
        long total = axes.stream().mapToLong(ServedAxis::requests).sum();
        terminal.line("Served " + axes.size() + (axes.size() == 1 ? " drive, " : " drives, ") + total + " requests.");
        terminal.line(DriveTable.overruns(rows()));
        for (ServedAxis axis : axes) {
            StepLag lag = axis.lag();
            if (lag.overruns() > 0) {
                terminal.line(String.format(
                        Locale.ROOT,
                        "  %s: %d of %d steps more than %d ms late, worst %.0f ms",
                        axis.name(),
                        lag.overruns(),
                        lag.steps(),
                        StepLag.BOUND.toMillis(),
                        lag.worst().toNanos() / 1e6));
            }
        }
    }
}
