package org.axtrial.sim;

import java.io.IOException;
import java.nio.channels.SelectableChannel;
import java.nio.channels.SelectionKey;
import java.nio.channels.Selector;
import java.time.Duration;
import java.util.Iterator;
import java.util.PriorityQueue;
import java.util.Queue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.axtrial.time.TimeSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The one thread that does everything on the network for any number of ports: it waits for channels and for points in
 * time, and never for one peer, so that a reply that is late by order delays nobody else.
 *
 * <p>Handlers and timers run on the thread of the loop and need no locks among themselves. A point in time is met on the
 * whole millisecond after it, because that is how finely a selector waits.
 */
final class ServerLoop {

    private static final Logger LOG = LoggerFactory.getLogger(ServerLoop.class);
    private static final Duration JOIN = Duration.ofSeconds(5);
    private static final Duration LOOK_AGAIN = Duration.ofMillis(100);

    private final Selector selector;
    private final TimeSource time;
    private final Thread thread;
    private final Queue<Runnable> tasks = new ConcurrentLinkedQueue<>();
    private final PriorityQueue<Timer> timers = new PriorityQueue<>();
    private volatile boolean closed;

    /** What is done when a channel is ready. */
    interface Handler {

        void ready(SelectionKey key) throws IOException;

        /** Ends the channel, which broke or whose handler failed. */
        void broke(Exception how);
    }

    /** Something to be done at a point in time. */
    static final class Timer implements Comparable<Timer> {
        private final long atNanos;
        private final Runnable action;

        private Timer(long atNanos, Runnable action) {
            this.atNanos = atNanos;
            this.action = action;
        }

        @Override
        public int compareTo(Timer other) {
            // The zero of the clock is arbitrary, so only the difference may be looked at.
            return Long.signum(atNanos - other.atNanos);
        }
    }

    private ServerLoop(Selector selector, TimeSource time, String name) {
        this.selector = selector;
        this.time = time;
        this.thread = new Thread(this::run, name);
        this.thread.setDaemon(true);
    }

    static ServerLoop start(String name, TimeSource time) throws IOException {
        ServerLoop loop = new ServerLoop(Selector.open(), time, name);
        loop.thread.start();
        return loop;
    }

    /** Watches a channel; on the thread of the loop only. */
    SelectionKey watch(SelectableChannel channel, int interest, Handler handler) throws IOException {
        channel.configureBlocking(false);
        return channel.register(selector, interest, handler);
    }

    /** Does something later; on the thread of the loop only. */
    Timer after(Duration wait, Runnable action) {
        Timer timer = new Timer(time.nanos() + wait.toNanos(), action);
        timers.add(timer);
        return timer;
    }

    /** On the thread of the loop only. */
    void cancel(Timer timer) {
        timers.remove(timer);
    }

    /** Something that is done on the thread of the loop. */
    interface Task {
        void run() throws IOException;
    }

    /**
     * Does something on the thread of the loop and waits until it is done and every channel that it closed is closed to
     * the other side, too; does nothing once the loop has ended. An interrupt does not end the wait; it is kept.
     *
     * @throws IOException if the task fails
     */
    void call(Task task) throws IOException {
        CompletableFuture<Boolean> done = new CompletableFuture<>();
        tasks.add(() -> {
            try {
                task.run();
                // A registered channel is closed for good only when its key has been dropped.
                selector.selectNow();
                done.complete(true);
            } catch (IOException | RuntimeException e) {
                done.completeExceptionally(e);
            }
        });
        selector.wakeup();
        boolean interrupted = false;
        try {
            while (!done.isDone() && thread.isAlive()) {
                try {
                    done.get(LOOK_AGAIN.toMillis(), TimeUnit.MILLISECONDS);
                } catch (InterruptedException e) {
                    interrupted = true;
                } catch (TimeoutException e) {
                    LOG.debug("{}: still at work", thread.getName());
                }
            }
        } catch (ExecutionException e) {
            throw new IOException(e.getCause());
        } finally {
            if (interrupted) {
                Thread.currentThread().interrupt();
            }
        }
    }

    private void run() {
        try {
            while (!closed) {
                for (Runnable task = tasks.poll(); task != null; task = tasks.poll()) {
                    guarded(task);
                }
                runTimers();
                select();
            }
        } catch (IOException e) {
            LOG.error("{}: no longer serves", thread.getName(), e);
        } finally {
            end();
        }
    }

    private void runTimers() {
        for (Timer next = timers.peek(); next != null && next.atNanos - time.nanos() <= 0; next = timers.peek()) {
            timers.remove();
            guarded(next.action);
        }
    }

    private void select() throws IOException {
        Timer next = timers.peek();
        if (next == null) {
            selector.select();
        } else {
            long left = next.atNanos - time.nanos();
            if (left > 0) {
                selector.select((left + 999_999) / 1_000_000);
            } else {
                selector.selectNow();
            }
        }
        for (Iterator<SelectionKey> ready = selector.selectedKeys().iterator(); ready.hasNext(); ) {
            SelectionKey key = ready.next();
            ready.remove();
            if (key.isValid()) {
                handle(key);
            }
        }
    }

    private static void handle(SelectionKey key) {
        Handler handler = (Handler) key.attachment();
        try {
            handler.ready(key);
        } catch (IOException | RuntimeException e) {
            // One broken peer, or one drive whose simulation failed, must not take the others with it.
            handler.broke(e);
        }
    }

    private void guarded(Runnable action) {
        try {
            action.run();
        } catch (RuntimeException e) {
            LOG.error("{}: failed", thread.getName(), e);
        }
    }

    private void end() {
        for (SelectionKey key : selector.keys()) {
            try {
                key.channel().close();
            } catch (IOException e) {
                LOG.debug("closing a channel failed", e);
            }
        }
        try {
            selector.close();
        } catch (IOException e) {
            LOG.debug("closing the selector failed", e);
        }
    }

    /** Ends the thread and every channel that is left, and waits for it. */
    void close() {
        closed = true;
        selector.wakeup();
        try {
            thread.join(JOIN.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
