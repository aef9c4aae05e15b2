package org.axtrial.sim;

import org.axtrial.registers.SignalSpec;

/** What the position register shows of a position: it starts at the start counts and wraps at its width. */
final class PositionRegister {

    private final SignalSpec spec;
    private final long startCounts;

    PositionRegister(SignalSpec spec, long startCounts) {
        this.spec = spec;
        this.startCounts = startCounts;
    }

    /** Register counts for counts since the start, without wrapping. */
    double unwrapped(double counts) {
        return startCounts + counts;
    }

    /** What the register shows for counts since the start. */
    double shown(double counts) {
        double value = unwrapped(counts);
        if (spec.type().isFloat()) {
            return value;
        }
        long raw = (long) Math.rint((value - spec.offset()) / spec.scale());
        return RegisterCell.fit(spec.type(), raw, RegisterCell.Beyond.WRAPS) * spec.scale() + spec.offset();
    }

    /**
     * Counts since the start at which the register shows the target, reached from the given demand along the register's
     * own number line, that is, without wrapping on the way.
     */
    double targetFrom(double demand, double target) {
        double base = Math.rint(demand);
        return base + Math.rint(target - shown(base));
    }
}
