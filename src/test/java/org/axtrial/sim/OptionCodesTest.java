package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.Optional;
import org.axtrial.registers.DriveDescription;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Option codes of CiA 402, objects 605Ah … 605Eh and 6007h, as reproduced by public object dictionaries. The axis turns
 * at 1500 r/min; the usual ramp is 3000 r/min/s, the quick stop ramp 15000 r/min/s: 500 ms and 100 ms.
 */
class OptionCodesTest {

    private static Bench turning(Optional<DriveDescription.Watchdog> watchdog) {
        Bench bench = new Bench(InventedDrives.wholeCia402(watchdog), InventedDrives.axis());
        bench.enabledCia402(3);
        bench.write("profileAcceleration", 3000);
        bench.write("profileDeceleration", 3000);
        bench.write("quickStopDeceleration", 15_000);
        bench.write("targetSpeed", 1500);
        for (int i = 0; i < 10; i++) {
            bench.pass(100);
            bench.status();
        }
        assertThat(bench.read("speed")).isCloseTo(1500, within(5.0));
        return bench;
    }

    private static Bench turning() {
        return turning(Optional.empty());
    }

    /** Mean rate over the next 50 ms in r/min/s. */
    private static double rate(Bench bench) {
        double before = bench.read("speed");
        bench.pass(50);
        return (before - bench.read("speed")) / 0.050;
    }

    // J 5e-4, friction 0.05 N·m and 1e-3 · ω: at 157 rad/s 0.207 N·m, 3950 r/min/s with the torque off.
    @ParameterizedTest
    @CsvSource({
        "quickStopOption, 0, 0x02, 3950, 0, disabled",
        "quickStopOption, 1, 0x02, 3000, 1, disabled",
        "quickStopOption, 2, 0x02, 15000, 1, disabled",
        "quickStopOption, 5, 0x02, 3000, 1, quick stop",
        "quickStopOption, 6, 0x02, 15000, 1, quick stop",
        "shutdownOption, 0, 0x06, 3950, 0, ready",
        "shutdownOption, 1, 0x06, 3000, 1, ready",
        "disableOption, 0, 0x07, 3950, 0, switched on",
        "disableOption, 1, 0x07, 3000, 1, switched on",
        "haltOption, 1, 0x10F, 3000, 1, enabled",
        "haltOption, 2, 0x10F, 15000, 1, enabled"
    })
    void everyOptionStopsAsItSaysAndEndsInItsState(
            String option, int code, String word, double rate, int braked, String end) {
        Bench bench = turning();
        assertThat(bench.write(option, code)).isEqualTo(Bench.OK);
        bench.write("control", Integer.decode(word));
        if (braked == 0) {
            assertThat(bench.read("torque")).isZero();
            assertThat(bench.cia402State()).isEqualTo(end);
        }
        assertThat(rate(bench)).isCloseTo(rate, within(0.06 * rate));
        bench.pass(3000);
        assertThat(bench.read("speed")).isZero();
        assertThat(bench.cia402State()).isEqualTo(end);
    }

    @ParameterizedTest
    @CsvSource({"0, 3950", "1, 3000", "2, 15000"})
    void aFaultStopsAsItsOptionSays(int code, double rate) {
        Bench bench = turning();
        bench.write("faultReactionOption", code);
        bench.drive.trip(0x4310);
        assertThat(bench.cia402State()).isEqualTo(code == 0 ? "fault" : "reaction");
        assertThat(rate(bench)).isCloseTo(rate, within(0.06 * rate));
        bench.pass(3000);
        assertThat(bench.cia402State()).isEqualTo("fault");
    }

    @ParameterizedTest
    @CsvSource({"0, enabled, 0", "1, fault, 0x7500", "2, disabled, 0", "3, disabled, 0"})
    void aLostConnectionLeadsWhereItsOptionSays(int code, String end, String fault) {
        Bench bench = turning(Optional.of(new DriveDescription.Watchdog(Duration.ofMillis(300), Optional.empty())));
        bench.write("abortConnectionOption", code);
        bench.pass(290);
        assertThat(bench.drive.shaftSpeed()).isCloseTo(50 * Math.PI, within(0.5));
        bench.pass(3000);
        assertThat(bench.drive.shaftSpeed() == 0).isEqualTo(code != 0);
        assertThat(bench.cia402State()).isEqualTo(end);
        assertThat(bench.drive.faultCode()).isEqualTo(Integer.decode(fault));
    }

    @Test
    void operationCanBeEnabledAgainFromQuickStopThatIsKept() {
        Bench bench = turning();
        bench.write("quickStopOption", 6);
        bench.write("control", 0x02);
        bench.pass(1000);
        assertThat(bench.cia402State()).isEqualTo("quick stop");
        bench.write("control", 0x0F);
        assertThat(bench.cia402State()).isEqualTo("enabled");
        bench.pass(1000);
        assertThat(bench.read("speed"))
                .as("profile velocity follows its target again")
                .isCloseTo(1500, within(5.0));
    }

    @ParameterizedTest
    @CsvSource({
        "quickStopOption, 3",
        "quickStopOption, 7",
        "quickStopOption, -1",
        "shutdownOption, 2",
        "disableOption, 2",
        "haltOption, 0",
        "haltOption, 3",
        "faultReactionOption, 3",
        "abortConnectionOption, 4"
    })
    void codesThatAreNotSimulatedAreRefused(String option, int code) {
        Bench bench = new Bench(InventedDrives.wholeCia402(), InventedDrives.axis());
        double before = bench.read(option);
        assertThat(bench.write(option, code)).isEqualTo(4);
        assertThat(bench.read(option)).isEqualTo(before);
    }

    @Test
    void withoutAnyOrderTheCodesStandAtTheirDefaults() {
        Bench bench = new Bench(InventedDrives.wholeCia402(), InventedDrives.axis());
        assertThat(bench.read("quickStopOption")).isEqualTo(2);
        assertThat(bench.read("shutdownOption")).isZero();
        assertThat(bench.read("disableOption")).isEqualTo(1);
        assertThat(bench.read("haltOption")).isEqualTo(1);
        assertThat(bench.read("faultReactionOption")).isEqualTo(2);
        assertThat(bench.read("abortConnectionOption")).isEqualTo(1);
    }
}
