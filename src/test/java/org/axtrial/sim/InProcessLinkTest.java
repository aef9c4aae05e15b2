package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.OutcomeUnknownException;
import org.axtrial.link.Reply;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;

class InProcessLinkTest {

    private static final int COMMAND = 20;
    private static final int RELATIVE_MOVE = 22;
    private static final int[] THOUSAND = {1000, 0};

    private final VirtualTime time = new VirtualTime(Instant.parse("2026-01-01T00:00:00Z"));
    private final SimulatedDrive drive = new SimulatedDrive("axis 1", InventedDrives.direct(), InventedDrives.axis());
    private final InProcessLink link = new InProcessLink(drive, time);

    private void enable() throws LinkException {
        time.advance(20_000_000);
        link.writeSingle(COMMAND, 1);
        time.advance(20_000_000);
    }

    @Test
    void anExchangeTakesItsTimeAndNoMore() throws LinkException {
        for (int i = 0; i < 100; i++) {
            long before = time.nanos();
            Reply reply = link.read(4, 0, 10);
            assertThat(reply.sentNanos()).isEqualTo(before);
            assertThat(reply.repliedNanos()).isEqualTo(time.nanos());
            assertThat(time.nanos() - before).isBetween(1_000_000L, 3_000_000L);
            assertThat(reply.words()).hasSize(10);
        }
        assertThat(drive.nanos()).isEqualTo(time.nanos());
    }

    @Test
    void twoRunsAreEqualToTheBit() throws LinkException {
        assertThat(run(7)).isEqualTo(run(7));
        assertThat(run(7)).isNotEqualTo(run(8));
    }

    private static List<Object> run(long seed) throws LinkException {
        SimulationSpec axis = InventedDrives.axis();
        SimulationSpec seeded =
                new SimulationSpec(axis.motor(), axis.load(), axis.feedback(), axis.loops(), axis.wire(), seed);
        VirtualTime time = new VirtualTime(Instant.EPOCH);
        SimulatedDrive drive = new SimulatedDrive("axis 1", InventedDrives.direct(), seeded);
        InProcessLink link = new InProcessLink(drive, time);
        time.advance(20_000_000);
        link.writeSingle(COMMAND, 1);
        time.advance(20_000_000);
        link.writeBlock(RELATIVE_MOVE, new int[] {34_464, 1});
        List<Object> all = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            Reply reply = link.read(4, 0, 11);
            all.add(reply.repliedNanos());
            for (int word : reply.words()) {
                all.add(word);
            }
        }
        all.add(Double.doubleToRawLongBits(drive.shaftAngle()));
        return all;
    }

    @Test
    void aRefusalKeepsTheConnectionAndNamesTheCode() throws LinkException {
        DriveRefusedException refused =
                catchThrowableOfType(DriveRefusedException.class, () -> link.writeBlock(RELATIVE_MOVE, THOUSAND));
        assertThat(refused.code()).isEqualTo(4);
        assertThat(refused).hasMessageContainingAll("axis 1", "function 16", "address 22", "exception 04");
        assertThat(link.read(4, 0, 1).words()).hasSize(1);
    }

    @Test
    void wordsThatDoNotFitAreRefusedBeforeTheWire() {
        assertThatThrownBy(() -> link.writeSingle(COMMAND, 70_000))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("70000");
        assertThatThrownBy(() -> link.read(4, 0, 126)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> link.writeBlock(0, new int[] {-1})).isInstanceOf(IllegalArgumentException.class);
        assertThat(drive.requests()).isZero();
    }

    @Test
    void aDroppedReplyOfAWriteLeavesItsOutcomeUnknownAndTheDriveMovesOnce() throws LinkException {
        enable();
        link.fault(new WireFault.DropReply(16, 1));
        long before = time.nanos();
        assertThatThrownBy(() -> link.writeBlock(RELATIVE_MOVE, THOUSAND))
                .isInstanceOf(OutcomeUnknownException.class)
                .hasMessageContaining("axis 1");
        assertThat(Duration.ofNanos(time.nanos() - before)).isEqualTo(Duration.ofSeconds(1));
        assertThatThrownBy(() -> link.read(4, 0, 1)).isInstanceOf(LinkLostException.class);
        link.reconnect();
        assertThat(link.read(4, 0, 2).words()[0]).isBetween(999, 1001);
        assertThat(drive.writes(RELATIVE_MOVE)).isEqualTo(1);
        assertThat(drive.motionsStarted()).isEqualTo(1);
    }

    @Test
    void aDroppedReplyOfAReadLosesTheLink() throws LinkException {
        link.fault(new WireFault.DropReply(WireFault.ANY_FUNCTION, 1));
        assertThatThrownBy(() -> link.read(4, 0, 1)).isInstanceOf(LinkLostException.class);
        link.reconnect();
        assertThat(link.read(4, 0, 1).words()).hasSize(1);
    }

    @Test
    void aDelayedReplyComesLateOrTooLate() throws LinkException {
        link.fault(new WireFault.DelayReply(4, Duration.ofMillis(500), 1));
        Reply late = link.read(4, 0, 1);
        assertThat(late.repliedNanos() - late.sentNanos()).isBetween(501_000_000L, 503_000_000L);
        link.fault(new WireFault.DelayReply(6, Duration.ofSeconds(2), 1));
        assertThatThrownBy(() -> link.writeSingle(COMMAND, 3)).isInstanceOf(OutcomeUnknownException.class);
    }

    @Test
    void aResetConnectionIsToldAtOnce() throws LinkException {
        link.fault(new WireFault.ResetConnection(6, 1));
        assertThat(link.read(4, 0, 1).words()).hasSize(1);
        long before = time.nanos();
        assertThatThrownBy(() -> link.writeSingle(COMMAND, 3)).isInstanceOf(OutcomeUnknownException.class);
        assertThat(time.nanos() - before).isLessThanOrEqualTo(3_000_000L);
        assertThat(drive.writes(COMMAND)).isEqualTo(1);
    }

    @Test
    void anExceptionReplyKeepsTheDriveFromActing() throws LinkException {
        link.fault(new WireFault.ExceptionReply(6, 6, 2));
        for (int i = 0; i < 2; i++) {
            assertThat(catchThrowableOfType(DriveRefusedException.class, () -> link.writeSingle(COMMAND, 3))
                            .code())
                    .isEqualTo(6);
        }
        link.writeSingle(COMMAND, 3);
        assertThat(drive.writes(COMMAND)).isEqualTo(1);
        link.fault(new WireFault.ExceptionReply(6, 0x0B, 1));
        assertThatThrownBy(() -> link.writeSingle(COMMAND, 3)).isInstanceOf(OutcomeUnknownException.class);
    }

    @Test
    void silenceLastsUntilItIsLifted() throws LinkException {
        link.fault(new WireFault.Silence());
        assertThatThrownBy(() -> link.writeSingle(COMMAND, 3)).isInstanceOf(OutcomeUnknownException.class);
        link.reconnect();
        assertThatThrownBy(() -> link.read(4, 0, 1)).isInstanceOf(LinkLostException.class);
        assertThat(drive.requests()).as("nothing reaches the drive").isZero();
        link.clearFaults();
        link.reconnect();
        assertThat(link.read(4, 0, 1).words()).hasSize(1);
    }

    @Test
    void aClosedLinkStaysClosed() {
        link.close();
        assertThatThrownBy(() -> link.read(4, 0, 1)).isInstanceOf(LinkLostException.class);
        assertThatThrownBy(link::reconnect).isInstanceOf(LinkLostException.class);
    }

    @Test
    void faultsThatMeanNothingAreRefused() {
        assertThatThrownBy(() -> new WireFault.DropReply(200, 1)).hasMessageContaining("200");
        assertThatThrownBy(() -> new WireFault.ResetConnection(3, 0)).hasMessageContaining("0");
        assertThatThrownBy(() -> new WireFault.ExceptionReply(3, 0, 1)).hasMessageContaining("0");
        assertThatThrownBy(() -> new WireFault.DelayReply(3, Duration.ofMillis(-1), 1))
                .hasMessageContaining("negative");
    }
}
