package org.axtrial.script;

import java.util.Optional;
import org.axtrial.axis.AxisListener;
import org.axtrial.axis.ParameterChange;
import org.axtrial.axis.StopReport;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.RunEvent;
import org.axtrial.time.TimeSource;
import org.slf4j.LoggerFactory;

/** Records what an axis tells by itself: safe stops, whoever ordered them, and changed parameters. */
public final class AxisEvents implements AxisListener {

    private final EvidenceSink sink;
    private final TimeSource time;

    /**
     * Records into a sink.
     *
     * @param time clock of the axis
     */
    public AxisEvents(EvidenceSink sink, TimeSource time) {
        this.sink = sink;
        this.time = time;
    }

    @Override
    public void stopped(StopReport report) {
        try {
            sink.accept(new RunEvent.AxisStopped(
                    time.instant(),
                    report.axis(),
                    report.reason(),
                    report.ordered(),
                    report.standstill(),
                    report.took().toNanos() * 1e-9,
                    report.detail()));
        } catch (EvidenceLostException e) {
            // A stop must not fail because it cannot be recorded. The next event of the trial meets the same trouble
            // and ends the run.
            LoggerFactory.getLogger(AxisEvents.class).warn("a stop of {} could not be recorded", report.axis(), e);
        }
    }

    /** What cannot be recorded is not written to the drive: the exception ends the trial before the write. */
    @Override
    public void parameterChanging(ParameterChange change) {
        sink.accept(new RunEvent.ParameterChanging(
                time.instant(),
                change.axis(),
                change.name(),
                change.unit().symbol(),
                change.found(),
                change.written(),
                change.kept()));
    }

    @Override
    public void parameterPutBack(ParameterChange change, Optional<String> trouble) {
        try {
            sink.accept(new RunEvent.ParameterPutBack(time.instant(), change.axis(), change.name(), trouble));
        } catch (EvidenceLostException e) {
            // As with a stop: it has happened, and the next event meets the same trouble.
            LoggerFactory.getLogger(AxisEvents.class)
                    .warn("that {} of {} was put back could not be recorded", change.name(), change.axis(), e);
        }
    }
}
