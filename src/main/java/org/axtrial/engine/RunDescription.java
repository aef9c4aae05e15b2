package org.axtrial.engine;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.axis.AxisSetup;
import org.axtrial.axis.Envelope;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunInfo.AxisInfo;
import org.axtrial.evidence.RunInfo.PlannedTrial;
import org.axtrial.quantity.AxisScale;
import org.axtrial.site.How;
import org.axtrial.site.Rig;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;

/** Tells a reader of the evidence what was run, on what, and under which limits. */
final class RunDescription {

    private RunDescription() {}

    static RunInfo of(
            Site site, How how, Rig rig, String runId, String tool, String operator, List<PlannedTrial> plan) {
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
                site.axes().stream().map(axis -> axis(axis, how, rig)).toList(),
                plan);
    }

    private static RunInfo.Mode mode(How how) {
        return switch (how) {
            case REAL -> RunInfo.Mode.REAL;
            case SIMULATED -> RunInfo.Mode.SIMULATED;
            case REHEARSAL -> RunInfo.Mode.REHEARSAL;
        };
    }

    private static AxisInfo axis(SiteAxis axis, How how, Rig rig) {
        return new AxisInfo(
                axis.name(),
                axis.description(),
                axis.drive().type(),
                how == How.REHEARSAL ? "in process" : rig.peer(axis.name()),
                how != How.REAL,
                facts(axis.setup()));
    }

    private static Map<String, String> facts(AxisSetup setup) {
        Map<String, String> facts = new LinkedHashMap<>();
        scale(setup.scale(), facts);
        Envelope envelope = setup.envelope();
        facts.put(
                "Travel window",
                envelope.lowest() + " … " + envelope.highest() + ", counted from "
                        + (setup.zero() == AxisSetup.PositionZero.DRIVE
                                ? "the drive's zero"
                                : "where the axis stood when the run began"));
        facts.put("Largest speed", envelope.speed().toString());
        facts.put("Largest acceleration", envelope.acceleration().toString());
        envelope.torque().ifPresent(torque -> facts.put("Largest torque", torque + " of rated"));
        facts.put("Longest motion", envelope.time().toMillis() / 1000.0 + " s");
        facts.put("Sample period", setup.samplePeriod().toNanos() / 1e6 + " ms as ordered");
        facts.put(
                "Standstill",
                "within ± " + setup.standstillWindow() + " for "
                        + setup.standstillTime().toMillis() + " ms");
        facts.put("After a trial", setup.afterTrial() == AxisSetup.AfterTrial.HOLD ? "torque held" : "torque off");
        return facts;
    }

    private static void scale(AxisScale scale, Map<String, String> facts) {
        facts.put("Encoder", scale.encoderCounts() + " counts per motor revolution");
        facts.put(
                "Electronic gear",
                scale.gearNumerator() + " encoder counts for " + scale.gearDenominator() + " register counts");
        facts.put("Gearbox", scale.motorTurns() + " motor turns for " + scale.loadTurns() + " load turns");
        scale.leadIfLinear().ifPresent(lead -> facts.put("Lead", lead + " per load revolution"));
        facts.put("Direction", scale.direction() > 0 ? "growing counts are positive" : "growing counts are negative");
    }
}
