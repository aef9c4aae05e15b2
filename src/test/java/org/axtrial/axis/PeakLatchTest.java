package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import org.axtrial.axis.IdealDrive.Fault;
import org.axtrial.drive.DrivePeak;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.time.VirtualTime;
import org.axtrial.trace.LatchedPeak;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The latches of a drive are cleared once before a motion and read after it, and never at the cost of its safety. */
@Timeout(20)
class PeakLatchTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final IdealDrive drive = new IdealDrive(time);
    private final Axis axis = Axis.over(IdealDrive.axis(1), drive, time);

    @BeforeEach
    void ready() throws InterruptedException {
        axis.arm();
        axis.beginTrial();
        axis.enable();
        drive.commands.clear();
        latches(310, 25);
    }

    private void latches(double torque, double counts) {
        drive.peaks.clear();
        drive.peaks.add(new DrivePeak(DrivePeak.Of.TORQUE, torque, Unit.PER_MILLE, 1));
        drive.peaks.add(new DrivePeak(DrivePeak.Of.FOLLOWING_ERROR, counts, Unit.COUNT, 1));
    }

    private Motion move() throws InterruptedException {
        return axis.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT);
    }

    @Test
    void isClearedOnceBeforeTheCommandAndReadAfterTheMotion() throws InterruptedException {
        Motion motion = move();

        assertThat(drive.commands).containsExactly("clearPeaks", "peaks", "relative 1000", "peaks");
        LatchedPeak torque = motion.trace().latched().get(0);
        assertThat(torque.of().name()).isEqualTo(AxisChannels.TORQUE);
        assertThat(torque.of().unit()).isEqualTo(Unit.PERCENT);
        assertThat(torque.of().quantum()).isCloseTo(0.1, within(1e-12));
        assertThat(torque.value()).isCloseTo(31, within(1e-12));
        assertThat(torque.cleared()).isCloseTo(31, within(1e-12));
        LatchedPeak error = motion.trace().latched().get(1);
        assertThat(error.of().name()).isEqualTo(AxisChannels.FOLLOWING_ERROR);
        assertThat(error.value()).isCloseTo(0.025, within(1e-12));
        assertThat(error.of().quantum()).isCloseTo(0.001, within(1e-12));
    }

    @Test
    void coversAHeldSpeedAndADwell() throws InterruptedException {
        Motion hold = axis.holdSpeed(Quantity.parse("1 rev/s"), Duration.ofMillis(200), MoveOptions.DEFAULT);
        assertThat(hold.trace().latched()).hasSize(2);
        assertThat(drive.commands).startsWith("clearPeaks", "peaks").endsWith("peaks");
        drive.commands.clear();
        assertThat(axis.dwell(Duration.ofMillis(100)).trace().latched()).hasSize(2);
        assertThat(drive.commands).containsExactly("clearPeaks", "peaks", "peaks");
    }

    @Test
    void aDriveWithoutLatchesIsSentNothing() throws InterruptedException {
        drive.peaks.clear();
        assertThat(move().trace().latched()).isEmpty();
        assertThat(drive.commands).containsExactly("relative 1000");
    }

    @Test
    void aLostReplyToTheClearMovesNothingAndIsNotRepeated() {
        drive.fail("clearPeaks", Fault.REPLY_LOST);

        assertThatThrownBy(this::move)
                .isInstanceOf(OutcomeUnprovenException.class)
                .hasMessageContaining("was not repeated");
        assertThat(drive.count("clearPeaks")).isEqualTo(1);
        assertThat(drive.count("relative")).isZero();
        assertThat(drive.commands).contains("stop");
    }

    @Test
    void aLinkThatIsLostWhenTheLatchIsReadEndsInAStop() {
        drive.fail("peaks", Fault.LINK_DOWN);

        assertThatThrownBy(this::move).isInstanceOf(AxisUnreachableException.class);
        assertThat(drive.count("relative")).isZero();
        assertThat(drive.commands).contains("stop");
    }
}
