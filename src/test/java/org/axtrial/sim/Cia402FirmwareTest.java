package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** States, transitions and bits of CiA 402 (IEC 61800-7-201), as reproduced by public object dictionaries. */
class Cia402FirmwareTest {

    private static final int TARGET_REACHED = 0x0400;
    private static final int BIT_12 = 0x1000;
    private static final int REVOLUTION = (int) InventedDrives.COUNTS;

    private final Bench bench = new Bench(InventedDrives.cia402(), InventedDrives.axis());

    private String state() {
        return bench.cia402State();
    }

    private void control(int word) {
        assertThat(bench.write("control", word)).isEqualTo(Bench.OK);
    }

    private String after(int word) {
        control(word);
        bench.pass(10);
        return state();
    }

    @Test
    void theWalkBySixSevenFifteenEnables() {
        assertThat(state()).isEqualTo("not ready");
        bench.pass(20);
        assertThat(state()).isEqualTo("disabled");
        assertThat(after(0x06)).isEqualTo("ready");
        assertThat(after(0x07)).isEqualTo("switched on");
        control(0x0F);
        assertThat(state()).as("enabling takes a few ms").isEqualTo("switched on");
        bench.pass(10);
        assertThat(state()).isEqualTo("enabled");
    }

    @Test
    void fifteenFromReadySwitchesOnAndEnables() {
        bench.pass(20);
        after(0x06);
        assertThat(after(0x0F)).isEqualTo("enabled");
    }

    @Test
    void disabledDoesNotEnableWithoutShutdownFirst() {
        bench.pass(20);
        assertThat(after(0x0F)).isEqualTo("disabled");
        assertThat(after(0x07)).isEqualTo("disabled");
    }

    @Test
    void transitionsBackAreThoseOfTheStandard() {
        bench.enabledCia402(1);
        assertThat(after(0x07)).as("5: disable operation").isEqualTo("switched on");
        assertThat(after(0x06)).as("6: shutdown").isEqualTo("ready");
        assertThat(after(0x00)).as("7: disable voltage").isEqualTo("disabled");
        after(0x06);
        assertThat(after(0x02)).as("7: quick stop").isEqualTo("disabled");
        after(0x06);
        after(0x07);
        assertThat(after(0x02)).as("10: quick stop").isEqualTo("disabled");
        after(0x06);
        after(0x0F);
        assertThat(after(0x06)).as("8: shutdown").isEqualTo("ready");
        after(0x0F);
        assertThat(after(0x00)).as("9: disable voltage").isEqualTo("disabled");
    }

    @Test
    void quickStopRampsDownThenDisables() {
        bench.enabledCia402(3);
        bench.write("profileAcceleration", 3000);
        bench.write("targetSpeed", 1500);
        bench.pass(1000);
        control(0x02);
        assertThat(state()).isEqualTo("quick stop");
        bench.pass(250);
        // 1500 r/min at 3000 r/min/s: half way after 250 ms.
        assertThat(bench.read("speed")).isCloseTo(750, within(10.0));
        bench.pass(300);
        assertThat(state()).isEqualTo("disabled");
        assertThat(bench.read("speed")).isZero();
    }

    @Test
    void setPointHandshakeMovesOnceAndReachesTheTarget() {
        bench.enabledCia402(1);
        assertThat(bench.read("modeDisplay")).isEqualTo(1);
        bench.write("profileSpeed", 600);
        bench.write("profileAcceleration", 6000);
        bench.write("targetPosition", 5 * REVOLUTION);
        assertThat(bench.status() & BIT_12).isZero();
        control(0x1F);
        assertThat(bench.status() & BIT_12).as("acknowledged").isNotZero();
        assertThat(bench.status() & TARGET_REACHED).isZero();
        control(0x0F);
        assertThat(bench.status() & BIT_12).isZero();
        // S/v + v/a = 0.5 + 0.1 s.
        bench.pass(590);
        assertThat(bench.status() & TARGET_REACHED).isZero();
        bench.pass(200);
        assertThat(bench.status() & TARGET_REACHED).isNotZero();
        assertThat(bench.read("position")).isCloseTo(5 * REVOLUTION, within(1.0));
        assertThat(bench.drive.motionsStarted()).isEqualTo(1);
    }

    @Test
    void theSameSetPointWordAgainMovesNothing() {
        bench.enabledCia402(1);
        bench.write("targetPosition", 1000);
        control(0x5F);
        control(0x5F);
        bench.pass(1000);
        assertThat(bench.read("position")).isCloseTo(1000, within(1.0));
        control(0x0F);
        control(0x5F);
        bench.pass(1000);
        assertThat(bench.read("position")).as("relative, a new edge").isCloseTo(2000, within(1.0));
    }

    @Test
    void aSecondSetPointWaitsUnlessItChangesImmediately() {
        bench.enabledCia402(1);
        bench.write("targetPosition", 2 * REVOLUTION);
        control(0x1F);
        control(0x0F);
        bench.pass(100);
        bench.write("targetPosition", REVOLUTION);
        control(0x1F);
        control(0x0F);
        assertThat(bench.status() & BIT_12).as("buffer is taken").isNotZero();
        assertThat(bench.read("demandPosition")).isLessThan(REVOLUTION);
        bench.pass(700);
        assertThat(bench.status() & BIT_12).isZero();
        bench.write("targetPosition", 0);
        control(0x3F);
        control(0x0F);
        bench.pass(3000);
        assertThat(bench.read("position")).isCloseTo(0, within(1.0));
    }

    @Test
    void haltStopsAndItsEndGoesOn() {
        bench.enabledCia402(1);
        bench.write("targetPosition", 10 * REVOLUTION);
        control(0x1F);
        bench.pass(500);
        control(0x10F);
        assertThat(bench.status() & TARGET_REACHED).as("decelerating").isZero();
        bench.pass(300);
        assertThat(bench.status() & TARGET_REACHED).as("velocity zero").isNotZero();
        double rest = bench.read("position");
        assertThat(rest).isLessThan(5 * REVOLUTION);
        control(0x0F);
        bench.pass(4000);
        assertThat(bench.read("position")).isCloseTo(10 * REVOLUTION, within(1.0));
    }

    @Test
    void profileVelocityReachesItsTargetAndZero() {
        bench.enabledCia402(3);
        assertThat(bench.status() & BIT_12).as("speed is zero").isNotZero();
        bench.write("targetSpeed", -900);
        bench.pass(1000);
        assertThat(bench.read("speed")).isCloseTo(-900, within(2.0));
        assertThat(bench.status() & TARGET_REACHED).isNotZero();
        assertThat(bench.status() & BIT_12).isZero();
        bench.write("targetSpeed", 0);
        assertThat(bench.status() & TARGET_REACHED).isZero();
        bench.pass(1000);
        assertThat(bench.status() & (TARGET_REACHED | BIT_12)).isEqualTo(TARGET_REACHED | BIT_12);
    }

    @Test
    void aFaultNeedsARisingEdgeToReset() {
        bench.enabledCia402(1);
        control(0x8F);
        bench.drive.trip(0x4310);
        bench.pass(300);
        assertThat(state()).isEqualTo("fault");
        assertThat(bench.read("faultCode")).isEqualTo(0x4310);
        assertThat(after(0x8F)).as("bit 7 was high already").isEqualTo("fault");
        assertThat(after(0x0F)).isEqualTo("fault");
        assertThat(after(0x80)).isEqualTo("disabled");
        assertThat(bench.read("faultCode")).isZero();
        assertThat(after(0x0F)).as("no restart without shutdown").isEqualTo("disabled");
    }

    @Test
    void aShaftThatCannotFollowTripsByFollowingError() {
        bench.enabledCia402(3);
        bench.write("torqueLimit", 10);
        bench.write("targetSpeed", 3000);
        bench.pass(5000);
        // Source: IEC 61800-7-201 error code 8611h.
        assertThat(bench.read("faultCode")).isEqualTo(0x8611);
        assertThat(state()).isEqualTo("fault");
        assertThat(bench.read("torque")).isZero();
    }

    @Test
    void unknownModesAndTooHighSpeedsAreRefused() {
        bench.enabledCia402(1);
        assertThat(bench.write("mode", 8)).isEqualTo(4);
        assertThat(bench.read("modeDisplay")).isEqualTo(1);
        assertThat(bench.write("profileSpeed", 3001)).isEqualTo(4);
        assertThat(bench.write("profileSpeed", 3000)).isEqualTo(Bench.OK);
        assertThat(bench.write("targetSpeed", -3001)).isEqualTo(4);
        assertThat(bench.write("profileAcceleration", 0)).isEqualTo(4);
    }
}
