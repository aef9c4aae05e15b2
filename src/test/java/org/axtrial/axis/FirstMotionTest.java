package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** An axis whose sense and scale are not proven: within 0.1 rev of where it first moves, at 0.5 rev/s at most. */
@Timeout(20)
class FirstMotionTest {

    private static final FirstMotion LIMITS = new FirstMotion(Quantity.parse("0.1 rev"), Quantity.parse("30 rpm"));
    private static final MoveOptions SLOW = options("30 rpm");

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final IdealDrive drive = new IdealDrive(time);
    private final Axis axis = Axis.over(IdealDrive.axis(1).heldTo(LIMITS), drive, time);

    /** One word that moves an axis. */
    @FunctionalInterface
    private interface Word {
        void order(Axis axis) throws InterruptedException;
    }

    private static MoveOptions options(String speed) {
        return new MoveOptions(Optional.of(Quantity.parse(speed)), Optional.empty(), Optional.empty());
    }

    private static Arguments word(String name, Word word) {
        return Arguments.of(name, word);
    }

    static Stream<Arguments> tooLong() {
        Quantity far = Quantity.parse("0.11 rev");
        LinkCut cut = new LinkCut(LinkCut.How.CLOSE, Duration.ofMillis(10), Duration.ofMillis(10));
        return Stream.of(
                word("moveBy", axis -> axis.moveBy(far, SLOW)),
                word("moveBy back", axis -> axis.moveBy(Quantity.parse("-0.11 rev"), SLOW)),
                word("moveTo", axis -> axis.moveTo(far, SLOW)),
                word("holdSpeed", axis -> axis.holdSpeed(Quantity.parse("30 rpm"), Duration.ofSeconds(1), SLOW)),
                word(
                        "holdSpeed with a person",
                        axis -> axis.holdSpeed(
                                Quantity.parse("30 rpm"), Duration.ofSeconds(1), SLOW, seconds -> false)),
                word("home", axis -> axis.home(Quantity.parse("0.05 rev"), MoveOptions.DEFAULT)),
                word("moveUntilStopped", axis -> axis.moveUntilStopped(far, SLOW, StopCause.LIMIT)),
                // Twice the distance could be gone.
                word("moveStartedTwice", axis -> axis.moveStartedTwice(Quantity.parse("0.06 rev"), SLOW)),
                word("moveWithoutLink", axis -> axis.moveWithoutLink(far, SLOW, cut)));
    }

    static Stream<Arguments> tooFast() {
        Quantity near = Quantity.parse("0.05 rev");
        MoveOptions fast = options("31 rpm");
        LinkCut cut = new LinkCut(LinkCut.How.CLOSE, Duration.ofMillis(10), Duration.ofMillis(10));
        return Stream.of(
                word("moveBy", axis -> axis.moveBy(near, fast)),
                // The speed that the site file gives a move which names none, 120 r/min.
                word("moveBy by default", axis -> axis.moveBy(near, MoveOptions.DEFAULT)),
                word("moveTo", axis -> axis.moveTo(near, fast)),
                word("holdSpeed", axis -> axis.holdSpeed(Quantity.parse("31 rpm"), Duration.ofMillis(10), SLOW)),
                word("moveUntilStopped", axis -> axis.moveUntilStopped(near, fast, StopCause.TRIP)),
                word("moveStartedTwice", axis -> axis.moveStartedTwice(Quantity.parse("0.01 rev"), fast)),
                word("moveWithoutLink", axis -> axis.moveWithoutLink(near, fast, cut)));
    }

    @BeforeEach
    void ready() throws InterruptedException {
        axis.firstMotionUnlockedBy("SNS-01 must pass first");
        axis.arm();
        axis.beginTrial();
        axis.enable();
        drive.commands.clear();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("tooLong")
    void everyWordThatGoesTooFarIsRefusedBeforeAnythingIsSent(String name, Word word) {
        assertThatThrownBy(() -> word.order(axis))
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll(
                        "before sense and scale are proven it may go 0.1 rev at 0.5 rev/s at most",
                        "SNS-01 must pass first",
                        "nothing was sent");
        // The stop after a refusal moves nothing.
        assertThat(drive.commands).allMatch("stop"::equals);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("tooFast")
    void everyWordThatGoesTooFastIsRefusedBeforeAnythingIsSent(String name, Word word) {
        assertThatThrownBy(() -> word.order(axis))
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll(" asks for ", "at 0.5 rev/s at most", "nothing was sent");
        assertThat(drive.commands).allMatch("stop"::equals);
    }

    @Test
    void whatTheEnvelopeForbidsIsStillToldAsSuch() {
        assertThatThrownBy(() -> axis.moveBy(Quantity.parse("3 rev"), SLOW))
                .isInstanceOf(EnvelopeRefusedException.class)
                .hasMessageContaining("outside the travel window");
    }

    @Test
    void aSmallSlowMoveIsMade() throws InterruptedException {
        axis.moveBy(Quantity.parse("0.1 rev"), SLOW);
        axis.moveBy(Quantity.parse("-0.2 rev"), SLOW);

        assertThat(drive.commands).containsExactly("relative 100", "relative -200");
    }

    @Test
    void manySmallMovesTogetherAreALongOne() throws InterruptedException {
        axis.moveBy(Quantity.parse("0.06 rev"), SLOW);

        assertThatThrownBy(() -> axis.moveBy(Quantity.parse("0.06 rev"), SLOW))
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContaining("0.12 rev from where the axis first moves");
    }

    @Test
    void aNewTrialIsNoNewPlace() throws InterruptedException {
        axis.moveBy(Quantity.parse("0.06 rev"), SLOW);
        axis.endTrial();
        axis.beginTrial();
        axis.enable();

        assertThatThrownBy(() -> axis.moveBy(Quantity.parse("0.06 rev"), SLOW))
                .isInstanceOf(AxisNotReadyException.class);
    }

    /** Whatever is ordered, an axis that is held never leaves its window. */
    @Property(tries = 60)
    void noSequenceOfOrdersLeavesTheWindow(@ForAll long seed) throws InterruptedException {
        VirtualTime clock = new VirtualTime(Instant.EPOCH);
        IdealDrive ideal = new IdealDrive(clock);
        Axis held = Axis.over(IdealDrive.axis(1).heldTo(LIMITS), ideal, clock);
        held.arm();
        Random random = new Random(seed);
        for (int order = 0; order < 12; order++) {
            held.beginTrial();
            held.enable();
            try {
                double rev = (random.nextDouble() - 0.5) * 0.4;
                if (random.nextBoolean()) {
                    held.moveBy(Quantity.parse(rev + " rev"), SLOW);
                } else {
                    held.moveTo(Quantity.parse(rev + " rev"), SLOW);
                }
            } catch (AxisNotReadyException e) {
                assertThat(e).hasMessageContaining("nothing was sent");
            }
            // 0.1 rev and the standstill window, 100 and 3 counts.
            assertThat(Math.abs(ideal.position())).isLessThanOrEqualTo(103.5);
            held.endTrial();
        }
    }

    /** A scale ten times wrong: the register tells ten times as far, and the axis is stopped on the way. */
    @Test
    void anAxisThatGoesFartherThanOrderedIsStoppedAtTheWindow() {
        List<StopReport> stops = new ArrayList<>();
        axis.listen(new AxisListener() {
            @Override
            public void stopped(StopReport report) {
                stops.add(report);
            }
        });
        drive.bend = position -> 10 * position;

        assertThatThrownBy(() -> axis.moveBy(Quantity.parse("0.05 rev"), options("3 rpm")))
                .isInstanceOf(EnvelopeTrippedException.class)
                .hasMessageContaining("the window of its first motion −0.1 rev … 0.1 rev");
        assertThat(stops).hasSize(1);
    }

    @Test
    void watchingIsNoMotion() throws InterruptedException {
        drive.bend = position -> position + 500; // a hand has turned the shaft by half a turn
        axis.dwell(Duration.ofMillis(100));

        assertThat(drive.commands).isEmpty();
    }

    @Test
    void proofUnlocksAndItsLossHoldsAgain() throws InterruptedException {
        assertThat(axis.senseAndScale(false)).isFalse();
        assertThat(axis.senseAndScale(true)).isTrue();
        axis.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT);
        assertThat(axis.senseAndScale(true)).isFalse();

        assertThat(axis.senseAndScale(false)).isTrue();
        assertThatThrownBy(() -> axis.moveBy(Quantity.parse("1 rev"), SLOW)).isInstanceOf(AxisNotReadyException.class);
        // The place is where it moves next, not where it moved before the proof.
        axis.beginTrial();
        axis.enable();
        axis.moveBy(Quantity.parse("0.1 rev"), SLOW);
    }

    @Test
    void anAxisWithoutTheLimitsIsNeverHeld() throws InterruptedException {
        VirtualTime clock = new VirtualTime(Instant.EPOCH);
        Axis free = Axis.over(IdealDrive.axis(1), new IdealDrive(clock), clock);
        free.arm();
        free.beginTrial();
        free.enable();

        assertThat(free.senseAndScale(false)).isFalse();
        free.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT);
    }

    @Test
    void limitsThatAllowNothingAreRefused() {
        assertThatThrownBy(() -> new FirstMotion(Quantity.parse("0 rev"), Quantity.parse("1 rpm")))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FirstMotion(Quantity.parse("1 rev"), Quantity.parse("-1 rpm")))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
