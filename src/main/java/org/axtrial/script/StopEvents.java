package org.axtrial.script;

import org.axtrial.axis.AxisListener;
import org.axtrial.axis.StopReport;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.RunEvent;
import org.axtrial.time.TimeSource;
import org.slf4j.LoggerFactory;

/** Records every safe stop of an axis, whoever ordered it. */
public final class StopEvents implements AxisListener {

    private final EvidenceSink sink;
    private final TimeSource time;

    /**
     * Records into a sink.
     *
     * @param time clock of the axis
     */
    public StopEvents(EvidenceSink sink, TimeSource time) {
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
            LoggerFactory.getLogger(StopEvents.class).warn("a stop of {} could not be recorded", report.axis(), e);
        }
    }
}
