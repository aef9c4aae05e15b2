package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.ValueType;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;

class IdentityProofTest {

    private static final int CODE = 400;
    private static final int SERIAL = 410;

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final Reconnectable fake = new Reconnectable(time);
    private final Drive drive = Drive.over(fake, description(), time);

    IdentityProofTest() {
        fake.show(0xC402_5E91L, 4711);
    }

    /** A link whose connection breaks and comes back, as told by the test. */
    private static final class Reconnectable extends FakeLink {
        private long number = 1;

        Reconnectable(VirtualTime time) {
            super(time);
        }

        void show(long code, int serial) {
            registers[CODE] = (int) (code >>> 16);
            registers[CODE + 1] = (int) (code & 0xFFFF);
            registers[SERIAL] = serial;
        }

        @Override
        public long connectionNumber() {
            return number;
        }
    }

    private static DriveDescription description() {
        DriveDescription plain = Maps.cia402();
        return new DriveDescription(
                plain.type(),
                CommandStyle.CIA402,
                plain.signals(),
                plain.statusBits(),
                plain.commands(),
                List.of(new DriveDescription.IdentityConstant(
                        Maps.shown("productCode", CODE, ValueType.UINT32, 1, Unit.ONE), 0xC402_5E91L)),
                Stream.concat(
                                plain.parameters().stream(),
                                Stream.of(Maps.shown(SignalNames.SERIAL_NUMBER, SERIAL, ValueType.UINT16, 1, Unit.ONE)))
                        .toList(),
                plain.maxReadRegisters(),
                plain.maxConnections(),
                plain.watchdog());
    }

    @Test
    void theRightDriveIsReadOnceForEachConnection() throws Exception {
        drive.reconnect();
        drive.reconnect();
        drive.sample();
        assertThat(fake.reads.stream().filter(read -> read.startsWith("3:40"))).hasSize(1);
        fake.number = 2;
        drive.sample();
        assertThat(fake.reads.stream().filter(read -> read.startsWith("3:40"))).hasSize(2);
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void anotherTypeBehindANewConnectionIsWrittenNothingNotEvenAStop() throws Exception {
        drive.reconnect();
        fake.number = 2;
        fake.show(0x0D5A_17C3L, 4711);
        assertThatThrownBy(drive::reconnect)
                .isInstanceOf(WrongDriveException.class)
                .hasMessageContaining("productCode at address 400 (reference 40401) reads 0D5A 17C3 hex")
                .hasMessageContaining("expected C402 5E91 hex")
                .hasMessageContaining("not even a stop");
        // A state in which the stop of this style is a halt by controlword.
        fake.registers[Maps.STATUS] = 0x0637;
        assertThatThrownBy(drive::stop).isInstanceOf(WrongDriveException.class);
        fake.registers[Maps.STATUS] = 0x0640;
        assertThatThrownBy(() -> drive.enable(Duration.ofSeconds(1))).isInstanceOf(WrongDriveException.class);
        assertThatThrownBy(drive::sample).isInstanceOf(WrongDriveException.class);
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void theNeighbourOfTheSameTypeIsToldByItsSerialNumber() throws Exception {
        drive.reconnect();
        fake.number = 2;
        fake.show(0xC402_5E91L, 4712);
        fake.registers[Maps.STATUS] = 0x0637;
        assertThatThrownBy(drive::stop)
                .isInstanceOf(WrongDriveException.class)
                .hasMessageContaining("serial number 4712, before it was 4711");
        assertThat(fake.writes).isEmpty();
    }

    @Test
    void theRightDriveBackAgainIsCommandedAgain() throws Exception {
        drive.reconnect();
        fake.number = 2;
        fake.show(0x0D5A_17C3L, 4711);
        assertThatThrownBy(drive::reconnect).isInstanceOf(WrongDriveException.class);
        fake.number = 3;
        fake.show(0xC402_5E91L, 4711);
        fake.registers[Maps.STATUS] = 0x0637;
        drive.reconnect();
        drive.stop();
        assertThat(fake.writes).hasSize(1);
    }

    @Test
    void theFirstWriteOfARunWaitsForTheProofToo() {
        fake.show(0x0D5A_17C3L, 1);
        fake.registers[Maps.STATUS] = 0x0637;
        assertThatThrownBy(drive::stop).isInstanceOf(WrongDriveException.class);
        assertThat(fake.writes).isEmpty();
    }
}
