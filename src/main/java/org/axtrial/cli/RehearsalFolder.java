package org.axtrial.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.axtrial.engine.StopSwitch;

/**
 * The temporary folder of a rehearsal whose pack is thrown away. Ctrl-C, a closed terminal and a polite kill stop the
 * rehearsal, and the folder is gone then, too.
 */
final class RehearsalFolder implements AutoCloseable {

    /** Longest time for the rehearsal to notice that it was stopped, and for what is being written to be finished. */
    private static final long PATIENCE_SECONDS = 30;

    private final Terminal terminal;
    private final CountDownLatch gone = new CountDownLatch(1);
    private final Thread hook = new Thread(this::end, "axtrial-end-of-rehearsal");
    private final Path folder;
    private Optional<StopSwitch> stop = Optional.empty();
    private boolean ending;
    private boolean used;

    /** Makes the folder. */
    RehearsalFolder(Terminal terminal) {
        this.terminal = terminal;
        // Before the folder is there, so that no end of the program can come between.
        Runtime.getRuntime().addShutdownHook(hook);
        try {
            folder = Files.createTempDirectory("axtrial-procedure");
        } catch (IOException e) {
            Runtime.getRuntime().removeShutdownHook(hook);
            throw new UncheckedIOException("no temporary folder for the rehearsal can be made", e);
        }
    }

    Path path() {
        return folder;
    }

    /** Tells how the rehearsal is stopped when the program ends. */
    void stoppedBy(StopSwitch by) {
        boolean now;
        synchronized (this) {
            stop = Optional.of(by);
            now = ending;
        }
        if (now) {
            by.stop("the program was ended");
        }
    }

    /** Whether the rehearsal is complete and may be used; if not, the program is ending. */
    synchronized boolean mayBeUsed() {
        used = !ending;
        return used;
    }

    @Override
    public void close() {
        try {
            delete(folder);
        } finally {
            gone.countDown();
        }
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException alreadyEnding) {
            waitForTheEnd();
        }
    }

    /** The hook has the last word and ends the virtual machine, so nothing is told that is not so. */
    private void waitForTheEnd() {
        try {
            hook.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void end() {
        Optional<StopSwitch> by;
        boolean complete;
        synchronized (this) {
            ending = true;
            by = stop;
            complete = used;
        }
        by.ifPresent(each -> each.stop("the program was ended"));
        try {
            if (!gone.await(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                terminal.error("The temporary folder " + folder + " could not be removed; remove it by hand");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        terminal.line("");
        terminal.line(
                "Stopped. The rehearsal was " + (complete ? "complete already" : "not finished, so nothing was written")
                        + ". Nothing real has moved.");
        Runtime.getRuntime().halt(ExitCode.STOPPED.code());
    }

    private static void delete(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        } catch (IOException e) {
            throw new UncheckedIOException("the temporary folder " + folder + " cannot be removed", e);
        }
    }
}
