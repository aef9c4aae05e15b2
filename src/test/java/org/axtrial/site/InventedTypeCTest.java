package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.link.LinkException;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.sim.InProcessLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.SimulationSpec.SwitchRange;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The invented CiA 402 drive of the demonstration, through its own registers: what its description declares works. */
class InventedTypeCTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private DriveDescription description;
    private SimulatedDrive drive;
    private InProcessLink link;

    @BeforeEach
    void open() throws SiteProblemsException {
        SiteAxis axis = SiteFile.load(Path.of("test-scripts/demo/site.yaml")).axes().stream()
                .filter(one -> one.name().equals("INFEED"))
                .findFirst()
                .orElseThrow();
        description = axis.drive();
        SimulationSpec.Reference switches = new SimulationSpec.Reference(
                Optional.of(SwitchRange.below(-4, 0.01)),
                Optional.of(SwitchRange.above(40, 0.01)),
                Optional.empty(),
                0.25,
                false,
                100,
                OptionalDouble.empty());
        drive = new SimulatedDrive(
                "INFEED", description, axis.simulation().orElseThrow().with(switches));
        link = new InProcessLink(drive, time);
    }

    private double read(String name) throws LinkException {
        SignalSpec signal = description.value(name).orElseThrow();
        int function = signal.table() == RegisterTable.INPUT ? 4 : 3;
        return RegisterCodec.decode(
                signal,
                link.read(function, signal.address(), signal.registers()).words());
    }

    private void write(String name, double value) throws LinkException {
        SignalSpec signal = description.value(name).orElseThrow();
        link.writeBlock(signal.address(), RegisterCodec.encode(signal, value));
    }

    private void pass(long milliseconds) {
        time.advance(milliseconds * 1_000_000);
    }

    private void enable(int mode) throws LinkException {
        pass(20);
        write(SignalNames.MODE, mode);
        for (int word : new int[] {0x06, 0x07, 0x0F}) {
            write(SignalNames.CONTROL, word);
            pass(20);
        }
    }

    @Test
    void itHomesOnItsNegativeLimitSwitchAndTheIndexMark() throws LinkException {
        enable(6);
        write(SignalNames.HOMING_METHOD, 1);
        write(SignalNames.HOMING_SPEED_SWITCH, 300);
        write(SignalNames.HOMING_SPEED_ZERO, 30);
        write(SignalNames.HOME_OFFSET, -5000);
        write(SignalNames.CONTROL, 0x1F);
        int looks = 0;
        // Homing completed: bits 13, 12, 10 = 0, 1, 1 (IEC 61800-7-201, from memory).
        while (((int) read(SignalNames.STATUS) & 0x3400) != 0x1400 && looks++ < 5000) {
            pass(5);
        }
        assertThat(looks).isLessThan(5000);
        pass(200);
        // First mark beyond −3.99 revolutions is at −3.75; 10000 register counts in a revolution, home reads 5000.
        double shown = read(SignalNames.POSITION);
        double expected = 5000 + (drive.shaftAngle() / (2 * Math.PI) + 3.75) * 10_000;
        assertThat(shown).isCloseTo(expected, within(2.0));
        assertThat(read(SignalNames.DIGITAL_INPUTS)).isZero();
    }

    @Test
    void itsParametersShowAndKeepWhatItWorksWith() throws LinkException {
        assertThat(read(SignalNames.POSITION_WINDOW))
                .as("0.01 mm of 10000 counts on 10 mm")
                .isEqualTo(10);
        assertThat(read(SignalNames.POSITION_WINDOW_TIME)).isEqualTo(10);
        assertThat(read("followingErrorTrip")).as("20 mm").isEqualTo(20_000);
        write(SignalNames.FOLLOWING_ERROR_WINDOW, 15_000);
        assertThat(read("followingErrorTrip")).as("two views of one object").isEqualTo(15_000);
        assertThat(read(SignalNames.QUICK_STOP_OPTION)).isEqualTo(2);
        pass(20);
        write(SignalNames.PROFILE_SPEED, 123.45);
        write("storeParameters", 0x6576_6173);
        write(SignalNames.PROFILE_SPEED, 200);
        drive.powerCycle(Duration.ofMillis(100));
        drive.advanceTo(drive.nanos() + 150_000_000);
        pass(150);
        InProcessLink again = new InProcessLink(drive, time);
        link.close();
        link = again;
        assertThat(read(SignalNames.PROFILE_SPEED)).isEqualTo(123.45);
    }

    @Test
    void torqueModeGivesTheTorqueOrdered() throws LinkException {
        enable(4);
        write(SignalNames.TORQUE_SLOPE, 10_000);
        write(SignalNames.TARGET_TORQUE, 15);
        pass(50);
        assertThat(read(SignalNames.TORQUE)).isEqualTo(15);
        assertThat(read(SignalNames.MODE_DISPLAY)).isEqualTo(4);
    }
}
