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
    private static final String ONE_STEP = "readings at rest sit on one step, ± q/2 holds all";
    private static final String STEP_KEPT = "q/√12 stays in although noise averages part of it out";
    private static final String INTERVAL =
            "one rectangular part, the sample interval, outweighs the rest: 2/√12 of it > half of it";

    private PositionCases() {}

    static List<CoverageCase> all() {
        return List.of(
                CoverageCase.wide(
                        "position change", "no noise", "two rectangular parts, ± q holds all", r -> travel(r, 0, 0)),
                CoverageCase.wide(
                        "position change", "noise 0.5 to 3 q", STEP_KEPT, r -> travel(r, between(r, 0.5, 3), 0)),
                CoverageCase.band("position change", "noise 8 q", r -> travel(r, 8, 0)),
                CoverageCase.wide("rest position", "no noise", ONE_STEP, r -> rest(r, 0, 0)),
                CoverageCase.wide("rest position", "noise 0.5 to 3 q", STEP_KEPT, r -> rest(r, between(r, 0.5, 3), 0)),
                CoverageCase.band("rest position", "noise 8 q", r -> rest(r, 8, 0)),
                CoverageCase.tooNarrow(
                        "rest position",
                        "noise 8 q, ρ = 0.7",
                        "fewer than ten samples at rest are taken as independent",
                        r -> rest(r, 8, 0.7)),
                CoverageCase.wide("drift at standstill", "no noise", "± q holds all", r -> drift(r, 0)),
                CoverageCase.wide(
                        "drift at standstill", "noise 0.5 to 3 q", STEP_KEPT, r -> drift(r, between(r, 0.5, 3))),
                CoverageCase.wide(
                        "settling time", "fast entry, no noise", INTERVAL, r -> settling(r, Polling.usual(r), 0.02, 0)),
                CoverageCase.wide(
                        "settling time", "back to back", INTERVAL, r -> settling(r, Polling.backToBack(r), 0.02, 0)),
                CoverageCase.wide(
                        "settling time", "slow tail, no noise", INTERVAL, r -> settling(r, Polling.usual(r), 0.3, 0)),
                CoverageCase.wide(
                        "settling time",
                        "slow tail, noise 0.3 q",
                        INTERVAL,
                        r -> settling(r, Polling.usual(r), 0.3, 0.3)),
                CoverageCase.wide("settling time after the profile", "no noise", INTERVAL, PositionCases::afterProfile),
                CoverageCase.wide(
                        "overshoot",
                        "no noise",
                        "the hidden part is one-sided and counted on both",
                        r -> overshoot(r, 0)),
                CoverageCase.wide(
                        "overshoot",
                        "noise 1 q",
                        "the hidden part is one-sided and counted on both",
                        r -> overshoot(r, 1)),
                CoverageCase.wide("stopping time", "no noise", INTERVAL, r -> stop(r, true, 0)),
                CoverageCase.wide(
                        "stopping distance", "no noise", "hidden curvature is a bound", r -> stop(r, false, 0)),
                CoverageCase.wide(
                        "stopping distance", "noise 2 q", "hidden curvature is a bound", r -> stop(r, false, 2)));
    }

    private static Signal position(DoubleUnaryOperator truth, double noise) {
        return Signal.of(X, Unit.COUNT, 1, truth).noise(noise);
    }

    /** Start, end and an exponential approach between, with the command at 0. */
    private static DoubleUnaryOperator approach(double start, double end, double tau) {
        return t -> t <= 0 ? start : end - (end - start) * StrictMath.exp(-t / tau);
    }

    private static Trial travel(RandomGenerator random, double noise, double related) {
        Polling polling = Polling.usual(random);
        double start = between(random, 100, 200);
        double end = between(random, 5000, 6000);
        Trace trace = polling.of(
                -5 * polling.period(),
                1,
                position(approach(start, end, 0.02), noise).related(related));
        double[] before =
                trace.between(Double.NEGATIVE_INFINITY, -Double.MIN_VALUE).values(X);
        return new Trial(end - start, Travel.of(trace, X, Scatter.of(before).mean()));
    }

    private static Trial rest(RandomGenerator random, double noise, double related) {
        double end = between(random, 5000, 6000);
        Trace trace = Polling.usual(random)
                .of(0, 1, position(approach(0, end, 0.02), noise).related(related));
        return new Trial(end, Standstill.restPosition(trace, X));
    }

    private static Trial drift(RandomGenerator random, double noise) {
        double start = between(random, 0, 1);
        double speed = between(random, -20, 20);
        Trace trace = Polling.usual(random).of(0, 0.5, position(t -> start + speed * t, noise));
        return new Trial(speed * (trace.time(trace.size() - 1) - trace.time(0)), Standstill.drift(trace, X));
    }

    /** The window is 10 steps, entered at the speed 10 q/τ. */
    private static Trial settling(RandomGenerator random, Polling polling, double tau, double noise) {
        double end = between(random, 5000, 6000);
        double window = 10;
        double truth = tau * StrictMath.log(end / window);
        Trace trace = polling.of(0, truth + 5 * tau, position(approach(0, end, tau), noise));
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
    private static Trial overshoot(RandomGenerator random, double noise) {
        double end = between(random, 5000, 6000);
        double damping = between(random, 0.3, 0.7);
        double natural = 2 * Math.PI * between(random, 1, 4);
        double root = Math.sqrt(1 - damping * damping);
        Trace trace = Polling.usual(random)
                .of(
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
    private static Trial stop(RandomGenerator random, boolean time, double noise) {
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
        Trace trace = Polling.usual(random).of(-0.1, reaction + ramp + 0.5, position(truth, noise));
        if (!time) {
            return new Trial(distance, Stopping.distance(trace, X));
        }
        double window = 20;
        return new Trial(reaction + ramp - Math.sqrt(2 * window / deceleration), Stopping.time(trace, X, window));
    }
}
