package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.SplittableRandom;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * A drive whose replies come when they like, some after the deadline. Each register holds a value that tells its
 * address, so that a neighbour's value would show.
 */
@Timeout(120)
class LateRepliesTest {

    private static final int EXCHANGES = 100_000;
    private static final Duration DEADLINE = Duration.ofMillis(10);
    private static final int MARK = 0x5A5A;

    private final SystemTime time = SystemTime.INSTANCE;

    @Test
    void noValueOfANeighbourInAHundredThousandExchanges() throws Exception {
        int answered = 0;
        int lost = 0;
        try (ServerSocket listener = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            Thread peer = new Thread(() -> serve(listener), "late-peer");
            peer.setDaemon(true);
            peer.start();
            try (ModbusTcpLink link = ModbusTcpLink.open("127.0.0.1", listener.getLocalPort(), 1, DEADLINE, time)) {
                SplittableRandom random = new SplittableRandom(20_260_101);
                for (int i = 0; i < EXCHANGES; i++) {
                    int address = random.nextInt(0x10000);
                    try {
                        int[] words = link.read(3 + (address & 1), address, 1).words();
                        assertThat(words).as("exchange %d", i).containsExactly(address ^ MARK);
                        answered++;
                    } catch (LinkLostException e) {
                        lost++;
                        reconnect(link);
                    }
                }
            }
        }
        assertThat(answered + lost).isEqualTo(EXCHANGES);
        assertThat(lost).as("replies beyond the deadline were among them").isGreaterThan(100);
        assertThat(answered).isGreaterThan(EXCHANGES * 9 / 10);
    }

    private static void reconnect(ModbusTcpLink link) throws LinkLostException {
        for (int tries = 0; ; tries++) {
            try {
                link.reconnect();
                return;
            } catch (LinkLostException e) {
                if (tries == 20) {
                    throw e;
                }
            }
        }
    }

    /** Every connection in its own thread, so that a late reply still comes while the next request is answered. */
    private void serve(ServerSocket listener) {
        for (int number = 1; !listener.isClosed(); number++) {
            try {
                Socket socket = listener.accept();
                SplittableRandom random = new SplittableRandom(number);
                Thread thread = new Thread(() -> answer(socket, random), "late-connection-" + number);
                thread.setDaemon(true);
                thread.start();
            } catch (IOException e) {
                return;
            }
        }
    }

    private void answer(Socket socket, SplittableRandom random) {
        try (socket) {
            socket.setTcpNoDelay(true);
            DataInputStream in = new DataInputStream(socket.getInputStream());
            OutputStream out = socket.getOutputStream();
            byte[] request = new byte[12];
            while (true) {
                in.readFully(request);
                ByteBuffer asked = ByteBuffer.wrap(request);
                byte[] reply = ByteBuffer.allocate(11)
                        .putShort(asked.getShort(0))
                        .putShort((short) 0)
                        .putShort((short) 5)
                        .put(request[6])
                        .put(request[7])
                        .put((byte) 2)
                        .putShort((short) (asked.getShort(8) ^ MARK))
                        .array();
                int lot = random.nextInt(1000);
                // Mostly at once, sometimes somewhat later, now and then about the deadline and beyond it.
                long wait = lot < 980 ? 0 : lot < 996 ? random.nextInt(500_000) : 8_000_000 + random.nextInt(8_000_000);
                time.sleepUntil(time.nanos() + wait);
                out.write(reply);
            }
        } catch (IOException e) {
            // The link gave this connection up.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
