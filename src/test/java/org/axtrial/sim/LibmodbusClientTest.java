package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.axtrial.peer.Libmodbus;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A client on libmodbus, which somebody else wrote, works with simulated drives. */
@Timeout(120)
class LibmodbusClientTest {

    private static final int HIGH_FIRST = 1;
    private static final int LOW_FIRST = 2;

    private final SimulatedDrive cia402 =
            new SimulatedDrive("cia402", InventedDrives.cia402(), InventedDrives.axis(), Map.of("offset", -12.3));
    private final SimulatedDrive direct = new SimulatedDrive("direct", InventedDrives.direct(), InventedDrives.axis());
    private SimulatedServer server;

    @BeforeEach
    void serve() throws Exception {
        server = SimulatedServer.start("127.0.0.1", 0, Map.of(HIGH_FIRST, cia402, LOW_FIRST, direct));
    }

    @AfterEach
    void close() {
        server.close();
    }

    @Test
    void itReadsIdentityPositionAndParameters() throws Exception {
        List<String> said = Libmodbus.client(server.port(), HIGH_FIRST, "h:50:2", "i:0:2", "h:62:1");
        // -123 as int16, two's complement.
        assertThat(said).containsExactly("1234 5678", "0000 0000", "FF85");
    }

    @Test
    void itWritesParametersAndReadsThemBack() throws Exception {
        // 123.456 as float32, IEEE 754, high word first.
        List<String> said =
                Libmodbus.client(server.port(), HIGH_FIRST, "b:60:0x42F6,0xE979", "h:60:2", "w:62:0xFB2E", "h:62:1");
        assertThat(said).containsExactly("wrote 2", "42F6 E979", "wrote 1", "FB2E");
        assertThat(cia402.writes(60)).isEqualTo(1);
    }

    @Test
    void itMovesTheDriveThatTakesTheLowWordFirst() throws Exception {
        String[] untilReady = {"w:20:1"};
        for (List<String> said = List.of("0000"); (Integer.parseInt(said.get(0), 16) & 2) == 0; ) {
            Libmodbus.client(server.port(), LOW_FIRST, untilReady);
            said = Libmodbus.client(server.port(), LOW_FIRST, "i:9:1");
        }
        // 5000 counts, low word first.
        assertThat(Libmodbus.client(server.port(), LOW_FIRST, "b:22:0x1388,0x0000"))
                .containsExactly("wrote 2");
        assertThat(direct.motionsStarted()).isEqualTo(1);
    }

    /**
     * Function, then quantity, then address. Source: MODBUS Application Protocol V1.1b3, figures 13, 14, 16 and 22, and
     * section 7 for the codes.
     */
    @Test
    void exceptionsComeInTheOrderOfTheSpecification() throws Exception {
        List<String> said = Libmodbus.client(
                server.port(),
                HIGH_FIRST,
                "h:9000:1",
                "x:0300000000", // quantity 0
                "x:030000007E", // quantity 126
                "x:03FFFF0000", // address and quantity wrong: quantity first
                "x:03FFFF0002", // beyond the last address
                "x:040000007E",
                "x:1000140001030001AA", // byte count is not twice the quantity
                "x:10FFFF007C00", // quantity 124 and address wrong: quantity first
                "x:0623280001", // register 9000
                "x:07",
                "x:2B0E0100",
                "i:10:1");
        assertThat(said)
                .containsExactly(
                        "error 2 Illegal data address",
                        "8303",
                        "8303",
                        "8303",
                        "8302",
                        "8403",
                        "9003",
                        "9003",
                        "8602",
                        "8701",
                        "AB01",
                        "0000");
    }
}
