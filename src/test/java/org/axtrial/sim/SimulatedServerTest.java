package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.digitalpetri.modbus.client.ModbusTcpClient;
import com.digitalpetri.modbus.exceptions.ModbusResponseException;
import com.digitalpetri.modbus.pdu.ReadInputRegistersRequest;
import com.digitalpetri.modbus.pdu.WriteMultipleRegistersRequest;
import com.digitalpetri.modbus.pdu.WriteSingleRegisterRequest;
import com.digitalpetri.modbus.tcp.client.NettyTcpClientTransport;
import java.io.DataInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.IntPredicate;
import org.axtrial.time.SystemTime;
import org.axtrial.time.TimeSource;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(value = 60, unit = TimeUnit.SECONDS)
class SimulatedServerTest {

    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    private static final String LOCAL = "127.0.0.1";
    private static final int CIA402_UNIT = 1;
    private static final int DIRECT_UNIT = 2;
    private static final String READ_STATUS = "00 09 00 00 00 06 02 04 00 0A 00 01";
    private static final String STATUS_REPLY = "00 09 00 00 00 05 02 04 02 00 00";

    private final TimeSource time = SystemTime.INSTANCE;
    private final SimulatedDrive cia402 = new SimulatedDrive("cia402", InventedDrives.cia402(), InventedDrives.axis());
    private final SimulatedDrive direct = new SimulatedDrive("direct", InventedDrives.direct(), InventedDrives.axis());
    private Optional<ModbusTcpClient> independent = Optional.empty();
    private SimulatedServer server;

    @BeforeEach
    void serve() throws IOException {
        server = SimulatedServer.start(LOCAL, 0, Map.of(CIA402_UNIT, cia402, DIRECT_UNIT, direct));
    }

    @AfterEach
    void close() throws Exception {
        if (independent.isPresent()) {
            independent.get().disconnect();
        }
        server.close();
    }

    /** A bare socket that fails a read after 10 s instead of hanging. */
    private Socket socket() throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        socket.setSoTimeout(10_000);
        return socket;
    }

    private static void send(Socket socket, String frame) throws IOException {
        socket.getOutputStream().write(HEX.parseHex(frame));
    }

    private static String receive(Socket socket) throws IOException {
        DataInputStream in = new DataInputStream(socket.getInputStream());
        byte[] header = new byte[6];
        in.readFully(header);
        byte[] rest = new byte[(header[4] & 0xFF) << 8 | (header[5] & 0xFF)];
        in.readFully(rest);
        return HEX.formatHex(header) + " " + HEX.formatHex(rest);
    }

    @Test
    void unknownFunctionGetsItsExceptionInTheSameHeader() throws IOException {
        try (Socket socket = socket()) {
            // MBAP header: MODBUS Messaging on TCP/IP V1.0b, 3.1.3; exception code 01: Application Protocol, section 7.
            send(socket, "15 01 00 00 00 02 02 07");
            assertThat(receive(socket)).isEqualTo("15 01 00 00 00 03 02 87 01");
        }
    }

    @Test
    void splitAndMergedMessagesAreCutByTheirHeaders() throws IOException {
        try (Socket socket = socket()) {
            socket.setTcpNoDelay(true);
            for (byte each : HEX.parseHex(READ_STATUS)) {
                socket.getOutputStream().write(each);
                socket.getOutputStream().flush();
            }
            assertThat(receive(socket)).isEqualTo(STATUS_REPLY);
            send(socket, READ_STATUS + " " + READ_STATUS + " " + READ_STATUS);
            for (int i = 0; i < 3; i++) {
                assertThat(receive(socket)).isEqualTo(STATUS_REPLY);
            }
        }
    }

    @Test
    void anotherProtocolAndAnUnknownUnitGetNoAnswer() throws IOException {
        try (Socket socket = socket()) {
            // Protocol id other than 0: MODBUS Messaging on TCP/IP V1.0b, 4.4.2.2: discarded.
            send(socket, "00 01 00 05 00 06 02 04 00 0A 00 01");
            send(socket, "00 02 00 00 00 06 4D 04 00 0A 00 01");
            send(socket, READ_STATUS);
            assertThat(receive(socket))
                    .as("the first answer is the third request's")
                    .isEqualTo(STATUS_REPLY);
        }
    }

    @Test
    void anImpossibleLengthEndsTheConnection() throws IOException {
        for (String length : new String[] {"00 01", "00 FF", "FF FF", "00 00"}) {
            try (Socket socket = socket()) {
                send(socket, "00 01 00 00 " + length);
                assertThat(socket.getInputStream().read()).isEqualTo(-1);
            }
        }
    }

    @Test
    void aSurplusConnectionIsClosedAndAFreedSlotServesAgain() throws IOException {
        try (Socket second = socket()) {
            try (Socket first = socket()) {
                send(first, READ_STATUS);
                assertThat(receive(first)).isEqualTo(STATUS_REPLY);
                send(second, READ_STATUS);
                assertThat(receive(second)).isEqualTo(STATUS_REPLY);
                try (Socket surplus = socket()) {
                    assertThat(surplus.getInputStream().read()).isEqualTo(-1);
                }
            }
            try (Socket again = socket()) {
                send(again, READ_STATUS);
                assertThat(receive(again)).isEqualTo(STATUS_REPLY);
            }
        }
    }

    @Test
    void closingEndsOpenConnectionsAndAllThreads() throws IOException {
        int port = server.port();
        try (Socket socket = socket()) {
            send(socket, READ_STATUS);
            receive(socket);
            assertThat(threads(port))
                    .as("one for the network, one for the steps")
                    .isEqualTo(2);
            server.close();
            assertThat(threads(port)).isZero();
            assertThatThrownBy(() -> {
                        if (socket.getInputStream().read() == -1) {
                            throw new SocketException("ended");
                        }
                    })
                    .isInstanceOf(SocketException.class);
        }
        assertThatThrownBy(() -> new Socket(InetAddress.getLoopbackAddress(), port).close())
                .isInstanceOf(IOException.class);
    }

    private static long threads(int port) {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().startsWith("simulated-drives-" + port + "-"))
                .count();
    }

    @Test
    void aPortThatIsTakenIsToldWithItsNumber() {
        int port = server.port();
        assertThatThrownBy(() -> SimulatedServer.start(LOCAL, port, Map.of(1, direct)))
                .isInstanceOf(IOException.class)
                .hasMessageContainingAll(LOCAL, String.valueOf(port));
    }

    @Test
    void droppedReplyIsNotSentButActedOn() throws IOException {
        server.fault(new WireFault.DropReply(6, 1));
        try (Socket socket = socket()) {
            send(socket, "00 01 00 00 00 06 02 06 00 14 00 03");
            send(socket, READ_STATUS);
            assertThat(receive(socket)).isEqualTo(STATUS_REPLY);
        }
        assertThat(direct.writes(20)).isEqualTo(1);
    }

    @Test
    void delayedReplyComesLater() throws IOException {
        server.fault(new WireFault.DelayReply(4, Duration.ofMillis(200), 1));
        try (Socket socket = socket()) {
            long before = time.nanos();
            send(socket, READ_STATUS);
            assertThat(receive(socket)).isEqualTo(STATUS_REPLY);
            assertThat(time.nanos() - before).isGreaterThanOrEqualTo(200_000_000L);
        }
    }

    @Test
    void resetConnectionBreaksIt() throws IOException {
        server.fault(new WireFault.ResetConnection(WireFault.ANY_FUNCTION, 1));
        try (Socket socket = socket()) {
            send(socket, "00 01 00 00 00 06 02 06 00 14 00 03");
            assertThatThrownBy(() -> receive(socket)).isInstanceOf(SocketException.class);
        }
        assertThat(direct.writes(20)).isEqualTo(1);
    }

    @Test
    void aDriveThatIsSwitchedOnAnewKnowsNothingOfTheConnection() throws IOException {
        SimulatedDrive alone = new SimulatedDrive("alone", InventedDrives.cia402(), InventedDrives.axis());
        try (SimulatedServer own = SimulatedServer.start(LOCAL, 0, Map.of(DIRECT_UNIT, alone));
                Socket before = new Socket(InetAddress.getLoopbackAddress(), own.port())) {
            before.setSoTimeout(10_000);
            send(before, READ_STATUS);
            assertThat(receive(before)).isNotEmpty();
            alone.powerCycle(Duration.ofMillis(1));
            while (!alone.supplied()) {
                Thread.onSpinWait();
            }
            send(before, READ_STATUS);
            assertThatThrownBy(() -> receive(before)).isInstanceOf(IOException.class);
            try (Socket after = new Socket(InetAddress.getLoopbackAddress(), own.port())) {
                after.setSoTimeout(10_000);
                send(after, READ_STATUS);
                assertThat(receive(after)).isNotEmpty();
            }
        }
    }

    @Test
    void exceptionReplyKeepsTheDriveFromActing() throws IOException {
        server.fault(new WireFault.ExceptionReply(6, 6, 1));
        try (Socket socket = socket()) {
            send(socket, "00 01 00 00 00 06 02 06 00 14 00 03");
            assertThat(receive(socket)).isEqualTo("00 01 00 00 00 03 02 86 06");
        }
        assertThat(direct.requests()).isZero();
    }

    @Test
    void silenceAnswersNothingUntilItIsLifted() throws IOException {
        server.fault(new WireFault.Silence());
        try (Socket socket = socket()) {
            socket.setSoTimeout(100);
            send(socket, READ_STATUS);
            assertThatThrownBy(() -> receive(socket)).isInstanceOf(SocketTimeoutException.class);
            socket.setSoTimeout(10_000);
            assertThat(direct.requests()).isZero();
            server.clearFaults();
            send(socket, READ_STATUS);
            assertThat(receive(socket)).isEqualTo(STATUS_REPLY);
        }
    }

    @Test
    void anIndependentClientReadsAndMovesTheDirectDrive() throws Exception {
        ModbusTcpClient client = client();
        awaitStatus(client, DIRECT_UNIT, status -> (status & 1) != 0);
        assertThatThrownBy(() -> writeWide(client, DIRECT_UNIT, 22, 0x8813_0000))
                .isInstanceOf(ModbusResponseException.class);
        client.writeSingleRegister(DIRECT_UNIT, new WriteSingleRegisterRequest(20, 1));
        awaitStatus(client, DIRECT_UNIT, status -> (status & 2) != 0);
        // int32 5000, low word first: 1388 0000.
        writeWide(client, DIRECT_UNIT, 22, 0x1388_0000);
        awaitStatus(client, DIRECT_UNIT, status -> (status & 16) != 0);
        int words = readWide(client, DIRECT_UNIT, 0);
        assertThat(Integer.rotateLeft(words, 16)).isCloseTo(5000, within(20));
        assertThat(direct.motionsStarted()).isEqualTo(1);
    }

    @Test
    void anIndependentClientReadsAndMovesTheCia402Drive() throws Exception {
        ModbusTcpClient client = client();
        awaitStatus(client, CIA402_UNIT, status -> (status & 0x4F) == 0x40);
        client.writeSingleRegister(CIA402_UNIT, new WriteSingleRegisterRequest(21, 1));
        client.writeSingleRegister(CIA402_UNIT, new WriteSingleRegisterRequest(20, 0x06));
        awaitStatus(client, CIA402_UNIT, status -> (status & 0x6F) == 0x21);
        client.writeSingleRegister(CIA402_UNIT, new WriteSingleRegisterRequest(20, 0x07));
        awaitStatus(client, CIA402_UNIT, status -> (status & 0x6F) == 0x23);
        client.writeSingleRegister(CIA402_UNIT, new WriteSingleRegisterRequest(20, 0x0F));
        awaitStatus(client, CIA402_UNIT, status -> (status & 0x6F) == 0x27);
        writeWide(client, CIA402_UNIT, 22, -5000);
        client.writeSingleRegister(CIA402_UNIT, new WriteSingleRegisterRequest(20, 0x1F));
        awaitStatus(client, CIA402_UNIT, status -> (status & 0x1000) != 0);
        client.writeSingleRegister(CIA402_UNIT, new WriteSingleRegisterRequest(20, 0x0F));
        awaitStatus(client, CIA402_UNIT, status -> (status & 0x1400) == 0x0400);
        assertThat(readWide(client, CIA402_UNIT, 0)).isCloseTo(-5000, within(20));
    }

    @Test
    void aPositionReadWhileMovingIsNeverTorn() throws Exception {
        ModbusTcpClient client = client();
        awaitStatus(client, DIRECT_UNIT, status -> (status & 1) != 0);
        client.writeSingleRegister(DIRECT_UNIT, new WriteSingleRegisterRequest(20, 1));
        awaitStatus(client, DIRECT_UNIT, status -> (status & 2) != 0);
        // 3000 r/min = 3276800 counts/s: the low word runs over 50 times in a second.
        writeWide(client, DIRECT_UNIT, 26, Integer.rotateLeft(300_000, 16));
        int before = 0;
        int carries = 0;
        for (int i = 0; i < 20_000; i++) {
            int now = Integer.rotateLeft(readWide(client, DIRECT_UNIT, 0), 16);
            assertThat(now).isGreaterThanOrEqualTo(before);
            carries += (now >>> 16) != (before >>> 16) ? 1 : 0;
            before = now;
        }
        assertThat(carries)
                .as("the low word ran over, so tearing would have shown")
                .isGreaterThan(5);
    }

    private ModbusTcpClient client() throws Exception {
        ModbusTcpClient client = ModbusTcpClient.create(NettyTcpClientTransport.create(config -> {
            config.setHostname(LOCAL);
            config.setPort(server.port());
            config.setConnectPersistent(false);
        }));
        client.connect();
        independent = Optional.of(client);
        return client;
    }

    private static void writeWide(ModbusTcpClient client, int unit, int address, int words) throws Exception {
        byte[] values = ByteBuffer.allocate(4).putInt(words).array();
        client.writeMultipleRegisters(unit, new WriteMultipleRegistersRequest(address, 2, values));
    }

    private static int readWide(ModbusTcpClient client, int unit, int address) throws Exception {
        return ByteBuffer.wrap(client.readInputRegisters(unit, new ReadInputRegistersRequest(address, 2))
                        .registers())
                .getInt();
    }

    private static void awaitStatus(ModbusTcpClient client, int unit, IntPredicate wanted) throws Exception {
        int status;
        do {
            byte[] registers = client.readInputRegisters(unit, new ReadInputRegistersRequest(9, 1))
                    .registers();
            status = (registers[0] & 0xFF) << 8 | (registers[1] & 0xFF);
        } while (!wanted.test(status));
    }
}
