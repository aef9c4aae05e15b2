package org.axtrial.engine;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.function.UnaryOperator;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunInfo.AxisInfo;
import org.axtrial.evidence.RunInfo.PlannedTrial;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.time.SystemTime;

/** Tells a reader of the evidence what was run, on what, and under which limits. */
final class RunDescription {

    private RunDescription() {}

    static RunInfo of(
            Site site,
            How how,
            UnaryOperator<String> peers,
            String runId,
            String tool,
            String operator,
            List<PlannedTrial> plan) {
        return new RunInfo(
                runId,
                mode(how),
                tool,
                "Java " + Runtime.version() + ", " + System.getProperty("os.name") + " "
                        + System.getProperty("os.version"),
                operator,
                site.job(),
                site.machine(),
                site.decisionRule().sentence(),
                site.axes().stream().map(axis -> axis(axis, how, peers)).toList(),
                site.instruments().stream()
                        .map(instrument -> new RunInfo.InstrumentInfo(instrument, instrument.calibrationOn(testDay())))
                        .toList(),
                plan);
    }

    /**
     * The day of the test, UTC, by the clock of this computer in a rehearsal too: whoever rehearses wants to know which
     * calibration has run out.
     */
    static LocalDate testDay() {
        return LocalDate.ofInstant(SystemTime.INSTANCE.instant(), ZoneOffset.UTC);
    }

    private static RunInfo.Mode mode(How how) {
        return switch (how) {
            case REAL -> RunInfo.Mode.REAL;
            case SIMULATED -> RunInfo.Mode.SIMULATED;
            case REHEARSAL -> RunInfo.Mode.REHEARSAL;
        };
    }

    private static AxisInfo axis(SiteAxis axis, How how, UnaryOperator<String> peers) {
        return new AxisInfo(
                axis.name(),
                axis.description(),
                axis.driveType(),
                how == How.REHEARSAL ? "in process" : peers.apply(axis.name()),
                how != How.REAL,
                axis.setup().scale(),
                axis.facts());
    }
}
