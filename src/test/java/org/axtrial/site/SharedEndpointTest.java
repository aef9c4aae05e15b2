package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.Motion;
import org.axtrial.axis.MoveOptions;
import org.axtrial.link.Transport;
import org.axtrial.link.Transport.Parity;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Axes that share an endpoint, and the transports an endpoint can have. */
@Timeout(120)
class SharedEndpointTest {

    @TempDir
    private Path folder;

    /** Two axes at one place, units 1 and 2; the drive type allows one connection. */
    private SiteBench sharing(String host) {
        return new SiteBench(folder)
                .site("host: 192.0.2.1 }", host + ", unit: 1 }")
                .site("host: 192.0.2.2 }", host + ", unit: 2 }")
                .site("acceleration: 3000 rpm/s", """
                        acceleration: 3000 rpm/s
                            simulate:
                              motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }
                              load: { inertia: 2 kgcm2 }""");
    }

    @Test
    void twoAxesBehindOneConnectionMoveAtTheSameTime() throws Exception {
        Site site = sharing("host: 192.0.2.1").load();
        assertThat(site.axes().get(0).drive().maxConnections()).isEqualTo(1);
        try (Rig rig = Rig.open(site, How.SIMULATED)) {
            assertThat(rig.peer("TABLE").replace("unit 1", "unit 2")).isEqualTo(rig.peer("SLIDE"));
            moveAtOnce(rig);
        }
    }

    @Test
    void aDriveThatAllowsOneConnectionIsNeverLockedOutByOpeningAgain() throws Exception {
        try (SimulatedSite served =
                SimulatedSite.start(sharing("host: 192.0.2.1").load(), "127.0.0.1", 0)) {
            int port = served.served("TABLE").port();
            assertThat(served.served("SLIDE").port()).isEqualTo(port);
            Site site = sharing("host: 127.0.0.1, port: " + port).load();
            for (int i = 0; i < 20; i++) {
                try (Rig rig = Rig.open(site, How.REAL)) {
                    for (Axis axis : rig.axes()) {
                        axis.beginTrial();
                        assertThat(axis.endTrial().standstill()).isTrue();
                    }
                }
            }
        }
    }

    private static void moveAtOnce(Rig rig) {
        List<CompletableFuture<Void>> moves = new ArrayList<>();
        for (Axis axis : rig.axes()) {
            moves.add(CompletableFuture.runAsync(() -> move(axis)));
        }
        moves.forEach(CompletableFuture::join);
    }

    private static void move(Axis axis) {
        try {
            axis.beginTrial();
            axis.enable();
            Motion motion = axis.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT);
            Trace trace = motion.trace();
            double travelled = trace.value(AxisChannels.POSITION, trace.size() - 1) - motion.startPosition();
            double revolution = axis.setup()
                    .scale()
                    .convert(1, Unit.REVOLUTION, axis.setup().unit());
            assertThat(travelled).as(axis.setup().name()).isEqualTo(revolution, within(revolution * 1e-3));
            assertThat(axis.endTrial().standstill()).isTrue();
        } catch (Exception e) {
            throw new IllegalStateException(axis.setup().name(), e);
        }
    }

    @Test
    void theSameUnitTwiceIsRefused() {
        assertThat(sharing("host: 192.0.2.1").site("unit: 2", "unit: 1").problems())
                .containsExactly(
                        "site.yaml:16:15: axes[1].endpoint: the endpoint 192.0.2.1:502 unit 1 is taken by axes[0]");
    }

    @Test
    void transportsAndTheirDefaults() throws Exception {
        Site serial = sharing("transport: serial, serialPort: /dev/ttyUSB0").load();
        assertThat(serial.axes().get(1).endpoint())
                .isEqualTo(new Endpoint(
                        new Transport.Serial("/dev/ttyUSB0", 19_200, Parity.EVEN, 1), 2, Duration.ofMillis(500)));
        Site noParity = sharing("transport: serial, serialPort: COM3, baudRate: 115200, parity: none")
                .load();
        assertThat(noParity.axes().get(0).endpoint().transport())
                .isEqualTo(new Transport.Serial("COM3", 115_200, Parity.NONE, 2));
        Site gateway =
                sharing("transport: rtu over tcp, host: 192.0.2.9, port: 4001").load();
        assertThat(gateway.axes().get(0).endpoint().peer()).isEqualTo("192.0.2.9:4001 (RTU) unit 1");
    }

    @Test
    void everyProblemOfAnEndpointIsTold() {
        SiteBench bench = new SiteBench(folder)
                .site("host: 192.0.2.1 }", "transport: serial, host: 192.0.2.1, baudRate: 5, parity: mark }")
                .site("host: 192.0.2.2 }", "transport: rtu over tcp, unit: 248, stopBits: 1 }");
        assertThat(bench.problems())
                .anySatisfy(told -> assertThat(told).contains("axes[0].endpoint.host: a serial line has no address"))
                .anySatisfy(told -> assertThat(told).contains("axes[0].endpoint.baudRate: expected 300 … 4000000"))
                .anySatisfy(told -> assertThat(told).contains("axes[0].endpoint.parity: expected even or odd or none"))
                .anySatisfy(told -> assertThat(told).contains("axes[0].endpoint.serialPort: missing"))
                .anySatisfy(told -> assertThat(told).contains("axes[0].endpoint.unit: missing: 1 … 247"))
                .anySatisfy(told -> assertThat(told).contains("axes[1].endpoint.host: missing"))
                .anySatisfy(
                        told -> assertThat(told).contains("axes[1].endpoint.port: missing: TCP port of the gateway"))
                .anySatisfy(told -> assertThat(told).contains("axes[1].endpoint.unit: expected 1 … 247"))
                .anySatisfy(
                        told -> assertThat(told).contains("axes[1].endpoint.stopBits: transport rtu over tcp has no"))
                .hasSize(9);
    }

    @Test
    void oneLineIsSpokenToInOneWay() {
        assertThat(sharing("transport: serial, serialPort: COM3")
                        .site("unit: 2 }", "unit: 2, baudRate: 9600 }")
                        .problems())
                .singleElement()
                .asString()
                .contains("axes[1].endpoint", "another axis reaches COM3", "share one connection");
        assertThat(sharing("host: 192.0.2.1")
                        .site("unit: 2 }", "unit: 2, transport: rtu over tcp, port: 502 }")
                        .problems())
                .singleElement()
                .asString()
                .contains("another axis reaches 192.0.2.1:502");
    }

    @Test
    void aDeadEndpointIsToldForEachAxisAndNothingStaysOpen() throws Exception {
        int port;
        try (SimulatedSite gone = SimulatedSite.start(sharing("host: 192.0.2.1").load(), "127.0.0.1", 0)) {
            port = gone.served("TABLE").port();
        }
        Site site = sharing("host: 127.0.0.1, port: " + port).load();
        assertThatThrownBy(() -> Rig.open(site, How.REAL))
                .isInstanceOfSatisfying(
                        RigException.class,
                        e -> assertThat(e.troubles())
                                .hasSize(2)
                                .allSatisfy(trouble -> assertThat(trouble).contains("no connection within")));
    }
}
