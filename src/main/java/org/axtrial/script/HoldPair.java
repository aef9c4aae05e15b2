package org.axtrial.script;

import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.Motion;
import org.axtrial.measure.Friction;
import org.axtrial.trace.Trace;
import org.graalvm.polyglot.Value;

/**
 * Two speed holds of an axis at the same speed in opposite directions: friction turns round with the direction and the load does
 * not, so that it takes both to part them.
 */
record HoldPair(Motion one, Motion other) {

    private static final Friction.Channels CHANNELS =
            new Friction.Channels(AxisChannels.POSITION, AxisChannels.SPEED, AxisChannels.TORQUE);

    private static final double SAME = 1e-6;

    /** What a script says are two holds. */
    static HoldPair of(Value one, Value other, String word, String usage) {
        return of(hold(one, "option out", "a holdSpeed", word, usage), other, word, usage);
    }

    /**
     * A speed hold and what a script says is the other.
     *
     * @throws ScriptMistake if that is none, or not in the other direction at the same speed
     */
    static HoldPair of(Motion motion, Value value, String word, String usage) {
        Motion other = hold(value, "the argument", "a holdSpeed in the other direction", word, usage);
        HoldPair pair = new HoldPair(motion, other);
        double here = motion.commanded().value();
        if (Math.abs(here + pair.told(other)) > SAME * Math.abs(here)) {
            throw new ScriptMistake(word + ": the two speeds must be the same in opposite directions, but are "
                    + motion.commanded().printed() + " and "
                    + other.commanded().printed());
        }
        return pair;
    }

    private static Motion hold(Value value, String what, String wanted, String word, String usage) {
        if (value.isProxyObject()
                && value.asProxyObject() instanceof MotionObject object
                && object.motion().kind() == Motion.Kind.HOLD_SPEED) {
            return object.motion();
        }
        throw new ScriptMistake(word + ": " + what + " must be the result of " + wanted + ", but is "
                + Arguments.shown(value) + "; write " + usage);
    }

    /** Speed of a hold in the unit of the first. */
    private double told(Motion hold) {
        return one.scale()
                .convert(
                        hold.commanded().value(),
                        hold.commanded().unit(),
                        one.commanded().unit());
    }

    boolean isAsFastAs(HoldPair another) {
        double here = Math.abs(one.commanded().value());
        return Math.abs(Math.abs(told(another.one)) - here) <= SAME * here;
    }

    /** Whether the drive reported a signal in both. */
    boolean reports(String channel) {
        return one.trace().has(channel) && other.trace().has(channel);
    }

    /** Both torques over the positions that both passed at speed; an empty range makes one in which no sample lies. */
    Friction.AtSpeed friction() {
        boolean forwards = one.commanded().value() > 0;
        double low = Math.max(extreme(one, -1), extreme(other, -1));
        double high = Math.min(extreme(one, 1), extreme(other, 1));
        return Friction.at(
                steady(forwards ? one : other),
                steady(forwards ? other : one),
                CHANNELS,
                low,
                high > low ? high : Math.nextUp(low));
    }

    private static Trace steady(Motion hold) {
        return hold.trace()
                .between(hold.steadyFrom().orElseThrow(), hold.steadyTo().orElseThrow());
    }

    private static double extreme(Motion hold, int side) {
        double[] positions = steady(hold).values(AxisChannels.POSITION);
        double most = Double.NEGATIVE_INFINITY;
        for (double position : positions) {
            most = Math.max(most, side * position);
        }
        return side * most;
    }
}
