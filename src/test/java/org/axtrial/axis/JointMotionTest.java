package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.axtrial.axis.IdealDrive.Fault;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.VirtualTime;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Several axes at once, each on an ideal drive: they start together or not at all, and stop together. */
@Timeout(30)
class JointMotionTest {

    private static final double MIDDLE = 0.3;

    private final List<StopReport> stops = Collections.synchronizedList(new ArrayList<>());
    private IdealDrive left = new IdealDrive(new VirtualTime(Instant.EPOCH));
    private IdealDrive right = new IdealDrive(new VirtualTime(Instant.EPOCH));
    private Axis a = axis("LEFT", left);
    private Axis b = axis("RIGHT", right);

    private Axis axis(String name, IdealDrive drive) {
        Axis made = Axis.over(IdealDrive.axis(name, 1), drive, drive.time);
        made.listen(new AxisListener() {
            @Override
            public void stopped(StopReport report) {
                stops.add(report);
            }
        });
        return made;
    }

    @BeforeEach
    void ready() throws InterruptedException {
        a.arm();
        b.arm();
        begin();
    }

    private void begin() throws InterruptedException {
        a.beginTrial();
        b.beginTrial();
        JointMotion.enable(List.of(a, b));
        left.commands.clear();
        right.commands.clear();
    }

    private static JointMotion.Part by(Axis axis, String distance) {
        return new JointMotion.Part(axis, Optional.of(Quantity.parse(distance)), false, MoveOptions.DEFAULT);
    }

    private List<Optional<Motion>> moveBoth() throws InterruptedException {
        return JointMotion.move(List.of(by(a, "1 rev"), by(b, "1 rev")));
    }

    /** Runs once when the axis of a drive is in the middle of its move. */
    private static void midway(IdealDrive drive, Runnable action) {
        boolean[] done = {false};
        drive.onSample = () -> {
            if (!done[0] && drive.position() > MIDDLE * IdealDrive.COUNTS) {
                done[0] = true;
                action.run();
            }
        };
    }

    private void bothWereStopped() {
        assertThat(stops).extracting(StopReport::axis).contains("LEFT", "RIGHT");
        assertThat(stops).allMatch(StopReport::standstill);
        assertThat(left.commands.get(left.commands.size() - 1)).isEqualTo("stop");
        assertThat(right.commands.get(right.commands.size() - 1)).isEqualTo("stop");
    }

    private static double at(Trace trace, double seconds) {
        for (int i = 0; i < trace.size(); i++) {
            if (trace.time(i) >= seconds) {
                return trace.value(AxisChannels.POSITION, i);
            }
        }
        throw new AssertionError("the trace ends before " + seconds + " s");
    }

    @Test
    void bothMoveAtTheSameTime() throws InterruptedException {
        List<Optional<Motion>> motions = moveBoth();

        Trace one = motions.get(0).orElseThrow().trace();
        Trace other = motions.get(1).orElseThrow().trace();
        assertThat(at(one, MIDDLE)).isBetween(0.4, 0.6);
        assertThat(at(other, MIDDLE)).isBetween(0.4, 0.6);
        assertThat(left.time.nanos()).as("they end within a sample").isCloseTo(right.time.nanos(), within(10_000_000L));
        assertThat(left.commands).containsExactly("relative 1000");
        assertThat(right.commands).containsExactly("relative 1000");
    }

    @Test
    void whoArrivesFirstIsWatchedUntilTheLastHasArrived() throws InterruptedException {
        List<Optional<Motion>> motions = JointMotion.move(List.of(by(a, "0.1 rev"), by(b, "2 rev")));

        Trace quick = motions.get(0).orElseThrow().trace();
        Trace slow = motions.get(1).orElseThrow().trace();
        assertThat(quick.time(quick.size() - 1)).isGreaterThan(1.0).isCloseTo(slow.time(slow.size() - 1), near(0.02));
        assertThat(quick.worstPeriod().getAsDouble()).as("never out of sight").isLessThan(0.01);
    }

    @Test
    void anAxisThatOnlyStandsIsWatchedToo() throws InterruptedException {
        List<Optional<Motion>> motions = JointMotion.move(List.of(by(a, "1 rev"), JointMotion.Part.watched(b)));

        assertThat(motions.get(1)).isEmpty();
        assertThat(right.commands).isEmpty();

        midway(left, () -> right.faultCode = 0x7310);
        assertThatThrownBy(() -> JointMotion.move(List.of(by(a, "-1 rev"), JointMotion.Part.watched(b))))
                .isInstanceOf(DriveTrippedException.class)
                .hasMessageContaining("RIGHT: the drive shows fault code");
        bothWereStopped();
    }

    @RepeatedTest(10)
    void whatComesOfItRepeatsToTheBit() throws InterruptedException {
        List<String> once = rows(moveBoth());
        left = new IdealDrive(new VirtualTime(Instant.EPOCH));
        right = new IdealDrive(new VirtualTime(Instant.EPOCH));
        a = axis("LEFT", left);
        b = axis("RIGHT", right);
        ready();

        assertThat(rows(moveBoth())).isEqualTo(once);
    }

    private static List<String> rows(List<Optional<Motion>> motions) {
        List<String> rows = new ArrayList<>();
        motions.forEach(motion -> {
            Trace trace = motion.orElseThrow().trace();
            for (int i = 0; i < trace.size(); i++) {
                rows.add(trace.time(i) + " " + trace.value(AxisChannels.POSITION, i));
            }
        });
        return rows;
    }

    @Test
    void axesOnOneClockMoveAtTheSameTimeToo() throws InterruptedException {
        VirtualTime shared = new VirtualTime(Instant.EPOCH);
        left = new IdealDrive(shared);
        right = new IdealDrive(shared);
        a = axis("LEFT", left);
        b = axis("RIGHT", right);
        ready();

        List<Optional<Motion>> motions = moveBoth();

        assertThat(at(motions.get(0).orElseThrow().trace(), MIDDLE)).isBetween(0.4, 0.6);
        assertThat(at(motions.get(1).orElseThrow().trace(), MIDDLE)).isBetween(0.4, 0.6);
    }

    @Test
    void ifOneIsRefusedNothingIsSentToAny() {
        assertThatThrownBy(() -> JointMotion.move(List.of(by(a, "1 rev"), by(b, "3 rev"))))
                .isInstanceOf(EnvelopeRefusedException.class)
                .hasMessageContainingAll("RIGHT", "nothing was sent");

        assertThat(left.commands).isEmpty();
        assertThat(right.commands).isEmpty();
    }

    @Test
    void ifOneIsNotEnabledNothingIsSentToAny() throws InterruptedException {
        b.disable();
        right.commands.clear();

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll("RIGHT", "is not enabled");

        assertThat(left.commands).isEmpty();
        assertThat(right.commands).isEmpty();
    }

    @Test
    void ifOneIsNotArmedNoneIsEnabledForLong() throws InterruptedException {
        Axis unarmed = axis("OTHER", right);
        unarmed.beginTrial();
        a.disable();
        left.commands.clear();

        assertThatThrownBy(() -> JointMotion.enable(List.of(a, unarmed)))
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll("OTHER is not armed");

        assertThat(right.commands).doesNotContain("enable");
        assertThat(left.commands).contains("stop").doesNotContain("relative 1000");
    }

    @Test
    void ifTheSecondDoesNotStartTheFirstIsStopped() {
        right.fail("relative", Fault.REFUSED);

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(DriveTrippedException.class)
                .hasMessageContaining("RIGHT");

        assertThat(left.count("relative")).isLessThanOrEqualTo(1);
        assertThat(right.count("relative")).isEqualTo(1);
        bothWereStopped();
    }

    @Test
    void aLostReplyToTheSecondStartIsNotRepeatedAndStopsBoth() {
        right.fail("relative", Fault.REPLY_LOST);

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(OutcomeUnprovenException.class)
                .hasMessageContaining("RIGHT");

        assertThat(right.count("relative")).isEqualTo(1);
        assertThat(left.count("relative")).isLessThanOrEqualTo(1);
        bothWereStopped();
    }

    @Test
    void aTripOfOneStopsBoth() {
        midway(left, () -> left.faultCode = 0x7310);

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(DriveTrippedException.class)
                .hasMessageContaining("LEFT: the drive shows fault code");

        bothWereStopped();
        assertThat(stops)
                .filteredOn(stop -> stop.axis().equals("RIGHT"))
                .allMatch(stop -> stop.reason().contains("an axis that moved at once with it had trouble: LEFT"));
        assertThat(right.position()).as("stopped on its way").isBetween(250.0, 700.0);
    }

    @Test
    void aLinkThatIsLostStopsBoth() {
        midway(right, () -> right.linkUp = false);

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(AxisUnreachableException.class)
                .hasMessageContaining("RIGHT");

        bothWereStopped();
        assertThat(left.position()).as("stopped on its way").isBetween(250.0, 700.0);
    }

    @Test
    void anAxisThatLeavesItsEnvelopeStopsBoth() {
        midway(right, () -> right.bend = position -> position + 2500);

        assertThatThrownBy(this::moveBoth).isInstanceOf(AxisException.class).hasMessageContaining("RIGHT");

        assertThat(left.position()).as("stopped on its way").isBetween(250.0, 700.0);
        assertThat(left.commands).endsWith("stop");
        assertThat(right.commands).endsWith("stop");
    }

    @Test
    void aStopFromOutsideOfOneStopsBoth() {
        midway(left, () -> b.safeStop("somebody asked"));

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(AxisStoppedException.class)
                .hasMessageContaining("RIGHT was stopped: somebody asked");

        bothWereStopped();
    }

    @Test
    void aStopForTheRestOfTheRunStopsBothForTheRestOfTheRun() {
        midway(left, () -> {
            a.latchStop("Ctrl-C");
            b.latchStop("Ctrl-C");
        });

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(AxisStoppedException.class)
                .hasMessageContaining("Ctrl-C");

        bothWereStopped();
        assertThatThrownBy(b::beginTrial).isInstanceOf(AxisStoppedException.class);
    }

    @Test
    void anInterruptStopsBoth() {
        Thread caller = Thread.currentThread();
        midway(left, caller::interrupt);

        assertThatThrownBy(this::moveBoth).isInstanceOf(InterruptedException.class);

        bothWereStopped();
    }

    @Test
    void anUnexpectedErrorStopsBoth() {
        midway(right, () -> {
            throw new AssertionError("broken");
        });

        assertThatThrownBy(this::moveBoth).hasMessageContaining("broken");

        bothWereStopped();
    }

    @Test
    void anAxisThatWasStoppedBeforeKeepsNobodyWaiting() {
        b.safeStop("before");
        left.commands.clear();
        right.commands.clear();

        assertThatThrownBy(this::moveBoth)
                .isInstanceOf(AxisStoppedException.class)
                .hasMessageContaining("before");
        assertThatThrownBy(() -> JointMotion.enable(List.of(a, b))).isInstanceOf(AxisStoppedException.class);

        assertThat(left.commands).doesNotContain("relative 1000");
    }

    @Test
    void afterwardsEachIsAloneAgain() throws InterruptedException {
        moveBoth();
        midway(left, () -> b.safeStop("nothing to do with it"));

        Motion alone = a.moveBy(Quantity.parse("-1 rev"), MoveOptions.DEFAULT);

        assertThat(alone.trace().value(AxisChannels.POSITION, alone.trace().size() - 1))
                .isZero();
    }

    private static org.assertj.core.data.Offset<Double> near(double by) {
        return org.assertj.core.data.Offset.offset(by);
    }

    private static org.assertj.core.data.Offset<Long> within(long by) {
        return org.assertj.core.data.Offset.offset(by);
    }
}
