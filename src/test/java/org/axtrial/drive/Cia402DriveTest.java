package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(30)
class Cia402DriveTest {

    private static final Duration WITHIN = Duration.ofMillis(500);
    private static final MotionLimits LIMITS = new MotionLimits(1000, 5000, OptionalDouble.empty());

    private static final String HALT = "6:0=010F";
    private static final String MODE_1 = "6:1=0001";
    private static final String MODE_3 = "6:1=0003";
    private static final String SET_POINT = "6:0=003F";
    private static final String RUN = "6:0=000F";

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final FakeCia402 fake = new FakeCia402(time);
    private final Drive drive = Drive.over(fake, Maps.cia402(), time);

    // Source: controlword 6040h commands of IEC 61800-7-201 (from memory, agrees with public object dictionaries).
    @Test
    void enablingWalksThroughTheStates() throws Exception {
        drive.enable(WITHIN);
        assertThat(fake.writes).containsExactly("16:8=0000 0000", "6:0=0006", "6:0=0007", RUN);
        drive.enable(WITHIN);
        assertThat(fake.writes).hasSize(4);
    }

    /** It would heed that order as soon as what switched it off is gone, and nobody would have asked for torque then. */
    @ParameterizedTest
    @CsvSource({"0x40", "0x21", "0x08"})
    void theOrderToEnableIsTakenBackFromADriveThatSwitchedItselfOff(String state) throws Exception {
        drive.enable(WITHIN);
        fake.state(Integer.decode(state));
        fake.writes.clear();
        drive.disable(WITHIN);
        assertThat(fake.writes).containsExactly("6:0=0000");
        drive.disable(WITHIN);
        assertThat(fake.writes).hasSize(1);
    }

    // Source: homing mode of IEC 61800-7-201: bit 4 starts; bits 13, 12, 10 (from memory, agrees with CiA 402 manuals).
    @Test
    void homingStartsWithARisingBitInHomingMode() throws Exception {
        Drive homed = Drive.over(fake, Maps.cia402WithHoming(), time);
        homed.enable(WITHIN);
        fake.writes.clear();
        homed.startHoming();
        assertThat(fake.writes).containsExactly(HALT, "6:1=0006", "6:0=001F");
        homed.stop();
        homed.startHoming();
        assertThat(fake.writes).endsWith("6:0=001F", HALT, "6:0=001F");
    }

    @Test
    void homingIsNotOrderedWhereNoMethodIsDeclared() throws Exception {
        drive.enable(WITHIN);
        int before = fake.writes.size();
        assertThatThrownBy(drive::startHoming)
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContainingAll("homingMethod", "nothing was sent");
        assertThat(fake.writes).hasSize(before);
    }

    @ParameterizedTest
    @CsvSource({
        "0x0237, IN_PROGRESS",
        "0x0637, NOT_STARTED_OR_INTERRUPTED",
        "0x1237, ATTAINED",
        "0x1637, COMPLETED",
        "0x2237, ERROR",
        "0x2637, ERROR"
    })
    void homingIsReadFromThreeBits(String word, Homing expected) {
        assertThat(Homing.of(Integer.decode(word))).isEqualTo(expected);
    }

    @Test
    void theHighestDeclaredHomingSpeedIsTold() throws Exception {
        assertThat(drive.homingSpeed()).isEmpty();
        fake.registers[402] = 120;
        fake.registers[403] = 30;
        assertThat(Drive.over(fake, Maps.cia402WithHoming(), time).homingSpeed())
                .contains(Quantity.parse("120 rpm"));
    }

    @Test
    void enablingAfterAQuickStopGoesTheLongWay() throws Exception {
        fake.state(0x07);
        drive.enable(WITHIN);
        assertThat(fake.writes).containsExactly("16:8=0000 0000", "6:0=0000", "6:0=0006", "6:0=0007", RUN);
    }

    @Test
    void aFaultIsNotEnabledAndNotReset() {
        fake.state(0x08);
        fake.registers[Maps.FAULT_CODE] = 0x8611;
        assertThatThrownBy(() -> drive.enable(WITHIN))
                .isInstanceOfSatisfying(
                        DriveStateException.class,
                        e -> assertThat(e.state())
                                .isEqualTo(new DriveState(DriveState.Phase.FAULT, false, 0x08, 0x8611)))
                .hasMessage("fake unit 1: expected no fault before enabling, the drive shows \"fault\""
                        + " (status word 0x0008, fault code 0x8611)");
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void aStateThatDoesNotComeIsNamed() {
        fake.deafTo = 0x07;
        assertThatThrownBy(() -> drive.enable(WITHIN))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("expected \"switched on\" on the way to \"operation enabled\" (500 ms in all)")
                .hasMessageContaining("the drive shows \"ready to switch on\" (status word 0x0021)");
        assertThat(fake.writes).containsExactly("16:8=0000 0000", "6:0=0006", "6:0=0007");
        assertThat(time.nanos()).isGreaterThanOrEqualTo(WITHIN.toNanos());
    }

    @Test
    void anUndefinedStateIsWaitedOutAndNamed() {
        fake.state(0x77);
        assertThatThrownBy(() -> drive.enable(WITHIN))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("a state that the standard does not define\" (status word 0x0077)");
        assertThat(fake.writes).containsExactly("16:8=0000 0000");
    }

    @Test
    void aMoveIsOneProfileOneSetPointAndItsHandShake() throws Exception {
        enabledInMode(1);
        MotionLimits withTorque = new MotionLimits(1000, 5000, OptionalDouble.of(80));
        Started started = drive.startAbsolute(-123_456, withTorque);
        assertThat(fake.writes).containsExactly("16:10=FFFE 1DC0 0000 03E8 0000 1388 0000 1388 0320", SET_POINT, RUN);
        assertThat(started.repliedNanos() - started.sentNanos()).isEqualTo(1_000_000);
    }

    @Test
    void anotherModeIsEnteredUnderHalt() throws Exception {
        enabledInMode(3);
        drive.startAbsolute(1, LIMITS);
        assertThat(fake.writes)
                .containsExactly(HALT, MODE_1, "16:10=0000 0001 0000 03E8 0000 1388 0000 1388", SET_POINT, RUN);
    }

    @Test
    void aRelativeMoveCountsFromTheDemandPositionNotFromAnOldTarget() throws Exception {
        enabledInMode(1);
        fake.registers[103] = 5;
        fake.registers[105] = 7;
        drive.startRelative(-10, LIMITS);
        assertThat(fake.writes.get(0)).startsWith("16:10=FFFF FFFD ");
    }

    @Test
    void theNextMoveAfterAStopNeverLetsTheHaltedOneGoOn() throws Exception {
        enabledInMode(1);
        drive.startAbsolute(100_000, LIMITS);
        fake.writes.clear();
        drive.stop();
        drive.startAbsolute(5, LIMITS);
        assertThat(fake.writes).containsExactly(HALT, "16:10=0000 0005 0000 03E8 0000 1388 0000 1388", SET_POINT, RUN);
        fake.writes.clear();
        drive.stop();
        drive.startSpeed(-50, LIMITS);
        assertThat(fake.writes)
                .containsExactly(HALT, MODE_3, "16:8=FFFF FFCE", "16:12=0000 03E8 0000 1388 0000 1388", RUN);
    }

    @Test
    void aSpeedStartsWithTheHaltTakenAwayAndChangesWithTheTargetVelocity() throws Exception {
        drive.enable(WITHIN);
        fake.writes.clear();
        drive.startSpeed(50, LIMITS);
        assertThat(fake.writes)
                .containsExactly(HALT, MODE_3, "16:8=0000 0032", "16:12=0000 03E8 0000 1388 0000 1388", RUN);
        fake.writes.clear();
        Started faster = drive.startSpeed(60, LIMITS);
        assertThat(fake.writes).containsExactly("16:12=0000 03E8 0000 1388 0000 1388", "16:8=0000 003C");
        assertThat(faster.repliedNanos()).isEqualTo(time.nanos());
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4})
    void aLostReplyInAMoveIsNeverRepeated(int write) throws Exception {
        enabledInMode(3);
        fake.losesReplyToWrite = write;
        assertThatThrownBy(() -> drive.startRelative(1, LIMITS)).isInstanceOf(OutcomeUnknownException.class);
        assertThat(fake.writes)
                .containsExactlyElementsOf(
                        List.of(HALT, MODE_1, "16:10=0000 0001 0000 03E8 0000 1388 0000 1388", SET_POINT, RUN)
                                .subList(0, write + 1));
    }

    /** The trial of the same start word again: twice on purpose, and never once more because a reply was lost. */
    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4, 5})
    void aLostReplyInAStartOrderedTwiceIsNeverRepeated(int write) throws Exception {
        enabledInMode(3);
        fake.losesReplyToWrite = write;
        assertThatThrownBy(() -> drive.startRelativeTwice(1, LIMITS)).isInstanceOf(OutcomeUnknownException.class);
        assertThat(fake.writes)
                .containsExactlyElementsOf(List.of(
                                HALT,
                                MODE_1,
                                "16:10=0000 0001 0000 03E8 0000 1388 0000 1388",
                                SET_POINT,
                                SET_POINT,
                                RUN)
                        .subList(0, write + 1));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4})
    void aLostReplyInASpeedIsNeverRepeated(int write) throws Exception {
        enabledInMode(1);
        fake.losesReplyToWrite = write;
        assertThatThrownBy(() -> drive.startSpeed(50, LIMITS)).isInstanceOf(OutcomeUnknownException.class);
        assertThat(fake.writes).hasSize(write + 1);
    }

    @Test
    void aLookThatFailsBeforeTheSetPointCommandedNothing() throws Exception {
        enabledInMode(1);
        fake.losesReadsAfterWrites = 0;
        assertThatThrownBy(() -> drive.startAbsolute(1, LIMITS)).isInstanceOf(DriveUnreachableException.class);
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void aLookThatFailsAfterTheSetPointLeavesTheOutcomeOpen() throws Exception {
        enabledInMode(1);
        fake.losesReadsAfterWrites = 2;
        assertThatThrownBy(() -> drive.startAbsolute(1, LIMITS))
                .isInstanceOf(OutcomeUnknownException.class)
                .hasMessageContaining("the motion may have begun")
                .hasCauseInstanceOf(DriveUnreachableException.class);
        assertThat(fake.writes).hasSize(2).endsWith(SET_POINT);
    }

    @Test
    void aSetPointThatIsNotAcknowledgedIsNamed() throws Exception {
        enabledInMode(1);
        fake.looksToAcknowledge = FakeLink.NEVER;
        assertThatThrownBy(() -> drive.startAbsolute(1, LIMITS))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("expected statusword bit 12 (set-point acknowledge) set after the new set-point"
                        + " within 1000 ms, the drive shows \"operation enabled\"");
        assertThat(fake.writes).hasSize(2).endsWith(SET_POINT);

        fake.looksToAcknowledge = 1;
        drive.startAbsolute(1, LIMITS);
        assertThat(fake.writes.subList(2, fake.writes.size()))
                .containsExactly(HALT, "16:10=0000 0001 0000 03E8 0000 1388 0000 1388", SET_POINT, RUN);
    }

    @Test
    void aModeThatIsNotShownIsNamed() throws Exception {
        enabledInMode(1);
        FakeLink stubborn = new FakeLink(time);
        stubborn.registers[Maps.STATUS] = 0x27;
        stubborn.registers[Maps.MODE_DISPLAY] = 0xFFFD;
        assertThatThrownBy(() -> Drive.over(stubborn, Maps.cia402(), time).startSpeed(1, LIMITS))
                .isInstanceOf(DriveStateException.class)
                // Source: modes of operation are signed; FFFDh is -3.
                .hasMessageContaining("expected mode of operation 3 within 1000 ms but mode -3 is displayed");
        assertThat(stubborn.writes).containsExactly(HALT, MODE_3);
    }

    @Test
    void aStopInTheMiddleOfTheHandShakeHasTheLastWord() throws Exception {
        enabledInMode(1);
        fake.onFirstLook = this::stopNow;
        assertThatThrownBy(() -> drive.startAbsolute(100_000, LIMITS))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("expected no stop while a command was being given");
        assertThat(fake.writes).hasSize(3).endsWith(SET_POINT, HALT);
    }

    private void stopNow() {
        try {
            drive.stop();
        } catch (DriveException e) {
            throw new IllegalStateException(e);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {0x00, 0x40, 0x21, 0x23, 0x07, 0x0F, 0x08})
    void aStopNeverEnablesADrive(int state) throws Exception {
        fake.state(state);
        drive.stop();
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void aStopHaltsADriveThatSomebodyElseEnabledAndQuickStopsAnUndefinedOne() throws Exception {
        fake.state(0x27);
        drive.stop();
        assertThat(fake.writes).containsExactly(HALT);
        drive.stop();
        assertThat(fake.writes).containsExactly(HALT, HALT);

        FakeCia402 odd = new FakeCia402(time);
        odd.state(0x77);
        Drive.over(odd, Maps.cia402(), time).stop();
        assertThat(odd.writes).containsExactly("6:0=0002");
    }

    @Test
    void aStopWhoseReplyIsLostCanBeOrderedAgain() throws Exception {
        enabledInMode(1);
        fake.losesReplyToWrite = 0;
        assertThatThrownBy(drive::stop).isInstanceOf(OutcomeUnknownException.class);
        drive.stop();
        assertThat(fake.writes).containsExactly(HALT, HALT);
    }

    @Test
    void whileHaltedNoTargetIsReached() throws Exception {
        enabledInMode(1);
        fake.state(0x0427);
        assertThat(drive.sample().state().targetReached()).isTrue();
        drive.stop();
        assertThat(drive.sample().state()).isEqualTo(new DriveState(DriveState.Phase.ENABLED, false, 0x0427, 0));
    }

    @Test
    void disablingShutsDown() throws Exception {
        enabledInMode(1);
        drive.disable(WITHIN);
        assertThat(fake.writes).containsExactly("6:0=0006");
        drive.disable(WITHIN);
        drive.stop();
        assertThat(fake.writes).hasSize(1);
    }

    @Test
    void aFaultIsResetByARisingEdge() throws Exception {
        fake.state(0x08);
        drive.resetFault(WITHIN);
        assertThat(fake.writes).containsExactly("6:0=0000", "6:0=0080", "6:0=0000");
        drive.resetFault(WITHIN);
        assertThat(fake.writes).hasSize(3);
    }

    @Test
    void aFaultThatStaysIsNamed() {
        fake.state(0x08);
        fake.deafTo = 0x80;
        assertThatThrownBy(() -> drive.resetFault(WITHIN))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("expected no fault after the reset within");
        assertThat(fake.writes).containsExactly("6:0=0000", "6:0=0080");
    }

    @Test
    void aDriveThatIsNotEnabledIsNotMoved() {
        assertThatThrownBy(() -> drive.startAbsolute(1, LIMITS))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("expected \"operation enabled\" before a motion")
                .hasMessageContaining("\"switch on disabled\"");
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void whatDoesNotFitIsRefusedBeforeAnythingIsWritten() throws Exception {
        enabledInMode(3);
        fake.registers[104] = 0x7FFF;
        fake.registers[105] = 0xFFFF;
        assertThatThrownBy(() -> drive.startRelative(1, LIMITS))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("targetPosition: raw 2147483648 does not fit int32");
        assertThatThrownBy(() -> drive.startAbsolute(1L << 31, LIMITS)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> drive.startSpeed(3e9, LIMITS)).hasMessageContaining("targetSpeed: 3000000000 count/s");
        MotionLimits tooFast = new MotionLimits(5e9, 1, OptionalDouble.empty());
        assertThatThrownBy(() -> drive.startAbsolute(1, tooFast)).hasMessageContaining("profileSpeed: 5000000000");
        MotionLimits tooSlow = new MotionLimits(0.4, 1, OptionalDouble.empty());
        assertThatThrownBy(() -> drive.startAbsolute(1, tooSlow))
                .hasMessageContaining("profileSpeed: 0.4 count/s is less than half a step of the register");
        MotionLimits tooStrong = new MotionLimits(1, 1, OptionalDouble.of(7_000));
        assertThatThrownBy(() -> drive.startSpeed(1, tooStrong)).hasMessageContaining("torqueLimit: 70000 permille");
        assertThat(fake.writes).isEmpty();
    }

    private void enabledInMode(int mode) throws Exception {
        drive.enable(WITHIN);
        fake.registers[Maps.MODE_DISPLAY] = mode;
        fake.writes.clear();
    }
}
