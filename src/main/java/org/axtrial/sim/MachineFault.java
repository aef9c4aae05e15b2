package org.axtrial.sim;

import java.time.Duration;
import org.axtrial.plant.Coupling;
import org.axtrial.plant.HoldingBrake;

/**
 * Something that is wrong with the machine or with the drive's set-up, for training and for the proof that acceptance
 * trials find it. What is wrong on the wire is a {@link WireFault}.
 */
public sealed interface MachineFault {

    /** A fault that the axis is made with. */
    sealed interface Made extends MachineFault {

        /** The axis with the fault. */
        SimulationSpec in(SimulationSpec sound);
    }

    /** A fault that comes about while the axis is at work. */
    sealed interface Arising extends MachineFault {

        /** Lets it come about now. */
        void strike(SimulatedDrive drive);
    }

    /**
     * A fault and when it comes about.
     *
     * @param after simulated time since the start, not negative; 0 for a fault that the axis is made with
     */
    record Onset(MachineFault fault, Duration after) {

        public Onset {
            if (after.isNegative()) {
                throw new IllegalArgumentException("a fault comes about after a time of 0 or more, got " + after);
            }
            if (fault instanceof Made && !after.isZero()) {
                throw new IllegalArgumentException(
                        "an axis is made with this fault, so it cannot come about after " + after + ": " + fault);
            }
        }
    }

    /**
     * The electronic gear is set wrong.
     *
     * @param factor register counts for one motor revolution, as a multiple of the right number, 2 or more
     */
    record WrongGear(int factor) implements Made {

        public WrongGear {
            if (factor < 2) {
                throw new IllegalArgumentException("a wrong gear is wrong by a factor of 2 or more, got " + factor);
            }
        }

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            SimulationSpec.Feedback right = sound.feedback();
            return sound.with(new SimulationSpec.Feedback(
                    right.encoderCounts(),
                    right.gearNumerator(),
                    Math.multiplyExact(right.gearDenominator(), factor),
                    right.startCounts(),
                    right.noise(),
                    right.turns()));
        }
    }

    /** Counts grow the wrong way: the same machine seen from its other side. */
    record WrongSign() implements Made {

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            return sound.mirrored();
        }
    }

    /**
     * The gains do not suit the machine.
     *
     * @param position position gain as a multiple of the right one, positive
     * @param speed bandwidth of the speed loop as a multiple of the right one, positive
     */
    record DetunedGains(double position, double speed) implements Made {

        public DetunedGains {
            SimulationSpec.positive("position gain factor", position);
            SimulationSpec.positive("speed gain factor", speed);
        }

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            return sound.with(sound.loops().scaled(position, speed));
        }
    }

    /**
     * Readings of the encoder scatter.
     *
     * @param counts standard deviation in encoder counts, positive
     */
    record NoisyEncoder(double counts) implements Made {

        public NoisyEncoder {
            SimulationSpec.positive("encoder noise", counts);
        }

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            return sound.with(sound.feedback().withNoise(counts));
        }
    }

    /**
     * The coupling or belt is loose: the load swings.
     *
     * @param resonance frequency of motor against load in Hz, positive
     */
    record LooseCoupling(double resonance) implements Made {

        private static final double DAMPING = 0.02;

        public LooseCoupling {
            SimulationSpec.positive("resonance", resonance);
        }

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            return sound.with(sound.details().withCoupling(coupling(sound, resonance, DAMPING)));
        }
    }

    /**
     * The train has play.
     *
     * @param degrees dead zone at the motor shaft, positive
     */
    record Backlash(double degrees) implements Made {

        /** A stiff train, where the sound one is rigid: only its play shall show. */
        private static final double STIFF = 300;

        private static final double DAMPING = 0.1;

        public Backlash {
            SimulationSpec.positive("backlash", degrees);
        }

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            Coupling tight = sound.details().coupling().orElseGet(() -> coupling(sound, STIFF, DAMPING));
            return sound.with(
                    sound.details().withCoupling(tight.withBacklash(tight.backlash() + Math.toRadians(degrees))));
        }
    }

    /**
     * The holding brake is worn.
     *
     * @param share of its torque that is left, 0 … 1
     */
    record WornBrake(double share) implements Made {

        public WornBrake {
            if (!(share >= 0 && share <= 1)) {
                throw new IllegalArgumentException("a worn brake holds 0 … 1 of its torque, got " + share);
            }
        }

        @Override
        public SimulationSpec in(SimulationSpec sound) {
            HoldingBrake brake = sound.plant().brake();
            return sound.with(sound.details()
                    .withBrake(new HoldingBrake(share * brake.torque(), brake.engageDelay(), brake.releaseDelay())));
        }
    }

    /**
     * Something rubs.
     *
     * @param factor friction as a multiple of the usual one, not negative
     */
    record MoreFriction(double factor) implements Arising {

        public MoreFriction {
            if (!(factor >= 0) || Double.isInfinite(factor)) {
                throw new IllegalArgumentException("friction is multiplied by 0 or more, got " + factor);
            }
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.change(plant -> plant.frictionFactor(factor));
        }
    }

    /**
     * The encoder slips on its shaft each time that the torque passes a limit.
     *
     * @param degrees by how much, not 0
     * @param abovePercent percent of rated torque, positive
     */
    record EncoderSlip(double degrees, double abovePercent) implements Arising {

        public EncoderSlip {
            if (degrees == 0 || !Double.isFinite(degrees)) {
                throw new IllegalArgumentException("an encoder slips by an angle other than 0, got " + degrees);
            }
            SimulationSpec.positive("torque of the slip", abovePercent);
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.slipAbove(abovePercent, Math.toRadians(degrees));
        }
    }

    /** A switch does not change any more. */
    record StuckSwitch(SwitchInput input, boolean active) implements Arising {

        @Override
        public void strike(SimulatedDrive drive) {
            drive.switchBecomes(input, active ? SwitchCondition.STUCK_ACTIVE : SwitchCondition.STUCK_INACTIVE);
        }
    }

    /** A hand holds a switch down, or lets go of it; a switch that is stuck does not notice. */
    record HandOnSwitch(SwitchInput input, boolean pressed) implements Arising {

        @Override
        public void strike(SimulatedDrive drive) {
            drive.switchHeld(input, pressed);
        }
    }

    /**
     * A hand turns the shaft; while the drive gives torque, no hand can.
     *
     * @param degrees at the motor shaft, positive towards growing positions, not 0
     */
    record TurnByHand(double degrees) implements Arising {

        public TurnByHand {
            if (degrees == 0 || !Double.isFinite(degrees)) {
                throw new IllegalArgumentException("a hand turns a shaft by an angle other than 0, got " + degrees);
            }
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.turnedByHand(Math.toRadians(degrees));
        }
    }

    /**
     * The drive trips.
     *
     * @param faultCode 1 … 65535
     */
    record Trip(int faultCode) implements Arising {

        public Trip {
            if (faultCode < 1 || faultCode > 0xFFFF) {
                throw new IllegalArgumentException("a fault code is 1 … 65535, got " + faultCode);
            }
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.trip(faultCode);
        }
    }

    /**
     * The zero is not where it was: a battery was changed, or somebody set it.
     *
     * @param counts by how much the position register reads more, not 0
     */
    record LostHome(long counts) implements Arising {

        public LostHome {
            if (counts == 0) {
                throw new IllegalArgumentException("a lost zero is off by counts other than 0");
            }
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.shiftZero(counts);
        }
    }

    /**
     * The cable of the network is pulled: nothing reaches the drive and nothing comes back.
     *
     * @param lasts until it is plugged in again, positive
     */
    record CablePulled(Duration lasts) implements Arising {

        public CablePulled {
            lasting(lasts);
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.unplug(lasts);
        }
    }

    /**
     * The supply of the drive is switched off and on again.
     *
     * @param lasts until it is on again, positive
     */
    record PowerCycle(Duration lasts) implements Arising {

        public PowerCycle {
            lasting(lasts);
        }

        @Override
        public void strike(SimulatedDrive drive) {
            drive.powerCycle(lasts);
        }
    }

    private static void lasting(Duration lasts) {
        if (lasts.isNegative() || lasts.isZero()) {
            throw new IllegalArgumentException("it must last for some time, got " + lasts);
        }
    }

    private static Coupling coupling(SimulationSpec sound, double hertz, double damping) {
        double motor = sound.motor().inertia();
        double load = sound.load().reflectedInertia();
        if (load == 0) {
            throw new IllegalArgumentException("a load without inertia cannot swing; give it an inertia or a mass");
        }
        // Two masses on a spring: (2πf)² = k·(Jm + Jl)/(Jm·Jl).
        double radians = 2 * Math.PI * hertz;
        return Coupling.damped(radians * radians * motor * load / (motor + load), damping, motor, load);
    }
}
