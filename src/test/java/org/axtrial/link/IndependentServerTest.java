package org.axtrial.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.digitalpetri.modbus.server.ModbusTcpServer;
import com.digitalpetri.modbus.server.ProcessImage;
import com.digitalpetri.modbus.server.ReadWriteModbusServices;
import com.digitalpetri.modbus.tcp.server.NettyTcpServerTransport;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.Optional;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The link against a Modbus TCP server that somebody else wrote. */
@Timeout(30)
class IndependentServerTest {

    private final ProcessImage image = new ProcessImage();
    private ModbusTcpServer server;
    private ModbusTcpLink link;

    @BeforeEach
    void start() throws Exception {
        int port;
        try (ServerSocket free = new ServerSocket(0)) {
            port = free.getLocalPort();
        }
        server = ModbusTcpServer.create(
                NettyTcpServerTransport.create(
                        config -> config.setBindAddress("127.0.0.1").setPort(port)),
                new ReadWriteModbusServices() {
                    @Override
                    protected Optional<ProcessImage> getProcessImage(int unitId) {
                        return Optional.of(image);
                    }
                });
        server.start();
        link = ModbusTcpLink.open("127.0.0.1", port, 7, Duration.ofSeconds(20), SystemTime.INSTANCE);
    }

    @AfterEach
    void stop() throws Exception {
        link.close();
        server.stop();
    }

    @Test
    void holdingAndInputRegistersAreReadFromTheirOwnTables() throws Exception {
        image.with(transaction -> {
            transaction.writeHoldingRegisters(registers -> registers.put(107, new byte[] {0x02, 0x2B}));
            transaction.writeInputRegisters(registers -> registers.put(107, new byte[] {(byte) 0xFF, (byte) 0xFE}));
        });
        assertThat(link.read(3, 107, 2).words()).containsExactly(555, 0);
        assertThat(link.read(4, 107, 1).words()).containsExactly(0xFFFE);
    }

    @Test
    void whatIsWrittenStandsInTheServer() throws Exception {
        link.writeSingle(2, 0xABCD);
        link.writeBlock(10, new int[] {0x000A, 0x0102, 0xFFFF});
        assertThat(holding(2)).containsExactly(0xAB, 0xCD);
        assertThat(holding(10)).containsExactly(0x00, 0x0A);
        assertThat(holding(11)).containsExactly(0x01, 0x02);
        assertThat(holding(12)).containsExactly(0xFF, 0xFF);
        assertThat(link.read(3, 10, 3).words()).containsExactly(0x000A, 0x0102, 0xFFFF);
    }

    @Test
    void theLargestBlocks() throws Exception {
        int[] words = new int[123];
        for (int i = 0; i < words.length; i++) {
            words[i] = 65_535 - i;
        }
        link.writeBlock(1_000, words);
        assertThat(link.read(3, 1_000, 125).words()).startsWith(words).endsWith(0, 0);
    }

    @Test
    void aReadBeyondTheLastAddressIsRefusedBeforeTheWire() {
        assertThatThrownBy(() -> link.read(3, 65_535, 2)).isInstanceOf(IllegalArgumentException.class);
    }

    private int[] holding(int address) {
        return image.get(transaction -> transaction.readHoldingRegisters(registers -> {
            byte[] bytes = registers.getOrDefault(address, new byte[2]);
            return new int[] {bytes[0] & 0xFF, bytes[1] & 0xFF};
        }));
    }
}
