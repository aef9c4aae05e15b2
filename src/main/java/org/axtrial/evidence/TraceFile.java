package org.axtrial.evidence;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/**
 * Samples as read back from a trace file. Columns are {@code time [s]}, {@code time half-width [s]}, then one for each
 * channel with its unit, in the order of {@link TraceRecord#channels}. Numbers have the fewest digits that read back to
 * the same double.
 */
public final class TraceFile {

    static final String FOLDER = "traces";

    private final TraceRecord trace;
    private final double[] times;
    private final List<double[]> columns;

    private TraceFile(TraceRecord trace, double[] times, List<double[]> columns) {
        this.trace = trace;
        this.times = times;
        this.columns = columns;
    }

    /** Sample times, seconds after the command, a copy. */
    public double[] times() {
        return times.clone();
    }

    /** Values of a channel in its unit, a copy; empty if the trace has no such channel. */
    public Optional<double[]> values(String channel) {
        for (int c = 0; c < columns.size(); c++) {
            if (trace.channels().get(c).name().equals(channel)) {
                return Optional.of(columns.get(c).clone());
            }
        }
        return Optional.empty();
    }

    /** Number of samples. */
    public int size() {
        return times.length;
    }

    /** Reads the samples of a trace from a pack and proves their hash. */
    public static TraceFile read(Path folder, TraceRecord trace) {
        Path file = folder.resolve(trace.file());
        try {
            byte[] bytes = Files.readAllBytes(file);
            if (!Sha256.of(bytes).equals(trace.sha256())) {
                throw new EvidenceLostException(
                        file + " is not the file that was recorded: its SHA-256 is " + Sha256.of(bytes)
                                + ", recorded was " + trace.sha256(),
                        null);
            }
            List<String> lines =
                    new String(bytes, StandardCharsets.UTF_8).lines().skip(1).toList();
            double[] times = new double[lines.size()];
            List<double[]> columns = trace.channels().stream()
                    .map(channel -> new double[lines.size()])
                    .toList();
            for (int row = 0; row < lines.size(); row++) {
                String[] cells = lines.get(row).split(",", -1);
                times[row] = Double.parseDouble(cells[0]);
                for (int c = 0; c < columns.size(); c++) {
                    columns.get(c)[row] = Double.parseDouble(cells[c + 2]);
                }
            }
            return new TraceFile(trace, times, columns);
        } catch (IOException | NumberFormatException | ArrayIndexOutOfBoundsException e) {
            throw new EvidenceLostException(file + " cannot be read as a trace: " + e, e);
        }
    }

    /** The path in the pack. Two keys never share one, on any file system: the key's own hash is part of the name. */
    static String nameOf(TrialKey key, String name) {
        String readable = String.join("_", key.trial(), key.axis(), String.valueOf(key.attempt()), name)
                .replaceAll("[^A-Za-z0-9._-]+", "-");
        if (readable.length() > 80) {
            readable = readable.substring(0, 80);
        }
        String exact =
                Json.MAPPER.writeValueAsString(List.of(key.script(), key.trial(), key.axis(), key.attempt(), name));
        return FOLDER + "/" + readable + "_"
                + Sha256.of(exact.getBytes(StandardCharsets.UTF_8)).substring(0, 8) + ".csv";
    }

    static byte[] bytes(Trace trace) {
        StringBuilder out = new StringBuilder("time [s],time half-width [s]");
        for (Channel channel : trace.channels()) {
            out.append(',').append(cell(channel.name() + " [" + channel.unit().symbol() + "]"));
        }
        out.append('\n');
        double[][] columns = trace.channels().stream()
                .map(channel -> trace.values(channel.name()))
                .toArray(double[][]::new);
        for (int row = 0; row < trace.size(); row++) {
            out.append(CanonicalJson.number(trace.time(row)))
                    .append(',')
                    .append(CanonicalJson.number(trace.timeHalfWidth(row)));
            for (double[] column : columns) {
                out.append(',').append(CanonicalJson.number(column[row]));
            }
            out.append('\n');
        }
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** A head of a column as one CSV cell on one line (RFC 4180). */
    private static String cell(String text) {
        String line = Json.wellFormed(text).replaceAll("\\p{Cntrl}", " ");
        return line.matches("[^\",]*") ? line : "\"" + line.replace("\"", "\"\"") + "\"";
    }
}
