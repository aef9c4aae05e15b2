package org.axtrial.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import org.axtrial.link.LinkException;
import org.axtrial.link.Reply;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.DriveDescription.SaveCommand;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;

/** Saving to the memory of a drive happens once, by name, or not at all. */
class ParameterSaveTest {

    private static final int STORE = 200;
    private static final int MAGIC = 0x5A17;

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final FakeLink link = new FakeLink(time);

    private Drive drive(OptionalLong done) {
        return Drive.over(link, described(done), time);
    }

    private DriveDescription described(OptionalLong done) {
        SignalSpec store = Maps.written("storeParameters", STORE);
        List<SignalSpec> signals = new ArrayList<>(Maps.cia402().signals().values());
        signals.add(store);
        return Maps.description(CommandStyle.CIA402, signals, Map.of(), Map.of())
                .withSaveCommand(new SaveCommand(store, MAGIC, done, Duration.ofSeconds(1)));
    }

    @Test
    void isOneWriteOfTheDeclaredValue() throws Exception {
        drive(OptionalLong.empty()).save("storeParameters");
        assertThat(link.writes).containsExactly("6:200=5A17");
        assertThat(link.reads).isEmpty();
    }

    @Test
    void waitsUntilTheDriveTellsThatItHasFinished() throws Exception {
        FakeLink busy = new FakeLink(time) {
            @Override
            public Reply read(int function, int address, int count) throws LinkException {
                if (time.nanos() > 400_000_000) {
                    registers[STORE] = 1;
                }
                return super.read(function, address, count);
            }
        };
        Drive.over(busy, described(OptionalLong.of(1)), time).save("storeParameters");
        assertThat(busy.writes).hasSize(1);
        assertThat(time.nanos()).isBetween(400_000_000L, 500_000_000L);
    }

    @Test
    void thatTheDriveNeverEndsIsUnknownAndNotRepeated() {
        assertThatThrownBy(() -> drive(OptionalLong.of(1)).save("storeParameters"))
                .isInstanceOf(OutcomeUnknownException.class)
                .hasMessageContainingAll("storeParameters", "written once", "instead of 1 after 1000 ms");
        assertThat(link.writes).hasSize(1);
    }

    @Test
    void byAnotherNameOrWithoutADeclarationSendsNothing() {
        assertThatThrownBy(() -> drive(OptionalLong.empty()).save("store"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContainingAll("storeParameters", "not by \"store\"", "nothing was sent");
        assertThatThrownBy(() -> Drive.over(link, Maps.cia402(), time).save("storeParameters"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("declares no saveCommand");
        assertThat(link.writes).isEmpty();
    }

    @Test
    void isNotToBeHadBySettingItAsAParameter() {
        assertThatThrownBy(() -> drive(OptionalLong.empty()).write("storeParameters", MAGIC))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("storeParameters");
        assertThat(link.writes).isEmpty();
    }
}
