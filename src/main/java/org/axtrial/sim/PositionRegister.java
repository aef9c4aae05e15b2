package org.axtrial.sim;

import org.axtrial.registers.SignalSpec;

/** What the position register shows of a position: it starts at the start counts and wraps at its width. */
final class PositionRegister {

    private final SignalSpec spec;
    private final double startCounts;
    private double atZero;
    private boolean referenced;

    /**
     * A register.
     *
     * @param absolute whether the encoder tells the position from the first moment
     */
    PositionRegister(SignalSpec spec, long startCounts, boolean absolute) {
        this.spec = spec;
        this.startCounts = (double) startCounts;
        this.atZero = this.startCounts;
        this.referenced = absolute;
    }

    /** Lets the register show a value where the counts since the start are these; the position is then known. */
    void define(double counts, double value) {
        atZero = value - counts;
        referenced = true;
    }

    /** Forgets the position, as an incremental encoder does without supply; the register starts again there. */
    void forget(double counts) {
        atZero = startCounts - counts;
        referenced = false;
    }

    /** Lets the register read so many counts more from now on. */
    void shift(double counts) {
        atZero += counts;
    }

    /** Whether a homing or an absolute encoder has told the position. */
    boolean referenced() {
        return referenced;
    }

    /** Register counts for counts since the start, without wrapping. */
    double unwrapped(double counts) {
        return atZero + counts;
    }

    /** Counts since the start for register counts, without wrapping. */
    double countsShowing(double registerCounts) {
        return registerCounts - atZero;
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
