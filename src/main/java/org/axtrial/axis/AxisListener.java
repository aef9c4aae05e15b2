package org.axtrial.axis;

import java.util.Optional;

/** Hears what an axis does, for evidence and screens. Called on the thread that works the axis; must not block. */
public interface AxisListener {

    AxisListener NONE = new AxisListener() {};

    /** A sample was taken; values in axis units. */
    default void sampled(String axis, double position, double speed) {}

    /** A safe stop ended, well or not. */
    default void stopped(StopReport report) {}

    /** A parameter is about to be written; what this throws prevents it. */
    default void parameterChanging(ParameterChange change) {}

    /**
     * A parameter was to be put back.
     *
     * @param trouble why it could not be; empty if the drive shows again what was found
     */
    default void parameterPutBack(ParameterChange change, Optional<String> trouble) {}
}
