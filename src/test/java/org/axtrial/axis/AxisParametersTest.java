package org.axtrial.axis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.axis.IdealDrive.Fault;
import org.axtrial.quantity.Quantity;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What a trial changes in the drive is put back, whatever ends it. */
@Timeout(20)
class AxisParametersTest {

    private final IdealDrive drive = new IdealDrive(new VirtualTime(Instant.EPOCH));
    private final Axis axis = Axis.over(IdealDrive.axis(1), drive, drive.time);
    private final List<String> told = new ArrayList<>();

    @BeforeEach
    void ready() throws InterruptedException {
        axis.listen(new AxisListener() {
            @Override
            public void parameterChanging(ParameterChange change) {
                told.add(change.printed());
            }

            @Override
            public void parameterPutBack(ParameterChange change, Optional<String> trouble) {
                told.add(
                        change.name() + " back" + trouble.map(why -> ": " + why).orElse(""));
            }
        });
        axis.arm();
        axis.beginTrial();
        drive.commands.clear();
    }

    private ParameterChange set(String name, String value) throws InterruptedException {
        return axis.setParameter(name, Quantity.parse(value), false);
    }

    @Test
    void theEndOfATrialPutsEverythingBackLastFirst() throws InterruptedException {
        axis.enable();
        set("window", "5 count");
        set("trip", "100 count");
        set("window", "7 count");
        axis.endTrial();

        assertThat(drive.parameters).containsEntry("window", 42.0).containsEntry("trip", 500.0);
        assertThat(drive.commands)
                .containsSubsequence(
                        "write window 5.0",
                        "write trip 100.0",
                        "write window 7.0",
                        "stop",
                        "disable",
                        "write trip 500.0",
                        "write window 42.0");
        assertThat(told)
                .containsExactly(
                        "window from 42 count to 5 count",
                        "trip from 500 count to 100 count",
                        "window from 42 count to 7 count",
                        "trip back",
                        "window back");
        assertThat(axis.leftChanged()).isEmpty();
    }

    @Test
    void aValueThatStandsAlreadyIsNotWritten() throws InterruptedException {
        assertThat(set("window", "42 count").isNone()).isTrue();
        assertThat(drive.count("write")).isZero();
        set("window", "5 count");
        set("window", "42 count");
        axis.endTrial();
        assertThat(drive.commands)
                .filteredOn(line -> line.startsWith("write"))
                .containsExactly("write window 5.0", "write window 42.0");
    }

    @Test
    void aStopFromOutsideDoesNotKeepThemFromBeingPutBack() throws InterruptedException {
        set("window", "5 count");
        axis.safeStop("somebody pressed the button");
        assertThatThrownBy(() -> set("trip", "1 count")).isInstanceOf(AxisStoppedException.class);
        axis.endTrial();

        assertThat(drive.parameters).containsEntry("window", 42.0).containsEntry("trip", 500.0);
    }

    @Test
    void whatIsToBeKeptStays() throws InterruptedException {
        set("window", "5 count");
        axis.setParameter("window", Quantity.parse("8 count"), true);
        axis.endTrial();

        assertThat(drive.parameters).containsEntry("window", 8.0);
        assertThat(axis.leftChanged()).isEmpty();
    }

    @Test
    void aWriteWhoseOutcomeIsUnknownIsPutBackAllTheSame() throws InterruptedException {
        drive.fail("write", Fault.REPLY_LOST);
        assertThatThrownBy(() -> set("window", "5 count")).isInstanceOf(OutcomeUnprovenException.class);
        drive.linkUp = true;
        axis.endTrial();

        assertThat(drive.parameters).containsEntry("window", 42.0);
        assertThat(drive.count("write window 5")).isEqualTo(1);
        assertThat(axis.leftChanged()).isEmpty();
    }

    @Test
    void aWriteThatNeverActedIsNotPutBackByAnotherWrite() throws InterruptedException {
        drive.fail("write", Fault.REQUEST_LOST);
        assertThatThrownBy(() -> set("window", "5 count")).isInstanceOf(OutcomeUnprovenException.class);
        drive.linkUp = true;
        axis.endTrial();

        assertThat(drive.count("write")).isEqualTo(1);
        assertThat(told).contains("window back");
    }

    @Test
    void aDriveThatRefusesLeavesTheTrialBlocked() throws InterruptedException {
        drive.fail("write", Fault.REFUSED);
        assertThatThrownBy(() -> set("window", "5 count"))
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll("TURNTABLE", "refused to set window", "exception 04");
    }

    @Test
    void whatCouldNotBePutBackIsToldAndPutBackBeforeTheNextTrial() throws InterruptedException {
        set("window", "5 count");
        drive.fail("write", Fault.REFUSED);
        axis.endTrial();
        assertThat(axis.leftChanged()).extracting(ParameterChange::name).containsExactly("window");
        assertThat(told).anyMatch(line -> line.startsWith("window back: ") && line.contains("exception 04"));

        axis.beginTrial();
        assertThat(drive.parameters).containsEntry("window", 42.0);
        assertThat(axis.leftChanged()).isEmpty();
    }

    @Test
    void noTrialBeginsWhileAValueOfAnEarlierOneStands() throws InterruptedException {
        set("window", "5 count");
        drive.fail("write", Fault.REFUSED);
        axis.endTrial();
        drive.fail("write", Fault.REFUSED);

        assertThatThrownBy(axis::beginTrial)
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll("window is 5 count and was 42 count", "put it back at the drive");
    }

    @Test
    void anAxisThatDoesNotStandGetsNoOtherParameters() throws InterruptedException {
        axis.enable();
        set("window", "5 count");
        drive.obeysStop = false;
        drive.bend = position -> drive.time.nanos() * 1e-6;
        axis.endTrial();

        assertThat(drive.count("write window 42")).isZero();
        assertThat(axis.leftChanged()).hasSize(1);
    }

    @Test
    void nothingIsSentForAUnitOfAnotherKindAnUnknownNameOrAnAxisThatIsNotArmed() throws InterruptedException {
        assertThatThrownBy(() -> set("window", "5 mm"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContainingAll("window", "count", "mm");
        axis.beginTrial();
        assertThatThrownBy(() -> set("windoww", "5 count")).isInstanceOf(IllegalArgumentException.class);
        Axis unarmed = Axis.over(IdealDrive.axis(1), drive, drive.time);
        assertThatThrownBy(() -> unarmed.setParameter("window", Quantity.parse("5 count"), false))
                .isInstanceOf(AxisNotReadyException.class);
        assertThatThrownBy(() -> unarmed.saveParameters("store")).isInstanceOf(AxisNotReadyException.class);

        assertThat(drive.count("write")).isZero();
        assertThat(drive.count("save")).isZero();
    }

    @Test
    void aListenerThatCannotRecordPreventsTheWrite() {
        axis.listen(new AxisListener() {
            @Override
            public void parameterChanging(ParameterChange change) {
                throw new IllegalStateException("the disk is full");
            }
        });
        assertThatThrownBy(() -> set("window", "5 count")).hasMessage("the disk is full");
        assertThat(drive.count("write")).isZero();
    }

    @Test
    void aSaveIsSentOnceAndNeverWhileATestValueStands() throws InterruptedException {
        set("window", "5 count");
        assertThatThrownBy(() -> axis.saveParameters("store"))
                .isInstanceOf(AxisNotReadyException.class)
                .hasMessageContainingAll("window from 42 count to 5 count", "keep: true");
        assertThat(drive.count("save")).isZero();
        axis.endTrial();

        axis.beginTrial();
        axis.setParameter("window", Quantity.parse("5 count"), true);
        axis.saveParameters("store");
        assertThat(drive.count("save")).isEqualTo(1);
    }

    @Test
    void aSaveWithoutReplyIsNotRepeated() {
        drive.fail("save", Fault.REPLY_LOST);
        assertThatThrownBy(() -> axis.saveParameters("store")).isInstanceOf(OutcomeUnprovenException.class);
        assertThat(drive.count("save")).isEqualTo(1);
    }
}
