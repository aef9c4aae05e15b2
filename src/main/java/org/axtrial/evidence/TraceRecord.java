package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
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
 * @param latched peaks that the drive caught by itself from the command to the last sample; empty, and absent in JSON, for
 *     most drives
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
        List<Column> channels,
        @JsonInclude(NON_EMPTY) List<Peak> latched) {

    /**
     * One column.
     *
     * @param quantum smallest step the drive can report, in {@code unit}; 0 when unknown
     */
    public record Column(String name, Unit unit, double quantum) {}

    /**
     * A latched peak.
     *
     * @param name name of the column that it is the peak of
     * @param unit unit of the numbers
     * @param quantum step of the latch; 0 when unknown
     * @param cleared what the latch showed once it had been cleared before the command
     * @param value what it showed at the end
     */
    public record Peak(String name, Unit unit, double quantum, double cleared, double value) {}

    public TraceRecord {
        channels = List.copyOf(channels);
        latched = RunRecord.listOrNone(latched);
    }

    TraceRecord withoutStamps() {
        return new TraceRecord(
                Instant.EPOCH, name, title, file, "", samples, orderedPeriod, worstPeriod, channels, latched);
    }
}
