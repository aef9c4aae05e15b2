package org.axtrial.cli;

import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Sees to it that serving ends with its last word, whether the end is typed or comes by Ctrl-C, a closed terminal or a
 * polite kill.
 */
final class EndOfServing implements AutoCloseable {

    private static final long PATIENCE_SECONDS = 5;

    private final CountDownLatch wanted = new CountDownLatch(1);
    private final CountDownLatch finished = new CountDownLatch(1);
    private final Thread hook = new Thread(this::end, "axtrial-end-of-serving");

    private EndOfServing() {}

    /** Watches until it is closed. */
    static EndOfServing watch() {
        EndOfServing watch = new EndOfServing();
        Runtime.getRuntime().addShutdownHook(watch.hook);
        return watch;
    }

    /** Serving shall end. */
    void want() {
        wanted.countDown();
    }

    /** Waits for the end to be wanted; false if it has not been in that time. */
    boolean await(Duration atMost) throws InterruptedException {
        return wanted.await(atMost.toMillis(), TimeUnit.MILLISECONDS);
    }

    @Override
    public void close() {
        finished.countDown();
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException alreadyEnding) {
            // The hook is at work and sees that all is finished.
            return;
        }
    }

    private void end() {
        want();
        try {
            if (!finished.await(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                return;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
