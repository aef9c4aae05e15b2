package org.axtrial.sim;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/**
 * What one unit of a drive description means to the simulated axis. Angular speeds and accelerations mean the motor
 * shaft, linear ones the load behind the lead, torque ratios the rated torque; everything becomes register counts and
 * N·m.
 */
final class ShaftScale {

    private static final List<String> POSITIONS = List.of(
            SignalNames.POSITION,
            SignalNames.INTERNAL_POSITION,
            SignalNames.DEMAND_POSITION,
            SignalNames.FOLLOWING_ERROR,
            SignalNames.TARGET_POSITION,
            SignalNames.RELATIVE_MOVE,
            SignalNames.ABSOLUTE_MOVE,
            SignalNames.HOME_OFFSET,
            SignalNames.SOFTWARE_LIMIT_MIN,
            SignalNames.SOFTWARE_LIMIT_MAX,
            SignalNames.FOLLOWING_ERROR_WINDOW,
            SignalNames.POSITION_WINDOW,
            SignalNames.PEAK_FOLLOWING_ERROR);
    private static final List<String> SPEEDS = List.of(
            SignalNames.SPEED,
            SignalNames.PROFILE_SPEED,
            SignalNames.TARGET_SPEED,
            SignalNames.SPEED_COMMAND,
            SignalNames.HOMING_SPEED_SWITCH,
            SignalNames.HOMING_SPEED_ZERO);
    private static final List<String> ACCELERATIONS = List.of(
            SignalNames.PROFILE_ACCELERATION,
            SignalNames.PROFILE_DECELERATION,
            SignalNames.QUICK_STOP_DECELERATION,
            SignalNames.HOMING_ACCELERATION);
    private static final List<String> JERKS = List.of(SignalNames.PROFILE_JERK);
    /** The slope is told as the torque gained in one second. */
    private static final List<String> TORQUES = List.of(
            SignalNames.TORQUE,
            SignalNames.TORQUE_LIMIT,
            SignalNames.TARGET_TORQUE,
            SignalNames.TORQUE_SLOPE,
            SignalNames.PEAK_TORQUE);

    private static final List<String> TIMES =
            List.of(SignalNames.FOLLOWING_ERROR_TIME, SignalNames.POSITION_WINDOW_TIME);

    private final DriveDescription description;
    private final double countsPerRevolution;
    private final double lead;
    private final double ratedTorque;

    ShaftScale(DriveDescription description, SimulationSpec spec) {
        this.description = description;
        this.countsPerRevolution = spec.feedback().countsPerMotorRevolution();
        this.lead = spec.load() instanceof SimulationSpec.LinearLoad linear ? linear.lead() : Double.NaN;
        this.ratedTorque = spec.motor().ratedTorque();
    }

    /** Every signal whose unit the simulated axis cannot follow. */
    List<String> problems() {
        List<String> problems = new ArrayList<>();
        for (SignalSpec signal : description.signals().values()) {
            expected(signal.name()).ifPresent(expected -> {
                if (Double.isNaN(factor(signal))) {
                    problems.add(signal.name() + ": unit " + signal.unit().symbol() + " cannot be simulated, give "
                            + expected);
                }
            });
        }
        return problems;
    }

    private Optional<String> expected(String name) {
        if (POSITIONS.contains(name)) {
            return Optional.of("count");
        }
        if (TORQUES.contains(name)) {
            return Optional.of("%, permille or Nm");
        }
        if (TIMES.contains(name)) {
            return Optional.of("a time");
        }
        if (SPEEDS.contains(name) || ACCELERATIONS.contains(name) || JERKS.contains(name)) {
            String kind =
                    SPEEDS.contains(name) ? "a speed" : ACCELERATIONS.contains(name) ? "an acceleration" : "a jerk";
            return Optional.of(kind + " of the motor shaft or in counts" + (Double.isNaN(lead) ? "" : " or linear"));
        }
        return Optional.empty();
    }

    /** Whether a signal, or a parameter in a unit that can be followed, has that name. */
    boolean declares(String name) {
        return description
                .value(name)
                .filter(value -> !Double.isNaN(factor(value)))
                .isPresent();
    }

    /** As {@link #factor(SignalSpec)}, by name; 1 for a name that is not declared. */
    double factor(String name) {
        return description.value(name).map(this::factor).orElse(1.0);
    }

    /**
     * What one unit of a declared signal is in counts, counts/s, counts/s², counts/s³, s or N·m; NaN if it cannot be
     * told, 1 for a signal without such a meaning.
     */
    double factor(SignalSpec signal) {
        String name = signal.name();
        Unit unit = signal.unit();
        if (POSITIONS.contains(name)) {
            return unit == Unit.COUNT ? 1 : Double.NaN;
        }
        if (SPEEDS.contains(name)) {
            return unit.dimension().motion() == Dimension.Motion.SPEED ? motion(unit) : Double.NaN;
        }
        if (ACCELERATIONS.contains(name)) {
            return unit.dimension().motion() == Dimension.Motion.ACCELERATION ? motion(unit) : Double.NaN;
        }
        if (JERKS.contains(name)) {
            return jerk(unit);
        }
        if (TIMES.contains(name)) {
            return unit.dimension() == Dimension.TIME ? unit.convert(1, Unit.SECOND) : Double.NaN;
        }
        if (TORQUES.contains(name)) {
            return switch (unit.dimension()) {
                case RATIO -> unit.convert(1, Unit.PERCENT) / 100 * ratedTorque;
                case TORQUE -> unit.convert(1, Unit.NEWTON_METRE);
                default -> Double.NaN;
            };
        }
        return 1;
    }

    private double motion(Unit unit) {
        return switch (unit.dimension()) {
            case ANGULAR_SPEED -> unit.convert(1, Unit.REVOLUTION_PER_SECOND) * countsPerRevolution;
            case ANGULAR_ACCELERATION -> unit.convert(1, Unit.REVOLUTION_PER_SECOND_SQUARED) * countsPerRevolution;
            case LINEAR_SPEED -> unit.convert(1, Unit.METRE_PER_SECOND) / lead * countsPerRevolution;
            case LINEAR_ACCELERATION -> unit.convert(1, Unit.METRE_PER_SECOND_SQUARED) / lead * countsPerRevolution;
            case COUNT_RATE, COUNT_ACCELERATION -> 1;
            default -> Double.NaN;
        };
    }

    private double jerk(Unit unit) {
        return switch (unit.dimension()) {
            case ANGULAR_JERK -> unit.convert(1, Unit.REVOLUTION_PER_SECOND_CUBED) * countsPerRevolution;
            case LINEAR_JERK -> unit.convert(1, Unit.METRE_PER_SECOND_CUBED) / lead * countsPerRevolution;
            case COUNT_JERK -> 1;
            default -> Double.NaN;
        };
    }
}
