package org.axtrial.cli;

import java.util.Optional;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.Semaphore;

/** Reads lines on a thread of its own, one when one is wanted, so that nobody who watches an axis waits for a person. */
final class Keyboard {

    private final LinkedBlockingQueue<Optional<String>> lines = new LinkedBlockingQueue<>();
    private final Semaphore wanted = new Semaphore(0);
    private final Terminal terminal;
    private boolean reading;
    private boolean started;

    Keyboard(Terminal terminal) {
        this.terminal = terminal;
    }

    /** Forgets what was typed for a question that has been taken back, and wants a line. */
    synchronized void begin() {
        if (lines.poll() != null) {
            reading = false;
        }
        want();
    }

    private void want() {
        if (!started) {
            started = true;
            Thread thread = new Thread(this::read, "axtrial-keyboard");
            thread.setDaemon(true);
            thread.start();
        }
        if (!reading) {
            reading = true;
            wanted.release();
        }
    }

    /** The line that was wanted, if it has come; inside, empty at the end of the input. Another one is then wanted. */
    synchronized Optional<Optional<String>> line() {
        Optional<String> line = lines.poll();
        if (line == null) {
            return Optional.empty();
        }
        reading = false;
        want();
        return Optional.of(line);
    }

    private void read() {
        try {
            while (true) {
                wanted.acquire();
                lines.add(terminal.readLine());
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
