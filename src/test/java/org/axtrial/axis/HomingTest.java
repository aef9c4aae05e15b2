package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.Optional;
import org.axtrial.drive.Homing;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.VirtualTime;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Homing goes where nobody knows beforehand, so it is held inside what the order allows. */
@Timeout(20)
class HomingTest {

    private static final Quantity REACH = Quantity.parse("0.5 rev");

    private final IdealDrive drive = new IdealDrive(new VirtualTime(Instant.EPOCH));
    private Axis axis = Axis.over(IdealDrive.axis(1), drive, drive.time);

    @BeforeEach
    void ready() throws InterruptedException {
        ready(axis);
    }

    private void ready(Axis made) throws InterruptedException {
        axis = made;
        axis.arm();
        axis.beginTrial();
        axis.enable();
        drive.commands.clear();
    }

    private Motion home() throws InterruptedException {
        return axis.home(REACH, MoveOptions.DEFAULT);
    }

    @Test
    void theNewZeroOfTheRegisterIsNoMotion() throws InterruptedException {
        Motion motion = home();

        Trace trace = motion.trace();
        int last = trace.size() - 1;
        assertThat(trace.value(AxisChannels.POSITION, last)).isEqualTo(-0.3, within(0.0011));
        assertThat(trace.value(AxisChannels.COUNTS, last)).isZero();
        assertThat(motion.kind()).isEqualTo(Motion.Kind.HOME);
        assertThat(motion.arrivedSeconds()).isPresent();
        assertThat(drive.commands).containsExactly("home", "stop");
        // On its own zero the axis stands where it went, and a move by a distance goes that distance.
        assertThat(axis.position().value()).isEqualTo(-0.3, within(0.0011));
        assertThat(axis.moveBy(Quantity.parse("0.1 rev"), MoveOptions.DEFAULT).startPosition())
                .isEqualTo(-0.3, within(0.0011));
    }

    @Test
    void theInternalPositionTellsToTheCountByHowMuchTheZeroMoved() throws InterruptedException {
        drive.internalPosition = true;
        ready(Axis.over(IdealDrive.axis(1), drive, drive.time));
        // The register read 0 where the homing began 300 counts above the reference.
        assertThat(home().newZeroBy()).hasValue(0.3);
        // Found again where it was: nothing moves. The jump is far too small to be told from a motion otherwise.
        drive.homeDistance = -4;
        assertThat(home().newZeroBy()).hasValueCloseTo(0.004, within(1e-12));
        drive.homeDistance = 0;
        assertThat(home().newZeroBy()).hasValue(0);
    }

    @Test
    void withoutInternalPositionNobodyTellsByHowMuchTheZeroMoved() throws InterruptedException {
        assertThat(home().newZeroBy()).isEmpty();
    }

    @Test
    void anAxisOnTheZeroOfItsDriveTakesTheNewZero() throws InterruptedException {
        drive.registerOffset = 700;
        AxisSetup setup = IdealDrive.axis(1);
        ready(Axis.over(
                new AxisSetup(
                        setup.name(),
                        setup.scale(),
                        setup.unit(),
                        AxisSetup.PositionZero.DRIVE,
                        setup.envelope(),
                        setup.speed(),
                        setup.acceleration(),
                        setup.samplePeriod(),
                        setup.standstillWindow(),
                        setup.standstillTime(),
                        setup.stopTime(),
                        setup.afterTrial(),
                        setup.firstMotion()),
                drive,
                drive.time));
        assertThat(axis.position().value()).isEqualTo(0.7);
        home();
        assertThat(axis.position().value()).isZero();
    }

    @Test
    void goingFurtherThanAllowedTripsAndStops() {
        drive.homeDistance = -900;
        assertThatThrownBy(this::home)
                .isInstanceOf(EnvelopeTrippedException.class)
                .hasMessageContainingAll("TURNTABLE", "outside the travel window", "0.5 rev");
        assertThat(drive.commands).containsExactly("home", "stop", "stop");
    }

    @Test
    void whatTheOrderOrTheDriveAsksTooMuchOfSendsNothing() throws InterruptedException {
        for (String reach : new String[] {"4.1 rev", "0 rev"}) {
            assertThatThrownBy(() -> axis.home(Quantity.parse(reach), MoveOptions.DEFAULT))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContainingAll("either way", "4 rev", "nothing was sent");
            axis.beginTrial();
        }
        drive.homingSpeed = Optional.of(Quantity.parse("700 rpm"));
        assertThatThrownBy(this::home)
                .isInstanceOf(EnvelopeRefusedException.class)
                .hasMessageContainingAll("homing within 0.5 rev", "largest speed of the envelope");
        axis.beginTrial();
        drive.homingSpeed = Optional.empty();
        axis.disable();
        assertThatThrownBy(this::home).isInstanceOf(AxisNotReadyException.class).hasMessageContaining("not enabled");
        assertThat(drive.count("home")).isZero();
    }

    @Test
    void aDriveThatGivesUpFailsAndIsStopped() {
        drive.homingEnd = Homing.ERROR;
        assertThatThrownBy(this::home)
                .isInstanceOf(DriveTrippedException.class)
                .hasMessageContainingAll("gave up homing within 0.5 rev", "switches");
        assertThat(drive.count("stop")).isPositive();
    }

    @Test
    void aHomingThatIsInterruptedOrNeverBeginsIsTold() {
        drive.homingEnd = Homing.NOT_STARTED_OR_INTERRUPTED;
        assertThatThrownBy(this::home)
                .isInstanceOf(DriveTrippedException.class)
                .hasMessageContaining("was interrupted at the drive");
    }

    @Test
    void anAxisThatRunsAwayIsNotTakenForARegisterWithANewZero() {
        // Fifty times as far as ordered, while the speed signal shows nothing of it.
        drive.bend = position -> 50 * position;
        assertThatThrownBy(this::home)
                .isInstanceOf(EnvelopeTrippedException.class)
                .hasMessageContaining("faster than the largest speed of the envelope");
        assertThat(drive.count("stop")).isPositive();
    }

    @Test
    void aHomingThatLastsTooLongIsStopped() {
        drive.homingEnd = Homing.IN_PROGRESS;
        assertThatThrownBy(this::home)
                .isInstanceOf(EnvelopeTrippedException.class)
                .hasMessageContaining("not over after 10 s");
        assertThat(drive.count("stop")).isPositive();
    }
}
