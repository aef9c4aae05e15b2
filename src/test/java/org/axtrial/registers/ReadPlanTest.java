package org.axtrial.registers;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.registers.ReadPlan.Block;
import org.junit.jupiter.api.Test;

class ReadPlanTest {

    private static final SignalSpec POSITION = Signals.at("position", RegisterTable.HOLDING, 100, ValueType.INT32);
    private static final SignalSpec SPEED = Signals.at("speed", RegisterTable.HOLDING, 102, ValueType.INT32);
    private static final SignalSpec STATUS = Signals.at("status", RegisterTable.HOLDING, 110, ValueType.UINT16);

    static DriveDescription description(int mostRegisters, SignalSpec... signals) {
        Map<String, SignalSpec> byName = new LinkedHashMap<>();
        Arrays.stream(signals).forEach(signal -> byName.put(signal.name(), signal));
        return new DriveDescription(
                "test",
                CommandStyle.DIRECT,
                byName,
                Map.of(),
                Map.of(),
                List.of(),
                List.of(),
                mostRegisters,
                1,
                Optional.empty());
    }

    @Test
    void neighboursShareOneBlock() {
        ReadPlan plan = ReadPlan.of(List.of(SPEED, POSITION), description(125, POSITION, SPEED), ReadPlan.SMALL_GAP);
        assertThat(plan.blocks()).containsExactly(new Block(RegisterTable.HOLDING, 100, 4));
        assertThat(plan.slots()).containsExactly(new ReadPlan.Slot(SPEED, 0, 2), new ReadPlan.Slot(POSITION, 0, 0));
        assertThat(plan.bridges()).isFalse();
        assertThat(plan.slots().get(0).words(new int[] {1, 2, 3, 4})).containsExactly(3, 4);
    }

    @Test
    void aSmallGapIsBridgedOnlyIfAllowed() {
        DriveDescription description = description(125, POSITION, SPEED, STATUS);
        ReadPlan bridged = ReadPlan.of(List.of(POSITION, SPEED, STATUS), description, 6);
        assertThat(bridged.blocks()).containsExactly(new Block(RegisterTable.HOLDING, 100, 11));
        assertThat(bridged.bridges()).isTrue();
        for (int tooSmall : new int[] {0, 5}) {
            ReadPlan apart = ReadPlan.of(List.of(POSITION, SPEED, STATUS), description, tooSmall);
            assertThat(apart.blocks())
                    .containsExactly(
                            new Block(RegisterTable.HOLDING, 100, 4), new Block(RegisterTable.HOLDING, 110, 1));
            assertThat(apart.bridges()).isFalse();
        }
    }

    @Test
    void aDeclaredSignalBetweenIsNoGap() {
        ReadPlan plan = ReadPlan.of(
                List.of(POSITION, Signals.at("torque", RegisterTable.HOLDING, 104, ValueType.INT16)),
                description(125, POSITION, SPEED),
                0);
        assertThat(plan.blocks()).containsExactly(new Block(RegisterTable.HOLDING, 100, 5));
        assertThat(plan.bridges()).isFalse();
    }

    @Test
    void theLargestReadHoldsAndNoSignalIsTorn() {
        ReadPlan plan = ReadPlan.of(List.of(POSITION, SPEED), description(3, POSITION, SPEED), ReadPlan.SMALL_GAP);
        assertThat(plan.blocks())
                .containsExactly(new Block(RegisterTable.HOLDING, 100, 2), new Block(RegisterTable.HOLDING, 102, 2));
    }

    @Test
    void tablesAreReadApart() {
        SignalSpec input = Signals.at("torque", RegisterTable.INPUT, 104, ValueType.INT16);
        ReadPlan plan = ReadPlan.of(List.of(input, SPEED), description(125, SPEED, input), ReadPlan.SMALL_GAP);
        assertThat(plan.blocks())
                .containsExactly(new Block(RegisterTable.HOLDING, 102, 2), new Block(RegisterTable.INPUT, 104, 1));
        assertThat(plan.slots()).extracting(ReadPlan.Slot::block).containsExactly(1, 0);
    }

    @Test
    void theSameRegisterMayCarryTwoNames() {
        SignalSpec low = Signals.at("low", RegisterTable.HOLDING, 101, ValueType.UINT16);
        ReadPlan plan = ReadPlan.of(List.of(low, POSITION), description(125, POSITION, low), 0);
        assertThat(plan.blocks()).containsExactly(new Block(RegisterTable.HOLDING, 100, 2));
        assertThat(plan.slots()).extracting(ReadPlan.Slot::offset).containsExactly(1, 0);
    }

    @Test
    void nothingWantedIsNothingRead() {
        assertThat(ReadPlan.of(List.of(), description(125), 0).blocks()).isEmpty();
    }

    @Test
    void aSignalWiderThanTheLargestReadIsRefused() {
        assertThatThrownBy(() -> ReadPlan.of(List.of(POSITION), description(1, POSITION), 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("position: int32 needs 2 registers in one read, the drive type test allows 1");
        assertThatThrownBy(() -> ReadPlan.of(List.of(POSITION), description(2, POSITION), -1))
                .hasMessage("the gap must not be negative, got -1");
    }
}
