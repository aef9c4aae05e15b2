package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteFile;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The cable comes back in another drive. */
@Timeout(60)
class IdentityOverTcpTest {

    private static final String HOST = "127.0.0.1";
    private static final int UNIT = 255;

    private static SiteAxis infeed() throws Exception {
        return SiteFile.load(Path.of("test-scripts/demo/site.yaml")).axes().stream()
                .filter(axis -> axis.name().equals("INFEED"))
                .findFirst()
                .orElseThrow();
    }

    private static SimulatedDrive simulated(double serial) throws Exception {
        SiteAxis axis = infeed();
        return new SimulatedDrive(
                "with serial number " + serial,
                axis.drive(),
                axis.simulation().orElseThrow(),
                Map.of("serialNumber", serial));
    }

    @Test
    void theNeighbourOfTheSameTypeGetsNoCommandNotEvenAStop() throws Exception {
        SimulatedDrive own = simulated(4711);
        SimulatedDrive neighbour = simulated(4712);
        int port;
        ModbusTcpLink link;
        Drive drive;
        try (SimulatedServer server = SimulatedServer.start(HOST, 0, Map.of(UNIT, own))) {
            port = server.port();
            link = ModbusTcpLink.open(HOST, port, UNIT, Duration.ofSeconds(2), SystemTime.INSTANCE);
            drive = Drive.over(link, infeed().drive(), SystemTime.INSTANCE);
            drive.enable(Duration.ofSeconds(5));
            drive.stop();
        }
        int before = own.writes();
        assertThat(before).isPositive();
        assertThatThrownBy(drive::stop).isInstanceOf(DriveException.class);
        try (link;
                SimulatedServer other = SimulatedServer.start(HOST, port, Map.of(UNIT, neighbour))) {
            assertThat(other.port()).isEqualTo(port);
            assertThatThrownBy(drive::reconnect)
                    .isInstanceOf(WrongDriveException.class)
                    .hasMessageContaining("serial number 4712, before it was 4711");
            assertThatThrownBy(drive::stop).isInstanceOf(WrongDriveException.class);
            assertThatThrownBy(drive::sample).isInstanceOf(WrongDriveException.class);
            assertThat(neighbour.writes()).isZero();
        }
        assertThat(own.writes()).isEqualTo(before);
    }
}
