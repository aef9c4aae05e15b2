package org.axtrial.sim;

import java.util.Locale;

/**
 * A simulated value beside one from outside of the program.
 *
 * @param what the case, with its numbers
 * @param unit of both values
 * @param expected from the source
 * @param simulated by the plant
 * @param bound most deviation, as a share of the expected value, or in the unit where 0 is expected
 * @param source of the expected value
 */
record SimulationCheck(String what, String unit, double expected, double simulated, double bound, String source) {

    /** As a share of the expected value, or in the unit where 0 is expected. */
    double deviation() {
        return expected == 0 ? simulated : simulated / expected - 1;
    }

    boolean holds() {
        return Math.abs(deviation()) <= bound;
    }

    String line() {
        String behind = unit.isEmpty() ? "" : " " + unit;
        return "| " + what + " | " + number(expected) + behind + " | " + number(simulated) + behind + " | "
                + share(deviation()) + " | " + share(bound) + " | " + source + " |";
    }

    private String share(double value) {
        if (Math.abs(value) < 1e-9) {
            return "< 1e-9";
        }
        return expected == 0
                ? String.format(Locale.ROOT, "%.1e", value) + (unit.isEmpty() ? "" : " " + unit)
                : String.format(Locale.ROOT, "%.2g %%", 100 * value);
    }

    private static String number(double value) {
        if (value == 0 || Math.abs(value) < 1e-9) {
            return "0";
        }
        return String.format(Locale.ROOT, Math.abs(value) < 1e-3 ? "%.5e" : "%.6g", value);
    }
}
