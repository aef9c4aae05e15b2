package org.axtrial.measure;

import static org.axtrial.measure.Polling.between;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import org.axtrial.measure.CoverageCase.Trial;
import org.axtrial.measure.Polling.Signal;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;

/** Speeds, torques and following errors with known truth. Steps of the signals are 1. */
final class SignalCases {

    private static final String X = "position";
    private static final String V = "speed";
    private static final String E = "followingError";
    private static final String M = "torque";
    private static final String GAPS = PositionCases.GAPS;
    private static final String BOUND = PositionCases.BOUND;
    private static final String WAVE = "what a gap hides of a wave is taken as if it were of all phases at once";

    private SignalCases() {}

    static List<CoverageCase> all() {
        return Stream.of(speeds(), ripples(), ramps(), torques())
                .flatMap(List::stream)
                .toList();
    }

    private static List<CoverageCase> speeds() {
        return List.of(
                CoverageCase.band(
                        "mean speed", "slow, counting decides", r -> meanSpeed(r, Polling.usual(r), between(r, 5, 50))),
                CoverageCase.band(
                        "mean speed",
                        "fast, instants decide",
                        r -> meanSpeed(r, Polling.usual(r), between(r, 20_000, 90_000))),
                CoverageCase.band(
                        "mean speed", GAPS, r -> meanSpeed(r, Polling.withGaps(r), between(r, 20_000, 90_000))),
                CoverageCase.band("reported speed", "no noise", r -> reported(r, 0, 0)),
                CoverageCase.band("reported speed", "noise 0.5 to 3 q", r -> reported(r, between(r, 0.5, 3), 0)),
                CoverageCase.band("reported speed", "noise 8 q", r -> reported(r, 8, 0)),
                CoverageCase.band("reported speed", "noise 8 q, ρ = 0.7", r -> reported(r, 8, 0.7)),
                CoverageCase.band("reported speed", "noise 8 q, ρ = 0.2", r -> reported(r, 8, 0.2)),
                CoverageCase.band("reported speed", "wave of 2 to 8 Hz", r -> wave(r, Polling.usual(r))),
                CoverageCase.wide("reported speed", "wave, " + GAPS, WAVE, r -> wave(r, Polling.withGaps(r))),
                CoverageCase.band("steady following error", "noise 30 q, ρ = 0.5", r -> steadyError(r, 30, 0.5)),
                CoverageCase.band("position gain Kv", "noise 30 q in the error", SignalCases::gain),
                CoverageCase.band("speed drift", "no noise", r -> speedDrift(r, 0, 0)),
                CoverageCase.band("speed drift", "noise 2 q", r -> speedDrift(r, 2, 0)),
                CoverageCase.band("speed drift", "noise 10 q, ρ = 0.5", r -> speedDrift(r, 10, 0.5)));
    }

    private static List<CoverageCase> ripples() {
        return List.of(
                CoverageCase.wide(
                        "speed ripple",
                        "sine of 2 to 8 Hz, no noise",
                        BOUND,
                        r -> rippleSize(r, Polling.usual(r), true)),
                CoverageCase.wide("speed ripple", GAPS, BOUND, r -> rippleSize(r, Polling.withGaps(r), true)),
                CoverageCase.band("speed ripple RMS", "noise 8 q", SignalCases::noisySpeed),
                CoverageCase.band(
                        "speed ripple RMS", "sine of 2 to 8 Hz, no noise", r -> rippleSize(r, Polling.usual(r), false)),
                CoverageCase.band("speed ripple RMS", GAPS, r -> rippleSize(r, Polling.withGaps(r), false)),
                CoverageCase.band("ripple frequency", "noise 2 q, amplitude 10 q", r -> ripple(r, true)),
                CoverageCase.band("ripple amplitude", "noise 2 q, amplitude 10 q", r -> ripple(r, false)));
    }

    private static List<CoverageCase> ramps() {
        return List.of(
                CoverageCase.band("acceleration", "no noise", r -> acceleration(r, true, 0)),
                CoverageCase.band("acceleration", "noise 10 q", r -> acceleration(r, true, 10)),
                CoverageCase.band("deceleration", "noise 10 q", r -> acceleration(r, false, 10)),
                CoverageCase.wide(
                        "rise time of the speed",
                        "no noise",
                        "a speed at rest may have begun to rise anywhere between two samples",
                        r -> step(r, true)),
                CoverageCase.band("overshoot of the speed", "no noise", r -> step(r, false)));
    }

    private static List<CoverageCase> torques() {
        return List.of(
                CoverageCase.band(
                        "peak following error", "smooth peak, no noise", r -> peak(r, Polling.usual(r), false)),
                CoverageCase.band("peak torque", "smooth peak, no noise", r -> peak(r, Polling.usual(r), true)),
                CoverageCase.band("peak torque", GAPS, r -> peak(r, Polling.withGaps(r), true)),
                CoverageCase.band("RMS torque", "steps of torque", r -> rms(r, Polling.usual(r), 0)),
                CoverageCase.band("RMS torque", "steps of torque, noise 2 q", r -> rms(r, Polling.usual(r), 2)),
                CoverageCase.wide("RMS torque", GAPS, BOUND, r -> rms(r, Polling.withGaps(r), 0)),
                CoverageCase.band("friction torque", "noise 5 q, ρ = 0.5", r -> friction(r, 0.5, true)),
                CoverageCase.band("load torque", "noise 5 q, ρ = 0.5", r -> friction(r, 0.5, false)),
                CoverageCase.band("Coulomb friction", "four speeds", r -> fit(r, true)),
                CoverageCase.band("viscous friction", "four speeds", r -> fit(r, false)));
    }

    private static Signal signal(String name, Unit unit, DoubleUnaryOperator truth) {
        return Signal.of(name, unit, 1, truth);
    }

    private static Trial meanSpeed(RandomGenerator random, Polling polling, double speed) {
        double start = between(random, 0, 10);
        Trace trace = polling.of(0, 1, signal(X, Unit.COUNT, t -> start + speed * t));
        return new Trial(speed, MeanSpeed.of(trace, X, 0.2, 0.9));
    }

    private static Trial reported(RandomGenerator random, double noise, double related) {
        double speed = between(random, 900, 1000);
        Trace trace = Polling.usual(random)
                .of(
                        0,
                        1,
                        signal(V, Unit.REVOLUTION_PER_MINUTE, t -> speed)
                                .noise(noise)
                                .related(related));
        return new Trial(speed, ReportedSpeed.of(trace, V, 0.2, 0.9));
    }

    private static Trial steadyError(RandomGenerator random, double noise, double related) {
        double lag = between(random, 900, 1000);
        Trace trace = Polling.usual(random)
                .of(0, 1, signal(E, Unit.COUNT, t -> lag).noise(noise).related(related));
        return new Trial(lag, FollowingError.steady(trace, E, 0.2, 0.9));
    }

    private static Trial gain(RandomGenerator random) {
        double speed = between(random, 10_000, 30_000);
        double gain = between(random, 10, 50);
        Trace trace = Polling.usual(random)
                .of(
                        0,
                        1,
                        signal(X, Unit.COUNT, t -> speed * t),
                        signal(E, Unit.COUNT, t -> speed / gain).noise(30));
        return new Trial(gain, PositionGain.of(trace, X, E, 0.2, 0.9));
    }

    private static Trial speedDrift(RandomGenerator random, double noise, double related) {
        double start = between(random, 900, 1000);
        double slope = between(random, -20, 20);
        Trace trace = Polling.usual(random)
                .of(
                        0,
                        2,
                        signal(V, Unit.REVOLUTION_PER_MINUTE, t -> start + slope * t)
                                .noise(noise)
                                .related(related))
                .between(0.2, 1.9);
        return new Trial(slope * (trace.time(trace.size() - 1) - trace.time(0)), SpeedDrift.of(trace, V, 0.1, 2));
    }

    private static Trial acceleration(RandomGenerator random, boolean up, double noise) {
        double speed = between(random, 800, 1500);
        double duration = between(random, 0.15, 0.4);
        double delay = between(random, 0, 0.02);
        Trace trace = Polling.usual(random)
                .of(
                        0,
                        0.6,
                        signal(V, Unit.REVOLUTION_PER_MINUTE, t -> {
                                    double share = Math.max(0, Math.min(1, (t - delay) / duration));
                                    return speed * (up ? share : 1 - share);
                                })
                                .noise(noise));
        Measurement measured = Acceleration.of(trace, V, up ? 0 : speed, up ? speed : 0);
        double factor = measured.unit() == Unit.REVOLUTION_PER_MINUTE_PER_SECOND ? 1 : 1.0 / 60;
        return new Trial(speed / duration * factor, measured);
    }

    /** A bell of 0.1 to 0.3 s; in curvature it is like the ends of a ramp rounded by jerk. */
    private static Trial peak(RandomGenerator random, Polling polling, boolean torque) {
        double height = between(random, 300, 900);
        double centre = between(random, 0.4, 0.6);
        double width = between(random, 0.03, 0.1);
        DoubleUnaryOperator bell = t -> height * StrictMath.exp(-(t - centre) * (t - centre) / (2 * width * width));
        return torque
                ? new Trial(height, Torque.peak(polling.of(0, 1, signal(M, Unit.PER_MILLE, bell)), M))
                : new Trial(height, FollowingError.peak(polling.of(0, 1, signal(E, Unit.COUNT, bell)), E));
    }

    /** Acceleration, even speed, deceleration and a pause; the truth is that between the first and the last sample. */
    private static Trial rms(RandomGenerator random, Polling polling, double noise) {
        double[] ends = {between(random, 0.1, 0.2), between(random, 0.4, 0.6), between(random, 0.7, 0.8)};
        double[] torques = {between(random, 400, 900), between(random, 50, 200), between(random, -700, -200), 0};
        DoubleUnaryOperator torque = t -> torques[t < ends[0] ? 0 : t < ends[1] ? 1 : t < ends[2] ? 2 : 3];
        Trace trace = polling.of(0, 1, signal(M, Unit.PER_MILLE, torque).noise(noise));
        double first = trace.between(0, 2).time(0);
        double last = trace.time(trace.size() - 1);
        double squares = torques[0] * torques[0] * (ends[0] - first)
                + torques[1] * torques[1] * (ends[1] - ends[0])
                + torques[2] * torques[2] * (ends[2] - ends[1]);
        return new Trial(Math.sqrt(squares / (last - first)), Torque.rms(trace, M));
    }

    private static Trial ripple(RandomGenerator random, boolean frequency) {
        double speed = between(random, 900, 1000);
        double f = between(random, 3, 15);
        double phase = between(random, 0, 2 * Math.PI);
        Trace trace = Polling.usual(random)
                .of(
                        0,
                        1,
                        signal(
                                        V,
                                        Unit.REVOLUTION_PER_MINUTE,
                                        t -> speed + 10 * StrictMath.sin(2 * Math.PI * f * t + phase))
                                .noise(2));
        RippleFrequency found = RippleFrequency.of(trace, V, 0.1, 0.9);
        return frequency ? new Trial(f, found.frequency()) : new Trial(10, found.amplitude());
    }

    private static Friction.AtSpeed frictionAt(
            RandomGenerator random, double speed, double friction, double load, double related) {
        Polling polling = Polling.usual(random);
        Friction.Channels channels = new Friction.Channels(X, V, M);
        Trace up = polling.of(
                0,
                1,
                signal(X, Unit.COUNT, t -> speed * t),
                signal(V, Unit.COUNT_PER_SECOND, t -> speed),
                signal(M, Unit.PER_MILLE, t -> load + friction).noise(5).related(related));
        Trace down = polling.of(
                0,
                1,
                signal(X, Unit.COUNT, t -> speed * (1 - t)),
                signal(V, Unit.COUNT_PER_SECOND, t -> -speed),
                signal(M, Unit.PER_MILLE, t -> load - friction).noise(5).related(related));
        return Friction.at(up, down, channels, 0.1 * speed, 0.9 * speed);
    }

    private static Trial friction(RandomGenerator random, double related, boolean friction) {
        double size = between(random, 50, 100);
        double load = between(random, -100, 100);
        Friction.AtSpeed at = frictionAt(random, between(random, 5000, 9000), size, load, related);
        return friction ? new Trial(size, at.friction()) : new Trial(load, at.load());
    }

    private static Trial fit(RandomGenerator random, boolean coulomb) {
        double dry = between(random, 50, 100);
        double atHighest = between(random, 20, 60);
        List<Friction.AtSpeed> points = new ArrayList<>();
        for (double speed : new double[] {2000, 4000, 6000, 8000}) {
            points.add(frictionAt(random, speed, dry + atHighest * speed / 8000, 10, 0));
        }
        Friction.Fit fit = Friction.fit(points);
        return coulomb ? new Trial(dry, fit.coulomb()) : new Trial(atHighest, fit.viscous());
    }

    /** A wave on an even speed; the truth is that of whole waves. */
    private static Trial rippleSize(RandomGenerator random, Polling polling, boolean peakToPeak) {
        double speed = between(random, 900, 1000);
        double amplitude = between(random, 30, 60);
        double f = between(random, 2, 8);
        double phase = between(random, 0, 2 * Math.PI);
        Trace trace = polling.of(
                0,
                1.3,
                signal(
                        V,
                        Unit.REVOLUTION_PER_MINUTE,
                        t -> speed + amplitude * StrictMath.sin(2 * Math.PI * f * t + phase)));
        return peakToPeak
                ? new Trial(200 * amplitude / speed, SpeedRipple.of(trace, V, 0.2, 1.2))
                : new Trial(100 * amplitude / Math.sqrt(2) / speed, SpeedRipple.rms(trace, V, 0.2, 1.2));
    }

    /** Noise of the speed itself is its ripple; steps of the reading are not. */
    private static Trial noisySpeed(RandomGenerator random) {
        double speed = between(random, 900, 1000);
        Trace trace = Polling.usual(random)
                .of(0, 1, signal(V, Unit.REVOLUTION_PER_MINUTE, t -> speed).noise(8));
        return new Trial(100 * 8 / speed, SpeedRipple.rms(trace, V, 0.2, 0.9));
    }

    /** The answer of a second order to a step: overshoot exp(−πζ/√(1 − ζ²)) (Nise, from memory), rise by looking for it. */
    private static Trial step(RandomGenerator random, boolean rise) {
        double ordered = between(random, 800, 1500);
        double damping = between(random, 0.3, 0.6);
        double natural = 2 * Math.PI * between(random, 1, 3);
        double root = Math.sqrt(1 - damping * damping);
        DoubleUnaryOperator answer = t -> t <= 0
                ? 0
                : 1
                        - StrictMath.exp(-damping * natural * t)
                                * (StrictMath.cos(natural * root * t)
                                        + damping / root * StrictMath.sin(natural * root * t));
        Trace trace = Polling.usual(random)
                .of(0, 3, signal(V, Unit.REVOLUTION_PER_MINUTE, t -> ordered * answer.applyAsDouble(t)));
        return rise
                ? new Trial(firstAt(answer, 0.9) - firstAt(answer, 0.1), SpeedStep.rise(trace, V, ordered))
                : new Trial(100 * StrictMath.exp(-Math.PI * damping / root), SpeedStep.overshoot(trace, V, ordered, 3));
    }

    /** First moment at which a function that grows to beyond 1 has a value below 1. */
    private static double firstAt(DoubleUnaryOperator function, double value) {
        double low = 0;
        while (function.applyAsDouble(low + 1e-3) < value) {
            low += 1e-3;
        }
        double high = low + 1e-3;
        for (int i = 0; i < 40; i++) {
            double middle = (low + high) / 2;
            if (function.applyAsDouble(middle) < value) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** A wave on an even speed: the truth is that speed, whatever part of the wave the window holds. */
    private static Trial wave(RandomGenerator random, Polling polling) {
        double speed = between(random, 900, 1000);
        double f = between(random, 2, 8);
        double phase = between(random, 0, 2 * Math.PI);
        Trace trace = polling.of(
                0,
                1.3,
                signal(V, Unit.REVOLUTION_PER_MINUTE, t -> speed + 20 * StrictMath.sin(2 * Math.PI * f * t + phase)));
        return new Trial(speed, ReportedSpeed.of(trace, V, 0.2, 1.2));
    }
}
