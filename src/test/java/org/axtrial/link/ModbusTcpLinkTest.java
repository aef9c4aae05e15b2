package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.Closeable;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(30)
class ModbusTcpLinkTest {

    /** Long enough for a loaded machine; only replies that must come wait for it. */
    private static final Duration PATIENT = Duration.ofSeconds(20);

    // Source: MODBUS Application Protocol V1.1b3, 6.3, with the header of MODBUS Messaging on TCP/IP V1.0b, 3.1.3.
    @Test
    void theExampleOfTheSpecificationOnTheWire() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) ->
                        ScriptedPeer.send(socket, HexFormat.of().parseHex("000100000009010306022B00000064")));
                ModbusTcpLink link = open(peer)) {
            assertThat(link.read(3, 0x6B, 3).words()).containsExactly(555, 0, 100);
            assertThat(peer.frames()).containsExactly(HexFormat.of().parseHex("0001000000060103006B0003"));
        }
    }

    @Test
    void writesGoOutByTheirFunctions() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                ModbusTcpLink link = open(peer)) {
            assertThat(link.writeSingle(1, 3).words()).isEmpty();
            assertThat(link.writeBlock(1, new int[] {10, 0x102}).words()).isEmpty();
            assertThat(peer.frames())
                    .containsExactly(
                            HexFormat.of().parseHex("000100000006010600010003"),
                            HexFormat.of().parseHex("00020000000B01100001000204000A0102"));
        }
    }

    @Test
    void aReplyKnowsWhenItWasSentAndCame() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                ModbusTcpLink link = open(peer)) {
            long before = SystemTime.INSTANCE.nanos();
            Reply reply = link.read(4, 5, 2);
            assertThat(reply.words()).containsExactly(5, 6);
            assertThat(reply.sentNanos()).isBetween(before, reply.repliedNanos());
            assertThat(reply.repliedNanos()).isLessThanOrEqualTo(SystemTime.INSTANCE.nanos());
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 6, 7, 8, 9, 10, 255})
    void anExceptionCodeRefusesAndLeavesTheConnection(int code) throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer(ScriptedPeer.exception(code), ScriptedPeer.exception(code));
                ModbusTcpLink link = open(peer)) {
            for (int i = 0; i < 2; i++) {
                boolean write = i == 1;
                Throwable refused = catchThrowable(() -> {
                    if (write) {
                        link.writeSingle(30, 1);
                    } else {
                        link.read(3, 30, 1);
                    }
                });
                assertThat(refused)
                        .isInstanceOfSatisfying(
                                DriveRefusedException.class,
                                exception -> assertThat(exception.code()).isEqualTo(code))
                        .hasMessageContaining(
                                "unit 1: " + HexFormat.of().withUpperCase().toHexDigits((byte) code))
                        .hasMessageContaining("register 30 (reference 40031)");
            }
            assertThat(link.read(3, 7, 1).words()).containsExactly(7);
            assertThat(peer.connections()).isEqualTo(1);
        }
    }

    // Source: MODBUS Application Protocol V1.1b3, section 7: 05 means that the request is accepted and being worked
    // on, 0B that the gateway got no answer from the device.
    @ParameterizedTest
    @ValueSource(ints = {5, 11})
    void aWriteThatTheDriveMayBeActingOnIsNoRefusal(int code) throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer(ScriptedPeer.exception(code), ScriptedPeer.exception(code));
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(() -> link.writeSingle(30, 1))
                    .isInstanceOf(OutcomeUnknownException.class)
                    .hasCauseInstanceOf(DriveRefusedException.class);
            assertThatThrownBy(() -> link.read(3, 30, 1)).isInstanceOf(DriveRefusedException.class);
            assertThat(peer.frames()).hasSize(2);
            assertThat(peer.connections()).isEqualTo(1);
        }
    }

    @Test
    void whatDoesNotFitNeverReachesTheWire() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(() -> link.writeSingle(1, 70_000)).isInstanceOf(IllegalArgumentException.class);
            assertThatThrownBy(() -> link.writeBlock(1, new int[] {0, -1}))
                    .isInstanceOf(IllegalArgumentException.class);
            assertThatThrownBy(() -> link.read(3, 0, 126)).isInstanceOf(IllegalArgumentException.class);
            assertThat(link.read(3, 7, 1).words()).containsExactly(7);
            assertThat(peer.frames()).hasSize(1);
        }
    }

    @Test
    void aWriteOnAConnectionThatThePeerHasLeftIsNotSent() throws Exception {
        CountDownLatch left = new CountDownLatch(1);
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {
                    ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                    socket.shutdownOutput();
                    left.countDown();
                });
                ModbusTcpLink link = open(peer)) {
            link.read(3, 7, 1);
            left.await();
            assertThatThrownBy(() -> link.writeSingle(1, 3))
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("nothing was sent for register 1 (reference 40002)");
            peer.awaitEnded(1);
            assertThat(peer.frames()).hasSize(1);
            link.reconnect();
            link.writeSingle(1, 3);
            assertThat(peer.frames()).hasSize(2);
        }
    }

    @Test
    void reconnectingASoundConnectionDoesNothing() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                ModbusTcpLink link = open(peer)) {
            link.reconnect();
            assertThat(link.read(3, 7, 1).words()).containsExactly(7);
            assertThat(peer.connections()).isEqualTo(1);
            assertThat(peer.frames()).hasSize(1);
        }
    }

    @Test
    void closingFromAnotherThreadEndsAWaitingExchange() throws Exception {
        for (boolean write : new boolean[] {false, true}) {
            CountDownLatch asked = new CountDownLatch(1);
            CountDownLatch never = new CountDownLatch(1);
            try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {
                asked.countDown();
                never.await();
            })) {
                ModbusTcpLink link = open(peer);
                CompletableFuture<Throwable> outcome = CompletableFuture.supplyAsync(() -> catchThrowable(() -> {
                    if (write) {
                        link.writeSingle(1, 3);
                    } else {
                        link.read(3, 1, 1);
                    }
                }));
                asked.await();
                link.close();
                assertThat(outcome.get())
                        .isInstanceOf(write ? OutcomeUnknownException.class : LinkLostException.class)
                        .hasMessageContaining("the link was closed while waiting for the reply");
                never.countDown();
                assertThatThrownBy(link::reconnect)
                        .isInstanceOf(LinkLostException.class)
                        .hasMessageContaining("the link was closed");
            }
        }
    }

    @Test
    void anInterruptLeavesTheExchangeWholeAndStaysPending() throws Exception {
        CountDownLatch asked = new CountDownLatch(1);
        CountDownLatch interrupted = new CountDownLatch(1);
        AtomicReference<Reply> reply = new AtomicReference<>();
        AtomicReference<Boolean> flag = new AtomicReference<>(false);
        try (ScriptedPeer peer = new ScriptedPeer((request, socket) -> {
                    asked.countDown();
                    interrupted.await();
                    ScriptedPeer.send(socket, ScriptedPeer.answer(request));
                });
                ModbusTcpLink link = open(peer)) {
            Thread caller = new Thread(() -> {
                try {
                    reply.set(link.writeSingle(1, 3));
                } catch (LinkException e) {
                    throw new IllegalStateException(e);
                }
                flag.set(Thread.currentThread().isInterrupted());
            });
            caller.start();
            asked.await();
            caller.interrupt();
            interrupted.countDown();
            caller.join();
            assertThat(reply.get()).isNotNull();
            assertThat(flag.get()).isTrue();
            assertThat(peer.frames()).hasSize(1);
        }
    }

    @Test
    void manyCallersEachGetTheirOwnReply() throws Exception {
        try (ScriptedPeer peer = new ScriptedPeer();
                ModbusTcpLink link = open(peer)) {
            List<CompletableFuture<Boolean>> callers = new ArrayList<>();
            for (int caller = 0; caller < 4; caller++) {
                int base = 1_000 * caller;
                callers.add(CompletableFuture.supplyAsync(() -> ownRepliesOnly(link, base)));
            }
            for (CompletableFuture<Boolean> caller : callers) {
                assertThat(caller.get()).isTrue();
            }
            assertThat(peer.frames()).hasSize(4 * 200);
        }
    }

    private static boolean ownRepliesOnly(ModbusTcpLink link, int base) {
        try {
            for (int i = 0; i < 200; i++) {
                if (link.read(3, base + i, 1).words()[0] != base + i) {
                    return false;
                }
            }
            return true;
        } catch (LinkException e) {
            throw new IllegalStateException(e);
        }
    }

    @Test
    void nobodyListening() throws Exception {
        int port;
        try (ServerSocket gone = new ServerSocket(0)) {
            port = gone.getLocalPort();
        }
        assertThatThrownBy(() -> ModbusTcpLink.open("127.0.0.1", port, 1, PATIENT, SystemTime.INSTANCE))
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("127.0.0.1:" + port + " unit 1: no connection")
                .hasMessageContaining("another master");
    }

    @Test
    void anUnknownHost() {
        // Source: RFC 2606 keeps the name "invalid" from ever being given out.
        assertThatThrownBy(() -> ModbusTcpLink.open("drive.invalid", 502, 1, PATIENT, SystemTime.INSTANCE))
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("no address is known for drive.invalid");
    }

    @Test
    void aPeerThatDoesNotTakeTheConnectionIsGivenUpAtTheDeadline() throws Exception {
        List<Closeable> waiting = new ArrayList<>();
        try (ServerSocket full = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            assertThatThrownBy(() -> {
                        // Nobody accepts, so the queue of the operating system fills and then connecting hangs.
                        for (int i = 0; i < 64; i++) {
                            ModbusTcpLink link = ModbusTcpLink.open(
                                    "127.0.0.1", full.getLocalPort(), 1, Duration.ofMillis(50), SystemTime.INSTANCE);
                            waiting.add(link::close);
                        }
                    })
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("no connection within 50 ms");
        } finally {
            for (Closeable link : waiting) {
                link.close();
            }
        }
    }

    @Test
    void settingsOutOfRangeAreRefused() {
        assertThatThrownBy(() -> ModbusTcpLink.open("127.0.0.1", 0, 1, PATIENT, SystemTime.INSTANCE))
                .hasMessageContaining("1 … 65535, got 0");
        assertThatThrownBy(() -> ModbusTcpLink.open("127.0.0.1", 502, 256, PATIENT, SystemTime.INSTANCE))
                .hasMessageContaining("0 … 255, got 256");
        assertThatThrownBy(() -> ModbusTcpLink.open("127.0.0.1", 502, 1, Duration.ZERO, SystemTime.INSTANCE))
                .hasMessageContaining("1 ms … 1 h, got PT0S");
    }

    private static ModbusTcpLink open(ScriptedPeer peer) throws LinkException {
        return ModbusTcpLink.open("127.0.0.1", peer.port(), 1, PATIENT, SystemTime.INSTANCE);
    }
}
