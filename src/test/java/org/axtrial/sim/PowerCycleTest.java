package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkLostException;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;

/** Loss and return of the supply. What survives is common practice, no source; the store word is CiA 301, from memory. */
class PowerCycleTest {

    private static final int SAVE = 0x6576_6173;

    private static Bench bench(boolean absolute) {
        SimulationSpec.Reference switches = InventedDrives.switches();
        return new Bench(
                InventedDrives.wholeCia402(),
                InventedDrives.axis()
                        .with(new SimulationSpec.Reference(
                                switches.negativeLimit(),
                                switches.positiveLimit(),
                                switches.home(),
                                switches.indexOffset(),
                                absolute,
                                switches.longestSearch(),
                                switches.jerk())));
    }

    private static Bench homedAt1000(boolean absolute) {
        Bench bench = bench(absolute);
        bench.enabledCia402(6);
        bench.write("homingMethod", 37);
        bench.write("homeOffset", -1000);
        bench.write("control", 0x1F);
        bench.pass(50);
        assertThat(bench.read("position")).isEqualTo(1000);
        assertThat(bench.drive.referenced()).isTrue();
        return bench;
    }

    @Test
    void theStateMachineStartsAgainAndNothingMovesByItself() {
        Bench bench = bench(false);
        bench.enabledCia402(3);
        bench.write("targetSpeed", 600);
        bench.pass(300);
        bench.drive.powerCycle(Duration.ofMillis(200));
        bench.pass(199);
        assertThat(bench.drive.supplied()).isFalse();
        assertThat(bench.drive.torque()).isZero();
        bench.pass(2);
        assertThat(bench.drive.supplied()).isTrue();
        assertThat(bench.cia402State()).isEqualTo("not ready");
        bench.pass(20);
        assertThat(bench.cia402State()).isEqualTo("disabled");
        assertThat(bench.read("control")).isZero();
        assertThat(bench.read("mode")).isZero();
        assertThat(bench.read("targetSpeed")).isZero();
        bench.pass(5000);
        assertThat(bench.read("speed")).isZero();
        bench.enabledCia402(3);
        bench.pass(1000);
        assertThat(bench.read("speed")).isZero();
    }

    @Test
    void aFaultIsGoneAfterIt() {
        Bench bench = bench(false);
        bench.pass(20);
        bench.drive.trip(0x3210);
        bench.drive.powerCycle(Duration.ofSeconds(1));
        bench.pass(1020);
        assertThat(bench.read("faultCode")).isZero();
        assertThat(bench.cia402State()).isEqualTo("disabled");
    }

    @Test
    void onlyWhatWasSavedComesBack() {
        Bench bench = bench(false);
        bench.pass(20);
        bench.write("profileSpeed", 500);
        bench.write("quickStopOption", 6);
        bench.write("notch", 1.5);
        assertThat(bench.write("saveParameters", 1)).as("the wrong word").isEqualTo(4);
        assertThat(bench.write("saveParameters", SAVE)).isEqualTo(Bench.OK);
        bench.write("profileSpeed", 700);
        bench.write("profileAcceleration", 1234);
        bench.write("notch", 2.5);
        double acceleration = bench(false).read("profileAcceleration");
        bench.drive.powerCycle(Duration.ofMillis(50));
        bench.pass(100);
        assertThat(bench.read("profileSpeed")).isEqualTo(500);
        assertThat(bench.read("quickStopOption")).isEqualTo(6);
        assertThat(bench.read("notch")).isEqualTo(1.5);
        assertThat(bench.read("profileAcceleration")).isEqualTo(acceleration);
        // The drive acts on what it shows: 500 r/min, and quick stop active is kept.
        bench.enabledCia402(1);
        bench.write("targetPosition", 20 * InventedDrives.COUNTS);
        bench.write("control", 0x1F);
        bench.pass(400);
        assertThat(bench.read("speed")).isCloseTo(500, within(2.0));
        bench.write("control", 0x02);
        bench.pass(1000);
        assertThat(bench.cia402State()).isEqualTo("quick stop");
    }

    @Test
    void anIncrementalEncoderForgetsItsPositionAndHoming() {
        Bench bench = homedAt1000(false);
        bench.write("saveParameters", SAVE);
        bench.drive.powerCycle(Duration.ofMillis(50));
        bench.pass(100);
        assertThat(bench.read("position")).isZero();
        assertThat(bench.drive.referenced()).isFalse();
        bench.enabledCia402(6);
        assertThat(bench.status() & 0x3400).as("homing not started").isEqualTo(0x0400);
    }

    @Test
    void anAbsoluteEncoderKeepsThemAndSeesWhatWasMovedMeanwhile() {
        Bench bench = homedAt1000(true);
        bench.drive.powerCycle(Duration.ofMillis(50));
        bench.pass(20);
        bench.drive.turnByHand(2 * Math.PI * 3);
        bench.pass(80);
        assertThat(bench.read("position")).isCloseTo(1000 + 3 * InventedDrives.COUNTS, within(1.0));
        assertThat(bench.drive.referenced()).isTrue();
    }

    @Test
    void aSingleTurnEncoderLosesWholeTurns() {
        SimulationSpec.Reference switches = InventedDrives.switches();
        SimulationSpec spec = InventedDrives.axis()
                .with(new SimulationSpec.Feedback(InventedDrives.COUNTS, 1, 1, 0, 0, 1))
                .with(new SimulationSpec.Reference(
                        switches.negativeLimit(),
                        switches.positiveLimit(),
                        switches.home(),
                        switches.indexOffset(),
                        true,
                        switches.longestSearch(),
                        switches.jerk()));
        Bench bench = new Bench(InventedDrives.wholeCia402(), spec);
        bench.pass(20);
        bench.drive.turnByHand(2 * Math.PI * 3.25);
        bench.pass(5);
        assertThat(bench.read("position")).isEqualTo(3.25 * InventedDrives.COUNTS);
        for (int cycle = 0; cycle < 2; cycle++) {
            bench.drive.powerCycle(Duration.ofMillis(50));
            bench.pass(100);
            assertThat(bench.read("position")).as("cycle " + cycle).isEqualTo(0.25 * InventedDrives.COUNTS);
        }
        bench.drive.turnByHand(-2 * Math.PI * 0.25);
        bench.pass(5);
        assertThat(bench.read("position")).isZero();
    }

    @Test
    void theShaftRunsOutOnFrictionMeanwhile() {
        Bench bench = bench(false);
        bench.enabledCia402(3);
        bench.write("targetSpeed", 600);
        bench.pass(300);
        double speed = bench.drive.shaftSpeed();
        bench.drive.powerCycle(Duration.ofSeconds(2));
        bench.pass(100);
        // (0.05 + 1e-3 · ω̄) / 5e-4 over 0.1 s. Newton's second law.
        double mean = (speed + bench.drive.shaftSpeed()) / 2;
        assertThat(speed - bench.drive.shaftSpeed()).isCloseTo((0.05 + 1e-3 * mean) / 5e-4 * 0.1, within(0.1));
        bench.pass(1800);
        assertThat(bench.drive.shaftSpeed()).isZero();
        assertThat(bench.drive.supplied()).isFalse();
        bench.pass(101);
        assertThat(bench.drive.supplied()).isTrue();
    }

    @Test
    void theLinkIsLostMeanwhileAndTheOldConnectionAfterwards() throws LinkException {
        Bench bench = bench(false);
        bench.pass(20);
        VirtualTime time = new VirtualTime(Instant.EPOCH);
        InProcessLink link = new InProcessLink(bench.drive, time, Duration.ofMillis(100));
        link.read(3, 20, 1);
        bench.drive.powerCycle(Duration.ofMillis(500));
        assertThatThrownBy(() -> link.read(3, 20, 1))
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("no reply");
        assertThatThrownBy(link::reconnect)
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("not answer");
        time.advance(500_000_000);
        link.reconnect();
        assertThat(link.read(3, 20, 1).words()).containsExactly(0);
        bench.drive.powerCycle(Duration.ofMillis(10));
        time.advance(20_000_000);
        assertThatThrownBy(() -> link.read(3, 20, 1))
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("switched off and on");
        link.reconnect();
        assertThat(link.read(3, 20, 1).words()).containsExactly(0);
    }

    @Test
    void howTimeIsCutDoesNotChangeTheStart() {
        assertThat(angleAfter(1_000_000)).isEqualTo(angleAfter(2_000_000_000));
    }

    private static long angleAfter(long slice) {
        Bench bench = bench(false);
        bench.pass(20);
        bench.drive.powerCycle(Duration.ofMillis(1500));
        long from = bench.drive.nanos();
        for (long t = 0; t < 2_000_000_000L; t += slice) {
            bench.drive.advanceTo(from + t);
        }
        bench.drive.advanceTo(from + 2_000_000_000L);
        bench.enabledCia402(3);
        bench.write("targetSpeed", 600);
        bench.pass(777);
        return Double.doubleToRawLongBits(bench.drive.shaftAngle());
    }

    @Test
    void noTimeAtAllIsRefused() {
        Bench bench = bench(false);
        assertThatThrownBy(() -> bench.drive.powerCycle(Duration.ZERO)).hasMessageContaining("PT0S");
    }
}
