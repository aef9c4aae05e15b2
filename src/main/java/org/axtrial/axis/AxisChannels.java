package org.axtrial.axis;

/** Names of the columns of an axis trace. Values carry the sign of the axis. */
public final class AxisChannels {

    /** Actual position on the zero of the axis, unwrapped, in the axis unit. */
    public static final String POSITION = "position";
    /** Demand position on the same zero; only if the drive reports it. */
    public static final String DEMAND = "demand";
    /** Actual speed, axis unit per second. */
    public static final String SPEED = "speed";
    /** Torque in percent of rated. */
    public static final String TORQUE = "torque";
    /** Demand minus actual, axis unit; only if the drive reports it. */
    public static final String FOLLOWING_ERROR = "followingError";
    /** The position register as read, count, without sign and unwrapping: the raw evidence. */
    public static final String COUNTS = "counts";
    /** The status word as read. */
    public static final String STATUS = "status";

    private AxisChannels() {}
}
