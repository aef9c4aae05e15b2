package org.axtrial.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.Expectation;
import org.axtrial.registers.SignalSpec;

/**
 * Holds every value with an expectation against the drive and looks for one cause that explains all that is wrong. Reads
 * only.
 */
final class MapCheck {

    private final List<ValueCheck> checks;
    private final Optional<Signature> cause;

    /** What two readings of different values have in common when they have the same cause. */
    private record Signature(Set<Change> changes, int step, boolean tenTimes) {

        static Signature of(ValueCheck check, Reading reading) {
            return new Signature(
                    reading.changes(),
                    Integer.compare(reading.layout().address(), check.declared().address()),
                    reading.changes().contains(Change.SCALE)
                            && Math.abs(reading.layout().scale())
                                    > Math.abs(check.declared().scale()));
        }
    }

    private MapCheck(List<ValueCheck> checks) {
        this.checks = checks;
        this.cause = commonCause(checks.stream().filter(ValueCheck::isWrong).toList());
    }

    /**
     * Reads the constants and whatever has a plausible range.
     *
     * @throws LinkException if the link is lost
     */
    static MapCheck read(RegisterLink link, DriveDescription drive) throws LinkException {
        List<ValueCheck> checks = new ArrayList<>();
        for (DriveDescription.IdentityConstant constant : drive.identity()) {
            checks.add(check(
                    link,
                    drive,
                    "identity." + constant.signal().name(),
                    constant.signal(),
                    Expectation.of(constant.expected())));
        }
        for (Map.Entry<String, Expectation> entry : drive.expectations().entrySet()) {
            String name = entry.getKey();
            SignalSpec declared = drive.value(name)
                    .orElseThrow(() -> new IllegalArgumentException("an expectation for an unknown value " + name));
            String block = drive.has(name) ? "signals." : "parameters.";
            checks.add(check(link, drive, block + name, declared, entry.getValue()));
        }
        return new MapCheck(checks);
    }

    private static ValueCheck check(
            RegisterLink link, DriveDescription drive, String path, SignalSpec declared, Expectation expected)
            throws LinkException {
        return ValueCheck.of(path, declared, expected, Surroundings.read(link, declared, drive.maxReadRegisters()));
    }

    List<ValueCheck> checks() {
        return checks;
    }

    List<ValueCheck> wrong() {
        return checks.stream().filter(ValueCheck::isWrong).toList();
    }

    /** What the constants that read as expected prove, the best of them. */
    Proof proof() {
        return checks.stream()
                .filter(check -> check.state() == ValueCheck.State.AS_EXPECTED && check.isConstant())
                .map(check ->
                        Proof.of(check.declared(), check.expected().constant().orElse(0)))
                .reduce(Proof.NOTHING, (one, other) -> one.compareTo(other) > 0 ? one : other);
    }

    /**
     * Whether what is wrong looks like another drive: no constant reads as expected, and no other reading of the
     * registers explains any of them.
     */
    boolean isAnotherDrive() {
        List<ValueCheck> constants = checks.stream()
                .filter(ValueCheck::isConstant)
                .filter(check -> check.state() != ValueCheck.State.PROVES_NOTHING)
                .toList();
        return !constants.isEmpty()
                && constants.stream()
                        .allMatch(
                                check -> check.isWrong() && check.explanations().isEmpty());
    }

    /** The one cause that explains every value that is wrong, told; empty if there is none or only one is wrong. */
    Optional<String> causeTold() {
        if (wrong().size() < 2) {
            return Optional.empty();
        }
        return cause.map(signature -> {
            Set<Change> changes = signature.changes();
            List<String> parts = new ArrayList<>();
            if (changes.contains(Change.ADDRESS)) {
                parts.add(
                        signature.step() < 0
                                ? "every value stands one register lower: the numbers may be one-based references that"
                                        + " were written as addresses"
                                : "every value stands one register higher: the numbers may be zero-based addresses that"
                                        + " were written as references");
            }
            if (changes.contains(Change.WORD_ORDER)) {
                parts.add("the words stand the other way round in the whole map");
            }
            if (changes.contains(Change.BYTE_ORDER)) {
                parts.add("the bytes stand the other way round in the whole map");
            }
            if (changes.contains(Change.TABLE)) {
                parts.add("the values stand in the other table (function 03 against 04)");
            }
            if (parts.isEmpty()) {
                parts.add("all of them have the same cause");
            }
            return "One cause explains all " + wrong().size() + " values that are wrong: "
                    + String.join(", and ", parts);
        });
    }

    /** The likeliest reading of a value that is wrong: the common cause if there is one, else its own best. */
    Optional<Reading> best(ValueCheck check) {
        return explanations(check).stream().findFirst();
    }

    /**
     * Other readings that explain a value, the likeliest first, in the light of all values: what they have in common
     * comes first, and an order of words or bytes that another value proves to be right comes last.
     */
    List<Reading> explanations(ValueCheck check) {
        List<Reading> ranked = new ArrayList<>(check.explanations());
        ranked.sort(Comparator.comparingInt(reading -> rank(check, reading)));
        return ranked;
    }

    private int rank(ValueCheck check, Reading reading) {
        if (cause.filter(signature ->
                        wrong().size() > 1 && Signature.of(check, reading).equals(signature))
                .isPresent()) {
            return 0;
        }
        boolean turnsOrders = reading.changes().contains(Change.WORD_ORDER)
                || reading.changes().contains(Change.BYTE_ORDER);
        return turnsOrders && !ordersHoldForAll(check, reading) ? 2 : 1;
    }

    /** The lines to change for a value that is wrong. */
    List<Correction> corrections(ValueCheck check, KeyPlaces places) {
        return best(check)
                .map(reading -> new Corrections(places)
                        .of(check.path(), check.declared(), reading, ordersHoldForAll(check, reading)))
                .orElse(List.of());
    }

    /** An order of words or bytes is the map's unless another value proves the map's order to be right. */
    private boolean ordersHoldForAll(ValueCheck wrong, Reading reading) {
        boolean words = reading.changes().contains(Change.WORD_ORDER);
        return checks.stream()
                .filter(check -> !check.path().equals(wrong.path())
                        && check.state() == ValueCheck.State.AS_EXPECTED
                        && check.isConstant())
                .filter(check -> !words || check.declared().registers() > 1)
                .filter(check -> check.declared().wordOrder()
                                == wrong.declared().wordOrder()
                        && check.declared().byteOrder() == wrong.declared().byteOrder())
                .findAny()
                .isEmpty();
    }

    private static Optional<Signature> commonCause(List<ValueCheck> wrong) {
        Map<Signature, Integer> votes = new LinkedHashMap<>();
        Map<Signature, Double> weights = new LinkedHashMap<>();
        for (ValueCheck check : wrong) {
            check.explanations().stream()
                    .peek(reading -> weights.putIfAbsent(Signature.of(check, reading), reading.weight()))
                    .map(reading -> Signature.of(check, reading))
                    .distinct()
                    .forEach(signature -> votes.merge(signature, 1, Integer::sum));
        }
        return votes.entrySet().stream()
                .filter(entry -> entry.getValue() == wrong.size())
                .map(Map.Entry::getKey)
                .min((one, other) -> Double.compare(weights.getOrDefault(one, 0.0), weights.getOrDefault(other, 0.0)));
    }
}
