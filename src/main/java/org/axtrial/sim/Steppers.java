package org.axtrial.sim;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.axtrial.time.TimeSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The threads that let drives run on between requests. Each has its own drives and steps all of them once in every
 * period; a thread is added when the others have their fill, up to the number allowed.
 */
final class Steppers {

    private static final Logger LOG = LoggerFactory.getLogger(Steppers.class);
    private static final Duration PERIOD = Duration.ofMillis(1);
    private static final Duration JOIN = Duration.ofSeconds(5);
    /** Sixteen moving drives keep a processor busy for a few percent of a period. */
    private static final int FILL = 16;

    private final String name;
    private final TimeSource time;
    private final int most;
    private final List<Stepper> steppers = new ArrayList<>();
    private volatile boolean closed;

    /**
     * No thread yet.
     *
     * @param name what the names of the threads begin with
     * @param most how many threads there may be, at least 1
     */
    Steppers(String name, TimeSource time, int most) {
        this.name = name;
        this.time = time;
        this.most = most;
    }

    private final class Stepper {
        private final List<ServedDrive> drives = new CopyOnWriteArrayList<>();
        private final Thread thread;

        Stepper(int number) {
            thread = new Thread(this::run, name + "-step-" + number);
            thread.setDaemon(true);
        }

        int load() {
            return drives.size();
        }

        private void run() {
            long next = time.nanos();
            try {
                while (!closed) {
                    for (ServedDrive drive : drives) {
                        step(drive);
                    }
                    next = Math.max(next + PERIOD.toNanos(), time.nanos());
                    time.sleepUntil(next);
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }

        private void step(ServedDrive drive) {
            try {
                drive.advance();
            } catch (RuntimeException e) {
                // The others run on; who asks this one gets no answer.
                drives.remove(drive);
                LOG.error(
                        "the simulation of {} broke; it stands still",
                        drive.drive().name(),
                        e);
            }
        }
    }

    /** Lets drives run on. */
    synchronized void add(Collection<ServedDrive> drives) {
        List<Stepper> fresh = new ArrayList<>();
        for (ServedDrive drive : drives) {
            boolean full = steppers.stream().allMatch(stepper -> stepper.load() >= FILL);
            if (full && steppers.size() < most) {
                Stepper more = new Stepper(steppers.size() + 1);
                steppers.add(more);
                fresh.add(more);
            }
            steppers.stream()
                    .min(Comparator.comparingInt(Stepper::load))
                    .orElseThrow()
                    .drives
                    .add(drive);
        }
        fresh.forEach(stepper -> stepper.thread.start());
    }

    /** Lets drives stand still; none of them is stepped once this has returned. */
    synchronized void remove(Collection<ServedDrive> drives) {
        drives.forEach(ServedDrive::stop);
        steppers.forEach(stepper -> stepper.drives.removeAll(drives));
    }

    /** Ends the threads and waits for them. */
    synchronized void close() {
        closed = true;
        steppers.forEach(stepper -> stepper.thread.interrupt());
        try {
            for (Stepper stepper : steppers) {
                stepper.thread.join(JOIN.toMillis());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
