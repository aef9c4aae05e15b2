package org.axtrial.script;

import java.time.Duration;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/** Runs an action on a thread of its own unless it is closed in time. */
final class WallClockLimit {

    private final ScheduledThreadPoolExecutor timer;

    WallClockLimit(String name, Duration limit, Runnable whenOver) {
        timer = new ScheduledThreadPoolExecutor(1, action -> {
            Thread thread = new Thread(action, name);
            thread.setDaemon(true);
            return thread;
        });
        // A begun action goes on after the end; a waiting one must not keep the thread alive.
        timer.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
        var unused = timer.schedule(whenOver, limit.toNanos(), TimeUnit.NANOSECONDS);
    }

    /** Calls the action off, or lets it end if it has begun. */
    void close() {
        timer.shutdown();
    }
}
