package org.axtrial.evidence;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.TrendStudy;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Unit;

/**
 * The values of several runs of one machine in order of time: a pure function of their records. Its JSON is canonical
 * (RFC 8785); the schema is on the class path as {@code org/axtrial/evidence/trend.schema.json}.
 *
 * @param format {@link #FORMAT}
 * @param simulated whether simulated drives answered
 * @param machine as the last of the runs tells of it
 * @param axes that were looked at
 * @param runs those that count, in order of time
 * @param leftOut folders and runs that do not count, with the reason
 * @param conditions what changed from one run to the next: decision rule, drive, scale
 * @param series one for each check, those with a sign of drift first
 */
public record RunTrend(
        String format,
        boolean simulated,
        List<RunSetup.Fact> machine,
        List<String> axes,
        List<RunComparison.Source> runs,
        List<LeftOut> leftOut,
        List<String> conditions,
        List<Series> series) {

    /** The only format that this version writes. */
    public static final String FORMAT = "axtrial-trend-1";

    /** Its name in the folder of a trend. */
    public static final String FILE = "trend.json";

    /**
     * What does not count.
     *
     * @param what a folder or a run
     * @param reason one sentence without a full stop
     */
    public record LeftOut(String what, String reason) {}

    /**
     * One check over the runs.
     *
     * @param key its name; the same name in two series means that it was measured in two ways
     * @param title of the trial
     * @param unit of all values here, that of the last run
     * @param method how it was measured
     * @param source who read the values
     * @param limits those of the last run, as printed by it
     * @param lower limit of the last run, in {@code unit}; empty if there is none or it has another kind of unit
     * @param upper limit of the last run
     * @param points in order of time
     * @param study of the points that count
     * @param signs of drift; empty if there is none
     * @param changes what changed on the way: limits, script
     */
    public record Series(
            RunComparison.Key key,
            String title,
            Unit unit,
            String method,
            Source source,
            String limits,
            OptionalDouble lower,
            OptionalDouble upper,
            List<Point> points,
            TrendStudy study,
            List<TrendStudy.Sign> signs,
            List<String> changes) {

        public Series {
            signs = List.copyOf(signs);
            points = List.copyOf(points);
            changes = List.copyOf(changes);
        }

        /** Whether there is a sign that the value does not stay where it was. */
        public boolean flagged() {
            return !signs.isEmpty();
        }
    }

    /**
     * The value of one run.
     *
     * @param at when it was judged
     * @param value in the unit of the series; empty without a value
     * @param bound whether that is the value or a bound of it
     * @param expandedUncertainty in that unit
     * @param standardUncertainty in that unit
     * @param limits as printed by that run
     * @param aside why it does not count; empty if it does
     */
    public record Point(
            String runId,
            Instant at,
            OptionalDouble value,
            Measurement.Bound bound,
            double standardUncertainty,
            double expandedUncertainty,
            String limits,
            Verdict verdict,
            Optional<String> aside) {}

    public RunTrend {
        machine = List.copyOf(machine);
        axes = List.copyOf(axes);
        runs = List.copyOf(runs);
        leftOut = List.copyOf(leftOut);
        conditions = List.copyOf(conditions);
        series = List.copyOf(series);
    }

    /** Canonical JSON, the same bytes for the same runs. */
    public byte[] json() {
        return CanonicalJson.of(this);
    }
}
