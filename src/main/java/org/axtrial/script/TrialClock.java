package org.axtrial.script;

import java.time.Duration;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/** The time limit of a trial on the clock of its axis, which in a rehearsal is not the clock on the wall. */
final class TrialClock {

    private final Duration limit;
    private final TimeSource time;
    private Deadline deadline;
    private long leftNanos;

    TrialClock(Duration limit, TimeSource time) {
        this.limit = limit;
        this.time = time;
        this.deadline = Deadline.in(time, limit);
    }

    /**
     * Looks at the clock.
     *
     * @throws ScriptMistake if the trial has taken too long
     */
    void check() {
        if (deadline.isPassed()) {
            throw new ScriptMistake(message(limit));
        }
    }

    /** Stands still until {@link #resume}. */
    void pause() {
        leftNanos = deadline.leftNanos();
    }

    void resume() {
        deadline = Deadline.in(time, Duration.ofNanos(leftNanos));
    }

    static String message(Duration limit) {
        return "the trial took longer than its limit of " + new Quantity(limit.toNanos() / 1e9, Unit.SECOND).printed()
                + " and was stopped; look for a loop that does not end, or raise the option limit of the trial";
    }
}
