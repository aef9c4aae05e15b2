package org.axtrial.link;

import java.io.EOFException;
import java.io.IOException;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.Arrays;
import org.axtrial.time.Deadline;

/**
 * One Modbus TCP connection and its transaction ids.
 *
 * <p>The transport class of the protocol library is not used: its time-out counts anew for each read, so a peer that
 * trickles bytes holds it for as long as it likes, it trusts the length field of the reply, and it drops causes. Frames
 * are therefore sent and received here, and only their contents go through the library.
 */
final class MbapWire implements Wire {

    private final ByteStream stream;
    private int lastTransaction;

    MbapWire(ByteStream stream) {
        this.stream = stream;
    }

    @Override
    public void connect(Duration within) throws IOException {
        stream.open(within);
    }

    @Override
    public void checkIdle() throws IOException {
        if (stream.read(new byte[1], 0, 1, Duration.ofMillis(1)) > 0) {
            throw new InvalidReplyException("the peer has sent bytes that nobody asked for");
        }
    }

    /** Before a write: a connection that has fallen meanwhile would leave open whether the drive acted. */
    @Override
    public void ready(Request request, int unit, Duration patience) throws IOException {
        if (request.writes()) {
            checkIdle();
        }
    }

    @Override
    public Pdu.Answer exchange(Request request, int unit, Deadline deadline) throws IOException {
        // No request on this connection has had this id for 65535 exchanges.
        lastTransaction = (lastTransaction + 1) & 0xFFFF;
        stream.write(Frame.request(request, lastTransaction, unit));
        return Frame.answer(request, lastTransaction, unit, receive(deadline));
    }

    private byte[] receive(Deadline deadline) throws IOException {
        byte[] bytes = new byte[Frame.LARGEST + 1];
        int have = 0;
        int need = Frame.HEADER;
        while (have < need) {
            have += more(bytes, have, deadline);
            if (have >= Frame.HEADER) {
                need = Frame.length(bytes);
            }
        }
        if (have > need) {
            throw new InvalidReplyException(
                    "the reply is " + need + " bytes long by its header, but " + have + " came");
        }
        return Arrays.copyOf(bytes, need);
    }

    private int more(byte[] bytes, int have, Deadline deadline) throws IOException {
        long left = deadline.leftNanos();
        if (left <= 0) {
            throw new SocketTimeoutException("only " + have + " bytes of the reply came in time");
        }
        try {
            return stream.read(bytes, have, bytes.length - have, Duration.ofNanos(left));
        } catch (EOFException e) {
            EOFException told = new EOFException(e.getMessage() + " after " + have + " bytes of the reply");
            told.initCause(e);
            throw told;
        }
    }

    @Override
    public void close() {
        stream.close();
    }

    @Override
    public void abort() {
        stream.abort();
    }
}
