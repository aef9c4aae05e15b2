package org.axtrial.evidence;

import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import org.axtrial.quantity.Unit;

/**
 * Samples that were taken, and the file that holds them.
 *
 * @param at when they were complete
 * @param name unique in its trial
 * @param title what moved
 * @param file path in the pack, with slashes
 * @param sha256 of the file
 * @param samples number of rows
 * @param orderedPeriod ordered sample period, seconds
 * @param worstPeriod largest distance between neighbouring samples, seconds
 * @param channels columns of the file after the two for time
 */
public record TraceRecord(
        Instant at,
        String name,
        String title,
        String file,
        String sha256,
        int samples,
        double orderedPeriod,
        OptionalDouble worstPeriod,
        List<Column> channels) {

    /**
     * One column.
     *
     * @param quantum smallest step the drive can report, in {@code unit}; 0 when unknown
     */
    public record Column(String name, Unit unit, double quantum) {}

    public TraceRecord {
        channels = List.copyOf(channels);
    }

    TraceRecord withoutStamps() {
        return new TraceRecord(Instant.EPOCH, name, title, file, "", samples, orderedPeriod, worstPeriod, channels);
    }
}
