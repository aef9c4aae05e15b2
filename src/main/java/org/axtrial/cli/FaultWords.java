package org.axtrial.cli;

import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;
import org.axtrial.site.FaultKind;
import org.axtrial.site.FaultKind.Need;

/** Reads a fault of the wire as it is typed: its kind by the words of the site file, then what it needs to be told. */
final class FaultWords {

    private static final int MOST = 1_000_000_000;

    /** What may follow the kind. */
    private enum Detail {
        BY,
        CODE,
        ATTEMPTS,
        FUNCTION,
        AFTER,
        TIMES;

        String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        static Optional<Detail> of(String word) {
            return List.of(values()).stream()
                    .filter(detail -> detail.word().equalsIgnoreCase(word))
                    .findFirst();
        }

        static List<String> words() {
            return List.of(values()).stream().map(Detail::word).toList();
        }
    }

    private FaultWords() {}

    /**
     * Reads a fault.
     *
     * @param words what was typed behind the axis
     * @throws WrongUseException saying what is wrong and what would do
     */
    static WireFault read(List<String> words) {
        FaultKind kind = kind(words);
        int used = kind.word().split(" ").length;
        Map<Detail, String> details = details(words.subList(used, words.size()));
        only(kind, details, Detail.BY, Need.TIME);
        only(kind, details, Detail.CODE, Need.CODE);
        only(kind, details, Detail.ATTEMPTS, Need.ATTEMPTS);
        Strikes strikes = new Strikes(
                number(details, Detail.FUNCTION, 1, 127).orElse(WireFault.ANY_FUNCTION),
                number(details, Detail.AFTER, 0, MOST).orElse(0),
                number(details, Detail.TIMES, 1, MOST).orElse(kind.usualCount()));
        return kind.make(
                strikes,
                Optional.ofNullable(details.get(Detail.BY)).map(FaultWords::time),
                number(details, Detail.CODE, 1, 255),
                number(details, Detail.ATTEMPTS, 1, MOST).orElse(1));
    }

    private static FaultKind kind(List<String> words) {
        if (words.isEmpty()) {
            throw new WrongUseException("which fault? " + String.join(", ", FaultKind.words()));
        }
        for (FaultKind kind : FaultKind.values()) {
            List<String> own = List.of(kind.word().split(" "));
            if (words.size() >= own.size()
                    && String.join(" ", words.subList(0, own.size())).equalsIgnoreCase(kind.word())) {
                return kind;
            }
        }
        String two = String.join(" ", words.subList(0, Math.min(2, words.size())));
        String hint = NearMiss.find(two, FaultKind.words())
                .or(() -> NearMiss.find(words.get(0), FaultKind.words()))
                .map(near -> "did you mean \"" + near + "\"?")
                .orElseGet(() -> "known: " + String.join(", ", FaultKind.words()));
        throw new WrongUseException("no fault is named \"" + two + "\"; " + hint);
    }

    private static Map<Detail, String> details(List<String> words) {
        Map<Detail, String> details = new EnumMap<>(Detail.class);
        for (int at = 0; at < words.size(); ) {
            String word = words.get(at);
            Detail detail = Detail.of(word)
                    .orElseThrow(() -> new WrongUseException("\"" + word + "\" does not belong to a fault; "
                            + NearMiss.hintOrAll(word, Detail.words())));
            List<String> value = new ArrayList<>();
            for (at++; at < words.size() && Detail.of(words.get(at)).isEmpty() && value.size() < 2; at++) {
                value.add(words.get(at));
                if (detail != Detail.BY) {
                    at++;
                    break;
                }
            }
            if (value.isEmpty()) {
                throw new WrongUseException(
                        "\"" + detail.word() + "\" needs a " + (detail == Detail.BY ? "time" : "number"));
            }
            if (details.put(detail, String.join(" ", value)) != null) {
                throw new WrongUseException("\"" + detail.word() + "\" stands twice");
            }
        }
        return details;
    }

    private static void only(FaultKind kind, Map<Detail, String> details, Detail detail, Need need) {
        boolean needed = kind.need() == need;
        if (details.containsKey(detail) && !needed) {
            throw new WrongUseException("\"" + kind.word() + "\" has no " + detail.word() + "; leave it out");
        }
        if (needed && need != Need.ATTEMPTS && !details.containsKey(detail)) {
            String example = need == Need.TIME ? "by 200 ms" : "code 6";
            throw new WrongUseException("\"" + kind.word() + "\" needs " + detail.word() + ", for example " + example);
        }
    }

    private static OptionalInt number(Map<Detail, String> details, Detail detail, int least, int most) {
        String text = details.get(detail);
        return text == null ? OptionalInt.empty() : OptionalInt.of(number(detail.word(), text, least, most));
    }

    /**
     * A whole number, decimal or with 0x in front.
     *
     * @throws WrongUseException if it is none, or out of its range
     */
    static int number(String what, String text, int least, int most) {
        boolean hexadecimal = text.regionMatches(true, 0, "0x", 0, 2);
        try {
            int number = hexadecimal ? Integer.parseInt(text.substring(2), 16) : Integer.parseInt(text);
            if (number >= least && number <= most) {
                return number;
            }
        } catch (NumberFormatException e) {
            throw new WrongUseException(what + " is a whole number such as " + least + " or 0x"
                    + Integer.toHexString(least) + ", found \"" + text + "\"");
        }
        throw new WrongUseException(what + " is " + least + " … " + most + ", found " + text);
    }

    /**
     * A time that a fault may have.
     *
     * @throws WrongUseException if it is none, or too short or too long
     */
    static Duration time(String text) {
        Quantity quantity = quantity(text);
        if (quantity.unit().dimension() != Dimension.TIME) {
            throw new WrongUseException("expected a time such as \"50 ms\", found \"" + text + "\"");
        }
        double micros = quantity.in(Unit.MICROSECOND);
        if (!(micros >= FaultKind.SHORTEST.toNanos() / 1e3 && micros <= FaultKind.LONGEST.toNanos() / 1e3)) {
            throw new WrongUseException("expected a time from 1 us to 60 min, found \"" + text + "\"");
        }
        return Duration.ofNanos(Math.round(micros * 1e3));
    }

    /**
     * A number and a unit.
     *
     * @throws WrongUseException if the text is something else
     */
    static Quantity quantity(String text) {
        try {
            return Quantity.parse(text);
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
    }
}
