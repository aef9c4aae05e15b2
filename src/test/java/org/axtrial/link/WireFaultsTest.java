package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.net.Socket;
import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.UnaryOperator;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Everything that can go wrong on the wire, once on a read and once on each write. */
@Timeout(30)
class WireFaultsTest {

    private static final Duration DEADLINE = Duration.ofMillis(200);

    enum Fault {
        NO_REPLY((request, socket) -> {}),
        CUT_BEFORE_THE_REPLY((request, socket) -> socket.close()),
        RESET((request, socket) -> {
            socket.setSoLinger(true, 0);
            socket.close();
        }),
        CUT_WITHIN_THE_REPLY((request, socket) -> {
            ScriptedPeer.send(socket, Arrays.copyOf(ScriptedPeer.answer(request), 8));
            socket.close();
        }),
        SILENT_WITHIN_THE_REPLY(
                (request, socket) -> ScriptedPeer.send(socket, Arrays.copyOf(ScriptedPeer.answer(request), 8))),
        TRICKLE((request, socket) -> trickle(socket, ScriptedPeer.answer(request))),
        WRONG_TRANSACTION(changed(1, 0x40)),
        WRONG_PROTOCOL(changed(3, 0x01)),
        WRONG_UNIT(changed(6, 0x02)),
        WRONG_FUNCTION(changed(7, 0x20)),
        LENGTH_TOO_SHORT(changed(5, 0x04)),
        LENGTH_TOO_LONG(changed(4, 0x7F)),
        BYTES_TOO_MANY(mangled(reply -> Arrays.copyOf(reply, reply.length + 1))),
        EXCEPTION_TOO_LONG(mangled(
                reply -> new byte[] {reply[0], reply[1], 0, 0, 0, 4, reply[6], (byte) (reply[7] | 0x80), 2, 0})),
        WRONG_ECHO_OR_BYTE_COUNT(changed(8, 0x01));

        @SuppressWarnings("ImmutableEnumChecker") // the acts hold no state
        private final ScriptedPeer.Act act;

        Fault(ScriptedPeer.Act act) {
            this.act = act;
        }

        private static ScriptedPeer.Act changed(int at, int bits) {
            return mangled(reply -> {
                reply[at] = (byte) (reply[at] ^ bits);
                return reply;
            });
        }

        private static ScriptedPeer.Act mangled(UnaryOperator<byte[]> mangle) {
            return (request, socket) -> ScriptedPeer.send(socket, mangle.apply(ScriptedPeer.answer(request)));
        }

        /** One byte in a while, each well within the deadline, all of them well beyond it. */
        private static void trickle(Socket socket, byte[] reply) throws IOException, InterruptedException {
            CountDownLatch never = new CountDownLatch(1);
            for (byte one : reply) {
                socket.getOutputStream().write(one);
                if (never.await(DEADLINE.toMillis() / 4, TimeUnit.MILLISECONDS)) {
                    return;
                }
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Fault.class)
    void aReadIsLostAndTheConnectionEnds(Fault fault) throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer(fault.act);
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(() -> link.read(3, 0x100, 2))
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("127.0.0.1:" + peer.port() + " unit 1")
                    .hasMessageContaining("registers 256…257 (references 40257…40258)");
            nothingMoreGoesOutUntilReconnected(peer, link);
        }
    }

    @ParameterizedTest
    @EnumSource(Fault.class)
    void aSingleWriteGoesOutOnceAndItsOutcomeIsUnknown(Fault fault) throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer(fault.act);
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(() -> link.writeSingle(0x100, 3))
                    .isInstanceOf(OutcomeUnknownException.class)
                    .hasMessageContaining("The drive may have acted")
                    .hasMessageContaining("register 256 (reference 40257)");
            nothingMoreGoesOutUntilReconnected(peer, link);
        }
    }

    @ParameterizedTest
    @EnumSource(Fault.class)
    void aBlockWriteGoesOutOnceAndItsOutcomeIsUnknown(Fault fault) throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer(fault.act);
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(() -> link.writeBlock(0x100, new int[] {1, 2}))
                    .isInstanceOf(OutcomeUnknownException.class)
                    .cause()
                    .isInstanceOf(IOException.class);
            nothingMoreGoesOutUntilReconnected(peer, link);
        }
    }

    private static void nothingMoreGoesOutUntilReconnected(ScriptedPeer peer, ModbusTcpLink link) throws Exception {
        peer.awaitEnded(1);
        Throwable write = catchThrowable(() -> link.writeSingle(5, 5));
        assertThat(write).isInstanceOf(LinkLostException.class).hasMessageContaining("nothing was sent");
        assertThatThrownBy(() -> link.read(3, 5, 1)).isInstanceOf(LinkLostException.class);
        assertThat(peer.frames()).hasSize(1);

        link.reconnect();
        assertThat(link.read(3, 0x0203, 2).words()).containsExactly(0x0203, 0x0204);
        link.writeSingle(5, 5);
        assertThat(peer.frames()).hasSize(3);
        assertThat(peer.connections()).isEqualTo(2);
    }

    @Test
    void aLateReplyIsNeverTakenForTheNextRequest() throws Exception {
        CountDownLatch next = new CountDownLatch(1);
        CountDownLatch lateSent = new CountDownLatch(1);
        try (ScriptedPeer peer = new ScriptedPeer(
                        (request, socket) -> {
                            next.await();
                            try {
                                ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                            } finally {
                                lateSent.countDown();
                            }
                        },
                        (request, socket) -> {
                            next.countDown();
                            lateSent.await();
                            ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                        });
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(() -> link.read(3, 100, 1)).isInstanceOf(LinkLostException.class);
            link.reconnect();
            assertThat(link.read(3, 200, 1).words()).containsExactly(200);
        }
    }

    @Test
    void aReplyThatComesTwiceEndsTheConnectionBeforeAWriteLeaves() throws Exception {
        CountDownLatch twice = new CountDownLatch(1);
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {
                    ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                    twice.await();
                    ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                    ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                });
                ModbusTcpLink link = open(peer)) {
            assertThat(link.read(3, 100, 1).words()).containsExactly(100);
            twice.countDown();
            // Whichever exchange meets the stray reply first, none may take it for its own.
            Throwable stray = catchThrowable(() -> {
                for (int i = 0; i < 10_000; i++) {
                    link.writeSingle(5, 5);
                }
            });
            assertThat(stray).isInstanceOfAny(LinkLostException.class, OutcomeUnknownException.class);
            link.reconnect();
            assertThat(link.read(3, 200, 1).words()).containsExactly(200);
        }
    }

    private static ModbusTcpLink open(ScriptedPeer peer) throws LinkException {
        return ModbusTcpLink.open("127.0.0.1", peer.port(), 1, DEADLINE, SystemTime.INSTANCE);
    }
}
