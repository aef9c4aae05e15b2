package org.axtrial.axis;

/** Hears what an axis does, for evidence and screens. Called on the thread that works the axis; must not block. */
public interface AxisListener {

    AxisListener NONE = new AxisListener() {};

    /** A sample was taken; values in axis units. */
    default void sampled(String axis, double position, double speed) {}

    /** A safe stop ended, well or not. */
    default void stopped(StopReport report) {}
}
