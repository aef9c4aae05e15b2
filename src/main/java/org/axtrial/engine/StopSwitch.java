package org.axtrial.engine;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Stops a run for good, from any thread: the operator, a signal, the end of the program. Works once. */
public final class StopSwitch {

    private final List<Consumer<String>> listeners = new ArrayList<>();
    private @Nullable String reason;

    /**
     * Stops all axes and ends the run; returns when that is done. Later calls do nothing.
     *
     * @param why one phrase for the record, for example {@code operator pressed stop}
     */
    public void stop(String why) {
        List<Consumer<String>> told;
        synchronized (this) {
            if (reason != null) {
                return;
            }
            reason = why;
            told = List.copyOf(listeners);
        }
        told.forEach(listener -> listener.accept(why));
    }

    /** Why the run was stopped; empty while it was not. */
    public synchronized Optional<String> reason() {
        return Optional.ofNullable(reason);
    }

    /** Is called with the reason on the stopping thread, or at once if the switch has been used already. */
    void whenStopped(Consumer<String> listener) {
        Optional<String> already;
        synchronized (this) {
            listeners.add(listener);
            already = reason();
        }
        already.ifPresent(listener);
    }
}
