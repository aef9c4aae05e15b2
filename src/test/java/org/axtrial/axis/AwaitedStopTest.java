package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import org.axtrial.drive.DriveState;
import org.axtrial.drive.DriveState.Phase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The stop that a person brings about, seen in samples that are 5 ms apart and take 2 ms each. */
class AwaitedStopTest {

    private static final double SPEED = 2;
    private static final double PERIOD = 0.005;
    private static final double HALF_READ = 0.001;
    private static final int FAULT_CODE = 0x7310;

    private final AxisSetup setup = IdealDrive.axis(1);
    private AwaitedStop stop = new AwaitedStop(setup, SPEED, Phase.ENABLED);
    private double seconds;
    private double position;

    private void see(double speed, Phase phase, int code) {
        position += speed * PERIOD;
        seconds += PERIOD;
        long at = Math.round(seconds * 1e9);
        AxisSample sample = new AxisSample(
                position,
                OptionalDouble.empty(),
                speed,
                0,
                OptionalDouble.empty(),
                0,
                new DriveState(phase, false, 0x08, code),
                at - 1_000_000,
                at + 1_000_000);
        stop.see(setup.name(), sample, seconds);
    }

    private void run(int samples) {
        for (int i = 0; i < samples; i++) {
            see(SPEED, Phase.ENABLED, 0);
        }
    }

    private void stand(Phase phase, int code) {
        for (int i = 0; i < 12; i++) {
            see(0, phase, code);
        }
    }

    @Test
    void aFaultIsAStopOnceTheAxisStands() {
        run(10);
        double lastAtWork = seconds;
        see(SPEED, Phase.FAULT, FAULT_CODE);
        assertThat(stop.isUnderWay()).isTrue();
        assertThat(stop.over()).as("it still moves").isEmpty();

        stand(Phase.FAULT, FAULT_CODE);

        assertThat(stop.over()).hasValueSatisfying(over -> {
            assertThat(over.how()).isEqualTo("the drive shows fault code 29456 (0x7310)");
            assertThat(over.seconds()).isCloseTo(lastAtWork + PERIOD / 2, within(1e-9));
            assertThat(over.halfWidth()).isCloseTo(PERIOD / 2 + HALF_READ, within(1e-9));
        });
    }

    @ParameterizedTest
    @EnumSource(
            value = Phase.class,
            names = {"DISABLED", "STOPPING", "UNKNOWN"})
    void anEnabledStateThatIsLeftIsAStop(Phase phase) {
        run(10);
        stand(phase, 0);

        assertThat(stop.over())
                .hasValueSatisfying(over -> assertThat(over.how())
                        .isEqualTo("the drive left the enabled state and shows " + phase + ", status word 0x0008"));
    }

    @Test
    void anAxisThatComesToRestWithoutAWordOfTheDriveHasStopped() {
        run(10);
        see(1, Phase.ENABLED, 0);
        stand(Phase.ENABLED, 0);

        assertThat(stop.over())
                .hasValueSatisfying(over -> assertThat(over.how()).isEqualTo("the axis slowed down"));
    }

    @Test
    void theBeginningIsWhereItSlowedDownAlthoughTheDriveSaysWhyLater() {
        run(10);
        double lastAtWork = seconds;
        see(1, Phase.ENABLED, 0);
        see(0.5, Phase.FAULT, FAULT_CODE);
        stand(Phase.FAULT, FAULT_CODE);

        assertThat(stop.over()).hasValueSatisfying(over -> {
            assertThat(over.how()).startsWith("the drive shows fault code");
            assertThat(over.seconds()).isCloseTo(lastAtWork + PERIOD / 2, within(1e-9));
        });
    }

    @Test
    void aDipOfTheSpeedIsNoStop() {
        run(10);
        see(1.7, Phase.ENABLED, 0);
        assertThat(stop.isUnderWay()).isTrue();

        run(1);

        assertThat(stop.isUnderWay()).isFalse();
    }

    @Test
    void rippleIsNoStop() {
        run(10);
        see(1.81, Phase.ENABLED, 0);

        assertThat(stop.isUnderWay()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.9, -2})
    void anAxisThatHasNotRunAsOrderedIsNotSeenToStop(double speed) {
        for (int i = 0; i < 10; i++) {
            see(speed, Phase.ENABLED, 0);
        }
        stand(Phase.ENABLED, 0);

        assertThat(stop.isUnderWay()).isFalse();
        assertThat(stop.over()).isEmpty();
    }

    @Test
    void anAxisThatStandsIsStoppedWhenItsDriveLeavesTheEnabledState() {
        stop = new AwaitedStop(setup, 0, Phase.ENABLED);
        stand(Phase.ENABLED, 0);
        assertThat(stop.over()).isEmpty();

        stand(Phase.DISABLED, 0);

        assertThat(stop.over()).isPresent();
    }

    @Test
    void aFaultThatStoodBeforeStopsNothingAnyMore() {
        stop = new AwaitedStop(setup, 0, Phase.FAULT);
        stand(Phase.FAULT, FAULT_CODE);

        assertThat(stop.over()).isEmpty();
    }

    @Test
    void aDriveThatWasOffIsStoppedByAFaultOnly() {
        stop = new AwaitedStop(setup, 0, Phase.DISABLED);
        stand(Phase.UNKNOWN, 0);
        assertThat(stop.over()).isEmpty();

        stand(Phase.FAULT, FAULT_CODE);

        assertThat(stop.over()).isPresent();
    }

    @Test
    void anAxisThatDoesNotComeToRestInItsTimeIsTold() {
        run(10);
        see(SPEED, Phase.FAULT, FAULT_CODE);

        assertThatThrownBy(() -> {
                    while (seconds < 10) {
                        see(SPEED, Phase.FAULT, FAULT_CODE);
                    }
                })
                .isInstanceOf(EnvelopeTrippedException.class)
                .hasMessageContaining("TURNTABLE began to stop (the drive shows fault code 29456 (0x7310))")
                .hasMessageContaining("was not seen to stand after 1 s");
        assertThat(seconds).isGreaterThan(1).isLessThan(1.1);
    }

    @Test
    void onlyAtRestASampleIsExcused() {
        run(10);
        see(SPEED, Phase.FAULT, FAULT_CODE);

        assertThat(stop.excuses(sampleAt(SPEED))).isFalse();
        assertThat(stop.excuses(sampleAt(0))).isTrue();
    }

    private AxisSample sampleAt(double speed) {
        return new AxisSample(
                position,
                OptionalDouble.empty(),
                speed,
                0,
                OptionalDouble.empty(),
                0,
                new DriveState(Phase.FAULT, false, 0x08, FAULT_CODE),
                0,
                0);
    }
}
