package org.axtrial.quantity;

/** What a {@link Unit} measures. Units convert into each other only inside one dimension. */
public enum Dimension {
    ANGLE,
    LENGTH,
    COUNT,
    ANGULAR_SPEED,
    LINEAR_SPEED,
    COUNT_RATE,
    ANGULAR_ACCELERATION,
    LINEAR_ACCELERATION,
    COUNT_ACCELERATION,
    ANGULAR_JERK,
    LINEAR_JERK,
    COUNT_JERK,
    TIME,
    TORQUE,
    RATIO,
    TEMPERATURE,
    INERTIA,
    MASS,
    FORCE,
    LINEAR_STIFFNESS,
    LINEAR_DAMPING,
    ROTARY_DAMPING,
    ROTARY_STIFFNESS,
    /** Cycles per time. */
    FREQUENCY,
    /** Anything per time that is not a cycle, such as the gain of a position loop. */
    RATE,
    VOLTAGE,
    CURRENT,
    NUMBER;

    /** The kind of motion quantity, regardless of whether it is told as angle, length or count. */
    public Motion motion() {
        return switch (this) {
            case ANGLE, LENGTH, COUNT -> Motion.POSITION;
            case ANGULAR_SPEED, LINEAR_SPEED, COUNT_RATE -> Motion.SPEED;
            case ANGULAR_ACCELERATION, LINEAR_ACCELERATION, COUNT_ACCELERATION -> Motion.ACCELERATION;
            default -> Motion.NONE;
        };
    }

    /** Motion quantities that an {@link AxisScale} can carry from one dimension into another. */
    public enum Motion {
        POSITION,
        SPEED,
        ACCELERATION,
        NONE
    }
}
