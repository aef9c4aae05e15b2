package org.axtrial.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.axtrial.engine.StopSwitch;

/**
 * Sees to it that the end of the program is a safe stop: Ctrl-C, a closed terminal and a polite kill all lead to the
 * shutdown hook, which stops every axis and then waits for the evidence to be finished.
 */
final class EndOfProgram implements AutoCloseable {

    /** Longest time for the report of a stopped run; the axes are at rest before it begins. */
    private static final long PATIENCE_SECONDS = 30;

    private final CountDownLatch finished = new CountDownLatch(1);
    private final Thread hook;
    private volatile ExitCode code = ExitCode.STOPPED;

    private EndOfProgram(Terminal terminal, StopSwitch stop) {
        this.hook = new Thread(() -> end(terminal, stop), "axtrial-end-of-program");
    }

    /** Watches until it is closed. */
    static EndOfProgram watch(Terminal terminal, StopSwitch stop) {
        EndOfProgram watch = new EndOfProgram(terminal, stop);
        Runtime.getRuntime().addShutdownHook(watch.hook);
        return watch;
    }

    /** The evidence is finished; the program may end with this code. */
    ExitCode finished(ExitCode with) {
        code = with;
        return with;
    }

    @Override
    public void close() {
        finished.countDown();
        try {
            Runtime.getRuntime().removeShutdownHook(hook);
        } catch (IllegalStateException alreadyEnding) {
            // The hook is at work and will see that the evidence is finished.
            return;
        }
    }

    private void end(Terminal terminal, StopSwitch stop) {
        if (finished.getCount() > 0) {
            terminal.line("");
            terminal.line("Stopping every axis …");
        }
        stop.stop("the program was ended (Ctrl-C, closed terminal or kill)");
        try {
            if (!finished.await(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                terminal.error("The report could not be finished; run: axtrial report RUN-FOLDER");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        // The virtual machine would end with the number of the signal; the caller is told how the run ended.
        Runtime.getRuntime().halt(code.code());
    }
}
