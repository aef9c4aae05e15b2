package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.EOFException;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.OutcomeUnknownException;
import org.axtrial.sim.WireFault.Strikes;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Each fault as bytes on a bare socket, and what the link in process makes of it. */
@Timeout(60)
class WireFaultTest {

    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    // Frames: MODBUS Messaging on TCP/IP V1.0b, 3.1.3; PDUs: MODBUS Application Protocol V1.1b3, 6.3, 6.4, 6.6.
    private static final String READ_CODE = "00 07 00 00 00 06 01 03 00 32 00 02";
    private static final String WRITE_COMMAND = "00 08 00 00 00 06 01 06 00 14 00 03";
    private static final Strikes ONCE = new Strikes(WireFault.ANY_FUNCTION, 0, 1);
    private static final int COMMAND = 20;

    private final SimulatedDrive drive = new SimulatedDrive("drive", InventedDrives.direct(), InventedDrives.axis());

    @Nested
    class OnTheWire {

        private SimulatedServer server;

        @BeforeEach
        void serve() throws IOException {
            server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive));
        }

        @AfterEach
        void close() {
            server.close();
        }

        private Socket socket() throws IOException {
            Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
            socket.setSoTimeout(10_000);
            return socket;
        }

        private String exchange(Socket socket, String request, int bytes) throws IOException {
            socket.getOutputStream().write(HEX.parseHex(request));
            byte[] reply = socket.getInputStream().readNBytes(bytes);
            if (reply.length < bytes) {
                throw new EOFException("only " + HEX.formatHex(reply));
            }
            return HEX.formatHex(reply);
        }

        private String sound() throws IOException {
            try (Socket socket = socket()) {
                return exchange(socket, READ_CODE, 13);
            }
        }

        @Test
        void aDoubledReplyComesTwice() throws IOException {
            String once = sound();
            server.fault(new WireFault.DoubleReply(ONCE));
            try (Socket socket = socket()) {
                assertThat(exchange(socket, READ_CODE, 26)).isEqualTo(once + " " + once);
            }
        }

        @Test
        void aWrongTransactionIsTheOneBefore() throws IOException {
            String once = sound();
            server.fault(new WireFault.WrongTransaction(ONCE));
            try (Socket socket = socket()) {
                assertThat(exchange(socket, READ_CODE, 13)).isEqualTo("00 06" + once.substring(5));
            }
        }

        @Test
        void aWrongUnitIsAnother() throws IOException {
            String once = sound();
            server.fault(new WireFault.WrongUnit(ONCE));
            try (Socket socket = socket()) {
                assertThat(exchange(socket, READ_CODE, 13))
                        .isEqualTo(once.substring(0, 18) + "00" + once.substring(20));
            }
        }

        @Test
        void aWrongFunctionIsAnother() throws IOException {
            server.fault(new WireFault.WrongFunction(ONCE));
            try (Socket socket = socket()) {
                assertThat(exchange(socket, READ_CODE, 13)).startsWith("00 07 00 00 00 07 01 2B");
            }
        }

        @Test
        void aWrongLengthIsOneRegisterShortAndConsistent() throws IOException {
            server.fault(new WireFault.WrongLength(ONCE));
            try (Socket socket = socket()) {
                assertThat(exchange(socket, READ_CODE, 11)).startsWith("00 07 00 00 00 05 01 03 02");
            }
        }

        @Test
        void aTrickledReplyTakesItsTimeForEachByte() throws IOException {
            TimeSource time = SystemTime.INSTANCE;
            server.fault(new WireFault.TrickleReply(ONCE, Duration.ofMillis(5)));
            try (Socket socket = socket()) {
                long before = time.nanos();
                exchange(socket, READ_CODE, 13);
                assertThat(time.nanos() - before).isGreaterThanOrEqualTo(13 * 5_000_000L);
            }
        }

        @Test
        void aCutReplyEndsInTheMiddle() throws IOException {
            server.fault(new WireFault.CutReply(ONCE));
            try (Socket socket = socket()) {
                assertThatThrownBy(() -> exchange(socket, READ_CODE, 13))
                        .isInstanceOf(EOFException.class)
                        .hasMessage("only 00 07 00 00 00 07");
            }
        }

        @Test
        void aForgottenConnectionIsOpenAndSilentWhileANewOneIsServed() throws IOException {
            server.fault(new WireFault.HalfOpen(ONCE));
            try (Socket old = socket()) {
                old.setSoTimeout(100);
                assertThatThrownBy(() -> exchange(old, WRITE_COMMAND, 12)).isInstanceOf(SocketTimeoutException.class);
                assertThatThrownBy(() -> exchange(old, READ_CODE, 13)).isInstanceOf(SocketTimeoutException.class);
                assertThat(sound()).startsWith("00 07");
            }
            assertThat(drive.writes(COMMAND)).as("nothing was acted on").isZero();
        }

        @Test
        void takenConnectionsTurnTheNextAttemptsAway() throws IOException {
            server.fault(new WireFault.ConnectionsTaken(ONCE, 1));
            try (Socket first = socket()) {
                assertThatThrownBy(() -> exchange(first, WRITE_COMMAND, 12)).isInstanceOf(EOFException.class);
            }
            assertThatThrownBy(this::sound).isInstanceOfAny(EOFException.class, SocketException.class);
            assertThat(sound()).startsWith("00 07");
            assertThat(drive.writes(COMMAND)).isZero();
        }

        @Test
        void anExceptionOfAnyCodeIsSent() throws IOException {
            server.fault(new WireFault.ExceptionReply(ONCE, 0x7F));
            try (Socket socket = socket()) {
                assertThat(exchange(socket, READ_CODE, 9)).isEqualTo("00 07 00 00 00 03 01 83 7F");
            }
        }

        @Test
        void anotherDriveShowsOtherConstants() throws IOException {
            String once = sound();
            server.fault(new WireFault.OtherDrive(ONCE));
            assertThatThrownBy(this::sound).isInstanceOf(IOException.class);
            assertThat(sound()).isNotEqualTo(once).startsWith("00 07 00 00 00 07 01 03 04");
            server.clearFaults();
            assertThat(sound()).isEqualTo(once);
        }

        @Test
        void aHungUpClientDoesNotKeepItsSlotForALateReply() throws IOException {
            server.fault(new WireFault.DelayReply(new Strikes(WireFault.ANY_FUNCTION, 0, 2), Duration.ofHours(1)));
            for (int i = 0; i < 2; i++) {
                try (Socket socket = socket()) {
                    socket.getOutputStream().write(HEX.parseHex(READ_CODE));
                }
            }
            // A later request on another connection may otherwise be served before these and be struck in their place.
            while (server.requests(1) < 2) {
                Thread.onSpinWait();
            }
            assertThat(sound()).startsWith("00 07");
        }

        @Test
        void aFaultOfOneUnitLeavesTheOthersAlone() throws IOException {
            server.close();
            SimulatedDrive neighbour = new SimulatedDrive("neighbour", InventedDrives.direct(), InventedDrives.axis());
            server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive, 2, neighbour));
            server.fault(2, new WireFault.ExceptionReply(ONCE, 6));
            assertThat(sound()).startsWith("00 07 00 00 00 07 01 03");
            try (Socket socket = socket()) {
                String toNeighbour = READ_CODE.replace("06 01 03", "06 02 03");
                assertThat(exchange(socket, toNeighbour, 9)).isEqualTo("00 07 00 00 00 03 02 83 06");
            }
            assertThatThrownBy(() -> server.fault(9, new WireFault.ExceptionReply(ONCE, 6)))
                    .hasMessageContaining("9");
        }

        @Test
        void framesAreCountedWhateverBecomesOfThem() throws IOException {
            server.fault(new WireFault.HalfOpen(ONCE));
            try (Socket socket = socket()) {
                socket.setSoTimeout(50);
                assertThatThrownBy(() -> exchange(socket, WRITE_COMMAND, 12))
                        .isInstanceOf(SocketTimeoutException.class);
            }
            assertThat(server.frames(6, COMMAND)).isEqualTo(1);
            assertThat(server.frames(3, COMMAND)).isZero();
        }
    }

    @Nested
    class InProcess {

        private final VirtualTime time = new VirtualTime(Instant.EPOCH);
        private final InProcessLink link = new InProcessLink(drive, time, Duration.ofMillis(100));

        static Stream<WireFault> spoilt() {
            return Stream.of(
                    new WireFault.DoubleReply(ONCE),
                    new WireFault.WrongTransaction(ONCE),
                    new WireFault.WrongUnit(ONCE),
                    new WireFault.WrongFunction(ONCE),
                    new WireFault.WrongLength(ONCE),
                    new WireFault.TrickleReply(ONCE, Duration.ofMillis(20)),
                    new WireFault.CutReply(ONCE),
                    new WireFault.HalfOpen(ONCE));
        }

        @ParameterizedTest
        @MethodSource("spoilt")
        void aReplyThatIsNotTheOneAskedForLosesTheLinkOrLeavesTheOutcomeOpen(WireFault fault) throws LinkException {
            link.fault(fault);
            assertThatThrownBy(() -> link.read(3, 50, 2)).isInstanceOf(LinkLostException.class);
            assertThatThrownBy(() -> link.read(3, 50, 2)).isInstanceOf(LinkLostException.class);
            link.reconnect();
            link.fault(fault);
            assertThatThrownBy(() -> link.writeSingle(COMMAND, 3)).isInstanceOf(OutcomeUnknownException.class);
            link.reconnect();
            assertThat(link.read(3, 50, 2).words()).hasSize(2);
            assertThat(link.frames(6, COMMAND)).isEqualTo(1);
        }

        @Test
        void takenConnectionsTurnAttemptsAway() throws LinkException {
            link.fault(new WireFault.ConnectionsTaken(ONCE, 1));
            assertThatThrownBy(() -> link.read(3, 50, 2)).isInstanceOf(LinkLostException.class);
            assertThatThrownBy(link::reconnect)
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("another master");
            link.reconnect();
            assertThat(link.read(3, 50, 2).words()).hasSize(2);
        }

        @Test
        void someRequestsPassFirst() throws LinkException {
            link.fault(new WireFault.ExceptionReply(new Strikes(3, 2, 1), 6));
            link.writeSingle(COMMAND, 3);
            link.read(3, 50, 2);
            link.read(3, 50, 2);
            assertThatThrownBy(() -> link.read(3, 50, 2)).hasMessageContaining("06");
            assertThat(link.read(3, 50, 2).words()).hasSize(2);
        }

        @Test
        void aSlowDriveAddsItsTimeToEveryReply() throws LinkException {
            link.fault(new WireFault.SlowDrive(Duration.ofMillis(40)));
            link.fault(new WireFault.DelayReply(3, Duration.ofMillis(20), 1));
            long before = time.nanos();
            link.read(3, 50, 2);
            assertThat(time.nanos() - before).isBetween(61_000_000L, 63_000_000L);
            link.read(3, 50, 2);
            assertThat(time.nanos() - before).isBetween(102_000_000L, 106_000_000L);
        }

        private void spin() throws LinkException {
            time.advance(20_000_000);
            link.writeSingle(COMMAND, 1);
            time.advance(20_000_000);
            // 600.00 r/min, low word first.
            link.writeBlock(26, new int[] {60_000, 0});
        }

        @Test
        void frozenValuesStandStillWhileTheShaftTurnsAndWritesAct() throws LinkException {
            spin();
            link.fault(new WireFault.FrozenValues(Strikes.FROM_NOW_ON));
            int[] first = link.read(4, 0, 10).words();
            double before = drive.shaftAngle();
            time.advance(300_000_000);
            assertThat(link.read(4, 0, 10).words()).isEqualTo(first);
            assertThat(drive.shaftAngle()).isGreaterThan(before + 1);
            assertThat(link.read(4, 2, 2).words()).isEqualTo(new int[] {first[2], first[3]});
            link.writeSingle(COMMAND, 3);
            time.advance(1_000_000_000);
            link.read(4, 0, 1);
            assertThat(drive.shaftSpeed()).isZero();
        }

        @Test
        void tornWordsMixTwoReads() throws LinkException {
            spin();
            time.advance(400_000_000);
            link.fault(new WireFault.TornWords(Strikes.FROM_NOW_ON));
            List<Integer> jumps = new java.util.ArrayList<>();
            int last = position();
            for (int i = 0; i < 100; i++) {
                time.advance(3_000_000);
                int now = position();
                jumps.add(now - last);
                last = now;
            }
            // 10 rev/s are 655360 counts/s: 3 to 6 ms make 2000 to 4000 counts, and a torn word 65536 more or less.
            assertThat(jumps).anyMatch(jump -> Math.abs(jump) > 60_000);
        }

        private int position() throws LinkException {
            int[] words = link.read(4, 0, 2).words();
            return words[1] << 16 | words[0];
        }
    }

    @Test
    void numbersThatMeanNothingAreRefused() {
        assertThatThrownBy(() -> new Strikes(128, 0, 1)).hasMessageContaining("128");
        assertThatThrownBy(() -> new Strikes(3, -1, 1)).hasMessageContaining("-1");
        assertThatThrownBy(() -> new Strikes(3, 0, 0)).hasMessageContaining("0");
        assertThatThrownBy(() -> new WireFault.ConnectionsTaken(ONCE, 0)).hasMessageContaining("0");
        assertThatThrownBy(() -> new WireFault.SlowDrive(Duration.ofMillis(-1))).hasMessageContaining("negative");
    }
}
