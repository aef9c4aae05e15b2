package org.axtrial.axis;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.drive.DriveState;
import org.axtrial.quantity.Unit;
import org.jspecify.annotations.Nullable;

/**
 * Looks for the stop that a person is expected to bring about: the drive leaves the enabled state, or an axis that runs at a
 * speed falls below nine tenths of it and comes to rest. Fed with every sample of one motion.
 */
final class AwaitedStop {

    /** A smaller loss of speed may be ripple (common practice, no source). */
    private static final double SLOWER = 0.9;
    /** An axis that never got half as fast has not been seen to run, so its standing is no stop. */
    private static final double RAN = 0.5;

    private final double speed;
    private final double restingSpeed;
    private final StandstillWatch standstill;
    private final DriveState.Phase before;
    private final double allowed;
    private boolean ran;
    private boolean stands;
    private boolean left;
    private OptionalDouble lastAtWork = OptionalDouble.empty();
    private @Nullable DriveStop begun;

    /**
     * @param speed ordered speed, in axis units per second; 0 for an axis that stands
     * @param before what the drive showed before the motion; a fault that stands already stops nothing any more
     */
    AwaitedStop(AxisSetup setup, double speed, DriveState.Phase before) {
        this.speed = speed;
        this.before = before;
        this.standstill = StandstillWatch.of(setup);
        this.allowed = setup.stopTime().toNanos() * 1e-9;
        this.restingSpeed = StandstillWatch.restingSpeed(setup);
    }

    /**
     * Takes a sample.
     *
     * @throws EnvelopeTrippedException if a stop has begun and the axis does not come to rest in its time
     */
    void see(String axis, AxisSample sample, double seconds) {
        stands = standstill.standsAt(sample);
        DriveState state = sample.state();
        left |= state.phase() != before
                && (state.phase() == DriveState.Phase.FAULT || before == DriveState.Phase.ENABLED);
        double along = sample.speed() * Math.signum(speed);
        ran |= speed != 0 && along >= RAN * Math.abs(speed);
        double half = (sample.repliedNanos() - sample.sentNanos()) * 0.5e-9;
        if (left || (ran && along < SLOWER * Math.abs(speed))) {
            begin(state, seconds, half);
        } else {
            // A dip that was none.
            begun = null;
            lastAtWork = OptionalDouble.of(seconds);
        }
        if (begun != null && !stands && seconds - begun.seconds() > allowed) {
            throw new EnvelopeTrippedException(
                    axis + " began to stop (" + begun.how() + ") and was not seen to stand after "
                            + EnvelopeGuard.text(allowed, Unit.SECOND) + "; look at the machine before anything else");
        }
    }

    private void begin(DriveState state, double seconds, double half) {
        double last = lastAtWork.orElse(seconds);
        String how =
                left ? shown(state) : "the axis slowed down" + (state.limited() ? "; an internal limit holds it" : "");
        if (begun == null) {
            begun = new DriveStop((last + seconds) / 2, (seconds - last) / 2 + half, how);
        } else if (!begun.how().equals(how)) {
            // The last word of the drive tells most: first it slows down, then it says why.
            begun = new DriveStop(begun.seconds(), begun.halfWidth(), how);
        }
    }

    private static String shown(DriveState state) {
        return state.phase() == DriveState.Phase.FAULT
                ? "the drive shows fault code " + state.faultCode() + String.format(" (0x%04X)", state.faultCode())
                : "the drive left the enabled state and shows " + state.phase()
                        + String.format(", status word 0x%04X", state.statusWord());
    }

    /** Whether a stop seems to be under way. */
    boolean isUnderWay() {
        return begun != null;
    }

    /** Whether a sample of an axis that does not do as it was ordered may be that of one which was stopped. */
    boolean excuses(AxisSample sample) {
        return begun != null && Math.abs(sample.speed()) <= restingSpeed;
    }

    /** The stop, once the axis stands. */
    Optional<DriveStop> over() {
        return stands ? Optional.ofNullable(begun) : Optional.empty();
    }
}
