package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.concurrent.atomic.AtomicReference;
import org.axtrial.time.SystemTime;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Serial frames over TCP: everything that can go wrong on the line, and replies that come after their time. */
@Timeout(60)
class RtuWireTest {

    private static final Duration DEADLINE = Duration.ofMillis(300);
    private static final Duration PATIENT = Duration.ofSeconds(20);

    private ServerSocket server;
    /** What the gateway hands to whoever connects next: bytes that came late from the line. */
    private final AtomicReference<byte[]> late = new AtomicReference<>(new byte[0]);

    @BeforeEach
    void listen() throws IOException {
        server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    }

    @AfterEach
    void close() throws IOException {
        server.close();
    }

    private SharedConnection gateway(ScriptedStation station) {
        Thread thread = new Thread(() -> accept(station), "gateway");
        thread.setDaemon(true);
        thread.start();
        return SharedConnection.to(new Transport.RtuOverTcp("127.0.0.1", server.getLocalPort()), SystemTime.INSTANCE);
    }

    private void accept(ScriptedStation station) {
        while (!server.isClosed()) {
            try (Socket socket = server.accept()) {
                socket.setTcpNoDelay(true);
                socket.getOutputStream().write(late.getAndSet(new byte[0]));
                station.serve(socket.getInputStream(), socket.getOutputStream());
            } catch (IOException gone) {
                // Ended by the client, by the script, or by the end of the test.
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    enum Fault {
        NO_REPLY((request, out) -> {}),
        CUT((request, out) -> out.write(Arrays.copyOf(ScriptedStation.answer(request), 4))),
        ENDED((request, out) -> out.close()),
        WRONG_CHECK_SUM((request, out) -> out.write(changed(ScriptedStation.answer(request), 3))),
        WRONG_UNIT((request, out) -> out.write(sealedWith(request, 0, 9))),
        WRONG_FUNCTION((request, out) -> out.write(sealedWith(request, 1, request[1] == 6 ? 16 : 4))),
        WRONG_ECHO_OR_BYTE_COUNT((request, out) -> out.write(
                request[1] == 3
                        ? ScriptedStation.sealed(new byte[] {request[0], 3, 2, 0, 1})
                        : sealedWith(request, 3, 77))),
        NOISE((request, out) -> out.write(new byte[] {0x55, 0x55, 0x55, 0x55}));

        @SuppressWarnings("ImmutableEnumChecker") // the acts hold no state
        private final ScriptedStation.Act act;

        Fault(ScriptedStation.Act act) {
            this.act = act;
        }

        private static byte[] changed(byte[] frame, int at) {
            frame[at] ^= 0x10;
            return frame;
        }

        private static byte[] sealedWith(byte[] request, int at, int value) {
            byte[] answer = ScriptedStation.answer(request);
            byte[] message = Arrays.copyOf(answer, answer.length - 2);
            message[at] = (byte) value;
            return ScriptedStation.sealed(message);
        }
    }

    @Test
    void theExampleOfTheSpecificationOnTheWire() throws Exception {
        ScriptedStation station =
                new ScriptedStation((request, out) -> out.write(HexFormat.of().parseHex("110306022B00000064C8BA")));
        try (SharedConnection connection = gateway(station)) {
            RegisterLink link = connection.open(0x11, PATIENT);
            assertThat(link.read(3, 0x6B, 3).words()).containsExactly(555, 0, 100);
            assertThat(station.requests()).containsExactly(HexFormat.of().parseHex("1103006B00037687"));
        }
    }

    @ParameterizedTest
    @EnumSource
    void aFaultOnAReadIsToldAndTheNextReadIsRight(Fault fault) throws Exception {
        ScriptedStation station = new ScriptedStation(fault.act);
        try (SharedConnection connection = gateway(station)) {
            RegisterLink hasty = connection.open(5, DEADLINE);
            RegisterLink link = connection.open(5, PATIENT);
            assertThatThrownBy(() -> hasty.read(3, 100, 2)).isInstanceOf(LinkLostException.class);
            link.reconnect();
            assertThat(link.read(3, 200, 2).words()).containsExactly(200, 201);
        }
    }

    @ParameterizedTest
    @EnumSource
    void aFaultOnAWriteLeavesTheOutcomeOpenAndNothingIsRepeated(Fault fault) throws Exception {
        ScriptedStation station = new ScriptedStation(fault.act);
        try (SharedConnection connection = gateway(station)) {
            RegisterLink hasty = connection.open(5, DEADLINE);
            RegisterLink link = connection.open(5, PATIENT);
            assertThatThrownBy(() -> hasty.writeSingle(7, 9)).isInstanceOf(OutcomeUnknownException.class);
            link.reconnect();
            assertThat(link.read(3, 200, 1).words()).containsExactly(200);
            assertThat(station.requests()).hasSize(2);
        }
    }

    @Test
    void aTrickledReplyIsTakenWhole() throws Exception {
        try (SharedConnection connection = gateway(new ScriptedStation((request, out) -> {
            for (byte each : ScriptedStation.answer(request)) {
                out.write(each);
                out.flush();
            }
        }))) {
            assertThat(connection.open(5, PATIENT).read(4, 10, 3).words()).containsExactly(10, 11, 12);
        }
    }

    @Test
    void anExceptionCodeLeavesTheConnection() throws Exception {
        try (SharedConnection connection = gateway(new ScriptedStation((request, out) ->
                out.write(ScriptedStation.sealed(new byte[] {request[0], (byte) (request[1] | 0x80), 2}))))) {
            RegisterLink link = connection.open(5, PATIENT);
            assertThatThrownBy(() -> link.read(3, 1, 1)).isInstanceOf(DriveRefusedException.class);
            assertThat(link.read(3, 1, 1).words()).containsExactly(1);
            assertThat(connection.connections()).isEqualTo(1);
        }
    }

    /** Same unit, function and length as the request after it: only the time tells that it is the old one. */
    @Test
    void aLateReplyOverTheNextConnectionIsNotTheNextReply() throws Exception {
        ScriptedStation station = new ScriptedStation((request, out) -> late.set(ScriptedStation.answer(request)));
        try (SharedConnection connection = gateway(station)) {
            RegisterLink hasty = connection.open(5, DEADLINE);
            RegisterLink link = connection.open(5, PATIENT);
            assertThatThrownBy(() -> hasty.read(3, 100, 2)).isInstanceOf(LinkLostException.class);
            link.reconnect();
            assertThat(link.read(3, 200, 2).words()).containsExactly(200, 201);
        }
    }

    /** A stop does not wait for a reply that cannot be taken for its own. */
    @Test
    void aLateReplyToAReadIsPassedOverByTheWriteAfterIt() throws Exception {
        AtomicReference<byte[]> owed = new AtomicReference<>(new byte[0]);
        ScriptedStation station =
                new ScriptedStation((request, out) -> owed.set(ScriptedStation.answer(request)), (request, out) -> {
                    out.write(owed.get());
                    out.write(ScriptedStation.answer(request));
                });
        try (SharedConnection connection = gateway(station)) {
            RegisterLink hasty = connection.open(5, DEADLINE);
            RegisterLink link = connection.open(5, PATIENT);
            assertThatThrownBy(() -> hasty.read(3, 100, 2)).isInstanceOf(LinkLostException.class);
            link.reconnect();
            assertThat(link.writeSingle(7, 9).words()).isEmpty();
            assertThat(link.read(3, 200, 2).words()).containsExactly(200, 201);
            assertThat(connection.connections()).isEqualTo(2);
        }
    }

    @Test
    void aLateReplyOfOneUnitIsPassedOverByItsNeighbour() throws Exception {
        AtomicReference<byte[]> owed = new AtomicReference<>(new byte[0]);
        ScriptedStation station =
                new ScriptedStation((request, out) -> owed.set(ScriptedStation.answer(request)), (request, out) -> {
                    out.write(owed.get());
                    out.write(ScriptedStation.answer(request));
                });
        try (SharedConnection connection = gateway(station)) {
            RegisterLink first = connection.open(5, DEADLINE);
            RegisterLink second = connection.open(6, PATIENT);
            assertThatThrownBy(() -> first.read(3, 100, 2)).isInstanceOf(LinkLostException.class);
            second.reconnect();
            assertThat(second.read(3, 200, 2).words()).containsExactly(200, 201);
        }
    }

    @Test
    void aLineThatNeverFallsSilentSendsNothing() {
        VirtualTime time = new VirtualTime(Instant.EPOCH);
        ByteStream chatter = new ByteStream() {
            @Override
            public void open(Duration within) {}

            @Override
            public int read(byte[] into, int at, int most, Duration within) {
                time.advance(within.toNanos() / 2);
                return most;
            }

            @Override
            public void write(byte[] bytes) {
                throw new AssertionError("sent into a line that is not silent");
            }

            @Override
            public void close() {}

            @Override
            public void abort() {}
        };
        Duration silence = Transport.Serial.silence(9_600);
        RtuWire wire = new RtuWire(chatter, silence, silence, new LateReplies(time), time);
        assertThatThrownBy(() -> wire.ready(new Request.WriteSingle(7, 9), 5, DEADLINE))
                .isInstanceOf(InvalidReplyException.class)
                .hasMessageContaining("does not fall silent");
        assertThat(time.nanos()).isBetween(DEADLINE.toNanos(), 2 * DEADLINE.toNanos());
    }

    @Test
    void unitsOfASerialLine() {
        SharedConnection connection =
                SharedConnection.to(new Transport.RtuOverTcp("127.0.0.1", 502), SystemTime.INSTANCE);
        // Source: MODBUS over Serial Line V1.02, 2.2: 1 … 247 are single stations, 0 is everybody.
        for (int unit : new int[] {0, 248, 255}) {
            assertThatThrownBy(() -> connection.open(unit, PATIENT)).hasMessageContaining("1 … 247, got " + unit);
        }
    }
}
