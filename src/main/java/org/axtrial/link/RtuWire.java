package org.axtrial.link;

import java.io.IOException;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.Arrays;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/**
 * Serial Modbus frames over a byte stream: a serial port, or a TCP connection to a gateway that passes bytes on.
 *
 * <p>The end of a frame is told from its contents and its check sum. The silence that ends it on a serial line does not
 * survive operating systems, USB adapters and gateways, so it is not relied upon; it is kept before each request.
 */
final class RtuWire implements Wire {

    private final ByteStream stream;
    private final Duration idleSilence;
    private final Duration silenceAfterFailure;
    private final LateReplies late;
    private final TimeSource time;

    /**
     * A wire that is not connected yet.
     *
     * @param idleSilence silence kept before a request when all went well
     * @param silenceAfterFailure silence kept before a request when a reply is owed, at least 3.5 characters
     * @param late what earlier connections of this line left open
     */
    RtuWire(ByteStream stream, Duration idleSilence, Duration silenceAfterFailure, LateReplies late, TimeSource time) {
        this.stream = stream;
        this.idleSilence = idleSilence;
        this.silenceAfterFailure = silenceAfterFailure;
        this.late = late;
        this.time = time;
    }

    @Override
    public void connect(Duration within) throws IOException {
        stream.open(within);
    }

    /** Bytes that nobody asked for are noise on a serial line and no reason to end the connection. */
    @Override
    public void checkIdle() throws IOException {
        stream.read(new byte[RtuFrame.LARGEST], 0, RtuFrame.LARGEST, Duration.ofMillis(1));
    }

    @Override
    public void ready(Request request, int unit, Duration patience) throws IOException {
        Deadline quiet = Deadline.in(time, patience);
        listen(request, unit);
        Duration silence = late.isEmpty() ? idleSilence : silenceAfterFailure;
        byte[] noise = new byte[RtuFrame.LARGEST];
        while (stream.read(noise, 0, noise.length, silence) > 0) {
            if (quiet.isPassed()) {
                throw new InvalidReplyException("the line does not fall silent; another master may be speaking on it");
            }
        }
    }

    /** Waits for what the unit owes and could be taken for the reply to this request. */
    private void listen(Request request, int unit) throws IOException {
        byte[] heard = new byte[RtuFrame.LARGEST];
        int have = 0;
        for (long left = late.listenNanos(request, unit); left > 0; left = late.listenNanos(request, unit)) {
            int came = stream.read(heard, have, heard.length - have, Duration.ofNanos(left));
            have = came == 0 ? have : settled(heard, have + came);
        }
    }

    /** Takes a complete frame off the front; what makes no sense is dropped whole. */
    private int settled(byte[] heard, int have) {
        try {
            int need = RtuFrame.length(heard, have);
            if (have < need) {
                return have;
            }
            late.settle(heard[0] & 0xFF, RtuFrame.pdu(Arrays.copyOf(heard, need)));
            System.arraycopy(heard, need, heard, 0, have - need);
            return have - need;
        } catch (InvalidReplyException e) {
            return 0;
        }
    }

    @Override
    public Pdu.Answer exchange(Request request, int unit, Deadline deadline) throws IOException {
        long patience = Math.max(0, deadline.leftNanos());
        try {
            stream.write(RtuFrame.request(request, unit));
            Pdu.Answer answer = reply(request, unit, deadline);
            late.answered(unit);
            return answer;
        } catch (IOException e) {
            late.add(request, unit, time.nanos() + patience);
            throw e;
        }
    }

    private Pdu.Answer reply(Request request, int unit, Deadline deadline) throws IOException {
        while (true) {
            byte[] frame = receive(deadline);
            byte[] pdu = RtuFrame.pdu(frame);
            int from = frame[0] & 0xFF;
            boolean ours = from == unit && LateReplies.answers(request, pdu);
            if (ours || !late.settle(from, pdu)) {
                Pdu.expect("unit id", unit, from);
                return Pdu.answer(request, pdu);
            }
        }
    }

    private byte[] receive(Deadline deadline) throws IOException {
        byte[] bytes = new byte[RtuFrame.LARGEST];
        int have = 0;
        for (int need = RtuFrame.length(bytes, 0); have < need; need = RtuFrame.length(bytes, have)) {
            long left = deadline.leftNanos();
            if (left <= 0) {
                throw new SocketTimeoutException("only " + have + " bytes of the reply came in time");
            }
            have += stream.read(bytes, have, need - have, Duration.ofNanos(left));
        }
        return Arrays.copyOf(bytes, have);
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
