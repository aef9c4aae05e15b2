package org.axtrial.sim;

import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;

/** The faults of an axis that are still to come about, the next one first. */
final class FaultOnsets {

    private final PriorityQueue<MachineFault.Onset> toCome =
            new PriorityQueue<>(Comparator.comparing(MachineFault.Onset::after));
    private final boolean mirrored;
    private long nextNanos;

    FaultOnsets(List<MachineFault.Onset> faults) {
        faults.stream()
                .filter(onset -> onset.fault() instanceof MachineFault.Arising)
                .forEach(toCome::add);
        this.mirrored = faults.stream()
                                .filter(onset -> onset.fault() instanceof MachineFault.WrongSign)
                                .count()
                        % 2
                != 0;
        lookAhead();
    }

    /** One more. */
    void add(MachineFault.Onset onset) {
        toCome.add(onset);
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
