package org.axtrial.registers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** Every plan is sound, and none is longer than the best one that trying all of them finds. */
class ReadPlanPropertiesTest {

    @Property
    void soundAndShortest(
            @ForAll @Size(min = 1, max = 8) List<@IntRange(min = 0, max = 11) Integer> steps,
            @ForAll @IntRange(min = 2, max = 20) int most,
            @ForAll @IntRange(min = 0, max = 8) int gap) {
        List<SignalSpec> signals = signals(steps);
        ReadPlan plan = ReadPlan.of(signals, ReadPlanTest.description(most, signals.toArray(SignalSpec[]::new)), gap);

        assertThat(plan.blocks()).allMatch(block -> block.count() <= most);
        assertThat(plan.slots()).extracting(ReadPlan.Slot::signal).containsExactlyElementsOf(signals);
        for (ReadPlan.Slot slot : plan.slots()) {
            ReadPlan.Block block = plan.blocks().get(slot.block());
            assertThat(block.address() + slot.offset()).isEqualTo(slot.signal().address());
            assertThat(slot.offset() + slot.signal().registers()).isLessThanOrEqualTo(block.count());
        }
        assertThat(plan.blocks()).hasSize(fewest(signals, most, gap));
    }

    /** Signals of one or two registers one after the other; a step is a gap of 0 … 11 registers before each. */
    private static List<SignalSpec> signals(List<Integer> steps) {
        List<SignalSpec> signals = new ArrayList<>();
        int address = 0;
        for (int step : steps) {
            address += step;
            ValueType type = step % 2 == 0 ? ValueType.INT16 : ValueType.INT32;
            signals.add(Signals.at("s" + signals.size(), RegisterTable.HOLDING, address, type));
            address += type.registers();
        }
        return signals;
    }

    /** Every way to cut the row into blocks, by dynamic programming from the end. */
    private static int fewest(List<SignalSpec> signals, int most, int gap) {
        int[] best = new int[signals.size() + 1];
        for (int from = signals.size() - 1; from >= 0; from--) {
            best[from] = Integer.MAX_VALUE;
            int end = signals.get(from).address();
            for (int to = from; to < signals.size(); to++) {
                SignalSpec next = signals.get(to);
                if (next.address() - end > gap
                        || next.address() + next.registers() - signals.get(from).address() > most) {
                    break;
                }
                end = next.address() + next.registers();
                best[from] = Math.min(best[from], 1 + best[to + 1]);
            }
        }
        return best[0];
    }
}
