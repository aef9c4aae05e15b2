package org.axtrial.evidence;

import java.time.Instant;
import java.util.List;
import org.axtrial.measure.PositioningPoint;
import org.axtrial.quantity.Unit;

/**
 * What a positioning test was made of (ISO 230-2): deviations from each target, approached from both sides.
 *
 * @param at when it was evaluated
 * @param unit of targets and deviations, that of the axis
 * @param driveReported whether any of the positions was told by the drive and not read on an instrument
 * @param targets by rising target
 */
public record PositioningRecord(Instant at, Unit unit, boolean driveReported, List<Target> targets) {

    /**
     * The deviations at one target, in the order of the cycles.
     *
     * @param up after approaches in positive direction
     * @param down after approaches in negative direction
     */
    public record Target(double target, List<Double> up, List<Double> down) {

        public Target {
            up = List.copyOf(up);
            down = List.copyOf(down);
        }

        static Target of(PositioningPoint point) {
            return new Target(point.target(), point.up(), point.down());
        }

        /** The same to compute with. */
        public PositioningPoint point() {
            return new PositioningPoint(target, up, down);
        }
    }

    public PositioningRecord {
        targets = List.copyOf(targets);
    }

    static PositioningRecord of(RunEvent.PositioningMeasured event) {
        return new PositioningRecord(
                event.at(),
                event.unit(),
                event.driveReported(),
                event.points().stream().map(Target::of).toList());
    }

    PositioningRecord withoutStamps() {
        return new PositioningRecord(Instant.EPOCH, unit, driveReported, targets);
    }
}
