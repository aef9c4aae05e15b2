package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.axtrial.axis.IdealDrive.Fault;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.MotionLimits;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.VirtualTime;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(20)
class GuardedAxisTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final IdealDrive drive = new IdealDrive(time);
    private final List<StopReport> stops = new ArrayList<>();
    private Axis axis = axis(1);

    private Axis axis(int direction) {
        AxisSetup setup = IdealDrive.axis(direction);
        Axis made = Axis.over(setup, drive, time);
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
        axis.arm();
        axis.beginTrial();
        axis.enable();
        drive.commands.clear();
    }

    private Motion moveBy(String distance) throws InterruptedException {
        return axis.moveBy(Quantity.parse(distance), MoveOptions.DEFAULT);
    }

    @Nested
    class AMove {

        @Test
        void goesTheOrderedDistanceAndTellsWhenItArrived() throws InterruptedException {
            Motion motion = moveBy("1 rev");

            Trace trace = motion.trace();
            assertThat(trace.value(AxisChannels.POSITION, trace.size() - 1)).isEqualTo(1.0);
            assertThat(motion.startPosition()).isZero();
            // Source: trapezoid S/v + v/a with S 1 rev, v 2 rev/s, a 20 rev/s2 (kinematics) -> 0.6 s.
            assertThat(motion.expectedDuration().getAsDouble()).isEqualTo(0.6, within(1e-12));
            assertThat(motion.arrivedSeconds().getAsDouble()).isBetween(0.6, 0.612);
            assertThat(drive.commands).containsExactly("relative 1000");
        }

        @Test
        void whoseRegistersStandStillIsStoppedAndNoStandstillIsClaimed() {
            drive.bend = position -> 0;
            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(AxisUnreachableException.class)
                    .hasMessageContainingAll("ordered to move", "stood at 0 rev", "stale");
            assertThat(drive.commands).contains("relative 1000", "stop");
            // IdealDrive shows speed 0 once it has stopped, which is a change: the registers live again.
            assertThat(stops).hasSize(1);
        }

        @Test
        void tooShortToBeSeenOnTheWayIsNotTakenForDoneWithoutAChange() {
            drive.bend = position -> 0;
            assertThatThrownBy(() -> moveBy("0.01 rev"))
                    .isInstanceOf(AxisUnreachableException.class)
                    .hasMessageContainingAll("although the drive says that it has arrived");
        }

        @Test
        void isSampledAtTheOrderedPeriodFromBeforeTheCommandUntilAfterTheArrival() throws InterruptedException {
            Trace trace = moveBy("0.5 rev").trace();

            assertThat(trace.time(0)).isNegative();
            assertThat(trace.meanPeriod().getAsDouble()).isEqualTo(0.005, within(1e-4));
            assertThat(trace.timeHalfWidth(0)).isEqualTo(0.0005, within(1e-9));
            assertThat(trace.time(trace.size() - 1)).isGreaterThan(0.35 + 0.19);
        }

        @Test
        void carriesTheSignOfTheAxis() throws InterruptedException {
            axis = axis(-1);
            ready();

            Trace trace = moveBy("0.25 rev").trace();

            assertThat(drive.commands).containsExactly("relative -250");
            assertThat(trace.value(AxisChannels.POSITION, trace.size() - 1)).isEqualTo(0.25);
            assertThat(trace.value(AxisChannels.COUNTS, trace.size() - 1)).isEqualTo(-250);
        }

        @Test
        void goesOnWhereThePositionRegisterWraps() throws InterruptedException {
            drive.registerOffset = 32_500;
            axis = axis(1);
            ready();

            Trace trace = moveBy("1 rev").trace();

            assertThat(trace.value(AxisChannels.COUNTS, trace.size() - 1)).isEqualTo(33_500 - 65_536);
            assertThat(trace.value(AxisChannels.POSITION, trace.size() - 1)).isEqualTo(1.0);
        }

        @Test
        void toAPositionIsCountedFromWhereTheRunBegan() throws InterruptedException {
            drive.registerOffset = 700;
            axis = axis(1);
            ready();
            moveBy("0.5 rev");

            axis.moveTo(Quantity.parse("-0.25 rev"), MoveOptions.DEFAULT);

            assertThat(drive.commands).containsExactly("relative 500", "absolute 450");
            assertThat(axis.position()).isEqualTo(Quantity.parse("-0.25 rev"));
        }

        @Test
        void doesNotTakeTheWordOfTheLastMoveForItsArrival() throws InterruptedException {
            moveBy("0.5 rev");
            Motion second = moveBy("0.5 rev");

            assertThat(second.arrivedSeconds().getAsDouble()).isBetween(0.35, 0.362);
        }
    }

    @Nested
    class RefusedBeforeTheWire {

        @Test
        void tenRevolutionsInAnEnvelopeOfTwo() {
            assertThatThrownBy(() -> moveBy("10 rev"))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessage("TURNTABLE: a move by 10 rev would end at 10 rev, outside the travel window "
                            + "−2 rev … 2 rev; nothing was sent");
            assertThat(drive.commands).isEmpty();
        }

        @Test
        void theSumOfAllowedMoves() throws InterruptedException {
            moveBy("1.5 rev");
            drive.commands.clear();

            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(EnvelopeRefusedException.class);
            assertThat(drive.commands).isEmpty();
        }

        @Test
        void tooFast() {
            MoveOptions fast =
                    new MoveOptions(Optional.of(Quantity.parse("601 rpm")), Optional.empty(), Optional.empty());

            assertThatThrownBy(() -> axis.moveBy(Quantity.parse("1 rev"), fast))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContaining(
                            "10.0167 rev/s (601 r/min), more than the largest speed of the envelope, 10 rev/s (600 r/min)");
            assertThat(drive.commands).isEmpty();
        }

        @Test
        void tooSteep() {
            MoveOptions steep =
                    new MoveOptions(Optional.empty(), Optional.of(Quantity.parse("101 rev/s2")), Optional.empty());

            assertThatThrownBy(() -> axis.moveBy(Quantity.parse("1 rev"), steep))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContaining("largest acceleration of the envelope");
        }

        @Test
        void tooSlowForTheTimeLimit() {
            MoveOptions slow =
                    new MoveOptions(Optional.of(Quantity.parse("1 rpm")), Optional.empty(), Optional.empty());

            assertThatThrownBy(() -> axis.moveBy(Quantity.parse("1 rev"), slow))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContaining("longer than the 10 s that the envelope gives one motion");
        }

        @Test
        void aSpeedHoldThatWouldRunOutOfTheWindow() {
            assertThatThrownBy(
                            () -> axis.holdSpeed(Quantity.parse("120 rpm"), Duration.ofSeconds(5), MoveOptions.DEFAULT))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContaining("outside the travel window");
            assertThat(drive.commands).isEmpty();
        }

        // Two ramps of 0.1/20 s, 0.2 s to settle and 9.75 s are 9.96 s of 10; proof of standstill takes longer than the
        // rest.
        @Test
        void aSpeedHoldThatLeavesNoTimeToSeeTheAxisStand() {
            assertThatThrownBy(
                            () -> axis.holdSpeed(Quantity.parse("6 rpm"), Duration.ofMillis(9750), MoveOptions.DEFAULT))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContaining("longer than the 10 s that the envelope gives one motion");
            assertThat(drive.commands).isEmpty();
        }

        @Test
        void aLengthOnARotaryAxis() {
            assertThatThrownBy(() -> moveBy("10 mm")).hasMessageContaining("this axis is rotary and has no lead");
            assertThat(drive.count("relative")).isZero();
        }

        @Test
        void anAxisThatIsNotEnabled() throws InterruptedException {
            axis.disable();

            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(AxisNotReadyException.class)
                    .hasMessageContaining("Call axis.enable() first");
            assertThat(drive.count("relative")).isZero();
        }

        @Test
        void anAxisThatIsNotArmed() throws InterruptedException {
            axis = axis(1);
            axis.beginTrial();

            assertThatThrownBy(() -> axis.enable())
                    .isInstanceOf(AxisNotReadyException.class)
                    .hasMessageContaining("not armed in this run");
            assertThat(drive.commands).containsOnly("reconnect");
        }

        /** Somebody else may hold its load by the drive: it keeps whatever torque it has, and is not stopped either. */
        @Test
        void anAxisThatIsNotArmedIsLeftAloneAtTheEndOfATrial() throws InterruptedException {
            axis = axis(1);
            axis.beginTrial();
            assertThatThrownBy(() -> axis.disable())
                    .isInstanceOf(AxisNotReadyException.class)
                    .hasMessageContaining("not armed in this run");
            StopReport end = axis.endTrial();

            assertThat(end.standstill()).isTrue();
            assertThat(end.ordered()).isFalse();
            assertThat(end.detail()).isEqualTo("not armed, so nothing was sent; stands at 0 rev");
            assertThat(stops).containsExactly(end);
            assertThat(drive.commands).containsOnly("reconnect");
        }

        @Test
        void anythingAfterARefusal() {
            assertThatThrownBy(() -> moveBy("10 rev")).isInstanceOf(EnvelopeRefusedException.class);

            assertThatThrownBy(() -> moveBy("0.1 rev"))
                    .isInstanceOf(EnvelopeRefusedException.class)
                    .hasMessageContaining("a move by 10 rev");
            assertThat(drive.commands).isEmpty();
        }
    }

    @Nested
    class TrippedWhileMoving {

        private void assertTrips(String distance, String message) {
            assertThatThrownBy(() -> moveBy(distance))
                    .isInstanceOf(EnvelopeTrippedException.class)
                    .hasMessageContaining(message);
            assertThat(drive.count("stop")).isPositive();
            assertThat(stops).last().matches(StopReport::standstill);
            assertThatThrownBy(() -> moveBy("0.1 rev")).isInstanceOf(EnvelopeTrippedException.class);
            assertThat(drive.count("relative")).isEqualTo(1);
        }

        @Test
        void whenTheAxisRunsTenTimesTooFar() {
            drive.bend = position -> 10 * position;
            assertTrips("1 rev", "faster than the largest speed of the envelope");
        }

        @Test
        void whenTheAxisLeavesTheWindow() {
            drive.bend = position -> position + (position > 800 ? 1300 * Math.min(1, (position - 800) / 500) : 0);
            assertTrips("1.5 rev", "travel window");
        }

        @Test
        void whenTheAxisGoesTheOtherWay() {
            drive.bend = position -> -position;
            assertTrips("1 rev", "went the other way");
        }

        @Test
        void whenTheTorqueIsTooLarge() {
            drive.onSample = () -> drive.torque = drive.position() > 100 ? 81 : 10;
            assertTrips("1 rev", "a torque of 81 %, above the largest torque of the envelope, 80 %");
        }

        @Test
        void whenTheArrivalNeverComes() {
            drive.tellsArrival = false;
            assertTrips("1 rev", "was not over after 10 s");
        }
    }

    @Nested
    class LostReplies {

        @Test
        void aMoveThatActedIsSentOnceLookedAtAndStopped() {
            drive.fail("relative", Fault.REPLY_LOST);

            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(OutcomeUnprovenException.class)
                    .hasMessageContaining("sent once, its reply was lost, and it was not repeated")
                    .hasMessageContaining("It had acted: the position changed by")
                    .hasMessageContaining("stopped and stands at");
            assertThat(drive.count("relative")).isEqualTo(1);
            assertThat(stops).last().matches(StopReport::standstill).matches(StopReport::ordered);
        }

        @Test
        void aMoveThatDidNotActIsNotSentAgain() {
            drive.fail("relative", Fault.REQUEST_LOST);

            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(OutcomeUnprovenException.class)
                    .hasMessageContaining("Nothing shows that it acted");
            assertThat(drive.count("relative")).isEqualTo(1);
        }

        @Test
        void aStopThatIsLostIsOrderedAgainOverANewConnection() throws InterruptedException {
            drive.onSample = () -> {
                if (drive.position() > 300) {
                    drive.faultCode = 7;
                }
            };
            drive.fail("stop", Fault.REQUEST_LOST);
            drive.fail("stop", Fault.LINK_DOWN);

            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(DriveTrippedException.class)
                    .hasMessageContaining("fault code 7 (0x0007)");
            assertThat(drive.count("stop")).isGreaterThanOrEqualTo(3);
            assertThat(stops).last().matches(StopReport::standstill).matches(StopReport::ordered);
        }

        @Test
        void aLinkLostWhileMovingStopsTheAxis() {
            drive.onSample = () -> {
                if (drive.position() > 300 && drive.count("stop") == 0) {
                    drive.fail("sample", Fault.LINK_DOWN);
                }
            };

            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(AxisUnreachableException.class);
            assertThat(stops).last().matches(StopReport::standstill);
        }

        @Test
        void anotherDriveThatComesBackIsNotTouchedAndTheStopIsReportedAsUnknown() {
            drive.onSample = () -> {
                if (drive.position() > 300 && drive.count("stop") == 0) {
                    drive.onSample = () -> {};
                    drive.fail("sample", Fault.LINK_DOWN);
                    drive.fail("reconnect", Fault.WRONG_DRIVE);
                }
            };

            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(AxisUnreachableException.class);
            assertThat(stops)
                    .last()
                    .matches(report -> !report.standstill() && !report.ordered())
                    .matches(report -> report.detail().contains("not even a stop, because another drive answers"))
                    .matches(report -> report.detail().contains("use the emergency stop"));
            assertThat(drive.count("stop")).isZero();
        }

        @Test
        void anotherDriveAtTheBeginningOfATrialIsNamed() {
            drive.fail("reconnect", Fault.WRONG_DRIVE);
            drive.fail("stop", Fault.WRONG_DRIVE);
            drive.fail("stop", Fault.WRONG_DRIVE);

            assertThatThrownBy(() -> axis.beginTrial())
                    .isInstanceOf(WrongDriveAnsweredException.class)
                    .hasMessageContaining("another drive answers");
        }

        @Test
        void aDriveThatDoesNotComeBackIsReportedAsNotStopped() {
            drive.fail("relative", Fault.REPLY_LOST);
            for (int i = 0; i < 500; i++) {
                drive.fail("reconnect", Fault.LINK_DOWN);
            }

            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(OutcomeUnprovenException.class)
                    .hasMessageContaining("The axis could not be looked at since")
                    .hasMessageContaining("use the emergency stop");
            assertThat(stops).last().matches(report -> !report.standstill() && !report.ordered());
        }
    }

    @Nested
    class Stops {

        @Test
        void fromOutsideEndTheMotionAndLatch() {
            drive.onSample = () -> {
                if (drive.position() > 200 && drive.count("stop") == 0) {
                    axis.safeStop("the operator pressed stop");
                }
            };

            assertThatThrownBy(() -> moveBy("1 rev"))
                    .isInstanceOf(AxisStoppedException.class)
                    .hasMessage("TURNTABLE was stopped: the operator pressed stop");
            assertThatThrownBy(() -> axis.enable()).isInstanceOf(AxisStoppedException.class);
            assertThat(drive.position()).isLessThan(300);
        }

        @Test
        void latchedForGoodOutliveTheTrial() throws InterruptedException {
            axis.latchStop("the program ends");
            drive.commands.clear();

            assertThatThrownBy(() -> axis.beginTrial())
                    .isInstanceOf(AxisStoppedException.class)
                    .hasMessageContaining("the program ends");
            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(AxisStoppedException.class);
            assertThat(drive.commands).isEmpty();
        }

        @Test
        void latchedWithoutTouchingTheWireAreCarriedOutByTheWorkingThread() {
            drive.onSample = () -> {
                if (drive.position() > 200) {
                    axis.latchStop("the program ends");
                }
            };

            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(AxisStoppedException.class);
            assertThat(drive.count("stop")).isPositive();
            assertThat(stops).last().matches(StopReport::standstill);
        }

        @Test
        void anInterruptStopsTheAxisAndStaysVisible() {
            drive.onSample = () -> {
                if (drive.position() > 200) {
                    Thread.currentThread().interrupt();
                }
            };

            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(InterruptedException.class);
            assertThat(stops).last().matches(StopReport::standstill);
            // Cleared by the exception or by this call; a further test must not inherit it.
            boolean cleared = Thread.interrupted();
            assertThat(axis.safeStop("again").standstill())
                    .as("stop after interrupt, flag " + cleared)
                    .isTrue();
        }

        @Test
        void anAxisThatDoesNotStopIsSaidToMove() throws InterruptedException {
            drive.obeysStop = false;
            axis.listen(AxisListener.NONE);
            drive.onSample = () -> {
                if (drive.position() > 200) {
                    drive.torque = 90;
                }
            };
            drive.tellsArrival = false;
            Motion.Kind kind = Motion.Kind.HOLD_SPEED;
            assertThatThrownBy(
                            () -> axis.holdSpeed(Quantity.parse("60 rpm"), Duration.ofMillis(500), MoveOptions.DEFAULT))
                    .as(kind.name())
                    .isInstanceOf(EnvelopeTrippedException.class);

            StopReport report = axis.endTrial();

            assertThat(report.standstill()).isFalse();
            assertThat(report.detail()).contains("treat the axis as moving: use the emergency stop");
            assertThat(drive.count("disable"))
                    .as("torque stays on while it moves")
                    .isZero();
        }

        @Test
        void atTheEndOfATrialTakeTheTorqueAway() throws InterruptedException {
            moveBy("0.5 rev");

            StopReport report = axis.endTrial();

            assertThat(report.standstill()).isTrue();
            assertThat(drive.enabled).isFalse();
            assertThat(drive.commands).containsSubsequence("relative 500", "stop", "disable");
        }

        @Test
        void atTheEndOfATrialNeedNoOrderWhenTheDriveIsOff() throws InterruptedException {
            axis.disable();
            for (int i = 0; i < 100; i++) {
                drive.fail("stop", Fault.REFUSED);
            }

            assertThat(axis.endTrial().standstill()).isTrue();
        }

        @Test
        void areNeverUndoneByAStartThatWasUnderWay() throws Exception {
            CountDownLatch starting = new CountDownLatch(1);
            CountDownLatch stopSent = new CountDownLatch(1);
            drive.onStart = () -> {
                starting.countDown();
                awaitLatch(stopSent);
            };
            ExecutorService operator = Executors.newSingleThreadExecutor();
            try {
                Future<StopReport> stop = operator.submit(() -> {
                    awaitLatch(starting);
                    drive.onStop = stopSent::countDown;
                    return axis.safeStop("the operator pressed stop");
                });

                assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(AxisStoppedException.class);

                assertThat(stop.get().standstill()).isTrue();
                assertThat(drive.commands).startsWith("stop", "relative 1000", "stop");
                double resting = drive.position();
                time.advance(1_000_000_000);
                assertThat(drive.position()).isEqualTo(resting);
            } finally {
                operator.shutdownNow();
            }
        }

        private void awaitLatch(CountDownLatch latch) {
            try {
                assertThat(latch.await(10, TimeUnit.SECONDS)).isTrue();
            } catch (InterruptedException e) {
                throw new IllegalStateException(e);
            }
        }
    }

    @Nested
    class ANewTrial {

        @Test
        void clearsWhatEndedTheLastOne() throws InterruptedException {
            drive.bend = position -> -position;
            assertThatThrownBy(() -> moveBy("1 rev")).isInstanceOf(EnvelopeTrippedException.class);
            axis.endTrial();
            drive.bend = position -> position;

            axis.beginTrial();
            axis.enable();

            assertThat(moveBy("0.1 rev").arrivedSeconds()).isPresent();
        }

        @Test
        void doesNotBeginWhileTheAxisMoves() throws DriveException {
            drive.startSpeed(0.5, new MotionLimits(0.5, 10, OptionalDouble.empty()));

            assertThatThrownBy(() -> axis.beginTrial())
                    .isInstanceOf(AxisNotReadyException.class)
                    .hasMessageContaining("is not at rest");
        }
    }

    @Nested
    class ASpeedHold {

        @Test
        void marksItsSteadyPartAndEndsAtRest() throws InterruptedException {
            Motion motion = axis.holdSpeed(Quantity.parse("-60 rpm"), Duration.ofSeconds(1), MoveOptions.DEFAULT);

            // Source: ramp time v/a = 1/20 s, then the 200 ms given to settle (kinematics).
            assertThat(motion.steadyFrom().getAsDouble()).isEqualTo(0.25, within(1e-12));
            assertThat(motion.steadyTo().getAsDouble()).isEqualTo(1.25, within(1e-12));
            Trace steady = motion.trace().between(0.25, 1.25);
            double speed =
                    (steady.value(AxisChannels.POSITION, steady.size() - 1) - steady.value(AxisChannels.POSITION, 0))
                            / (steady.time(steady.size() - 1) - steady.time(0));
            assertThat(speed).isEqualTo(-1.0, within(0.01));
            assertThat(drive.commands).containsExactly("speed -1.0", "stop");
        }
    }
}
