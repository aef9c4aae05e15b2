package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RtuFrameTest {

    // Source: MODBUS over Serial Line V1.02, 6.2.2; the value for "123456789" is the published check of CRC-16/MODBUS.
    @Test
    void theCheckSum() {
        byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
        assertThat(RtuFrame.crc(digits, digits.length)).isEqualTo(0x4B37);
    }

    // Source: as above, low byte first; the message is that of MODBUS Application Protocol V1.1b3, 6.3.
    @Test
    void aRequestAndItsReply() throws Exception {
        Request request = new Request.Read(3, 0x6B, 3);
        assertThat(RtuFrame.request(request, 0x11)).isEqualTo(bytes("1103006B00037687"));
        byte[] reply = bytes("110306022B00000064C8BA");
        assertThat(RtuFrame.length(reply, 3)).isEqualTo(reply.length);
        assertThat(Pdu.answer(request, RtuFrame.pdu(reply)).words()).containsExactly(555, 0, 100);
    }

    @Test
    void aChangedBitIsFound() {
        byte[] reply = bytes("110306022B00000064C8BA");
        for (int bit = 0; bit < 8 * reply.length; bit++) {
            byte[] changed = reply.clone();
            changed[bit / 8] ^= (byte) (1 << bit % 8);
            assertThatThrownBy(() -> RtuFrame.pdu(changed))
                    .isInstanceOf(InvalidReplyException.class)
                    .hasMessageContaining("check sum");
        }
    }

    @ParameterizedTest
    @CsvSource({
        "11, 3",
        "1103, 3",
        "118302, 5",
        "11837F, 5",
        "110302, 7",
        "1103FA, 255",
        "110600, 8",
        "111000, 8",
        // Two objects: the length grows as their heads are read.
        "112B0E, 8",
        "112B0E0181000002, 10",
        "112B0E01810000020003, 13",
        "112B0E01810000020003414243, 15",
        "112B0E018100000200034142430100, 17",
    })
    void howMuchIsToCome(String begun, int length) throws Exception {
        byte[] bytes = bytes(begun);
        assertThat(RtuFrame.length(bytes, bytes.length)).isEqualTo(length);
    }

    @Test
    void noReplyBeginsLikeThis() {
        assertThatThrownBy(() -> RtuFrame.length(bytes("110700"), 3)).isInstanceOf(InvalidReplyException.class);
        assertThatThrownBy(() -> RtuFrame.length(bytes("1103FF"), 3)).hasMessageContaining("longer than 256");
    }

    // Source: MODBUS over Serial Line V1.02, 2.5.1.1: 3.5 characters of 11 bits, 1.75 ms above 19200 baud.
    @ParameterizedTest
    @CsvSource({"9600, 4010416", "19200, 2005208", "38400, 1750000", "115200, 1750000"})
    void theSilenceBetweenFrames(int baudRate, long nanos) {
        assertThat(Transport.Serial.silence(baudRate).toNanos()).isEqualTo(nanos);
    }

    private static byte[] bytes(String hex) {
        return HexFormat.of().parseHex(hex);
    }
}
