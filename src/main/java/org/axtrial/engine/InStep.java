package org.axtrial.engine;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BooleanSupplier;

/**
 * Keeps axes that run side by side in step where a trial works several of them: such a trial begins when each of its axes has
 * ended all that comes before it in the order of the scripts, and none of them goes on before it is over. So no axis is
 * worked by two trials, and what comes of it does not depend on which axis is quick.
 */
final class InStep {

    private static final long LOOK_MILLIS = 100;

    /**
     * A trial in the order of the run.
     *
     * @param rank its place in the order of the scripts, the same for every axis
     * @param main the axis on trial
     * @param axes all that it works
     */
    record Place(int rank, String main, Set<String> axes) {

        Place {
            axes = Set.copyOf(axes);
        }

        /** Trials of one rank are the same trial on several axes, in the order of their names. */
        private boolean isBefore(Place other) {
            return rank < other.rank || (rank == other.rank && main.compareTo(other.main) < 0);
        }

        private boolean sharesAxisWith(Place other) {
            return axes.stream().anyMatch(other.axes::contains);
        }
    }

    private final List<Place> all;
    private final Set<Place> over = new HashSet<>();

    InStep(List<Place> all) {
        this.all = List.copyOf(all);
    }

    /**
     * Waits until a trial may begin.
     *
     * @param stopped whether the run has been stopped, so that nothing is worth waiting for
     */
    synchronized void await(Place trial, BooleanSupplier stopped) throws InterruptedException {
        while (!stopped.getAsBoolean() && all.stream().anyMatch(other -> mustEndBefore(other, trial))) {
            wait(LOOK_MILLIS);
        }
    }

    /** Trials of one axis each follow one another by themselves. */
    private boolean mustEndBefore(Place other, Place trial) {
        boolean several = other.axes.size() > 1 || trial.axes.size() > 1;
        return several && !over.contains(other) && other.isBefore(trial) && other.sharesAxisWith(trial);
    }

    /** A trial has ended or will not begin. */
    synchronized void over(Place trial) {
        over.add(trial);
        notifyAll();
    }
}
