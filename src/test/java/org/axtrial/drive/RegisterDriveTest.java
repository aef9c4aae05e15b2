package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;

class RegisterDriveTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final FakeLink fake = new FakeLink(time);
    private final Drive drive = Drive.over(fake, Maps.cia402(), time);

    @Test
    void oneLookIsOneBlock() throws Exception {
        fake.registers[Maps.STATUS] = 0x0637;
        fake.registers[102] = 0xFFFE;
        fake.registers[103] = 0x1DC0;
        fake.registers[107] = 250;
        fake.registers[108] = 0x10000 - 55;
        fake.registers[Maps.FAULT_CODE] = 0x3210;
        Sample sample = drive.sample();
        assertThat(fake.reads).containsExactly("3:100+11");
        assertThat(sample.values())
                .containsEntry("position", -123_456.0)
                .containsEntry("demandPosition", 0.0)
                .containsEntry("speed", 250.0)
                .containsEntry("torque", -5.5)
                .containsEntry("status", 1591.0)
                .containsEntry("faultCode", 12_816.0)
                .hasSize(6);
        assertThat(sample.state()).isEqualTo(new DriveState(DriveState.Phase.ENABLED, true, 0x0637, 0x3210));
        assertThat(sample.sentNanos()).isZero();
        assertThat(sample.repliedNanos()).isEqualTo(1_000_000);
    }

    @Test
    void aDriveThatRefusesTheGapIsReadAroundItFromThenOn() throws Exception {
        fake.notInTheMap.add(109);
        Sample sample = drive.sample();
        assertThat(fake.reads).containsExactly("3:100+11", "3:100+9", "3:110+1");
        assertThat(sample.sentNanos()).isEqualTo(1_000_000);
        assertThat(sample.repliedNanos()).isEqualTo(3_000_000);
        fake.reads.clear();
        drive.sample();
        assertThat(fake.reads).containsExactly("3:100+9", "3:110+1");
    }

    @Test
    void aDriveThatRefusesADeclaredRegisterIsNotReadAround() {
        fake.notInTheMap.add(103);
        assertThatThrownBy(drive::sample)
                .isInstanceOf(CommandRefusedException.class)
                .hasMessageStartingWith("reading position, demandPosition, speed, torque, status: fake: 02");
    }

    @Test
    void aLostLookIsUnreachable() {
        fake.losesReadsAfterWrites = 0;
        assertThatThrownBy(drive::sample)
                .isInstanceOf(DriveUnreachableException.class)
                .hasCauseInstanceOf(org.axtrial.link.LinkLostException.class);
    }

    @Test
    void unitsComeFromTheDescription() {
        DriveUnits units = drive.units();
        assertThat(units.positionBits()).isEqualTo(32);
        assertThat(units.signals()).containsEntry("torque", Unit.PERCENT).containsEntry("position", Unit.COUNT);
        assertThat(units.quanta()).containsEntry("torque", 0.1).containsEntry("speed", 1.0);
        assertThat(units.speedCommand()).isEqualTo(Unit.COUNT_PER_SECOND);
        assertThat(units.profileAcceleration()).isEqualTo(Unit.COUNT_PER_SECOND_SQUARED);
        assertThat(units.hasTorqueLimit()).isTrue();
        DriveUnits direct = Drive.over(fake, Maps.direct(), time).units();
        assertThat(direct.positionBits()).isEqualTo(16);
        assertThat(direct.speedCommand()).isEqualTo(Unit.REVOLUTION_PER_MINUTE);
        assertThat(direct.quanta()).containsEntry("speed", 0.5);
        assertThat(direct.hasTorqueLimit()).isFalse();
    }

    @Test
    void signalsAndParametersAreReadByName() throws Exception {
        fake.registers[300] = 240;
        fake.registers[13] = 77;
        assertThat(drive.read("rating")).isEqualTo(2.4);
        assertThat(drive.read("profileSpeed")).isEqualTo(77);
        assertThatThrownBy(() -> drive.read("colour"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("declares no \"colour\"; known: control, mode,");
    }

    @Test
    void aFloatThatIsNoNumberIsNoAnswer() {
        List<SignalSpec> signals = new ArrayList<>(Maps.cia402().signals().values());
        signals.removeIf(signal -> signal.name().equals("speed"));
        signals.add(Maps.shown("speed", 106, ValueType.FLOAT32, 1, Unit.COUNT_PER_SECOND));
        fake.registers[106] = 0x7FC0;
        assertThatThrownBy(
                        () -> Drive.over(fake, Maps.description(CommandStyle.CIA402, signals, Map.of(), Map.of()), time)
                                .sample())
                .isInstanceOf(DriveUnreachableException.class)
                .hasMessageContaining("speed at address 106 (reference 40107) holds no number (NaN)");
    }

    @Test
    void aParameterIsWrittenOnceAndReadBack() throws Exception {
        assertThat(drive.write("torqueLimit", 1500)).isEqualTo(1500);
        assertThat(fake.writes).containsExactly("16:18=05DC");
        assertThat(fake.reads).containsExactly("3:18+1");
    }

    @Test
    void aParameterWhoseReplyIsLostIsProvenByItsRegister() throws Exception {
        fake.losesReplyToWrite = 0;
        assertThat(drive.write("torqueLimit", 1500)).isEqualTo(1500);
        assertThat(fake.writes).hasSize(1);
    }

    @Test
    void aParameterThatShowsAnotherValueAfterALostReplyIsNotWrittenAgain() {
        FakeLink forgetful = new FakeLink(time) {
            @Override
            void written(int address, int[] words) {
                registers[address] = 7;
            }
        };
        forgetful.losesReplyToWrite = 0;
        assertThatThrownBy(() -> Drive.over(forgetful, Maps.cia402(), time).write("torqueLimit", 1500))
                .isInstanceOf(OutcomeUnknownException.class)
                .hasMessageContainingAll("sent once and not repeated", "reads 7.0 instead of 1500.0");
        assertThat(forgetful.writes).hasSize(1);
    }

    @Test
    void aParameterThatTheDriveLimitsIsTold() {
        FakeLink limiting = new FakeLink(time) {
            @Override
            void written(int address, int[] words) {
                registers[address] = 1000;
            }
        };
        assertThatThrownBy(() -> Drive.over(limiting, Maps.cia402(), time).write("torqueLimit", 1500))
                .isInstanceOf(CommandRefusedException.class)
                .hasMessageContainingAll("torqueLimit", "written as 1500.0 and reads 1000.0");
    }

    @Test
    void whatMovesOrIsNotWritableOrNotThereIsNeverWritten() {
        for (String name : List.of("control", "targetPosition", "position", "rating", "nonsense")) {
            assertThatThrownBy(() -> drive.write(name, 1))
                    .as(name)
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContainingAll(name, "it may write");
        }
        assertThatThrownBy(() -> drive.write("torqueLimit", Double.NaN)).hasMessageContaining("NaN");
        assertThat(fake.writes).isEmpty();
    }
}
