package org.axtrial.sim;

import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * A homing method of CiA 402 (object 6098h): which end of which switch, crossed in which direction, and whether the
 * index mark beyond it counts. Directions are −1 and +1.
 *
 * <p>All methods 1 … 14 are one search: the switch is looked for in the direction {@code search}; its end {@code edge}
 * is −1 for the lower, +1 for the upper one; the home position is found moving in the direction {@code last}. Methods 17
 * … 30 are the same without index mark, 33 and 34 the index mark alone, 35 and 37 the present position. Source: overview
 * tables of homing types in public manuals of drives with CiA 402.
 *
 * @param number value of 6098h
 * @param input the switch, empty if there is none
 * @param search direction of the search while the switch is not active
 * @param edge end of the switch
 * @param last direction in which the home position is passed
 * @param turns whether the search turns round at a limit switch
 * @param index whether the index mark counts
 */
record HomingMethod(
        int number, Optional<SwitchInput> input, int search, int edge, int last, boolean turns, boolean index) {

    private static final int WITHOUT_INDEX = 16;

    private static final Map<Integer, HomingMethod> METHODS = Stream.concat(
                    IntStream.rangeClosed(1, 14)
                            .mapToObj(HomingMethod::withIndex)
                            .flatMap(HomingMethod::andWithout),
                    Stream.of(
                            new HomingMethod(33, Optional.empty(), -1, 0, -1, false, true),
                            new HomingMethod(34, Optional.empty(), 1, 0, 1, false, true),
                            new HomingMethod(35, Optional.empty(), 0, 0, 0, false, false),
                            new HomingMethod(37, Optional.empty(), 0, 0, 0, false, false)))
            .collect(Collectors.toUnmodifiableMap(HomingMethod::number, Function.identity()));

    private static HomingMethod withIndex(int number) {
        return switch (number) {
            // Limit switches: left on the side from which they were reached.
            case 1 -> of(number, SwitchInput.NEGATIVE_LIMIT, -1, 1, 1);
            case 2 -> of(number, SwitchInput.POSITIVE_LIMIT, 1, -1, -1);
            // A home switch that stays active to the positive end: its lower end.
            case 3 -> of(number, SwitchInput.HOME, 1, -1, -1);
            case 4 -> of(number, SwitchInput.HOME, 1, -1, 1);
            // A home switch that stays active to the negative end: its upper end.
            case 5 -> of(number, SwitchInput.HOME, -1, 1, 1);
            case 6 -> of(number, SwitchInput.HOME, -1, 1, -1);
            // A home switch on the way, looked for upwards …
            case 7 -> of(number, SwitchInput.HOME, 1, -1, -1);
            case 8 -> of(number, SwitchInput.HOME, 1, -1, 1);
            case 9 -> of(number, SwitchInput.HOME, 1, 1, -1);
            case 10 -> of(number, SwitchInput.HOME, 1, 1, 1);
            // … and downwards.
            case 11 -> of(number, SwitchInput.HOME, -1, 1, 1);
            case 12 -> of(number, SwitchInput.HOME, -1, 1, -1);
            case 13 -> of(number, SwitchInput.HOME, -1, -1, 1);
            case 14 -> of(number, SwitchInput.HOME, -1, -1, -1);
            default -> throw new IllegalArgumentException("no homing method with switch and index: " + number);
        };
    }

    private static HomingMethod of(int number, SwitchInput input, int search, int edge, int last) {
        return new HomingMethod(number, Optional.of(input), search, edge, last, number >= 7, true);
    }

    private Stream<HomingMethod> andWithout() {
        return Stream.of(this, new HomingMethod(number + WITHOUT_INDEX, input, search, edge, last, turns, false));
    }

    static boolean isKnown(int number) {
        return METHODS.containsKey(number);
    }

    /**
     * The method of a number.
     *
     * @throws IllegalArgumentException if there is none
     */
    static HomingMethod of(int number) {
        HomingMethod method = METHODS.get(number);
        if (method == null) {
            throw new IllegalArgumentException("no homing method " + number);
        }
        return method;
    }

    /** Whether the last crossing leaves the switch; otherwise it enters it. */
    boolean leaves() {
        return last == edge;
    }

    /** Whether the switch is the limit switch itself. */
    boolean usesLimit() {
        return input.isPresent() && input.get() != SwitchInput.HOME;
    }
}
