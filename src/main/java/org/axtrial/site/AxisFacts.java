package org.axtrial.site;

import java.util.LinkedHashMap;
import java.util.Map;
import org.axtrial.axis.AxisSetup;
import org.axtrial.axis.Envelope;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** What a reader of a report must know of an axis: its scale, its limits and how it is watched. */
final class AxisFacts {

    private AxisFacts() {}

    /** Names and printed values, in the order of a report. */
    static Map<String, String> of(AxisSetup setup) {
        Map<String, String> facts = new LinkedHashMap<>();
        scale(setup.scale(), facts);
        Envelope envelope = setup.envelope();
        facts.put(
                "Travel window",
                envelope.lowest().printed() + " … " + envelope.highest().printed() + ", counted from "
                        + (setup.zero() == AxisSetup.PositionZero.DRIVE
                                ? "the drive's zero"
                                : "where the axis stood when the run began"));
        facts.put("Largest speed", envelope.speed().printed());
        facts.put("Largest acceleration", envelope.acceleration().printed());
        envelope.torque().ifPresent(torque -> facts.put("Largest torque", torque.printed() + " of rated"));
        facts.put("Longest motion", new Quantity(envelope.time().toMillis() / 1000.0, Unit.SECOND).printed());
        facts.put(
                "Sample period",
                new Quantity(setup.samplePeriod().toNanos() / 1e6, Unit.MILLISECOND).printed() + " as ordered");
        facts.put(
                "Standstill",
                "within ± " + setup.standstillWindow().printed() + " for "
                        + setup.standstillTime().toMillis() + " ms");
        setup.firstMotion()
                .ifPresent(first -> facts.put(
                        "First motion",
                        first.travel().printed() + " at " + first.speed().printed()
                                + " at most, until sense and scale are proven in the run"));
        facts.put("After a trial", setup.afterTrial() == AxisSetup.AfterTrial.HOLD ? "torque held" : "torque off");
        return facts;
    }

    private static void scale(AxisScale scale, Map<String, String> facts) {
        facts.put("Encoder", scale.encoderCounts() + " counts per motor revolution");
        facts.put(
                "Electronic gear",
                scale.gearNumerator() + " encoder counts for " + scale.gearDenominator() + " register counts");
        facts.put("Gearbox", scale.motorTurns() + " motor turns for " + scale.loadTurns() + " load turns");
        scale.leadIfLinear().ifPresent(lead -> facts.put("Lead", lead.printed() + " per load revolution"));
        facts.put("Direction", scale.direction() > 0 ? "growing counts are positive" : "growing counts are negative");
    }
}
