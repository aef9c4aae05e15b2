package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.junit.jupiter.api.Test;

class SimulatedDriveTest {

    private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

    private static String answer(SimulatedDrive drive, String request) {
        return HEX.formatHex(drive.answer(HEX.parseHex(request)));
    }

    @Test
    void identityConstantsShowWhatIsExpectedAndCannotBeWritten() {
        SimulatedDrive drive = new SimulatedDrive("a", InventedDrives.cia402(), InventedDrives.axis());
        assertThat(answer(drive, "03 00 32 00 02")).isEqualTo("03 04 12 34 56 78");
        assertThat(answer(drive, "10 00 32 00 02 04 00 00 00 00")).isEqualTo("90 02");
    }

    @Test
    void parametersStartAsToldHoldWhatIsWrittenAndAreZeroElse() {
        SimulatedDrive drive = new SimulatedDrive(
                "a", InventedDrives.cia402(), InventedDrives.axis(), Map.of("notch", -2.5, "offset", -12.3));
        // float32 −2.5 = C020 0000 (IEEE 754); −12.3 in steps of 0.1 = −123 = FF85.
        assertThat(answer(drive, "03 00 3C 00 03")).isEqualTo("03 06 C0 20 00 00 FF 85");
        assertThat(answer(drive, "06 00 3E 12 34")).isEqualTo("06 00 3E 12 34");
        assertThat(answer(drive, "03 00 3E 00 01")).isEqualTo("03 02 12 34");
        assertThat(drive.writes(0x3E)).isEqualTo(1);
        SimulatedDrive bare = new SimulatedDrive("b", InventedDrives.cia402(), InventedDrives.axis());
        assertThat(answer(bare, "03 00 3C 00 03")).isEqualTo("03 06 00 00 00 00 00 00");
    }

    @Test
    void wordOrderComesFromTheDescription() {
        Bench high = new Bench(InventedDrives.cia402(), InventedDrives.axis());
        Bench low = new Bench(InventedDrives.direct(), InventedDrives.axis());
        high.write("profileSpeed", 1234.56);
        low.write("profileSpeed", 1234.56);
        // 123456 = 0001 E240; low word first E240 0001.
        assertThat(answer(high.drive, "03 00 1E 00 02")).isEqualTo("03 04 00 01 E2 40");
        assertThat(answer(low.drive, "03 00 1E 00 02")).isEqualTo("03 04 E2 40 00 01");
    }

    @Test
    void allThatCannotBeSimulatedIsSaidAtOnce() {
        Map<String, SignalSpec> signals =
                new LinkedHashMap<>(InventedDrives.cia402().signals());
        signals.remove("control");
        signals.put("speed", InventedDrives.value("speed", RegisterTable.INPUT, 4, ValueType.INT32, 1, Unit.PERCENT));
        signals.put(
                "profileSpeed",
                InventedDrives.value(
                        "profileSpeed", RegisterTable.HOLDING, 30, ValueType.UINT32, 1, Unit.METRE_PER_SECOND));
        DriveDescription given = InventedDrives.cia402();
        DriveDescription wrong = new DriveDescription(
                "odd", given.style(), signals, Map.of(), Map.of(), List.of(), List.of(), 125, 1, Optional.empty());
        assertThatThrownBy(() -> new SimulatedDrive("axis 1", wrong, InventedDrives.axis()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContainingAll("axis 1", "odd", "control", "speed: unit %", "profileSpeed: unit m/s");
        assertThatThrownBy(() -> new SimulatedDrive(
                        "axis 1", given, InventedDrives.axis(), Map.of("offset", 1e9, "gain", 1.0, "position", 5.0)))
                .hasMessageContainingAll("offset", "gain", "position");
    }

    @Test
    void linearUnitsGoByTheLead() {
        Map<String, SignalSpec> signals =
                new LinkedHashMap<>(InventedDrives.direct().signals());
        signals.put(
                "speedCommand",
                InventedDrives.value(
                        "speedCommand", RegisterTable.HOLDING, 26, ValueType.INT32, 1, Unit.MILLIMETRE_PER_SECOND));
        DriveDescription given = InventedDrives.direct();
        DriveDescription linear = new DriveDescription(
                "linear",
                given.style(),
                signals,
                given.statusBits(),
                given.commands(),
                List.of(),
                List.of(),
                125,
                1,
                Optional.empty());
        SimulationSpec.Load screw = new SimulationSpec.LinearLoad(20, 0.005, 0, 1e-3, 0.05);
        Bench bench = new Bench(linear, InventedDrives.axis(screw)).enabledDirect();
        bench.write("speedCommand", 50);
        bench.pass(1000);
        // 50 mm/s over 5 mm lead = 10 rev/s = 600 r/min, speed register in r/min of the motor.
        assertThat(bench.read("speed")).isCloseTo(600, within(2.0));
    }

    @Test
    void silenceWhileMovingStopsByRampAndFaults() {
        Bench bench = new Bench(
                        InventedDrives.direct(
                                Optional.of(new DriveDescription.Watchdog(Duration.ofMillis(300), Optional.empty()))),
                        InventedDrives.axis())
                .enabledDirect();
        bench.pass(5000);
        assertThat(bench.read("faultCode")).as("at rest nothing is stopped").isZero();
        bench.write("speedCommand", 600);
        for (int i = 0; i < 10; i++) {
            bench.pass(200);
            assertThat(bench.read("faultCode")).isZero();
        }
        bench.pass(290);
        assertThat(bench.drive.shaftSpeed()).isCloseTo(20 * Math.PI, within(0.1));
        bench.pass(20);
        // Source: IEC 61800-7-201 error code 7500h, communication.
        assertThat(bench.drive.faultCode()).isEqualTo(0x7500);
        assertThat(bench.drive.shaftSpeed()).as("by ramp, not at once").isGreaterThan(10 * Math.PI);
        bench.pass(1000);
        assertThat(bench.drive.shaftSpeed()).isZero();
        assertThat(bench.status() & 0b110).isEqualTo(0b100);
    }

    @Test
    void theSameRequestsGiveTheSameBits() {
        assertThat(fingerprint(125_000)).isEqualTo(fingerprint(125_000));
    }

    @Test
    void howTimeIsCutDoesNotChangeTheMotion() {
        // The steps are fixed, so asking every 3.7 ms or every 250 ms must give the same end to the bit; 500 ms before
        // the look the axis rests, which is where whole stretches are passed over without stepping.
        assertThat(fingerprint(3_700_000)).isEqualTo(fingerprint(250_000_000));
    }

    private static List<Long> fingerprint(long slice) {
        Bench bench = new Bench(InventedDrives.direct(), InventedDrives.axis()).enabledDirect();
        bench.write("relativeMove", 100_000);
        long from = bench.drive.nanos();
        for (long t = 0; t < 3_000_000_000L; t += slice) {
            bench.drive.advanceTo(from + t);
        }
        bench.drive.advanceTo(from + 3_000_000_000L);
        bench.write("speedCommand", -777);
        bench.drive.advanceTo(from + 4_000_000_000L);
        return List.of(
                Double.doubleToRawLongBits(bench.drive.shaftAngle()),
                Double.doubleToRawLongBits(bench.drive.shaftSpeed()),
                Double.doubleToRawLongBits(bench.drive.torque()));
    }

    @Test
    void anHourOfMotionCanBeSimulated() {
        Bench bench = new Bench(InventedDrives.direct(), InventedDrives.axis()).enabledDirect();
        bench.write("speedCommand", 600);
        bench.pass(3_600_000);
        // 600 r/min for an hour less half the ramp of 0.2 s: 36000 − 1 revolutions.
        assertThat(bench.drive.shaftAngle() / (2 * Math.PI)).isCloseTo(35_999, within(0.1));
        assertThat(bench.read("position")).isEqualTo(Math.rint((int)
                Math.round(bench.drive.shaftAngle() / (2 * Math.PI) * InventedDrives.COUNTS % 4_294_967_296.0)));
    }

    @Test
    void earlierTimesAreIgnored() {
        Bench bench = new Bench(InventedDrives.direct(), InventedDrives.axis());
        bench.drive.advanceTo(5_000_000);
        bench.drive.advanceTo(1_000_000);
        assertThat(bench.drive.nanos()).isEqualTo(5_000_000);
    }
}
