package org.axtrial.site;

import static org.axtrial.quantity.Dimension.ANGLE;
import static org.axtrial.quantity.Dimension.ANGULAR_ACCELERATION;
import static org.axtrial.quantity.Dimension.ANGULAR_JERK;
import static org.axtrial.quantity.Dimension.ANGULAR_SPEED;
import static org.axtrial.quantity.Dimension.COUNT;
import static org.axtrial.quantity.Dimension.COUNT_ACCELERATION;
import static org.axtrial.quantity.Dimension.COUNT_JERK;
import static org.axtrial.quantity.Dimension.COUNT_RATE;
import static org.axtrial.quantity.Dimension.LENGTH;
import static org.axtrial.quantity.Dimension.LINEAR_ACCELERATION;
import static org.axtrial.quantity.Dimension.LINEAR_JERK;
import static org.axtrial.quantity.Dimension.LINEAR_SPEED;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;

/** What a quantity in a file is meant to be, and the dimensions in which it can be told. */
enum Sense {
    POSITION("a position or distance", "10 mm", ANGLE, LENGTH, COUNT),
    SPEED("a speed", "100 mm/s", ANGULAR_SPEED, LINEAR_SPEED, COUNT_RATE),
    ACCELERATION("an acceleration", "500 mm/s2", ANGULAR_ACCELERATION, LINEAR_ACCELERATION, COUNT_ACCELERATION),
    JERK("a jerk", "5000 mm/s3", ANGULAR_JERK, LINEAR_JERK, COUNT_JERK),
    TRAVEL_LENGTH("a length", "10 mm", LENGTH),
    SHAFT_SPEED("a speed of the motor shaft", "3000 rpm", ANGULAR_SPEED),
    START_COUNTS("a number of counts", "1000 count", COUNT),
    TIME("a time", "20 ms", Dimension.TIME),
    TORQUE("a torque", "2.4 Nm", Dimension.TORQUE),
    RATIO("a ratio", "80 %", Dimension.RATIO),
    INERTIA("an inertia", "3.2 kgcm2", Dimension.INERTIA),
    MASS("a mass", "40 kg", Dimension.MASS),
    FORCE("a force", "-196 N", Dimension.FORCE),
    VISCOUS_FRICTION("a viscous friction", "0.001 Nms/rad", Dimension.ROTARY_DAMPING),
    BEAM_STIFFNESS("a stiffness", "2000 N/mm", Dimension.LINEAR_STIFFNESS, Dimension.ROTARY_STIFFNESS),
    BEAM_DAMPING("a damping", "4 Ns/mm", Dimension.LINEAR_DAMPING, Dimension.ROTARY_DAMPING),
    PULL("a force or torque", "-147 N", Dimension.FORCE, Dimension.TORQUE),
    SPEED_GAIN("a gain of the speed loop", "0.3 Nms/rad", Dimension.ROTARY_DAMPING),
    STIFFNESS("a stiffness", "430 Nm/rad", Dimension.ROTARY_STIFFNESS),
    FREQUENCY("a bandwidth", "80 Hz", Dimension.FREQUENCY),
    GAIN("a gain", "80 1/s", Dimension.RATE),
    LIMIT("a limit", "60 ms", Dimension.values()),
    INSTRUMENT_READING(
            "what an instrument reads",
            "0.001 mm",
            ANGLE,
            LENGTH,
            ANGULAR_SPEED,
            LINEAR_SPEED,
            Dimension.TIME,
            Dimension.TORQUE,
            Dimension.FORCE,
            Dimension.MASS,
            Dimension.TEMPERATURE,
            Dimension.FREQUENCY,
            Dimension.VOLTAGE,
            Dimension.CURRENT);

    private static final Set<Dimension> LINEAR = Set.of(LENGTH, LINEAR_SPEED, LINEAR_ACCELERATION, LINEAR_JERK);

    private final String noun;
    private final String example;

    @SuppressWarnings("ImmutableEnumChecker") // made by List.of
    private final List<Dimension> dimensions;

    Sense(String noun, String example, Dimension... dimensions) {
        this.noun = noun;
        this.example = example;
        this.dimensions = List.of(dimensions);
    }

    String noun() {
        return noun;
    }

    /** Text that would be understood. */
    String example() {
        return example;
    }

    boolean fits(Unit unit) {
        return dimensions.contains(unit.dimension());
    }

    /** Whether the unit only means something on an axis with a lead. */
    static boolean isLinear(Unit unit) {
        return LINEAR.contains(unit.dimension());
    }

    /** Whether the sense depends on the kind of axis. */
    boolean isMotion() {
        return this == POSITION || this == SPEED || this == ACCELERATION || this == JERK;
    }

    /** The units in which it can be told, for messages. */
    String units(boolean linearAxis) {
        return symbols(linearAxis).stream().collect(Collectors.joining(", "));
    }

    List<String> symbols(boolean linearAxis) {
        return Arrays.stream(Unit.values())
                .filter(this::fits)
                .filter(unit -> linearAxis || !isMotion() || !isLinear(unit))
                .map(Unit::symbol)
                .toList();
    }

    /** What a unit measures, for messages. */
    static String nounOf(Unit unit) {
        return switch (unit.dimension()) {
            case ANGLE -> "an angle";
            case LENGTH -> "a length";
            case COUNT -> "a number of counts";
            case ANGULAR_SPEED -> "an angular speed";
            case LINEAR_SPEED -> "a linear speed";
            case COUNT_RATE -> "a count rate";
            case ANGULAR_ACCELERATION -> "an angular acceleration";
            case LINEAR_ACCELERATION -> "a linear acceleration";
            case COUNT_ACCELERATION -> "a count acceleration";
            case ANGULAR_JERK -> "an angular jerk";
            case LINEAR_JERK -> "a linear jerk";
            case COUNT_JERK -> "a count jerk";
            case TIME -> "a time";
            case TORQUE -> "a torque";
            case RATIO -> "a ratio";
            case TEMPERATURE -> "a temperature";
            case INERTIA -> "an inertia";
            case MASS -> "a mass";
            case FORCE -> "a force";
            case LINEAR_STIFFNESS -> "a stiffness along a line";
            case LINEAR_DAMPING -> "a damping along a line";
            case ROTARY_DAMPING -> "a viscous friction";
            case ROTARY_STIFFNESS -> "a stiffness";
            case FREQUENCY -> "a frequency";
            case RATE -> "a rate";
            case VOLTAGE -> "a voltage";
            case CURRENT -> "a current";
            case NUMBER -> "a plain number";
        };
    }
}
