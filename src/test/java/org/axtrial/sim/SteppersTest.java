package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.IntStream;
import org.axtrial.time.TimeSource;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Steps in virtual time, where how late a step is is known to the nanosecond. */
@Timeout(60)
class SteppersTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);

    private static SimulatedDrive drive(String name) {
        return new SimulatedDrive(name, InventedDrives.direct(), InventedDrives.axis());
    }

    @Test
    void whatPassedSinceTheLastStepIsTheLagOfTheNext() {
        ServedDrive served = new ServedDrive(drive("one"), time);
        for (int i = 0; i < 99; i++) {
            time.advance(1_000_000);
            served.advance();
        }
        time.advance(50_000_000);
        served.advance();
        served.advance();
        assertThat(served.lag())
                .isEqualTo(new StepLag(
                        101,
                        1,
                        Duration.ofMillis(1).plusNanos(100_000),
                        Duration.ofMillis(1).plusNanos(100_000),
                        Duration.ofMillis(50)));
        assertThat(served.drive().nanos()).isEqualTo(149_000_000);
    }

    @Test
    void aStoppedDriveStandsStill() {
        ServedDrive served = new ServedDrive(drive("one"), time);
        time.advance(5_000_000);
        served.advance();
        served.stop();
        time.advance(5_000_000);
        served.advance();
        assertThat(served.drive().nanos()).isEqualTo(5_000_000);
        assertThat(served.lag().steps()).isEqualTo(1);
    }

    /** A computer that gives a waiting thread no processor for so long. */
    private static final class Loaded implements TimeSource {
        private final VirtualTime time = new VirtualTime(Instant.EPOCH);
        private final long lateNanos;

        Loaded(Duration late) {
            this.lateNanos = late.toNanos();
        }

        @Override
        public long nanos() {
            return time.nanos();
        }

        @Override
        public Instant instant() {
            return time.instant();
        }

        @Override
        public void sleepUntil(long nanos) throws InterruptedException {
            time.sleepUntil(nanos + lateNanos);
        }

        @Override
        public boolean isVirtual() {
            return true;
        }
    }

    private static StepLag lagUnder(Duration late) {
        Loaded loaded = new Loaded(late);
        Steppers steppers = new Steppers("loaded", loaded, 1);
        ServedDrive served = new ServedDrive(drive("one"), loaded);
        steppers.add(List.of(served));
        while (served.lag().steps() < 50) {
            Thread.onSpinWait();
        }
        steppers.close();
        return served.lag();
    }

    @Test
    void anOverloadedStepperReportsItsOverruns() {
        StepLag lag = lagUnder(Duration.ofMillis(30));
        assertThat(lag.overruns()).as("all but the first").isEqualTo(lag.steps() - 1);
        assertThat(lag.worst()).isEqualTo(Duration.ofMillis(31));
        // A period that has passed already is not waited for again: 30 ms, told as the upper end of its class.
        assertThat(lag.median()).isEqualTo(Duration.ofMillis(30).plusNanos(100_000));
    }

    @Test
    void aStepperThatIsALittleLateReportsNone() {
        StepLag lag = lagUnder(Duration.ofMillis(19));
        assertThat(lag.overruns()).isZero();
        assertThat(lag.worst()).isEqualTo(Duration.ofMillis(20));
    }

    @Test
    void aDriveWhoseSimulationBreaksLeavesTheOthersRunning() {
        Loaded loaded = new Loaded(Duration.ZERO);
        Steppers steppers = new Steppers("broken", loaded, 1);
        SimulatedDrive broken = drive("broken");
        ServedDrive first = new ServedDrive(broken, new BrokenTime());
        ServedDrive second = new ServedDrive(drive("sound"), loaded);
        steppers.add(List.of(first, second));
        while (second.lag().steps() < 50) {
            Thread.onSpinWait();
        }
        steppers.close();
        assertThat(first.lag().steps()).isZero();
        assertThat(second.drive().nanos()).isPositive();
    }

    /** Fails whoever asks it a second time. */
    private static final class BrokenTime implements TimeSource {
        private boolean asked;

        @Override
        public long nanos() {
            if (asked) {
                throw new IllegalStateException("the clock is broken");
            }
            asked = true;
            return 0;
        }

        @Override
        public Instant instant() {
            return Instant.EPOCH;
        }

        @Override
        public void sleepUntil(long nanos) {}

        @Override
        public boolean isVirtual() {
            return true;
        }
    }

    @Test
    void threadsComeWithDrivesUpToTheNumberAllowed() {
        Steppers steppers = new Steppers("counted", new Loaded(Duration.ZERO), 2);
        steppers.add(drives(1));
        assertThat(threads()).isEqualTo(1);
        steppers.add(drives(40));
        assertThat(threads()).isEqualTo(2);
        steppers.add(drives(60));
        assertThat(threads()).isEqualTo(2);
        steppers.close();
        assertThat(threads()).isZero();
    }

    private List<ServedDrive> drives(int count) {
        return IntStream.range(0, count)
                .mapToObj(i -> new ServedDrive(drive("drive " + i), time))
                .toList();
    }

    private static long threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .filter(thread -> thread.getName().startsWith("counted-step-"))
                .count();
    }
}
