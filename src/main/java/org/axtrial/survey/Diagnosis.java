package org.axtrial.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.axtrial.registers.Expectation;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalSpec;

/**
 * Explains a value that does not read as expected: every other reading of the registers around it that would, the
 * likeliest first. Pure: words and expectation in, readings out.
 */
final class Diagnosis {

    private static final int MOST_SHOWN = 6;

    private Diagnosis() {}

    /**
     * The readings by which a value would be as expected. A reading that changes more than another that explains the
     * value as well is left out, and so is one whose registers are blank, because blank registers explain everything.
     *
     * @return at most six, the likeliest first; empty if nothing explains it
     */
    static List<Reading> explain(SignalSpec declared, Surroundings around, Expectation expected) {
        return explain(
                declared,
                layout -> around.words(layout)
                        .filter(words -> !Reading.isBlank(words))
                        .filter(words -> expected.isMetBy(layout, words))
                        .isPresent());
    }

    /**
     * The readings that fit, whatever that means, by the same order. Those that use only registers of the declared place
     * come before those that need others, because what stands beside a value fits by chance more often.
     */
    static List<Reading> explain(SignalSpec declared, Predicate<SignalSpec> fits) {
        List<Reading> fitting = Reading.others(declared).stream()
                .filter(reading -> fits.test(reading.layout()))
                .sorted(Comparator.comparingInt(
                                (Reading reading) -> reading.changes().size())
                        .thenComparing(reading -> !reading.isWithin(declared))
                        .thenComparingDouble(Reading::weight)
                        .thenComparingInt(reading -> Math.abs(reading.layout().address() - declared.address())))
                .toList();
        List<Reading> kept = new ArrayList<>();
        List<Set<Change>> sets = new ArrayList<>();
        for (Reading reading : fitting) {
            boolean needless = sets.stream()
                    .anyMatch(set -> set.size() < reading.changes().size()
                            && reading.changes().containsAll(set));
            if (!needless && kept.size() < MOST_SHOWN) {
                kept.add(reading);
                sets.add(reading.changes());
            }
        }
        return kept;
    }

    /** What a layout reads, printed; empty where the drive does not show its registers. */
    static Optional<String> value(SignalSpec layout, Surroundings around) {
        return around.words(layout).map(words -> Printing.number(RegisterCodec.decode(layout, words), layout));
    }
}
