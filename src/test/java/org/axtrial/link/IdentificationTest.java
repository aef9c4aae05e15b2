package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Map;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Read Device Identification. Source: MODBUS Application Protocol V1.1b3, 6.21. Its example prints lengths that its texts
 * do not have; here the lengths are those of the texts: 22, 15 and 5.
 */
@Timeout(60)
class IdentificationTest {

    private static final String COMPANY = "Company identification";
    private static final String PRODUCT = "Product code XX";
    private static final String REVISION = "V2.11";

    private static final Duration PATIENT = Duration.ofSeconds(20);

    /** A peer that answers with these PDUs, one after the other. */
    private static ScriptedPeer peer(byte[]... pdus) throws Exception {
        ScriptedPeer.Act[] acts = new ScriptedPeer.Act[pdus.length];
        for (int i = 0; i < pdus.length; i++) {
            byte[] pdu = pdus[i];
            acts[i] = (request, socket) -> {
                ByteArrayOutputStream frame = new ByteArrayOutputStream();
                frame.write(request, 0, 4);
                frame.write(0);
                frame.write(1 + pdu.length);
                frame.write(request[6]);
                frame.writeBytes(pdu);
                ScriptedPeer.send(socket, frame.toByteArray());
            };
        }
        return new ScriptedPeer(acts);
    }

    private static byte[] reply(int access, int conformity, int more, int next, Object... objects) {
        ByteArrayOutputStream pdu = new ByteArrayOutputStream();
        pdu.writeBytes(new byte[] {
            0x2B, 0x0E, (byte) access, (byte) conformity, (byte) more, (byte) next, (byte) (objects.length / 2)
        });
        for (int i = 0; i < objects.length; i += 2) {
            byte[] text = ((String) objects[i + 1]).getBytes(StandardCharsets.US_ASCII);
            pdu.write((Integer) objects[i]);
            pdu.write(text.length);
            pdu.writeBytes(text);
        }
        return pdu.toByteArray();
    }

    private static ModbusTcpLink open(ScriptedPeer peer) throws LinkException {
        return ModbusTcpLink.open("127.0.0.1", peer.port(), 1, PATIENT, SystemTime.INSTANCE);
    }

    @Test
    void allObjectsInOneReply() throws Exception {
        byte[] pdu = reply(2, 0x81, 0, 0, 0, COMPANY, 1, PRODUCT, 2, REVISION);
        assertThat(HexFormat.of().formatHex(pdu))
                .startsWith("2b0e0281000003" + "0016")
                .contains("010f", "0205");
        try (ScriptedPeer peer = peer(pdu);
                ModbusTcpLink link = open(peer)) {
            assertThat(link.identify())
                    .isEqualTo(new DeviceIdentification.Told(0x81, Map.of(0, COMPANY, 1, PRODUCT, 2, REVISION)));
            assertThat(HexFormat.of().formatHex(peer.frames().get(0))).isEqualTo("000100000005012b0e0200");
        }
    }

    @Test
    void theRestIsAskedForWhereTheReplySays() throws Exception {
        try (ScriptedPeer peer = peer(
                        reply(2, 0x82, 0xFF, 2, 0, COMPANY, 1, PRODUCT),
                        reply(2, 0x82, 0xFF, 5, 2, REVISION),
                        reply(2, 0x82, 0, 0, 5, "Model"));
                ModbusTcpLink link = open(peer)) {
            assertThat(link.identify())
                    .isEqualTo(new DeviceIdentification.Told(
                            0x82, Map.of(0, COMPANY, 1, PRODUCT, 2, REVISION, 5, "Model")));
            assertThat(peer.frames().stream().map(frame -> (int) frame[10])).containsExactly(0, 2, 5);
        }
    }

    @Test
    void whereStreamsAreRefusedObjectsAreReadOneByOne() throws Exception {
        byte[] refused = {(byte) 0xAB, 3};
        try (ScriptedPeer peer = peer(
                        refused,
                        refused,
                        reply(4, 0x81, 0, 0, 0, COMPANY),
                        reply(4, 0x81, 0, 0, 1, PRODUCT),
                        reply(4, 0x81, 0, 0, 2, REVISION));
                ModbusTcpLink link = open(peer)) {
            assertThat(link.identify())
                    .isEqualTo(new DeviceIdentification.Told(0x81, Map.of(0, COMPANY, 1, PRODUCT, 2, REVISION)));
            assertThat(peer.frames().stream().map(frame -> (int) frame[9])).containsExactly(2, 1, 4, 4, 4);
        }
    }

    @ParameterizedTest
    @CsvSource({"1, 1, illegal function", "2, 3, illegal data address", "3, 3, illegal data value"})
    void aDriveThatCannotTellSaysWhy(int code, int requests, String reason) throws Exception {
        byte[] refused = {(byte) 0xAB, (byte) code};
        try (ScriptedPeer peer = peer(refused, refused, refused);
                ModbusTcpLink link = open(peer)) {
            assertThat(link.identify())
                    .isInstanceOfSatisfying(
                            DeviceIdentification.NotTold.class,
                            told -> assertThat(told.reason()).contains("0" + code + " " + reason));
            assertThat(peer.frames()).hasSize(requests);
            assertThat(peer.connections()).isEqualTo(1);
        }
    }

    @Test
    void anotherExceptionIsARefusal() throws Exception {
        try (ScriptedPeer peer = peer(new byte[] {(byte) 0xAB, 6});
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(link::identify).isInstanceOf(DriveRefusedException.class);
        }
    }

    @Test
    void aDriveThatGoesInCirclesIsNotFollowed() throws Exception {
        byte[] again = reply(2, 0x81, 0xFF, 1, 0, COMPANY);
        try (ScriptedPeer peer = peer(again, again, again);
                ModbusTcpLink link = open(peer)) {
            assertThat(link.identify())
                    .isInstanceOfSatisfying(
                            DeviceIdentification.NotTold.class,
                            told -> assertThat(told.reason()).contains("in circles"));
            assertThat(peer.frames()).hasSize(2);
        }
    }

    @Test
    void whatATerminalMustNotGetIsTakenOut() throws Exception {
        try (ScriptedPeer peer = peer(reply(2, 1, 0, 0, 0, "A\u001B[2J", 1, PRODUCT, 2, REVISION));
                ModbusTcpLink link = open(peer)) {
            assertThat(((DeviceIdentification.Told) link.identify()).object(0)).contains("A\uFFFD[2J");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "2B0E02",
                "2B0D0281000000",
                "2B0E0181000000",
                "2B0E0281010000",
                "2B0E0281000001",
                "2B0E02810000010005414243",
                "2B0E028100000100034142430A",
                "2A0E0281000000"
            })
    void whatIsNoReplyEndsTheConnection(String pdu) throws Exception {
        try (ScriptedPeer peer = peer(HexFormat.of().parseHex(pdu));
                ModbusTcpLink link = open(peer)) {
            assertThatThrownBy(link::identify)
                    .isInstanceOf(LinkLostException.class)
                    .hasMessageContaining("the connection is closed");
        }
    }

    /** On a serial line the length of the reply follows from its contents. */
    @Test
    void overSerialFrames() throws Exception {
        byte[] frame = new byte[1 + 7];
        frame[0] = 9;
        System.arraycopy(reply(2, 0x81, 0, 0), 0, frame, 1, 7);
        assertThat(RtuFrame.length(frame, frame.length)).isEqualTo(10);
    }
}
