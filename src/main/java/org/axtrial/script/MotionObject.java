package org.axtrial.script;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.Motion;
import org.axtrial.axis.Motion.Kind;
import org.axtrial.measure.FollowingError;
import org.axtrial.measure.MeanSpeed;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.NewZero;
import org.axtrial.measure.Overshoot;
import org.axtrial.measure.ReportedSpeed;
import org.axtrial.measure.Settling;
import org.axtrial.measure.SpeedRipple;
import org.axtrial.measure.Standstill;
import org.axtrial.measure.Stopping;
import org.axtrial.measure.Torque;
import org.axtrial.measure.Travel;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** A motion that was made, as a script holds it: the things that can be measured on its trace. */
final class MotionObject extends WordObject {

    private static final String SETTLING_USAGE = "settling({ window: [10, \"count\"], from: \"command\" })";

    private final Motion motion;
    private final String traceName;

    MotionObject(WordHost host, Motion motion, String traceName) {
        super(host, "the result of " + wordOf(motion.kind()));
        this.motion = motion;
        this.traceName = traceName;
        measured("travel", () -> Travel.of(motion.trace(), AxisChannels.POSITION, motion.startPosition()));
        word("settling", (values, place) -> measurement(settling(values)));
        measured("overshoot", () -> {
            requireMove("overshoot");
            return Overshoot.of(motion.trace(), AxisChannels.POSITION, motion.startPosition(), target());
        });
        measured(
                "meanSpeed",
                () -> MeanSpeed.of(
                        motion.trace(), AxisChannels.POSITION, steadyFrom("meanSpeed"), steadyTo("meanSpeed")));
        measured(
                "speedRipple",
                () -> reported(
                        AxisChannels.SPEED,
                        "speed ripple",
                        Unit.PERCENT,
                        () -> SpeedRipple.of(
                                motion.trace(),
                                AxisChannels.SPEED,
                                steadyFrom("speedRipple"),
                                steadyTo("speedRipple"))));
        measured(
                "reportedSpeed",
                () -> reported(
                        AxisChannels.SPEED,
                        "reported speed",
                        motion.commanded().unit(),
                        () -> ReportedSpeed.of(
                                motion.trace(),
                                AxisChannels.SPEED,
                                steadyFrom("reportedSpeed"),
                                steadyTo("reportedSpeed"))));
        measured(
                "peakFollowingError",
                () -> reported(
                        AxisChannels.FOLLOWING_ERROR,
                        "peak following error",
                        motion.trace().channel(AxisChannels.POSITION).unit(),
                        () -> FollowingError.peak(motion.trace(), AxisChannels.FOLLOWING_ERROR)));
        measured(
                "peakTorque",
                () -> reported(
                        AxisChannels.TORQUE,
                        "peak torque",
                        Unit.PERCENT,
                        () -> Torque.peak(motion.trace(), AxisChannels.TORQUE)));
        measured(
                "rmsTorque",
                () -> reported(
                        AxisChannels.TORQUE,
                        "RMS torque",
                        Unit.PERCENT,
                        () -> Torque.rms(motion.trace(), AxisChannels.TORQUE)));
        measured("restPosition", () -> {
            if (motion.kind() == Kind.HOLD_SPEED) {
                throw new ScriptMistake("restPosition() needs an axis that was let come to rest, which holdSpeed does"
                        + " not do; use it on the result of moveBy, moveTo or dwell");
            }
            return Standstill.restPosition(motion.trace(), AxisChannels.POSITION);
        });
        measured("newZero", () -> {
            if (motion.kind() != Kind.HOME) {
                throw new ScriptMistake("newZero() needs a homing; use it on the result of axis.home(…)");
            }
            Unit unit = motion.trace().channel(AxisChannels.POSITION).unit();
            if (motion.newZeroBy().isEmpty()) {
                return Measurement.notReported(
                        "change of the zero",
                        unit,
                        "the drive description declares no internalPosition (object 6063h), without which nobody can tell"
                                + " a new zero from a motion");
            }
            return NewZero.of(
                    motion.newZeroBy().getAsDouble(),
                    motion.trace().channel(AxisChannels.POSITION).quantum(),
                    unit);
        });
        measured("drift", () -> {
            if (motion.kind() != Kind.DWELL) {
                throw new ScriptMistake("drift() needs a standing axis; use it on the result of axis.dwell(…)");
            }
            return Standstill.drift(motion.trace(), AxisChannels.POSITION);
        });
        word("stoppedBy", (values, place) -> {
            new Arguments("stoppedBy", "stoppedBy()", values).count(0, 0);
            requireOperated("stoppedBy");
            return motion.driveStop().isPresent() ? "machine" : "program";
        });
        measured("stoppedAfter", () -> {
            requireOperated("stoppedAfter");
            return motion.driveStop()
                    .map(stop -> Stopping.begun(motion.trace(), stop.seconds(), stop.halfWidth()))
                    .orElseGet(() -> Stopping.notBegun(motion.trace(), ranFor()));
        });
        new HoldWords(this, motion).offer();
    }

    Motion motion() {
        return motion;
    }

    /** The word that ordered such a motion. */
    static String wordOf(Kind kind) {
        return switch (kind) {
            case MOVE_BY -> "moveBy";
            case MOVE_TO -> "moveTo";
            case HOLD_SPEED -> "holdSpeed";
            case DWELL -> "dwell";
            case HOME -> "home";
            case MOVE_UNTIL_STOPPED -> "moveUntilStopped";
        };
    }

    void measured(String name, Supplier<Measurement> measure) {
        word(name, (values, place) -> {
            new Arguments(name, name + "()", values).count(0, 0);
            return measurement(measure.get());
        });
    }

    MeasurementObject measurement(Measurement measurement) {
        return new MeasurementObject(host(), measurement, Optional.of(traceName), motion.scale());
    }

    /** A drive need not report every signal; then there is nothing to measure on, which is not the script's mistake. */
    Measurement reported(String channel, String name, Unit unit, Supplier<Measurement> measure) {
        if (motion.trace().has(channel)) {
            return measure.get();
        }
        return Measurement.notReported(
                name, unit, "the drive of axis " + motion.axis() + " does not report " + channel);
    }

    private Measurement settling(List<org.graalvm.polyglot.Value> values) {
        requireMove("settling");
        Arguments arguments = new Arguments("settling", SETTLING_USAGE, values).count(0, 1);
        Options options = arguments.options(0, "window", "from");
        Quantity window = arguments.motion(
                arguments.positive(
                        arguments.pair(options.required("window", SETTLING_USAGE), "option window"), "option window"),
                Dimension.Motion.POSITION,
                "window",
                motion.scale(),
                positionUnit());
        String from = options.text("from").orElse("command");
        if (!from.equals("command") && !from.equals("profile end")) {
            throw new ScriptMistake("settling: option from is \"" + from + "\"; it is \"command\" or \"profile end\"");
        }
        double halfWidth = motion.scale().convert(window.value(), window.unit(), positionUnit());
        return from.equals("command")
                ? Settling.of(motion.trace(), AxisChannels.POSITION, target(), halfWidth)
                : Settling.fromProfileEnd(motion.trace(), AxisChannels.POSITION, target(), halfWidth, profileEnd());
    }

    private double profileEnd() {
        return motion.expectedDuration()
                .orElseThrow(() -> new ScriptMistake(
                        "settling: the end of the profile of this motion is not known; use" + " from: \"command\""));
    }

    private void requireOperated(String word) {
        if (!motion.operated()) {
            throw new ScriptMistake(word + "() needs a motion in which a person may stop the axis; give it the option"
                    + " operate: \"Press the emergency stop now\"");
        }
    }

    /** Seconds from the order to the stop of this program, or for which the axis was watched. */
    private double ranFor() {
        return motion.steadyTo().orElseGet(() -> motion.commanded().in(Unit.SECOND));
    }

    private void requireMove(String word) {
        if (motion.kind() != Kind.MOVE_BY && motion.kind() != Kind.MOVE_TO) {
            throw new ScriptMistake(word + "() needs a target position, which " + wordOf(motion.kind())
                    + " does not have; use it on the result of moveBy or moveTo");
        }
    }

    private double target() {
        double commanded = motion.scale()
                .convert(motion.commanded().value(), motion.commanded().unit(), positionUnit());
        return motion.kind() == Kind.MOVE_BY ? motion.startPosition() + commanded : commanded;
    }

    private Unit positionUnit() {
        return motion.trace().channel(AxisChannels.POSITION).unit();
    }

    double steadyFrom(String word) {
        return motion.steadyFrom().orElseThrow(() -> needsHold(word));
    }

    double steadyTo(String word) {
        return motion.steadyTo().orElseThrow(() -> needsHold(word));
    }

    private ScriptMistake needsHold(String word) {
        return new ScriptMistake(word + "() needs a time of steady speed, which " + wordOf(motion.kind())
                + " does not have; use it on the result of axis.holdSpeed(…)");
    }

    @Override
    String printed() {
        return wordOf(motion.kind()) + " " + motion.commanded().printed();
    }

    @Override
    String asNumber() {
        return "measure on it, for example .travel().value(\"mm\")";
    }
}
