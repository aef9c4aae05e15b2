package org.axtrial.survey;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.registers.Expectation;
import org.axtrial.registers.SignalSpec;

/**
 * One value held against what its description expects.
 *
 * @param path path of its block in the description, for example {@code identity.productCode}
 * @param declared how the description reads it
 * @param expected what it ought to read
 * @param state what came out
 * @param around the words around its place
 * @param explanations other readings that would be as expected, the likeliest first
 */
record ValueCheck(
        String path,
        SignalSpec declared,
        Expectation expected,
        State state,
        Surroundings around,
        List<Reading> explanations) {

    /** What came out. */
    enum State {
        AS_EXPECTED,
        /** It may read as expected, but that would prove nothing. */
        PROVES_NOTHING,
        OTHERWISE,
        /** The drive refuses to show it. */
        REFUSED
    }

    ValueCheck {
        explanations = List.copyOf(explanations);
    }

    static ValueCheck of(String path, SignalSpec declared, Expectation expected, Surroundings around) {
        if (expected.constant().isPresent()
                && Proof.of(declared, expected.constant().getAsDouble()) == Proof.NOTHING) {
            return new ValueCheck(path, declared, expected, State.PROVES_NOTHING, around, List.of());
        }
        State state = around.words(declared)
                .map(words -> expected.isMetBy(declared, words) ? State.AS_EXPECTED : State.OTHERWISE)
                .orElse(State.REFUSED);
        return new ValueCheck(
                path,
                declared,
                expected,
                state,
                around,
                state == State.AS_EXPECTED ? List.of() : Diagnosis.explain(declared, around, expected));
    }

    boolean isWrong() {
        return state == State.OTHERWISE || state == State.REFUSED;
    }

    boolean isConstant() {
        return expected.constant().isPresent();
    }

    /** What was read and what was expected, with the raw words. */
    String told() {
        String name = declared.name() + " at " + declared.place();
        String wanted = isConstant()
                ? "expected " + Printing.number(expected.constant().getAsDouble(), declared)
                : "expected " + Printing.number(expected.lowest().orElse(0)) + " … "
                        + Printing.number(expected.highest().orElse(0), declared);
        return switch (state) {
            case PROVES_NOTHING -> Proof.refusal(declared, expected.constant().orElse(0));
            case REFUSED -> name + " is refused by the drive; " + wanted;
            case AS_EXPECTED, OTHERWISE ->
                name + " reads " + Surroundings.hex(around.words(declared).orElse(new int[0])) + " = "
                        + Diagnosis.value(declared, around).orElse("nothing") + "; " + wanted;
        };
    }

    /** One explanation in the words of the field. */
    String told(Reading reading) {
        SignalSpec layout = reading.layout();
        return how(declared, reading) + ", it reads "
                + Surroundings.hex(around.words(layout).orElse(new int[0])) + " = "
                + Diagnosis.value(layout, around).orElse("nothing")
                + (isConstant() ? ", as expected" : ", which is plausible");
    }

    /** How a reading differs from the declared one. */
    static String how(SignalSpec declared, Reading reading) {
        SignalSpec layout = reading.layout();
        List<String> how = new ArrayList<>();
        if (layout.address() != declared.address()) {
            how.add("one register " + (layout.address() < declared.address() ? "lower" : "higher") + ", at "
                    + layout.place());
        }
        if (layout.table() != declared.table()) {
            how.add("in the " + Corrections.name(layout.table()) + " registers, at " + layout.place());
        }
        if (layout.type() != declared.type()) {
            how.add("as " + layout.type().spelling() + " instead of "
                    + declared.type().spelling());
        }
        if (reading.changes().contains(Change.WORD_ORDER)) {
            how.add("with the words swapped");
        }
        if (reading.changes().contains(Change.BYTE_ORDER)) {
            how.add("with the bytes swapped");
        }
        if (reading.changes().contains(Change.SCALE)) {
            how.add(Math.abs(layout.scale()) > Math.abs(declared.scale()) ? "times ten" : "divided by ten");
        }
        return String.join(", ", how);
    }
}
