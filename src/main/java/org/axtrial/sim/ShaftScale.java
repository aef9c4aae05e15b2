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
            SignalNames.DEMAND_POSITION,
            SignalNames.FOLLOWING_ERROR,
            SignalNames.TARGET_POSITION,
            SignalNames.RELATIVE_MOVE,
            SignalNames.ABSOLUTE_MOVE);
    private static final List<String> SPEEDS =
            List.of(SignalNames.SPEED, SignalNames.PROFILE_SPEED, SignalNames.TARGET_SPEED, SignalNames.SPEED_COMMAND);
    private static final List<String> ACCELERATIONS =
            List.of(SignalNames.PROFILE_ACCELERATION, SignalNames.PROFILE_DECELERATION);
    private static final List<String> TORQUES = List.of(SignalNames.TORQUE, SignalNames.TORQUE_LIMIT);

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
        if (SPEEDS.contains(name) || ACCELERATIONS.contains(name)) {
            String kind = SPEEDS.contains(name) ? "a speed" : "an acceleration";
            return Optional.of(kind + " of the motor shaft or in counts" + (Double.isNaN(lead) ? "" : " or linear"));
        }
        return Optional.empty();
    }

    /**
     * What one unit of a declared signal is in counts, counts/s, counts/s² or N·m; NaN if it cannot be told, 1 for a
     * signal without such a meaning.
     */
    double factor(SignalSpec signal) {
        String name = signal.name();
        Unit unit = signal.unit();
        if (POSITIONS.contains(name)) {
            return unit == Unit.COUNT ? 1 : Double.NaN;
        }
        if (SPEEDS.contains(name)) {
            return motion(unit, Dimension.Motion.SPEED, Unit.REVOLUTION_PER_SECOND, Unit.METRE_PER_SECOND);
        }
        if (ACCELERATIONS.contains(name)) {
            return motion(
                    unit,
                    Dimension.Motion.ACCELERATION,
                    Unit.REVOLUTION_PER_SECOND_SQUARED,
                    Unit.METRE_PER_SECOND_SQUARED);
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

    private double motion(Unit unit, Dimension.Motion kind, Unit angular, Unit linear) {
        if (unit.dimension().motion() != kind) {
            return Double.NaN;
        }
        return switch (unit.dimension()) {
            case ANGULAR_SPEED, ANGULAR_ACCELERATION -> unit.convert(1, angular) * countsPerRevolution;
            case LINEAR_SPEED, LINEAR_ACCELERATION -> unit.convert(1, linear) / lead * countsPerRevolution;
            case COUNT_RATE, COUNT_ACCELERATION -> 1;
            default -> Double.NaN;
        };
    }
}
