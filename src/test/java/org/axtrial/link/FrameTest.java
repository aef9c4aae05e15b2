package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FrameTest {

    private static final Request READ = new Request.Read(3, 0x6B, 3);

    // Source: MODBUS Messaging on TCP/IP V1.0b, 4.4.1.2: read register 5, transaction 1501h, unit FFh.
    @Test
    void theHeaderOfTheMessagingGuide() {
        assertThat(Frame.request(new Request.Read(3, 4, 1), 0x1501, 0xFF)).isEqualTo(bytes("150100000006FF0300040001"));
    }

    // Source: MODBUS Application Protocol V1.1b3, 6.3 (registers 108 … 110 hold 555, 0, 100).
    @Test
    void readHoldingRegisters() throws Exception {
        assertThat(Frame.request(READ, 1, 1)).isEqualTo(bytes("0001000000060103006B0003"));
        assertThat(Frame.answer(READ, 1, 1, bytes("000100000009010306022B00000064"))
                        .words())
                .containsExactly(555, 0, 100);
    }

    // Source: MODBUS Application Protocol V1.1b3, 6.4 (input register 9 holds 10).
    @Test
    void readInputRegisters() throws Exception {
        Request request = new Request.Read(4, 8, 1);
        assertThat(Frame.request(request, 1, 1)).isEqualTo(bytes("000100000006010400080001"));
        assertThat(Frame.answer(request, 1, 1, bytes("0001000000050104" + "02000A"))
                        .words())
                .containsExactly(10);
    }

    // Source: MODBUS Application Protocol V1.1b3, 6.6 (register 2 := 3, answered by an echo).
    @Test
    void writeSingleRegister() throws Exception {
        Request request = new Request.WriteSingle(1, 3);
        assertThat(Frame.request(request, 1, 1)).isEqualTo(bytes("000100000006010600010003"));
        assertThat(Frame.answer(request, 1, 1, bytes("000100000006010600010003"))
                        .words())
                .isEmpty();
    }

    // Source: MODBUS Application Protocol V1.1b3, 6.12 (two registers from register 2 on := 000Ah, 0102h).
    @Test
    void writeMultipleRegisters() throws Exception {
        Request request = new Request.WriteBlock(1, new int[] {0x000A, 0x0102});
        assertThat(Frame.request(request, 1, 1)).isEqualTo(bytes("00010000000B01100001000204000A0102"));
        assertThat(Frame.answer(request, 1, 1, bytes("000100000006011000010002"))
                        .words())
                .isEmpty();
    }

    // Source: MODBUS Application Protocol V1.1b3, 7: function code + 80h, then the exception code.
    @Test
    void anExceptionReply() throws Exception {
        assertThat(Frame.answer(READ, 1, 1, bytes("000100000003018302")).exception())
                .isEqualTo(2);
    }

    @ParameterizedTest
    @CsvSource({
        "000200000009010306022B00000064, transaction id 2 instead of 1",
        "000100000009020306022B00000064, unit id 2 instead of 1",
        "000100000009010406022B00000064, function code 4 instead of 3",
        "000100000003018402, function code 132 instead of 3",
        "000100000009010304022B00000064, byte count 4 instead of 6",
        "000100000007010306022B0000, length of the reply 6 instead of 8",
        "00010000000401830200, length of an exception reply 3 instead of 2",
    })
    void whatIsNotTheReplyIsRefused(String frame, String message) {
        assertThatThrownBy(() -> Frame.answer(READ, 1, 1, bytes(frame)))
                .isInstanceOf(InvalidReplyException.class)
                .hasMessage(message);
    }

    @ParameterizedTest
    @CsvSource({
        "000100000006010600020003, echoed address 2 instead of 1",
        "000100000006010600010004, echoed word 4 instead of 3",
        "00010000000401060001, length of the reply 3 instead of 5",
    })
    void anEchoThatIsNotTheWriteIsRefused(String frame, String message) {
        assertThatThrownBy(() -> Frame.answer(new Request.WriteSingle(1, 3), 1, 1, bytes(frame)))
                .hasMessage(message);
    }

    @Test
    void anEchoedCountThatIsNotTheWriteIsRefused() {
        Request request = new Request.WriteBlock(1, new int[] {1, 2});
        assertThatThrownBy(() -> Frame.answer(request, 1, 1, bytes("000100000006011000010001")))
                .hasMessage("echoed count 1 instead of 2");
    }

    // Source: MODBUS Application Protocol V1.1b3, 4.1: at most 260 bytes on TCP, so a length field of at most 254;
    // the shortest reply is unit, function and one byte.
    @ParameterizedTest
    @CsvSource({
        "000100010006, protocol id 1 instead of 0; the peer does not speak Modbus",
        "000100000002, length field 2 outside 3 … 254",
        "0001000000FF, length field 255 outside 3 … 254",
        "00010000FFFF, length field 65535 outside 3 … 254",
    })
    void aHeaderThatIsNoneIsRefused(String header, String message) {
        assertThatThrownBy(() -> Frame.length(bytes(header)))
                .isInstanceOf(InvalidReplyException.class)
                .hasMessage(message);
    }

    @Test
    void theLongestAndTheShortestFrame() throws Exception {
        assertThat(Frame.length(bytes("0001000000FE"))).isEqualTo(260);
        assertThat(Frame.length(bytes("000100000003"))).isEqualTo(9);
    }

    static byte[] bytes(String hex) {
        return HexFormat.of().parseHex(hex);
    }
}
