package org.axtrial.site;

import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.Reply;
import org.axtrial.sim.WireFault;
import org.axtrial.time.TimeSource;

/** A link that remembers when the request went out that a fault strikes first, and how many reads went before a write. */
final class WatchedLink implements RegisterLink {

    static final long NEVER = -1;

    private final RegisterLink link;
    private final TimeSource time;
    private WireFault.Strikes awaited = new WireFault.Strikes(127, 0, 1);
    private int toPass;
    private long struck = NEVER;
    private int reads;
    private int readsBeforeLastSingleWrite;

    WatchedLink(RegisterLink link, TimeSource time) {
        this.link = link;
        this.time = time;
    }

    synchronized void await(WireFault.Strikes strikes) {
        awaited = strikes;
        toPass = strikes.after();
        struck = NEVER;
        reads = 0;
    }

    /** When the struck request went out, ns; {@link #NEVER} if it did not. */
    synchronized long struckNanos() {
        return struck;
    }

    synchronized int readsBeforeLastSingleWrite() {
        return readsBeforeLastSingleWrite;
    }

    private synchronized void leaving(int function) {
        if (function == 3) {
            reads++;
        } else if (function == 6) {
            readsBeforeLastSingleWrite = reads;
        }
        boolean fits = awaited.function() == WireFault.ANY_FUNCTION || awaited.function() == function;
        if (fits && struck == NEVER && toPass-- == 0) {
            struck = time.nanos();
        }
    }

    @Override
    public Reply read(int readFunction, int address, int count) throws LinkException {
        leaving(readFunction);
        return link.read(readFunction, address, count);
    }

    @Override
    public Reply writeSingle(int address, int word) throws LinkException {
        leaving(6);
        return link.writeSingle(address, word);
    }

    @Override
    public Reply writeBlock(int address, int[] words) throws LinkException {
        leaving(16);
        return link.writeBlock(address, words);
    }

    @Override
    public void drop() {
        link.drop();
    }

    @Override
    public void reconnect() throws LinkException {
        link.reconnect();
    }

    @Override
    public long connectionNumber() {
        return link.connectionNumber();
    }

    @Override
    public String peer() {
        return link.peer();
    }

    @Override
    public void close() {
        link.close();
    }
}
