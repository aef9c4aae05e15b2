package org.axtrial.sim;

import java.io.IOException;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;

/**
 * The threads that serve simulated drives, however many there are: one for the network, and for the simulation at most
 * as many as the computer has processors. Several servers may share them; they are closed after the servers.
 */
public final class ServingThreads implements AutoCloseable {

    private final ServerLoop loop;
    private final Steppers steppers;

    private ServingThreads(ServerLoop loop, Steppers steppers) {
        this.loop = loop;
        this.steppers = steppers;
    }

    /**
     * Starts the network thread; those of the simulation follow as drives come.
     *
     * @param name what the names of the threads begin with
     * @throws IOException if the computer gives no more means to wait for the network
     */
    public static ServingThreads start(String name) throws IOException {
        TimeSource time = SystemTime.INSTANCE;
        int processors = Runtime.getRuntime().availableProcessors();
        return new ServingThreads(ServerLoop.start(name + "-network", time), new Steppers(name, time, processors));
    }

    ServerLoop loop() {
        return loop;
    }

    Steppers steppers() {
        return steppers;
    }

    /** Ends the threads and waits for them; nothing that they served answers from then on. */
    @Override
    public void close() {
        loop.close();
        steppers.close();
    }
}
