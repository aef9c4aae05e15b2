package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.SharedConnection;
import org.axtrial.link.Transport;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Sixty-four drives behind four ports, on the threads that all share. */
@Timeout(120)
class ManyDrivesTest {

    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
    private static final String LOCAL = "127.0.0.1";
    private static final int PORTS = 4;
    private static final int UNITS = 16;
    private static final String NAME = "many-drives";

    private final List<SimulatedServer> servers = new ArrayList<>();
    private ServingThreads threads;

    @BeforeEach
    void serve() throws IOException {
        threads = ServingThreads.start(NAME);
        for (int port = 0; port < PORTS; port++) {
            Map<Integer, SimulatedDrive> byUnit = new LinkedHashMap<>();
            for (int unit = 1; unit <= UNITS; unit++) {
                byUnit.put(unit, new SimulatedDrive(port + "/" + unit, InventedDrives.direct(), InventedDrives.axis()));
            }
            servers.add(SimulatedServer.start(threads, LOCAL, 0, byUnit));
        }
    }

    @AfterEach
    void close() {
        servers.forEach(SimulatedServer::close);
        threads.close();
    }

    private static long running() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().startsWith(NAME))
                .count();
    }

    @Test
    void allAreReadManyTimesByAHandfulOfThreads() throws Exception {
        int times = 50;
        List<SharedConnection> connections = new ArrayList<>();
        try {
            for (SimulatedServer server : servers) {
                SharedConnection connection =
                        SharedConnection.to(new Transport.Tcp(LOCAL, server.port()), SystemTime.INSTANCE);
                connections.add(connection);
                List<RegisterLink> links = new ArrayList<>();
                for (int unit = 1; unit <= UNITS; unit++) {
                    links.add(connection.open(unit, Duration.ofSeconds(20)));
                }
                for (int i = 0; i < times; i++) {
                    for (RegisterLink link : links) {
                        assertThat(link.read(4, 0, 10).words()).hasSize(10);
                    }
                }
            }
            assertThat(running()).isBetween(2L, Runtime.getRuntime().availableProcessors() + 2L);
            for (SimulatedServer server : servers) {
                assertThat(server.connections()).isEqualTo(1);
                for (int unit = 1; unit <= UNITS; unit++) {
                    assertThat(server.requests(unit)).isEqualTo(times);
                    assertThat(server.lag(unit).steps()).isGreaterThan(times);
                }
            }
        } finally {
            connections.forEach(SharedConnection::close);
        }
        servers.forEach(SimulatedServer::close);
        assertThat(running()).as("the threads belong to whoever started them").isPositive();
        threads.close();
        assertThat(running()).isZero();
    }

    @Test
    void aReplyThatIsLateByOrderDelaysNobodyElse() throws IOException {
        SimulatedServer first = servers.get(0);
        first.fault(1, new WireFault.DelayReply(WireFault.Strikes.FROM_NOW_ON, Duration.ofHours(1)));
        first.fault(2, new WireFault.TrickleReply(WireFault.Strikes.FROM_NOW_ON, Duration.ofHours(1)));
        try (Socket late = socket(first)) {
            send(late, 1);
            // Its neighbour over another connection, and one behind another port.
            try (Socket other = socket(first)) {
                assertThat(exchange(other, 3)).startsWith("00 01 00 00 00 05 03 04 02");
                send(other, 2);
            }
            try (Socket other = socket(servers.get(1))) {
                assertThat(exchange(other, 1)).startsWith("00 01 00 00 00 05 01 04 02");
            }
            try (Socket again = socket(first)) {
                assertThat(exchange(again, 4)).startsWith("00 01 00 00 00 05 04 04 02");
            }
        }
    }

    @Test
    void repliesThatNobodyReadsHoldUpNobodyElse() throws IOException {
        SimulatedServer first = servers.get(0);
        try (Socket deaf = new Socket()) {
            deaf.setReceiveBufferSize(1024);
            deaf.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), first.port()));
            // More replies than the buffers of both sides take, asked for by another thread since it will be held up.
            byte[] asking = HEX.parseHex("00 01 00 00 00 06 01 04 00 00 00 0A");
            Thread asker = new Thread(() -> {
                try {
                    for (int i = 0; i < 2_000_000; i++) {
                        deaf.getOutputStream().write(asking);
                    }
                } catch (IOException closed) {
                    Thread.currentThread().interrupt();
                }
            });
            asker.start();
            long before;
            do {
                before = first.requests(1);
                for (int i = 0; i < 200; i++) {
                    try (Socket other = socket(servers.get(1))) {
                        assertThat(exchange(other, 1)).startsWith("00 01 00 00 00 05 01 04 02");
                    }
                }
            } while (before == 0 || first.requests(1) > before);
            try (Socket other = socket(first)) {
                assertThat(exchange(other, 2)).startsWith("00 01 00 00 00 05 02 04 02");
            }
        }
    }

    @Test
    void aStepThatIsHeldUpIsCountedForItsDriveAlone() {
        SimulatedServer server = servers.get(2);
        SimulatedDrive held = new SimulatedDrive("held", InventedDrives.direct(), InventedDrives.axis());
        try (SimulatedServer own = SimulatedServer.start(LOCAL, 0, Map.of(7, held))) {
            long until = SystemTime.INSTANCE.nanos() + 60_000_000;
            // Whoever steps the drive has to wait for this change.
            held.change(plant -> {
                while (SystemTime.INSTANCE.nanos() < until) {
                    Thread.onSpinWait();
                }
            });
            while (own.lag(7).overruns() == 0) {
                Thread.onSpinWait();
            }
            assertThat(own.lag(7).worst()).isGreaterThan(StepLag.BOUND);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        assertThat(server.lag(1).steps()).isPositive();
    }

    @Test
    void faultsOfOneDriveAreToldAndLiftedAlone() {
        SimulatedServer server = servers.get(0);
        WireFault silence = new WireFault.Silence();
        WireFault slow = new WireFault.SlowDrive(Duration.ofMillis(5));
        server.fault(1, silence);
        server.fault(2, silence);
        server.fault(1, slow);
        assertThat(server.faults(1)).containsExactly(silence, slow);
        server.disarm(1, WireFault.SlowDrive.class::isInstance);
        assertThat(server.faults(1)).containsExactly(silence);
        server.clearFaults(1);
        assertThat(server.faults(1)).isEmpty();
        assertThat(server.faults(2)).containsExactly(silence);
    }

    private static Socket socket(SimulatedServer server) throws IOException {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), server.port());
        socket.setSoTimeout(20_000);
        return socket;
    }

    private static void send(Socket socket, int unit) throws IOException {
        // MBAP header: MODBUS Messaging on TCP/IP V1.0b, 3.1.3; one input register at 0009h.
        socket.getOutputStream().write(HEX.parseHex("00 01 00 00 00 06 0" + unit + " 04 00 09 00 01"));
    }

    private static String exchange(Socket socket, int unit) throws IOException {
        send(socket, unit);
        return HEX.formatHex(socket.getInputStream().readNBytes(11));
    }
}
