package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import org.axtrial.peer.Libmodbus;
import org.axtrial.peer.SerialLine;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The link against a server on libmodbus, on every transport; the image stands in src/test/c/register_server.c. */
@Timeout(120)
class LibmodbusServerTest {

    private static final Duration PATIENT = Duration.ofSeconds(20);
    private static final int UNIT = 17;

    private interface Check {
        void on(RegisterLink link) throws Exception;
    }

    private static void onEveryTransport(Check check) throws Exception {
        try (Libmodbus server = Libmodbus.tcpServer()) {
            on(new Transport.Tcp("127.0.0.1", server.port()), check);
        }
        try (SerialLine line = SerialLine.lay();
                Libmodbus server = Libmodbus.serialServer(line.far(), UNIT)) {
            assertThat(server).isNotNull();
            on(new Transport.Serial(line.near().toString(), 19_200, Transport.Parity.EVEN, 1), check);
            try (SerialLine.Gateway gateway = line.gateway()) {
                on(new Transport.RtuOverTcp("127.0.0.1", gateway.port()), check);
            }
        }
    }

    private static void on(Transport transport, Check check) throws Exception {
        try (SharedConnection connection = SharedConnection.to(transport, SystemTime.INSTANCE)) {
            check.on(connection.open(UNIT, PATIENT));
            assertThat(connection.connections()).as(transport.place()).isEqualTo(1);
        }
    }

    @Test
    void itsImageIsRead() throws Exception {
        onEveryTransport(link -> {
            assertThat(link.read(3, 10, 9).words())
                    .containsExactly(0x1234, 0x5678, 0x5678, 0x1234, 0xFFFE, 0x1DC0, 0x42F6, 0xE979, 0xFB2E);
            assertThat(link.read(4, 10, 1).words()).containsExactly(0x0A0B);
        });
    }

    @Test
    void whatIsWrittenStandsThere() throws Exception {
        onEveryTransport(link -> {
            link.writeSingle(30, 0xABCD);
            link.writeBlock(31, new int[] {0x000A, 0x0102, 0xFFFF});
            assertThat(link.read(3, 30, 4).words()).containsExactly(0xABCD, 0x000A, 0x0102, 0xFFFF);
        });
    }

    @Test
    void theLargestReadFitsAFrame() throws Exception {
        // 100 holding registers are there: MODBUS Application Protocol V1.1b3, 7, text of code 02, 96 … 99 are in, 100
        // is out.
        onEveryTransport(link -> {
            assertThat(link.read(3, 0, 100).words()).hasSize(100);
            assertThat(link.read(3, 96, 4).words()).hasSize(4);
            assertThatThrownBy(() -> link.read(3, 96, 5))
                    .isInstanceOfSatisfying(
                            DriveRefusedException.class,
                            refused -> assertThat(refused.code()).isEqualTo(2));
        });
    }

    // Source: MODBUS Application Protocol V1.1b3, section 7.
    @Test
    void itsExceptionsAreTold() throws Exception {
        onEveryTransport(link -> {
            for (int code : new int[] {1, 2, 3, 4, 5, 6, 8, 10, 11}) {
                assertThatThrownBy(() -> link.read(3, 1_000 + code, 1))
                        .isInstanceOfSatisfying(
                                DriveRefusedException.class,
                                refused -> assertThat(refused.code()).isEqualTo(code));
            }
        });
    }

    /** libmodbus does not know function 43 and says so. */
    @Test
    void aServerWithoutDeviceIdentificationSaysWhy() throws Exception {
        try (Libmodbus server = Libmodbus.tcpServer();
                ModbusTcpLink link =
                        ModbusTcpLink.open("127.0.0.1", server.port(), UNIT, PATIENT, SystemTime.INSTANCE)) {
            assertThat(link.identify())
                    .isInstanceOfSatisfying(
                            DeviceIdentification.NotTold.class,
                            told -> assertThat(told.reason()).contains("01 illegal function", "device identification"));
            assertThat(link.read(3, 10, 1).words()).containsExactly(0x1234);
        }
    }

    @Test
    void aStationThatIsNotThereLeavesItsNeighbourReachable() throws Exception {
        try (SerialLine line = SerialLine.lay();
                Libmodbus server = Libmodbus.serialServer(line.far(), UNIT);
                SharedConnection connection = SharedConnection.to(
                        new Transport.Serial(line.near().toString(), 19_200, Transport.Parity.EVEN, 1),
                        SystemTime.INSTANCE)) {
            assertThat(server).isNotNull();
            RegisterLink absent = connection.open(UNIT + 1, Duration.ofMillis(200));
            RegisterLink there = connection.open(UNIT, PATIENT);
            assertThatThrownBy(() -> absent.read(3, 10, 1)).isInstanceOf(LinkLostException.class);
            assertThatThrownBy(() -> there.read(3, 10, 1))
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("an exchange with unit 18 failed")
                    .hasMessageContaining("nothing was sent");
            there.reconnect();
            assertThat(there.read(3, 11, 1).words()).containsExactly(0x5678);
        }
    }

    @Test
    void aSerialPortThatIsNotThere() {
        SharedConnection connection = SharedConnection.to(
                new Transport.Serial("/dev/no-such-port", 9_600, Transport.Parity.NONE, 2), SystemTime.INSTANCE);
        assertThatThrownBy(() -> connection.open(1, PATIENT))
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("the serial port /dev/no-such-port cannot be opened");
    }
}
