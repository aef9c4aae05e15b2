package org.axtrial.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.sim.StepLag;

/**
 * Served drives as lines of text: one for each drive, then what concerns all. Columns only ever grow wider, so that the
 * table does not jump.
 */
final class DriveTable {

    private static final List<String> HEADS =
            List.of("AXIS", "PORT", "ID", "STATE", "POSITION", "SPEED", "CON", "REQ/S", "LATE");
    /** Numbers stand at the right. */
    private static final List<Boolean> RIGHT = List.of(false, true, true, false, true, true, true, true, true);

    private final int[] widths = HEADS.stream().mapToInt(String::length).toArray();

    /**
     * As many lines as a screen has room for, always the same number for the same screen and drives. Where not all drives
     * fit, those with faults or trips come first, then those with late steps.
     *
     * @param columns longest line
     * @param most lines that there is room for, at least 4
     */
    List<String> fitted(List<DriveRow> rows, int columns, int most) {
        int fixed = 3;
        boolean all = rows.size() + fixed <= most;
        int room = all ? rows.size() : Math.max(0, most - fixed - 1);
        List<DriveRow> shown = all
                ? rows
                : rows.stream()
                        .sorted(Comparator.comparingInt(DriveRow::urgency))
                        .limit(room)
                        .sorted(Comparator.comparingInt(rows::indexOf))
                        .toList();
        List<String> lines = new ArrayList<>(table(shown));
        if (!all) {
            int hidden = rows.size() - shown.size();
            long odd = rows.stream().filter(DriveRow::isOdd).count()
                    - shown.stream().filter(DriveRow::isOdd).count();
            lines.add("… and " + hidden + " more" + (odd > 0 ? ", " + odd + " of them late or with faults" : "")
                    + "; list shows all");
        }
        lines.add(totals(rows));
        lines.add(overruns(rows));
        return lines.stream().map(line -> clip(line, columns)).toList();
    }

    /** The head and one whole line for each drive. */
    List<String> table(List<DriveRow> rows) {
        List<List<String>> cells = rows.stream().map(DriveTable::cells).toList();
        for (List<String> row : cells) {
            for (int i = 0; i < widths.length; i++) {
                widths[i] = Math.max(widths[i], row.get(i).length());
            }
        }
        List<String> lines = new ArrayList<>();
        lines.add(line(HEADS, "FAULTS"));
        for (int i = 0; i < rows.size(); i++) {
            lines.add(line(cells.get(i), String.join(", ", rows.get(i).faults())));
        }
        return lines;
    }

    private static List<String> cells(DriveRow row) {
        return List.of(
                row.axis(),
                String.valueOf(row.port()),
                String.valueOf(row.unit()),
                row.state(),
                row.position(),
                row.speed(),
                String.valueOf(row.connections()),
                String.format(Locale.ROOT, "%.0f", row.requestsPerSecond()),
                row.overruns() == 0 ? "" : String.valueOf(row.overruns()));
    }

    private String line(List<String> cells, String faults) {
        StringBuilder line = new StringBuilder();
        for (int i = 0; i < widths.length; i++) {
            String pad = " ".repeat(Math.max(0, widths[i] - cells.get(i).length()));
            line.append(RIGHT.get(i) ? pad + cells.get(i) : cells.get(i) + pad).append(' ');
        }
        return line.append(faults).toString().stripTrailing();
    }

    /** Drives, ports and load of all together. */
    static String totals(List<DriveRow> rows) {
        long ports = rows.stream().map(DriveRow::port).distinct().count();
        long moving = rows.stream().filter(DriveRow::isMoving).count();
        double requests = rows.stream().mapToDouble(DriveRow::requestsPerSecond).sum();
        return String.format(
                Locale.ROOT,
                "SIMULATED: %d %s on %d %s, %d moving, %.0f requests/s",
                rows.size(),
                rows.size() == 1 ? "drive" : "drives",
                ports,
                ports == 1 ? "port" : "ports",
                moving,
                requests);
    }

    /** Whether the simulation has kept up with the clock. */
    static String overruns(List<DriveRow> rows) {
        List<DriveRow> late = rows.stream().filter(row -> row.overruns() > 0).toList();
        Optional<DriveRow> worst = late.stream().max(Comparator.comparing(DriveRow::worst));
        if (worst.isEmpty()) {
            return "no step overruns: every drive always within " + StepLag.BOUND.toMillis() + " ms of the clock";
        }
        return String.format(
                Locale.ROOT,
                "STEP OVERRUNS: %d on %d of %d drives, worst %.0f ms (%s)",
                late.stream().mapToLong(DriveRow::overruns).sum(),
                late.size(),
                rows.size(),
                worst.get().worst().toNanos() / 1e6,
                worst.get().axis());
    }

    /** Leaves the last column free, because a terminal may break the line after it. */
    private static String clip(String line, int columns) {
        return line.length() < columns ? line : line.substring(0, Math.max(0, columns - 2)) + "…";
    }
}
