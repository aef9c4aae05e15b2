package org.axtrial.measure;

import static org.axtrial.measure.Polling.between;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.random.RandomGenerator;
import org.axtrial.measure.CoverageCase.Trial;
import org.axtrial.measure.Polling.Signal;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;

/** Moves, stops and pauses with known truth, in counts of one step. */
final class PositionCases {

    private static final String X = "position";
    static final String BOUND = "what hides between samples is a bound, and counts on both sides";
    private static final String RAISED = "noise raises the largest sample while what hides lowers it";
    static final String GAPS = "gaps of 2 to 10 periods";

    private PositionCases() {}

    static List<CoverageCase> all() {
        return List.of(
                CoverageCase.band("position change", "no noise", r -> travel(r, Polling.usual(r), 0, 0)),
                CoverageCase.band(
                        "position change", "noise 0.5 to 3 q", r -> travel(r, Polling.usual(r), between(r, 0.5, 3), 0)),
                CoverageCase.band("position change", "noise 8 q, ρ = 0.2", r -> travel(r, Polling.usual(r), 8, 0.2)),
                CoverageCase.band("position change", "noise 8 q", r -> travel(r, Polling.usual(r), 8, 0)),
                CoverageCase.band("position change", GAPS + ", noise 2 q", r -> travel(r, Polling.withGaps(r), 2, 0)),
                CoverageCase.band("rest position", "no noise", r -> rest(r, Polling.usual(r), 0, 0)),
                CoverageCase.band(
                        "rest position", "noise 0.5 to 3 q", r -> rest(r, Polling.usual(r), between(r, 0.5, 3), 0)),
                CoverageCase.band("rest position", "noise 8 q", r -> rest(r, Polling.usual(r), 8, 0)),
                CoverageCase.band("rest position", "noise 8 q, ρ = 0.2", r -> rest(r, Polling.usual(r), 8, 0.2)),
                CoverageCase.band("rest position", "noise 8 q, ρ = 0.7", r -> rest(r, Polling.usual(r), 8, 0.7)),
                CoverageCase.band("rest position", GAPS + ", noise 2 q", r -> rest(r, Polling.withGaps(r), 2, 0)),
                CoverageCase.band("drift at standstill", "no noise", r -> drift(r, 0)),
                CoverageCase.band("drift at standstill", "noise 0.5 to 3 q", r -> drift(r, between(r, 0.5, 3))),
                CoverageCase.band(
                        "settling time", "fast entry, no noise", r -> settling(r, Polling.usual(r), 0.02, 0.1, 0)),
                CoverageCase.band(
                        "settling time", "back to back", r -> settling(r, Polling.backToBack(r), 0.02, 0.1, 0)),
                CoverageCase.band(
                        "settling time", "slow tail, no noise", r -> settling(r, Polling.usual(r), 0.3, 1.5, 0)),
                CoverageCase.band(
                        "settling time", "slow tail, noise 0.3 q", r -> settling(r, Polling.usual(r), 0.3, 1.5, 0.3)),
                CoverageCase.band("settling time", GAPS, r -> settling(r, Polling.withGaps(r), 0.02, 0.5, 0)),
                CoverageCase.band("settling time after the profile", "no noise", PositionCases::afterProfile),
                CoverageCase.band("overshoot", "no noise", r -> overshoot(r, Polling.usual(r), 0)),
                CoverageCase.wide("overshoot", "noise 1 q", RAISED, r -> overshoot(r, Polling.usual(r), 1)),
                CoverageCase.wide("overshoot", GAPS, BOUND, r -> overshoot(r, Polling.withGaps(r), 0)),
                CoverageCase.band("stopping time", "no noise", r -> stop(r, Polling.usual(r), true, 0)),
                CoverageCase.band("stopping time", GAPS, r -> stop(r, Polling.withGaps(r), true, 0)),
                CoverageCase.band("stopping distance", "no noise", r -> stop(r, Polling.usual(r), false, 0)),
                CoverageCase.band("stopping distance", "noise 2 q", r -> stop(r, Polling.usual(r), false, 2)),
                CoverageCase.band("stopping distance", GAPS, r -> stop(r, Polling.withGaps(r), false, 0)));
    }

    private static Signal position(DoubleUnaryOperator truth, double noise) {
        return Signal.of(X, Unit.COUNT, 1, truth).noise(noise);
    }

    /** Start, end and an exponential approach between, with the command at 0. */
    private static DoubleUnaryOperator approach(double start, double end, double tau) {
        return t -> t <= 0 ? start : end - (end - start) * StrictMath.exp(-t / tau);
    }

    private static Trial travel(RandomGenerator random, Polling polling, double noise, double related) {
        double start = between(random, 100, 200);
        double end = between(random, 5000, 6000);
        Trace trace = polling.of(
                -11.5 * polling.period(),
                1,
                position(t -> approach(start, end, 0.02).applyAsDouble(t - 0.004), noise)
                        .related(related));
        double[] before =
                trace.between(Double.NEGATIVE_INFINITY, -Double.MIN_VALUE).values(X);
        return new Trial(end - start, Travel.of(trace, X, Scatter.of(before).mean()));
    }

    private static Trial rest(RandomGenerator random, Polling polling, double noise, double related) {
        double end = between(random, 5000, 6000);
        Trace trace = polling.of(0, 1, position(approach(0, end, 0.02), noise).related(related));
        return new Trial(end, Standstill.restPosition(trace, X));
    }

    private static Trial drift(RandomGenerator random, double noise) {
        double start = between(random, 0, 1);
        double speed = between(random, -20, 20);
        Trace trace = Polling.usual(random).of(0, 0.5, position(t -> start + speed * t, noise));
        return new Trial(speed * (trace.time(trace.size() - 1) - trace.time(0)), Standstill.drift(trace, X));
    }

    /** The window is 10 steps, entered at the speed 10 q/τ. */
    private static Trial settling(RandomGenerator random, Polling polling, double tau, double longer, double noise) {
        double end = between(random, 5000, 6000);
        double window = 10;
        double truth = tau * StrictMath.log(end / window);
        Trace trace = polling.of(0, truth + longer, position(approach(0, end, tau), noise));
        return new Trial(truth, Settling.of(trace, X, end, window));
    }

    private static Trial afterProfile(RandomGenerator random) {
        double end = between(random, 5000, 6000);
        double truth = 0.02 * StrictMath.log(end / 10);
        double profile = truth - between(random, 0.02, 0.06);
        Trace trace = Polling.usual(random).of(0, truth + 0.1, position(approach(0, end, 0.02), 0));
        return new Trial(truth - profile, Settling.fromProfileEnd(trace, X, end, 10, profile));
    }

    /** Second order with damping 0.3 … 0.7, 1 … 4 Hz; the overshoot is exp(−πζ/√(1 − ζ²)) (Nise, from memory). */
    private static Trial overshoot(RandomGenerator random, Polling polling, double noise) {
        double end = between(random, 5000, 6000);
        double damping = between(random, 0.3, 0.7);
        double natural = 2 * Math.PI * between(random, 1, 4);
        double root = Math.sqrt(1 - damping * damping);
        Trace trace = polling.of(
                0,
                3,
                position(
                        t -> end
                                * (1
                                        - StrictMath.exp(-damping * natural * t)
                                                * (StrictMath.cos(natural * root * t)
                                                        + damping / root * StrictMath.sin(natural * root * t))),
                        noise));
        return new Trial(end * StrictMath.exp(-Math.PI * damping / root), Overshoot.of(trace, X, 0, end));
    }

    /** Even speed, a reaction of 2 … 20 ms, an even deceleration. The rest position is the end; the window 20 steps. */
    private static Trial stop(RandomGenerator random, Polling polling, boolean time, double noise) {
        double speed = between(random, 2000, 20_000);
        double reaction = between(random, 0.002, 0.020);
        double deceleration = speed / between(random, 0.05, 0.3);
        double phase = random.nextDouble();
        double ramp = speed / deceleration;
        double distance = Stopping.expectedDistance(speed, reaction, deceleration);
        DoubleUnaryOperator truth = t -> {
            double braked = Math.min(ramp, Math.max(0, t - reaction));
            return phase + speed * Math.min(t, reaction) + speed * braked - deceleration * braked * braked / 2;
        };
        Trace trace = polling.of(-0.1, reaction + ramp + 0.5, position(truth, noise));
        if (!time) {
            return new Trial(distance, Stopping.distance(trace, X));
        }
        double window = 20;
        return new Trial(reaction + ramp - Math.sqrt(2 * window / deceleration), Stopping.time(trace, X, window));
    }
}
