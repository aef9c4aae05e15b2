package org.axtrial.sim;

import java.util.ArrayDeque;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;

/** The faults of an axis that are still to come about, the next one first. */
final class FaultOnsets {

    private final Deque<MachineFault.Onset> toCome = new ArrayDeque<>();
    private final boolean mirrored;
    private long nextNanos;

    FaultOnsets(List<MachineFault.Onset> faults) {
        faults.stream()
                .filter(onset -> onset.fault() instanceof MachineFault.Arising)
                .sorted(Comparator.comparing(MachineFault.Onset::after))
                .forEach(toCome::add);
        this.mirrored = faults.stream()
                        .filter(onset -> onset.fault() instanceof MachineFault.WrongSign)
                        .count()
                % 2
                != 0;
        lookAhead();
    }

    /** Whether the counts grow the other way than the drawing says. */
    boolean mirrored() {
        return mirrored;
    }

    /** When the next fault comes about, ns since the start. */
    long nextNanos() {
        return nextNanos;
    }

    /** The first step at which the next fault is due. */
    long nextStep(long stepNanos) {
        return nextNanos == Long.MAX_VALUE ? Long.MAX_VALUE : (nextNanos + stepNanos - 1) / stepNanos;
    }

    /** Lets every fault come about that is due. */
    void strike(long nanos, SimulatedDrive drive) {
        while (nextNanos <= nanos) {
            if (toCome.remove().fault() instanceof MachineFault.Arising fault) {
                fault.strike(drive);
            }
            lookAhead();
        }
    }

    private void lookAhead() {
        nextNanos = toCome.isEmpty() ? Long.MAX_VALUE : toCome.element().after().toNanos();
    }
}
