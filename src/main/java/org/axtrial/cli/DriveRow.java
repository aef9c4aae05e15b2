package org.axtrial.cli;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.StepLag;
import org.axtrial.site.FaultKind;
import org.axtrial.site.ServedAxis;

/**
 * What one served drive is doing at one moment, as text.
 *
 * @param axis name
 * @param port TCP port
 * @param unit unit id
 * @param state in words
 * @param position in the unit of the axis
 * @param speed in the unit of the axis per second
 * @param connections to its port
 * @param requestsPerSecond since the moment before
 * @param overruns steps that were too late, since it is served
 * @param worst furthest that a step was behind
 * @param faults words of the faults of its wire, each once
 */
record DriveRow(
        String axis,
        int port,
        int unit,
        String state,
        String position,
        String speed,
        int connections,
        double requestsPerSecond,
        long overruns,
        Duration worst,
        List<String> faults) {

    DriveRow {
        faults = List.copyOf(faults);
    }

    static DriveRow of(ServedAxis axis, double requestsPerSecond) {
        StepLag lag = axis.lag();
        List<String> faults = axis.faults().stream()
                .map(fault -> FaultKind.of(fault).word())
                .distinct()
                .toList();
        return new DriveRow(
                axis.name(),
                axis.port(),
                axis.unit(),
                axis.state(),
                printed(axis.position(), 3),
                printed(axis.speed(), 1),
                axis.connections(),
                requestsPerSecond,
                lag.overruns(),
                lag.worst(),
                faults);
    }

    /** With as many decimals as are worth looking at: fewer for small units, more for large ones. */
    private static String printed(Quantity quantity, int decimalsOfMillimetres) {
        int decimals = switch (quantity.unit()) {
            case COUNT, COUNT_PER_SECOND -> 0;
            case REVOLUTION, RADIAN, REVOLUTION_PER_SECOND, RADIAN_PER_SECOND -> decimalsOfMillimetres + 1;
            case METRE, METRE_PER_SECOND -> decimalsOfMillimetres + 2;
            default -> decimalsOfMillimetres;
        };
        String number = String.format(Locale.ROOT, "%." + decimals + "f", quantity.value());
        boolean nothing = number.chars().noneMatch(digit -> digit >= '1' && digit <= '9');
        return quantity.unit().printed(nothing ? number.replace("-", "") : number.replace('-', '\u2212'));
    }

    boolean isMoving() {
        return state.endsWith("moving");
    }

    /** Whether somebody should look at it before others. */
    boolean isOdd() {
        return urgency() < 2;
    }

    /** Faults and trips come first: late steps mostly hit all drives of a computer alike. 0 is looked at first. */
    int urgency() {
        if (!faults.isEmpty() || state.contains("0x")) {
            return 0;
        }
        return overruns > 0 ? 1 : 2;
    }

    /** What makes a line worth printing where lines stay: all but what changes all the time. */
    List<Object> occasion() {
        return List.of(state, connections, faults);
    }
}
