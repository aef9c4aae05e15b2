package org.axtrial.script;

import java.util.List;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.Motion;
import org.axtrial.measure.Acceleration;
import org.axtrial.measure.FollowingError;
import org.axtrial.measure.Friction;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.PositionGain;
import org.axtrial.measure.RippleFrequency;
import org.axtrial.measure.SpeedDrift;
import org.axtrial.measure.SpeedStep;
import org.axtrial.measure.Stopping;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.graalvm.polyglot.Value;

/** The words of a speed hold that look deeper than its mean speed. */
final class HoldWords {

    private static final String STOPPING_USAGE = "stoppingTime({ window: [10, \"count\"] })";

    private static final double NANOSECOND = 1e-9;

    private final MotionObject object;
    private final Motion motion;

    HoldWords(MotionObject object, Motion motion) {
        this.object = object;
        this.motion = motion;
    }

    void offer() {
        onSpeed("acceleration", "acceleration", accelerationUnit(), this::acceleration);
        onSpeed("deceleration", "deceleration", accelerationUnit(), this::deceleration);
        object.measured("stoppingDistance", () -> {
            to("stoppingDistance");
            return ofStop(
                    "stopping distance",
                    positionUnit(),
                    trace -> Stopping.distance(trace, AxisChannels.POSITION),
                    (trace, half) -> Stopping.distanceSeen(trace, AxisChannels.POSITION, half));
        });
        object.word("stoppingTime", (values, place) -> object.measurement(stoppingTime(values)));
        onSpeed(
                "riseTime",
                "rise time of the speed",
                Unit.SECOND,
                trace -> SpeedStep.rise(trace, AxisChannels.SPEED, commandedSpeed(trace)));
        onSpeed(
                "speedOvershoot",
                "overshoot of the speed",
                Unit.PERCENT,
                trace -> SpeedStep.overshoot(trace, AxisChannels.SPEED, commandedSpeed(trace), to("speedOvershoot")));
        onSpeed(
                "speedDrift",
                "speed drift",
                speedUnit(),
                trace -> SpeedDrift.of(trace, AxisChannels.SPEED, from("speedDrift"), to("speedDrift")));
        onSpeed(
                "rippleFrequency",
                "ripple frequency",
                Unit.HERTZ,
                trace -> ripple("rippleFrequency").frequency());
        onSpeed(
                "rippleAmplitude",
                "ripple amplitude",
                speedUnit(),
                trace -> ripple("rippleAmplitude").amplitude());
        onError(
                "steadyFollowingError",
                "steady following error",
                positionUnit(),
                trace -> FollowingError.steady(
                        trace, AxisChannels.FOLLOWING_ERROR, from("steadyFollowingError"), to("steadyFollowingError")));
        onError(
                "positionGain",
                "position gain",
                Unit.PER_SECOND,
                trace -> PositionGain.of(
                        trace,
                        AxisChannels.POSITION,
                        AxisChannels.FOLLOWING_ERROR,
                        from("positionGain"),
                        to("positionGain")));
        friction("frictionTorque", "friction torque", Friction.AtSpeed::friction);
        friction("loadTorque", "load torque", Friction.AtSpeed::load);
    }

    private void onSpeed(String word, String name, Unit unit, Function<Trace, Measurement> measure) {
        on(word, AxisChannels.SPEED, name, unit, measure);
    }

    private void onError(String word, String name, Unit unit, Function<Trace, Measurement> measure) {
        on(word, AxisChannels.FOLLOWING_ERROR, name, unit, measure);
    }

    private void on(String word, String channel, String name, Unit unit, Function<Trace, Measurement> measure) {
        object.measured(word, () -> {
            to(word); // refuses what is no speed hold before anything else is said
            return object.reported(channel, name, unit, () -> measure.apply(motion.trace()));
        });
    }

    private Measurement acceleration(Trace trace) {
        return Acceleration.of(trace, AxisChannels.SPEED, 0, commandedSpeed(trace));
    }

    private Measurement deceleration(Trace trace) {
        return afterStop(stop -> Acceleration.of(stop, AxisChannels.SPEED, commandedSpeed(trace), 0));
    }

    private double commandedSpeed(Trace trace) {
        return motion.scale()
                .convert(
                        motion.commanded().value(),
                        motion.commanded().unit(),
                        trace.channel(AxisChannels.SPEED).unit());
    }

    private Measurement stoppingTime(List<Value> values) {
        to("stoppingTime");
        Arguments arguments = new Arguments("stoppingTime", STOPPING_USAGE, values).count(1, 1);
        Options options = arguments.options(0, "window");
        Quantity window = arguments.motion(
                arguments.positive(
                        arguments.pair(options.required("window", STOPPING_USAGE), "option window"), "option window"),
                Dimension.Motion.POSITION,
                "window",
                motion.scale(),
                positionUnit());
        double half = motion.scale().convert(window.value(), window.unit(), positionUnit());
        return ofStop(
                "stopping time",
                Unit.SECOND,
                trace -> Stopping.time(trace, AxisChannels.POSITION, half),
                (trace, known) -> Stopping.timeSeen(trace, AxisChannels.POSITION, half, known));
    }

    /** A stop that this program ordered because a person did not bring one about says nothing of their device. */
    private Measurement ofStop(
            String name, Unit unit, Function<Trace, Measurement> ordered, BiFunction<Trace, Double, Measurement> seen) {
        if (!motion.operated()) {
            return afterStop(ordered);
        }
        return motion.driveStop()
                .map(stop -> seen.apply(motion.trace().withZeroAt(stop.seconds()), stop.halfWidth())
                        .withMarksFrom(stop.seconds()))
                .orElseGet(() -> Measurement.notReported(
                        name, unit, "the machine did not stop the axis; this program did when the time was over"));
    }

    /**
     * Measures with time zero at the stop; the marks stay on the time axis of the motion. The steady time ends as planned;
     * the stop is ordered right after the reply to the first look that comes after it.
     */
    private Measurement afterStop(Function<Trace, Measurement> measure) {
        Trace trace = motion.trace();
        if (motion.driveStop().isPresent()) {
            double begun = motion.driveStop().get().seconds();
            return measure.apply(motion.trace().withZeroAt(begun)).withMarksFrom(begun);
        }
        double planned = to("stop") - NANOSECOND;
        int i = 0;
        while (i < trace.size() - 1 && trace.time(i) + trace.timeHalfWidth(i) < planned) {
            i++;
        }
        double stop = trace.size() == 0 ? planned : trace.time(i) + trace.timeHalfWidth(i);
        return measure.apply(trace.withZeroAt(stop)).withMarksFrom(stop);
    }

    private RippleFrequency ripple(String word) {
        return RippleFrequency.of(motion.trace(), AxisChannels.SPEED, from(word), to(word));
    }

    /** Friction turns round with the direction and the load does not, so that it takes two motions to part them. */
    private void friction(String word, String name, Function<Friction.AtSpeed, Measurement> part) {
        String usage = word + "(back)";
        object.word(word, (values, place) -> {
            to(word);
            HoldPair pair = HoldPair.of(
                    motion, new Arguments(word, usage, values).count(1, 1).value(0), word, usage);
            return object.measurement(
                    object.reported(AxisChannels.TORQUE, name, Unit.PERCENT, () -> part.apply(pair.friction())));
        });
    }

    private double from(String word) {
        return object.steadyFrom(word);
    }

    private double to(String word) {
        return object.steadyTo(word);
    }

    private Unit positionUnit() {
        return motion.trace().channel(AxisChannels.POSITION).unit();
    }

    private Unit speedUnit() {
        return motion.trace().has(AxisChannels.SPEED)
                ? motion.trace().channel(AxisChannels.SPEED).unit()
                : Unit.ONE;
    }

    private Unit accelerationUnit() {
        return motion.trace().has(AxisChannels.SPEED) ? speedUnit().perSecond() : Unit.ONE;
    }
}
