package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Limit switches and software limits. Bits of the digital inputs 60FDh and statusword bit 11 by CiA 402; that a limit
 * switch stops by quick stop ramp and lets the axis leave is common practice, no source.
 */
class TravelLimitsTest {

    private static final double TURN = InventedDrives.COUNTS;
    private static final int INTERNAL_LIMIT = 0x0800;
    private static final int TARGET_REACHED = 0x0400;
    private static final int ACKNOWLEDGE = 0x1000;

    private final Bench bench =
            new Bench(InventedDrives.wholeCia402(), InventedDrives.axis().with(InventedDrives.switches()));

    private double revolutions() {
        return bench.drive.shaftAngle() / (2 * Math.PI);
    }

    private boolean limited() {
        return (bench.status() & INTERNAL_LIMIT) != 0;
    }

    private void enabled(int mode) {
        bench.enabledCia402(mode);
        bench.write("profileSpeed", 300);
        bench.write("profileAcceleration", 3000);
        bench.write("profileDeceleration", 3000);
        bench.write("quickStopDeceleration", 15_000);
    }

    private void setPoint(double counts, int word) {
        bench.write("targetPosition", counts);
        bench.write("control", word);
        bench.write("control", 0x0F);
    }

    @Test
    void inputsShowTheSwitchesWithTheirHysteresis() {
        assertThat(bench.read("digitalInputs")).as("on the home switch").isEqualTo(0b100);
        bench.drive.turnByHand(2 * Math.PI * 0.505);
        assertThat(bench.read("digitalInputs")).as("within the hysteresis").isEqualTo(0b100);
        bench.drive.turnByHand(2 * Math.PI * 0.01);
        assertThat(bench.read("digitalInputs")).isZero();
        bench.drive.turnByHand(2 * Math.PI * -0.01);
        assertThat(bench.read("digitalInputs"))
                .as("within the hysteresis, from outside")
                .isZero();
        bench.drive.turnByHand(2 * Math.PI * 5);
        assertThat(bench.read("digitalInputs")).isEqualTo(0b010);
        bench.drive.turnByHand(2 * Math.PI * -11);
        assertThat(bench.read("digitalInputs")).isEqualTo(0b001);
    }

    @Test
    void aLimitSwitchStopsASetPointByQuickStopRampAndLetsTheAxisLeave() {
        enabled(1);
        setPoint(8 * TURN, 0x1F);
        bench.pass(3000);
        // v²/2a = 5² / (2 · 250) = 0.05 revolutions beyond the switch.
        assertThat(revolutions()).isCloseTo(5.05, within(0.005));
        assertThat(bench.status() & (INTERNAL_LIMIT | TARGET_REACHED)).isEqualTo(INTERNAL_LIMIT);
        assertThat(bench.cia402State()).isEqualTo("enabled");
        setPoint(TURN, 0x5F);
        bench.pass(1000);
        assertThat(revolutions()).as("not further towards it").isCloseTo(5.05, within(0.005));
        assertThat(bench.status() & TARGET_REACHED).isZero();
        bench.write("control", 0x1F);
        assertThat(bench.status() & ACKNOWLEDGE)
                .as("it is acknowledged all the same")
                .isNotZero();
        bench.write("control", 0x0F);
        setPoint(4 * TURN, 0x1F);
        bench.pass(2000);
        assertThat(revolutions()).isCloseTo(4, within(0.001));
        assertThat(bench.status() & (INTERNAL_LIMIT | TARGET_REACHED)).isEqualTo(TARGET_REACHED);
    }

    @Test
    void aLimitSwitchStopsProfileVelocityOnlyTowardsItself() {
        enabled(3);
        bench.write("targetSpeed", -300);
        bench.pass(3000);
        assertThat(revolutions()).isCloseTo(-5.05, within(0.005));
        assertThat(limited()).isTrue();
        bench.write("targetSpeed", -100);
        bench.pass(1000);
        assertThat(bench.read("speed")).isZero();
        bench.write("targetSpeed", 100);
        bench.pass(1000);
        assertThat(bench.read("speed")).isCloseTo(100, within(1.0));
        assertThat(limited()).isFalse();
    }

    @Test
    void aSwitchThatSticksActiveStopsMotionTowardsItOnly() {
        enabled(3);
        bench.write("targetSpeed", 60);
        bench.pass(500);
        bench.drive.switchBecomes(SwitchInput.POSITIVE_LIMIT, SwitchCondition.STUCK_ACTIVE);
        assertThat(bench.read("digitalInputs")).isEqualTo(0b110);
        bench.pass(500);
        assertThat(bench.read("speed")).isZero();
        bench.write("targetSpeed", -60);
        bench.pass(500);
        assertThat(bench.read("speed")).isCloseTo(-60, within(1.0));
    }

    @Test
    void aSwitchThatLetsGoStartsNothing() {
        enabled(3);
        bench.write("targetSpeed", 60);
        bench.pass(500);
        bench.drive.switchBecomes(SwitchInput.POSITIVE_LIMIT, SwitchCondition.STUCK_ACTIVE);
        bench.pass(500);
        bench.drive.switchBecomes(SwitchInput.POSITIVE_LIMIT, SwitchCondition.WORKS);
        bench.pass(1000);
        assertThat(bench.read("speed")).isZero();
        bench.write("targetSpeed", 60);
        bench.pass(500);
        assertThat(bench.read("speed")).isCloseTo(60, within(1.0));
    }

    @Test
    void aTurnRoundOrderedOnTheRampOfALimitIsFollowedAfterIt() {
        enabled(3);
        bench.write("quickStopDeceleration", 3000);
        bench.write("targetSpeed", 300);
        while (bench.read("digitalInputs") != 0b010) {
            bench.pass(1);
        }
        bench.pass(20);
        assertThat(bench.read("speed")).isPositive();
        bench.write("targetSpeed", -300);
        bench.pass(2000);
        assertThat(revolutions()).isLessThan(0);
    }

    @Test
    void aSwitchThatSticksInactiveStopsNothing() {
        bench.drive.switchBecomes(SwitchInput.POSITIVE_LIMIT, SwitchCondition.STUCK_INACTIVE);
        enabled(3);
        bench.write("targetSpeed", 300);
        bench.pass(3000);
        assertThat(revolutions()).isGreaterThan(10);
        assertThat(bench.read("digitalInputs")).isZero();
    }

    @Test
    void theSpeedMayBeOrderedOnlyAwayInTheDirectStyleToo() {
        Bench direct = new Bench(InventedDrives.direct(), InventedDrives.axis().with(InventedDrives.switches()))
                .enabledDirect();
        direct.write("speedCommand", 300);
        direct.pass(3000);
        assertThat(direct.read("speed")).isZero();
        assertThat(direct.write("speedCommand", 300)).isEqualTo(4);
        assertThat(direct.write("relativeMove", 1000)).isEqualTo(4);
        assertThat(direct.write("relativeMove", -70_000)).isEqualTo(Bench.OK);
        direct.pass(2000);
        assertThat(direct.drive.shaftAngle() / (2 * Math.PI)).isLessThan(5);
    }

    @Test
    void aTargetBeyondASoftwareLimitIsMovedToTheLimit() {
        enabled(1);
        bench.write("softwareLimitMin", -TURN);
        bench.write("softwareLimitMax", 2 * TURN);
        setPoint(3 * TURN, 0x1F);
        bench.pass(3000);
        assertThat(bench.read("position")).isCloseTo(2 * TURN, within(1.0));
        assertThat(bench.status() & (INTERNAL_LIMIT | TARGET_REACHED)).isEqualTo(INTERNAL_LIMIT | TARGET_REACHED);
        setPoint(-4 * TURN, 0x5F);
        bench.pass(3000);
        assertThat(bench.read("position")).isCloseTo(-TURN, within(1.0));
        assertThat(limited()).isTrue();
        setPoint(0, 0x1F);
        bench.pass(3000);
        assertThat(bench.read("position")).isCloseTo(0, within(1.0));
        assertThat(limited()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 3})
    void profileVelocityComesToRestAtTheSoftwareLimit(int profileType) {
        enabled(3);
        bench.write("profileType", profileType);
        bench.write("profileJerk", 2000);
        bench.write("softwareLimitMin", -3 * TURN);
        bench.write("softwareLimitMax", 3 * TURN);
        bench.write("targetSpeed", 600);
        double highest = 0;
        for (int i = 0; i < 3000; i++) {
            bench.pass(1);
            highest = Math.max(highest, revolutions());
        }
        assertThat(bench.read("position")).isCloseTo(3 * TURN, within(1.0));
        assertThat(highest).isLessThan(3.001);
        assertThat(limited()).isTrue();
        bench.write("targetSpeed", -60);
        bench.pass(500);
        assertThat(bench.read("speed")).isCloseTo(-60, within(1.0));
    }

    @Test
    void softwareLimitsAreToldFromHomeAndNotFromTheZeroOfTheRegister() {
        // Corrected limit = limit − home offset. Source: text of object 607Dh in public object dictionaries.
        enabled(6);
        bench.write("homingMethod", 37);
        bench.write("homeOffset", 1000);
        bench.write("control", 0x1F);
        bench.pass(20);
        assertThat(bench.read("position")).isEqualTo(-1000);
        bench.write("control", 0x0F);
        bench.write("softwareLimitMin", -5000);
        bench.write("softwareLimitMax", 5000);
        bench.write("mode", 1);
        bench.pass(5);
        setPoint(9000, 0x1F);
        bench.pass(2000);
        assertThat(bench.read("position")).isCloseTo(4000, within(1.0));
        assertThat(revolutions() * TURN).as("5000 counts from home").isCloseTo(5000, within(2.0));
    }

    @Test
    void bothLimitsAtZeroAreNone() {
        enabled(1);
        setPoint(3 * TURN, 0x1F);
        bench.pass(3000);
        assertThat(bench.read("position")).isCloseTo(3 * TURN, within(1.0));
        assertThat(limited()).isFalse();
    }
}
