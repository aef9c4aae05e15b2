package org.axtrial.axis;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Remembers that an axis must not move any more, and why. The first reason stays. A latch for good outlives
 * {@link #clear}.
 */
final class StopLatch {

    private final AtomicReference<@Nullable AxisException> cause = new AtomicReference<>();
    private final AtomicReference<@Nullable AxisException> forGood = new AtomicReference<>();
    private volatile Consumer<AxisException> told = reason -> {};

    /** Who is told of a latch, on the thread that latches, before anything else happens; at once if one stands. */
    void tell(Consumer<AxisException> listener) {
        told = listener;
        reason().ifPresent(listener);
    }

    /** Latches until {@link #clear}; the first cause stays. */
    void latch(AxisException reason) {
        if (cause.compareAndSet(null, reason)) {
            told.accept(reason);
        }
    }

    /** Latches for the rest of the run. */
    void latchForGood(AxisException reason) {
        if (forGood.compareAndSet(null, reason)) {
            told.accept(reason);
        }
    }

    /** Why the axis may not move; empty if it may. */
    Optional<AxisException> reason() {
        return Optional.ofNullable(cause.get()).or(() -> Optional.ofNullable(forGood.get()));
    }

    /** Throws what was latched, if anything was. */
    void check() {
        reason().ifPresent(reason -> {
            throw reason;
        });
    }

    /** Forgets a latch that was not for good. */
    void clear() {
        cause.set(null);
    }
}
