package org.axtrial.script;

import java.time.Duration;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/** Runs an action on a thread of its own unless it is closed in time. */
final class WallClockLimit {

    private final ScheduledThreadPoolExecutor timer;
    private final Runnable whenOver;
    private ScheduledFuture<?> due;
    private long leftNanos;

    WallClockLimit(String name, Duration limit, Runnable whenOver) {
        timer = new ScheduledThreadPoolExecutor(1, action -> {
            Thread thread = new Thread(action, name);
            thread.setDaemon(true);
            return thread;
        });
        // A begun action goes on after the end; a waiting one must not keep the thread alive.
        timer.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
        this.whenOver = whenOver;
        due = timer.schedule(whenOver, limit.toNanos(), TimeUnit.NANOSECONDS);
    }

    /** Stands still until {@link #resume}; an action that has begun goes on. By the thread that closes it. */
    void pause() {
        leftNanos = due.getDelay(TimeUnit.NANOSECONDS);
        due.cancel(false);
    }

    void resume() {
        if (due.isCancelled()) {
            due = timer.schedule(whenOver, Math.max(0, leftNanos), TimeUnit.NANOSECONDS);
        }
    }

    /** Calls the action off, or lets it end if it has begun. */
    void close() {
        timer.shutdown();
    }
}
