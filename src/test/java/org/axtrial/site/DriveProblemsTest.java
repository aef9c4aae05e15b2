package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each kind of problem in a drive description, with the exact text that is told. */
class DriveProblemsTest {

    @TempDir
    Path folder;

    @Test
    void unknownStyle() {
        assertThat(new SiteBench(folder).drive("style: direct", "style: cia401").problems())
                .containsExactly(
                        "drive.yaml:2:8: style: expected cia402 or direct, found \"cia401\"; did you mean \"cia402\"?");
    }

    @Test
    void wordOrderMustBeSaid() {
        assertThat(new SiteBench(folder).drive("wordOrder: high-first\n", "").problems())
                .containsExactly(
                        "drive.yaml:1:1: wordOrder: missing: Which word of a value wider than 16 bits stands at the lower address, for example \"high-first\"");
    }

    @Test
    void neitherAddressNorReference() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:3: signals.position.address: missing: give address (zero-based, as on the wire) or reference (one-based, 40001 is the first holding register)");
    }

    @Test
    void bothAddressAndReference() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { address: 0, reference: 40001, ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:27: signals.position.reference: give address (zero-based) or reference (one-based), not both");
    }

    @Test
    void referenceOfADiscreteInput() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { reference: 10001, ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:26: signals.position.reference: expected 40001 … 49999 or 400001 … 465536 for holding registers, 30001 … 39999 or 300001 … 365536 for input registers, found 10001; 1xxxx are discrete inputs, which hold bits and no registers");
    }

    @Test
    void referenceThatIsABareNumber() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { reference: 2, ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:26: signals.position.reference: expected 40001 … 49999 or 400001 … 465536 for holding registers, 30001 … 39999 or 300001 … 365536 for input registers, found 2; a zero-based number goes into address");
    }

    @Test
    void tableAgainstReference() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { table: input, reference: 40001, ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:22: signals.position.table: reference 40001 is in the holding registers; leave table out or correct the reference");
    }

    @Test
    void addressOutOfRange() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { address: 70000, ")
                        .problems())
                .containsExactly("drive.yaml:5:24: signals.position.address: expected 0 … 65535, found 70000");
    }

    @Test
    void valueBeyondTheLastRegister() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { address: 65535, ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:24: signals.position.address: int32 needs 2 registers; from address 65535 it would end beyond 65535");
    }

    @Test
    void scaleOfZero() {
        assertThat(new SiteBench(folder)
                        .drive("address: 110, type: uint16", "address: 110, scale: 0, type: uint16")
                        .problems())
                .containsExactly(
                        "drive.yaml:21:40: parameters.watchdogTime.scale: expected a scale that is not 0, found 0: every value would read as the offset");
    }

    @Test
    void scaledPosition() {
        assertThat(new SiteBench(folder)
                        .drive("position: { address: 0, ", "position: { scale: 2, offset: 1, address: 0, ")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:22: signals.position.scale: expected 1 for position, found 2.0; say what a count means in the scale of the axis",
                        "drive.yaml:5:33: signals.position.offset: expected 0 for position, found 1.0");
    }

    @Test
    void floatingPositionWithoutUnit() {
        assertThat(new SiteBench(folder)
                        .drive(
                                "position: { address: 0, type: int32, unit: count }",
                                "position: { address: 0, type: float32 }")
                        .problems())
                .containsExactly(
                        "drive.yaml:5:3: signals.position.unit: missing, so that the unit of position is 1; expected count",
                        "drive.yaml:5:33: signals.position.type: expected an integer type for position, found float32");
    }

    @Test
    void overlapWithAnotherLayout() {
        assertThat(new SiteBench(folder)
                        .drive("speed: { address: 2,", "speed: { address: 1,")
                        .problems())
                .containsExactly(
                        "drive.yaml:6:3: signals.speed: int32 at address 1 (reference 40002) shares a register with signals.position, int32 at address 0 (reference 40001), which lays it out differently; one of them is wrong");
    }

    @Test
    void unsignedSpeed() {
        assertThat(new SiteBench(folder)
                        .drive("speed: { address: 2, type: int32", "speed: { address: 2, type: uint32")
                        .problems())
                .containsExactly(
                        "drive.yaml:6:30: signals.speed.type: expected a signed type, because speed can be negative; found uint32");
    }

    @Test
    void unknownType() {
        assertThat(new SiteBench(folder).drive("type: int16", "type: int24").problems())
                .containsExactly(
                        "drive.yaml:7:31: signals.torque.type: expected int16 or uint16 or int32 or uint32 or int64 or float32 or float64, found \"int24\"; did you mean \"int64\"?");
    }

    @Test
    void torqueInNewtonMetres() {
        assertThat(new SiteBench(folder).drive("unit: \"%\"", "unit: Nm").problems())
                .containsExactly(
                        "drive.yaml:7:44: signals.torque.unit: the unit of torque is Nm; expected a ratio, in %, permille");
    }

    @Test
    void misspeltSignalName() {
        assertThat(new SiteBench(folder).drive("  status:", "  statsu:").problems())
                .containsExactly(
                        "drive.yaml:4:1: signals.status: missing: style direct needs this signal; did you mean \"statsu\"?");
    }

    @Test
    void commandThatMayNotBeWritten() {
        assertThat(new SiteBench(folder)
                        .drive("uint16, access: write", "uint16, access: read")
                        .problems())
                .containsExactly(
                        "drive.yaml:10:49: signals.command.access: the tool must write command; expected access: write");
    }

    @Test
    void commandWithoutAccess() {
        assertThat(new SiteBench(folder)
                        .drive("uint16, access: write", "uint16")
                        .problems())
                .containsExactly(
                        "drive.yaml:10:3: signals.command.access: the tool must write command; expected access: write");
    }

    @Test
    void writableInputRegister() {
        assertThat(new SiteBench(folder)
                        .drive("uint16, access: write", "uint16, table: input, access: write")
                        .problems())
                .containsExactly(
                        "drive.yaml:10:63: signals.command.access: input registers cannot be written; give a holding register or access: read");
    }

    @Test
    void functionSixForTwoRegisters() {
        assertThat(new SiteBench(folder)
                        .drive(
                                "int32, unit: count, access: write",
                                "int32, unit: count, access: write, writeFunction: 6")
                        .problems())
                .containsExactly(
                        "drive.yaml:11:88: signals.relativeMove.writeFunction: function 6 writes one register, but int32 needs 2; use 16");
    }

    @Test
    void unknownWriteFunction() {
        assertThat(new SiteBench(folder)
                        .drive(
                                "int32, unit: count, access: write",
                                "int32, unit: count, access: write, writeFunction: 5")
                        .problems())
                .containsExactly("drive.yaml:11:88: signals.relativeMove.writeFunction: expected 6 or 16, found 5");
    }

    @Test
    void statusBitBeyondTheWordAndTakenTwice() {
        assertThat(new SiteBench(folder)
                        .drive("ready: 0, enabled: 1", "ready: 20, enabled: 2")
                        .problems())
                .containsExactly(
                        "drive.yaml:16:22: statusBits.ready: expected a bit of status, which is uint16: 0 … 15, found 20",
                        "drive.yaml:16:45: statusBits.fault: 2 already means enabled");
    }

    @Test
    void commandValueThatDoesNotFit() {
        assertThat(new SiteBench(folder).drive("stop: 3", "stop: -2").problems())
                .containsExactly("drive.yaml:17:42: commands.stop: command is uint16 and cannot carry -2");
    }

    @Test
    void directStyleWithoutStatusBits() {
        assertThat(new SiteBench(folder)
                        .drive("statusBits: { ready: 0, enabled: 1, fault: 2, moving: 3, inPosition: 4 }\n", "")
                        .problems())
                .containsExactly(
                        "drive.yaml:1:1: statusBits: missing: style direct needs the bits of status: ready, enabled, fault, moving, inPosition");
    }

    @Test
    void identityThatCannotBeShown() {
        assertThat(new SiteBench(folder)
                        .drive("expected: 0x12345678", "expected: 0x1234567890")
                        .problems())
                .containsExactly("drive.yaml:19:50: identity.model.expected: uint32 can never show 78187493520");
    }

    @Test
    void identityBetweenTwoSteps() {
        assertThat(new SiteBench(folder)
                        .drive("type: uint32, expected: 0x12345678", "type: uint32, scale: 0.5, expected: 1.25")
                        .problems())
                .containsExactly(
                        "drive.yaml:19:62: identity.model.expected: uint32 can never show 1.25; it needs the raw value 2.5");
    }

    @Test
    void nameTakenTwice() {
        assertThat(new SiteBench(folder)
                        .drive(
                                "  watchdogTime: { address: 110, type: uint16, unit: ms }",
                                "  position: { address: 110, type: uint16 }")
                        .problems())
                .containsExactly(
                        "drive.yaml:21:3: parameters.position: the name is taken by signals.position; scripts read values by name");
    }

    @Test
    void nameThatIsNoWord() {
        assertThat(new SiteBench(folder)
                        .drive("  watchdogTime:", "  watchdog-time:")
                        .problems())
                .containsExactly(
                        "drive.yaml:21:3: parameters.watchdog-time: a name is a letter, then letters and digits; found \"watchdog-time\"");
    }

    @Test
    void watchdogSignalThatIsNotThere() {
        assertThat(new SiteBench(folder)
                        .drive("type: Invented", "type: Invented\nwatchdog: { timeout: 1 s, signal: watchdogTim }")
                        .problems())
                .containsExactly(
                        "drive.yaml:2:35: watchdog.signal: there is no signal or parameter \"watchdogTim\"; did you mean \"watchdogTime\"?");
    }

    @Test
    void watchdogShorterThanTheSamplePeriod() {
        assertThat(new SiteBench(folder)
                        .drive("type: Invented", "type: Invented\nwatchdog: { timeout: 5 ms, signal: watchdogTime }")
                        .problems())
                .containsExactly(
                        "site.yaml:3:5: axes[0].samplePeriod: expected at most a third of the watchdog of the drive, 1666 us of 5 ms, found \"10 ms\": sample more often, or set a longer watchdog in the drive and tell it in the description",
                        "site.yaml:11:5: axes[1].samplePeriod: expected at most a third of the watchdog of the drive, 1666 us of 5 ms, found \"10 ms\": sample more often, or set a longer watchdog in the drive and tell it in the description");
    }

    @Test
    void blockReadBeyondModbus() {
        assertThat(new SiteBench(folder)
                        .drive("type: Invented", "type: Invented\nmaxReadRegisters: 200")
                        .problems())
                .containsExactly("drive.yaml:2:19: maxReadRegisters: expected 1 … 125, found 200");
    }

    @Test
    void linearSpeedOfADriveOnARotaryAxis() {
        assertThat(new SiteBench(folder)
                        .drive(
                                "speed: { address: 2, type: int32, unit: rpm }",
                                "speed: { address: 2, type: int32, unit: mm/s }")
                        .problems())
                .containsExactly(
                        "site.yaml:4:12: axes[0].drive: the drive tells speed in mm/s, but axis TABLE is rotary: give scale.lead if it travels, or correct the unit in the description");
    }

    @Test
    void numberInsteadOfASignal() {
        assertThat(new SiteBench(folder)
                        .drive("speed: { address: 2, type: int32, unit: rpm }", "speed: 5")
                        .problems())
                .containsExactly("drive.yaml:6:10: signals.speed: expected a block of keys, found 5");
    }

    @Test
    void directKeysUnderCia402() {
        assertThat(new SiteBench(folder).drive("style: direct", "style: cia402").problems())
                .containsExactly(
                        "drive.yaml:4:1: signals.control: missing: style cia402 needs this signal",
                        "drive.yaml:4:1: signals.mode: missing: style cia402 needs this signal",
                        "drive.yaml:4:1: signals.modeDisplay: missing: style cia402 needs this signal",
                        "drive.yaml:4:1: signals.targetPosition: missing: style cia402 needs this signal",
                        "drive.yaml:4:1: signals.targetSpeed: missing: style cia402 needs this signal",
                        "drive.yaml:16:1: statusBits: style cia402 takes the bits of status from the standard; leave this out",
                        "drive.yaml:17:1: commands: style cia402 takes the values of command from the standard; leave this out");
    }

    @Test
    void objectsOfTheProfileNeedTheirUnitAndSign() {
        assertThat(new SiteBench(folder)
                        .drive("  profileSpeed:", """
                                  homeOffset: { address: 40, type: uint32, unit: count }
                                  profileJerk: { address: 42, type: uint32, unit: rpm/s }
                                  positionWindowTime: { address: 44, type: uint16 }
                                  quickStopOption: { address: 45, type: int16, scale: 0.1 }
                                  profileSpeed:""".indent(2).stripTrailing())
                        .problems())
                .containsExactly(
                        "drive.yaml:14:36: signals.homeOffset.type: expected a signed type, because homeOffset can be negative; found uint32",
                        "drive.yaml:15:51: signals.profileJerk.unit: the unit of profileJerk is rpm/s; expected a jerk, in rev/s3, rpm/s2, m/s3, mm/s3, count/s3",
                        "drive.yaml:16:3: signals.positionWindowTime.unit: missing, so that the unit of positionWindowTime is 1; expected a time, in min, s, ms, us",
                        "drive.yaml:17:55: signals.quickStopOption.scale: expected 1 for quickStopOption, found 0.1; say what a count means in the scale of the axis");
    }

    private static final String PEAK = "\n  peakTorque: { address: 130, type: uint16, unit: permille }";
    private static final String RESET = "\n  peakReset: { address: 131, type: uint16, access: write }";

    private SiteBench latching(String signals, String clear) {
        return new SiteBench(folder)
                .drive("style: direct", "style: direct" + clear)
                .drive("signals:", "signals:" + signals);
    }

    @Test
    void latchedPeakThatCannotBeCleared() {
        assertThat(latching(PEAK, "").problems())
                .containsExactly(
                        "drive.yaml:5:3: signals.peakTorque: a peak that cannot be cleared may be older than the motion and is no measured value; say under clearPeaks what clears it, or give the signal another name");
    }

    @Test
    void clearOfNothing() {
        assertThat(latching(RESET, "\nclearPeaks: { signal: peakReset, value: 1 }")
                        .problems())
                .containsExactly(
                        "drive.yaml:3:1: clearPeaks: there is no latched peak to clear; declare the signal peakFollowingError or peakTorque, or leave this out");
    }

    @Test
    void clearByAMotionCommandOrALatch() {
        for (String name : new String[] {"relativeMove", "command"}) {
            assertThat(latching(PEAK, "\nclearPeaks: { signal: " + name + ", value: 1 }")
                            .problems())
                    .containsExactly(
                            "drive.yaml:3:23: clearPeaks.signal: expected a register that does nothing else, because it is written before every motion");
        }
    }

    @Test
    void clearThatCannotBeWritten() {
        assertThat(latching(
                                PEAK + "\n  peakReset: { address: 131, type: uint16, scale: 0.1 }",
                                "\nclearPeaks: { signal: peakReset, value: 70000 }")
                        .problems())
                .containsExactly(
                        "drive.yaml:3:23: clearPeaks.signal: the tool must write peakReset; expected access: write there",
                        "drive.yaml:3:23: clearPeaks.signal: expected an integer with scale 1 and offset 0, because peakReset is written as whole numbers",
                        "drive.yaml:3:41: clearPeaks.value: peakReset is uint16 and cannot carry 70000");
    }

    @Test
    void clearByNobodyKnown() {
        assertThat(latching(PEAK + RESET, "\nclearPeaks: { signal: peakRest }").problems())
                .containsExactly(
                        "drive.yaml:3:1: clearPeaks.value: missing: What is written to it, once, for example 1",
                        "drive.yaml:3:23: clearPeaks.signal: there is no signal or parameter \"peakRest\"; did you mean \"peakReset\"?");
    }

    @Test
    void latchedPeakInAWrongUnit() {
        assertThat(latching(PEAK.replace("permille", "rpm") + RESET, "\nclearPeaks: { signal: peakReset, value: 1 }")
                        .problems())
                .containsExactly(
                        "drive.yaml:6:51: signals.peakTorque.unit: the unit of peakTorque is rpm; expected a ratio, in %, permille");
    }

    @Test
    void latchedPeakOfASignalThatIsNotThere() {
        assertThat(latching(
                                "\n  peakFollowingError: { address: 130, type: uint32, unit: count }"
                                        + RESET.replace("131", "132"),
                                "\nclearPeaks: { signal: peakReset, value: 1 }")
                        .problems())
                .containsExactly(
                        "drive.yaml:6:3: signals.peakFollowingError: a latched peak is held against the samples, so followingError must be declared too");
    }
}
