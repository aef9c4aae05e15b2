package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.axtrial.registers.CommandStyle;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Timeout(30)
class DirectDriveTest {

    private static final Duration WITHIN = Duration.ofMillis(100);
    private static final MotionLimits LIMITS = new MotionLimits(300, 1000, OptionalDouble.empty());
    private static final String PROFILE = "16:5=012C 03E8";

    private static final int ENABLED = 1 << 1;
    private static final int FAULT = 1 << 2;
    private static final int MOVING = 1 << 3;
    private static final int IN_POSITION = 1 << 4;

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final FakeLink fake = new FakeLink(time) {
        @Override
        void written(int address, int[] words) {
            if (address == 0 && !deaf) {
                registers[Maps.STATUS] = words[0] == 1 ? ENABLED : words[0] == 3 ? registers[Maps.STATUS] : 0;
            }
        }
    };
    private final Drive drive = Drive.over(fake, Maps.direct(), time);
    private boolean deaf;

    @Test
    void enableDisableAndResetAreCommandsOfTheDescription() throws Exception {
        drive.enable(WITHIN);
        drive.enable(WITHIN);
        drive.disable(WITHIN);
        drive.disable(WITHIN);
        show(FAULT);
        drive.resetFault(WITHIN);
        drive.resetFault(WITHIN);
        assertThat(fake.writes).containsExactly("6:0=0001", "6:0=0002", "6:0=0004");
    }

    @Test
    void theStartIsWrittenAloneAfterTheProfile() throws Exception {
        show(ENABLED);
        Started started = drive.startRelative(-5, LIMITS);
        assertThat(fake.writes).containsExactly(PROFILE, "6:2=FFFB");
        assertThat(started.repliedNanos()).isEqualTo(time.nanos());
        assertThat(started.sentNanos()).isEqualTo(time.nanos() - 1_000_000);
        fake.writes.clear();
        drive.startAbsolute(7, LIMITS);
        drive.startSpeed(-60, LIMITS);
        assertThat(fake.writes).containsExactly(PROFILE, "16:3=0007", PROFILE, "6:4=FFC4");
    }

    @ParameterizedTest
    @CsvSource({"relative, 6:2=0005", "absolute, 16:3=0005", "speed, 6:4=0005"})
    void aStartWhoseReplyIsLostIsWrittenOnce(String kind, String start) {
        show(ENABLED);
        fake.losesReplyToWrite = 1;
        assertThatThrownBy(() -> start(kind))
                .isInstanceOf(OutcomeUnknownException.class)
                .hasCauseInstanceOf(org.axtrial.link.OutcomeUnknownException.class);
        assertThat(fake.writes).containsExactly(PROFILE, start);
    }

    @ParameterizedTest
    @CsvSource({"relative", "absolute", "speed"})
    void aProfileWhoseReplyIsLostIsNotFollowedByAStart(String kind) {
        show(ENABLED);
        fake.losesReplyToWrite = 0;
        assertThatThrownBy(() -> start(kind)).isInstanceOf(OutcomeUnknownException.class);
        assertThat(fake.writes).containsExactly(PROFILE);
    }

    private void start(String kind) throws Exception {
        switch (kind) {
            case "relative" -> drive.startRelative(5, LIMITS);
            case "absolute" -> drive.startAbsolute(5, LIMITS);
            default -> drive.startSpeed(5, LIMITS);
        }
    }

    @Test
    void aRefusedStartIsARefusal() {
        show(ENABLED);
        fake.refusesWrite = 1;
        assertThatThrownBy(() -> drive.startRelative(5, LIMITS))
                .isInstanceOf(CommandRefusedException.class)
                .hasMessage("writing relativeMove: fake: 03");
        assertThat(fake.writes).hasSize(2);
    }

    @Test
    void whatDoesNotFitIsRefusedBeforeAnythingIsWritten() {
        show(ENABLED);
        assertThatThrownBy(() -> drive.startRelative(70_000, LIMITS))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("relativeMove: raw 70000 does not fit int16 at address 2 (reference 40003)");
        assertThatThrownBy(() -> drive.startSpeed(70_000, LIMITS)).hasMessageContaining("speedCommand: 70000 rpm");
        MotionLimits tooFast = new MotionLimits(70_000, 1, OptionalDouble.empty());
        assertThatThrownBy(() -> drive.startRelative(1, tooFast)).hasMessageContaining("profileSpeed: 70000 rpm");
        MotionLimits torque = new MotionLimits(1, 1, OptionalDouble.of(50));
        assertThatThrownBy(() -> drive.startRelative(1, torque)).hasMessageContaining("no signal \"torqueLimit\"");
        assertThat(fake.writes).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "0, 'expected enabled before a motion, the drive shows none of its status bits (status word 0x0000)'",
        "6, 'expected enabled before a motion, the drive shows enabled, fault (status word 0x0006, fault code 0x0017)'",
        "10, 'expected standstill before a move, the drive shows enabled, moving (status word 0x000A)'",
    })
    void aDriveInAnotherStateIsNotMoved(int word, String message) {
        show(word);
        fake.registers[Maps.FAULT_CODE] = (word & FAULT) == 0 ? 0 : 0x17;
        assertThatThrownBy(() -> drive.startRelative(5, LIMITS))
                .isInstanceOf(DriveStateException.class)
                .hasMessage("fake unit 1: " + message);
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void aStateThatDoesNotComeIsNamed() {
        deaf = true;
        assertThatThrownBy(() -> drive.enable(WITHIN))
                .isInstanceOf(DriveStateException.class)
                .hasMessageContaining("expected enabled within 100 ms, the drive shows none of its status bits");
        assertThat(fake.writes).containsExactly("6:0=0001");
        show(FAULT);
        assertThatThrownBy(() -> drive.enable(WITHIN)).hasMessageContaining("expected no fault before enabling");
        assertThatThrownBy(() -> drive.resetFault(WITHIN)).hasMessageContaining("no fault after the reset within");
        show(ENABLED);
        assertThatThrownBy(() -> drive.disable(WITHIN)).hasMessageContaining("expected not enabled within 100 ms");
    }

    @Test
    void stopIsOneCommandAndMayBeRepeated() throws Exception {
        show(ENABLED | MOVING);
        drive.stop();
        drive.stop();
        assertThat(fake.writes).containsExactly("6:0=0003", "6:0=0003");
    }

    @ParameterizedTest
    @CsvSource({
        "0, DISABLED, false",
        "2, ENABLED, false",
        "6, FAULT, false",
        "10, ENABLED, false",
        "26, ENABLED, false",
        "18, ENABLED, true",
    })
    void statesByTheBitsOfTheDescription(int word, DriveState.Phase phase, boolean targetReached) throws Exception {
        show(word);
        assertThat(drive.sample().state()).isEqualTo(new DriveState(phase, targetReached, word, 0));
        assertThat((word & IN_POSITION) != 0 && (word & MOVING) == 0).isEqualTo(targetReached);
    }

    @Test
    void everythingThatADescriptionLacksIsNamedAtOnce() {
        assertThatThrownBy(() -> Drive.over(
                        fake,
                        Maps.description(
                                CommandStyle.DIRECT,
                                List.copyOf(Maps.cia402().signals().values()),
                                Map.of("enabled", 0, "fault", 1, "moving", 2),
                                Map.of("enable", 1, "stop", 2, "disable", 3)),
                        time))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("drive type invented declares no signal command, no signal relativeMove, no signal"
                        + " absoluteMove, no signal speedCommand, no status bit inPosition, no command resetFault");
    }

    private void show(int word) {
        fake.registers[Maps.STATUS] = word;
    }
}
