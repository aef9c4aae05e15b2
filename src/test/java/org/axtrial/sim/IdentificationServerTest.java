package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.axtrial.link.DeviceIdentification;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.peer.Libmodbus;
import org.axtrial.registers.DriveDescription;
import org.axtrial.time.SystemTime;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Device identification of a simulated drive. Source: MODBUS Application Protocol V1.1b3, 6.21; lengths are real ones. */
@Timeout(60)
class IdentificationServerTest {

    private static final Map<Integer, String> BASIC =
            Map.of(0, "Company identification", 1, "Product code XX", 2, "V2.11");
    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    private static String hex(String text) {
        return HEX.formatHex(text.getBytes(StandardCharsets.US_ASCII));
    }

    private static String answer(Map<Integer, String> objects, String request) {
        return HEX.formatHex(new IdentificationServer(objects).answer(HEX.parseHex(request)));
    }

    private static final String ALL =
            "0016" + hex("Company identification") + "010F" + hex("Product code XX") + "0205" + hex("V2.11");

    @Test
    void theExampleOfTheSpecificationWithRealLengths() {
        assertThat(answer(BASIC, "2B0E0100")).isEqualTo("2B0E0181000003" + ALL);
        assertThat(answer(BASIC, "2B0E0102")).isEqualTo("2B0E0181000001" + "0205" + hex("V2.11"));
    }

    @ParameterizedTest
    @CsvSource({
        // Asked for more than it has, it tells what it has, and its own level.
        "2B0E0200, 2B0E0281000003",
        "2B0E0300, 2B0E0381000003",
        // A stream that begins at an object that is not there begins at the first.
        "2B0E0105, 2B0E0181000003",
        "2B0E01FF, 2B0E0181000003",
    })
    void streams(String request, String head) {
        assertThat(answer(BASIC, request)).isEqualTo(head + ALL);
    }

    @ParameterizedTest
    @CsvSource({
        "2B0E0401, 2B0E0481000001010F50726F6475637420636F6465205858",
        "2B0E0403, AB02",
        "2B0E0500, AB03",
        "2B0E0000, AB03",
        "2B0EFF00, AB03",
        "2B0E01, AB03",
        "2B0E010000, AB03",
    })
    void singleObjectsAndExceptions(String request, String answer) {
        assertThat(answer(BASIC, request)).isEqualTo(answer);
    }

    @Test
    void theConformityLevelFollowsFromTheObjects() {
        assertThat(IdentificationServer.conformity(BASIC)).isEqualTo(0x81);
        assertThat(IdentificationServer.conformity(with(5, "Model"))).isEqualTo(0x82);
        assertThat(IdentificationServer.conformity(with(0x80, "private"))).isEqualTo(0x83);
    }

    private static Map<Integer, String> with(int id, String text) {
        Map<Integer, String> objects = new TreeMap<>(BASIC);
        objects.put(id, text);
        return objects;
    }

    private static SimulatedDrive drive(Map<Integer, String> objects) {
        DriveDescription description = InventedDrives.direct().withDeviceIdentification(objects);
        return new SimulatedDrive("told", description, InventedDrives.axis());
    }

    @Test
    void ourLinkReadsItAlsoWhenItTakesSeveralReplies() throws Exception {
        Map<Integer, String> objects = with(4, "N".repeat(DriveDescription.LONGEST_IDENTIFICATION));
        objects.put(5, "M".repeat(200));
        try (SimulatedServer server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive(objects)));
                ModbusTcpLink link = ModbusTcpLink.open(
                        "127.0.0.1", server.port(), 1, Duration.ofSeconds(20), SystemTime.INSTANCE)) {
            assertThat(link.identify()).isEqualTo(new DeviceIdentification.Told(0x82, objects));
        }
        assertThat(new InProcessLink(drive(objects), new VirtualTime(Instant.EPOCH)).identify())
                .isEqualTo(new DeviceIdentification.Told(0x82, objects));
    }

    @Test
    void anIndependentClientReadsIt() throws Exception {
        try (SimulatedServer server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive(BASIC)))) {
            List<String> said = Libmodbus.client(server.port(), 1, "x:2B0E0100", "x:2B0E0409", "x:2B0D0100");
            assertThat(said).containsExactly("2B0E0181000003" + ALL, "AB02", "AB01");
        }
    }

    @Test
    void aDriveThatDeclaresNoneDoesNotKnowTheFunction() throws Exception {
        try (SimulatedServer server = SimulatedServer.start("127.0.0.1", 0, Map.of(1, drive(Map.of())));
                ModbusTcpLink link = ModbusTcpLink.open(
                        "127.0.0.1", server.port(), 1, Duration.ofSeconds(20), SystemTime.INSTANCE)) {
            assertThat(link.identify()).isInstanceOf(DeviceIdentification.NotTold.class);
            assertThat(link.read(3, 50, 2).words()).containsExactly(0x1234, 0x5678);
        }
    }
}
