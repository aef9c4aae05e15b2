package org.axtrial.cli;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;
import org.axtrial.site.FaultKind;
import org.axtrial.site.ServedAxis;

/** The words that may be typed while simulated drives are served. */
final class SimulatorWords {

    private static final String ALL = "all";
    private static final int LAST_FAULT_CODE = 0xFFFF;

    /** A word with how it is used and what it does. */
    private enum Word {
        SLOW("slow AXIS TIME", "every reply takes so much longer; 0 ms ends it"),
        FREEZE("freeze AXIS", "reads show what they show now, while the drive goes on"),
        THAW("thaw AXIS", "ends freeze"),
        FAULT("fault AXIS KIND …", "a fault of the wire, see below"),
        CLEAR("clear AXIS", "lifts every fault of the wire; a trip stays, as in a drive"),
        TRIP("trip AXIS CODE", "trips the drive with a fault code, such as 0x7500"),
        TURN("turn AXIS WAY", "turns the axis by hand, such as 30 deg; not under torque"),
        LIST("list", "every drive with all of its line"),
        HELP("help", "this"),
        QUIT("quit", "ends the drives");

        private final String usage;
        private final String does;

        Word(String usage, String does) {
            this.usage = usage;
            this.does = does;
        }

        String spelled() {
            return name().toLowerCase(Locale.ROOT);
        }

        static List<String> all() {
            return Arrays.stream(values()).map(Word::spelled).toList();
        }
    }

    /**
     * What came of a typed line.
     *
     * @param lines what to say
     * @param errors what went wrong
     * @param quit whether the drives shall end
     */
    record Answer(List<String> lines, List<String> errors, boolean quit) {

        private static Answer said(List<String> lines) {
            return new Answer(lines, List.of(), false);
        }
    }

    /** Something done to one axis; what it throws is told for that axis. */
    private interface Deed {
        void to(ServedAxis axis);
    }

    private final Map<String, ServedAxis> axes = new LinkedHashMap<>();
    private final DriveBoard board;

    SimulatorWords(List<ServedAxis> served, DriveBoard board) {
        served.forEach(axis -> axes.put(axis.name(), axis));
        this.board = board;
    }

    /** Does what a line says; an empty line does nothing. */
    Answer obey(String line) {
        List<String> typed = List.of(line.strip().split("\\s+"));
        if (typed.get(0).isEmpty()) {
            return Answer.said(List.of());
        }
        try {
            return obey(word(typed.get(0)), typed.subList(1, typed.size()));
        } catch (WrongUseException e) {
            return new Answer(List.of(), List.of(String.valueOf(e.getMessage())), false);
        }
    }

    private static Word word(String typed) {
        return Arrays.stream(Word.values())
                .filter(word -> word.spelled().equalsIgnoreCase(typed))
                .findFirst()
                .orElseThrow(() -> new WrongUseException(
                        "\"" + typed + "\" is no word here; " + NearMiss.hintOrAll(typed, Word.all())));
    }

    private Answer obey(Word word, List<String> rest) {
        return switch (word) {
            case LIST -> Answer.said(alone(word, rest, board.list()));
            case HELP -> Answer.said(alone(word, rest, help()));
            case QUIT -> new Answer(alone(word, rest, List.of()), List.of(), true);
            case SLOW -> slow(axes(word, rest), behind(word, rest, 1));
            case FREEZE -> {
                nothingMore(word, rest);
                yield each(axes(word, rest), "reads are frozen", axis -> {
                    axis.lift(WireFault.FrozenValues.class::isInstance);
                    axis.fault(new WireFault.FrozenValues(Strikes.FROM_NOW_ON));
                });
            }
            case THAW -> {
                nothingMore(word, rest);
                yield each(
                        axes(word, rest),
                        "reads are live",
                        axis -> axis.lift(WireFault.FrozenValues.class::isInstance));
            }
            case CLEAR -> {
                nothingMore(word, rest);
                yield each(axes(word, rest), "no fault of the wire", ServedAxis::clear);
            }
            case FAULT -> {
                List<ServedAxis> struck = axes(word, rest);
                WireFault fault = FaultWords.read(rest.subList(1, rest.size()));
                yield each(struck, FaultKind.of(fault).word() + strikes(fault.strikes()), axis -> axis.fault(fault));
            }
            case TRIP -> {
                List<ServedAxis> tripped = axes(word, rest);
                int code = FaultWords.number("a fault code", behind(word, rest, 1), 1, LAST_FAULT_CODE);
                yield each(tripped, String.format(Locale.ROOT, "tripped by 0x%04X", code), axis -> axis.trip(code));
            }
            case TURN -> {
                List<ServedAxis> turned = axes(word, rest);
                Quantity way = FaultWords.quantity(behind(word, rest, 1));
                yield each(turned, "turned by " + way, axis -> axis.turnByHand(way));
            }
        };
    }

    private Answer slow(List<ServedAxis> slowed, String text) {
        boolean end = FaultWords.quantity(text).value() == 0;
        Optional<Duration> by = end ? Optional.empty() : Optional.of(FaultWords.time(text));
        String told = by.map(time -> "replies take " + text + " longer").orElse("replies come in their own time");
        return each(slowed, told, axis -> {
            axis.lift(WireFault.SlowDrive.class::isInstance);
            by.ifPresent(time -> axis.fault(new WireFault.SlowDrive(time)));
        });
    }

    private static String strikes(Strikes strikes) {
        String after = strikes.after() > 0 ? " after " + strikes.after() + " requests" : "";
        String count = strikes.count() == WireFault.WITHOUT_END
                ? " until cleared"
                : strikes.count() == 1 ? ", once" : ", " + strikes.count() + " times";
        return after + count;
    }

    private static <T> T alone(Word word, List<String> rest, T value) {
        if (!rest.isEmpty()) {
            throw new WrongUseException(usage(word));
        }
        return value;
    }

    private static void nothingMore(Word word, List<String> rest) {
        if (rest.size() > 1) {
            throw new WrongUseException(usage(word));
        }
    }

    /** What stands behind the axis. */
    private static String behind(Word word, List<String> rest, int from) {
        if (rest.size() <= from) {
            throw new WrongUseException(usage(word));
        }
        return String.join(" ", rest.subList(from, rest.size()));
    }

    private static String usage(Word word) {
        return "say: " + word.usage;
    }

    private List<ServedAxis> axes(Word word, List<String> rest) {
        if (rest.isEmpty()) {
            throw new WrongUseException(usage(word) + "; AXIS is " + ALL + " or one of " + some());
        }
        String name = rest.get(0);
        if (name.equalsIgnoreCase(ALL)) {
            return List.copyOf(axes.values());
        }
        return axes.values().stream()
                .filter(axis -> axis.name().equalsIgnoreCase(name))
                .findFirst()
                .map(List::of)
                .orElseThrow(() -> new WrongUseException("no axis is named \"" + name + "\"; "
                        + NearMiss.find(name, axes.keySet())
                                .map(near -> "did you mean \"" + near + "\"?")
                                .orElseGet(() -> "there are " + ALL + ", " + some())));
    }

    /** The names, but not a screen full of them. */
    private String some() {
        int most = 6;
        String names = String.join(", ", axes.keySet().stream().limit(most).toList());
        return axes.size() > most ? names + ", … (list shows all)" : names;
    }

    private static Answer each(List<ServedAxis> chosen, String told, Deed deed) {
        List<String> done = new ArrayList<>();
        Map<String, List<String>> refused = new LinkedHashMap<>();
        for (ServedAxis axis : chosen) {
            try {
                deed.to(axis);
                done.add(axis.name());
            } catch (IllegalArgumentException | IllegalStateException e) {
                refused.computeIfAbsent(String.valueOf(e.getMessage()), why -> new ArrayList<>())
                        .add(axis.name());
            }
        }
        List<String> errors = new ArrayList<>();
        refused.forEach((why, names) -> errors.add(who(names) + ": " + why));
        return new Answer(done.isEmpty() ? List.of() : List.of(who(done) + ": " + told), errors, false);
    }

    private static String who(List<String> names) {
        return names.size() == 1 ? names.get(0) : names.size() + " axes";
    }

    private static List<String> help() {
        List<String> lines = new ArrayList<>();
        for (Word word : Word.values()) {
            lines.add(String.format(Locale.ROOT, "  %-18s %s", word.usage, word.does));
        }
        lines.add("AXIS is a name, or " + ALL + ".");
        lines.add("KIND is one of these, then [function N] [after N] [times N]:");
        for (FaultKind kind : FaultKind.values()) {
            String need = switch (kind.need()) {
                case NOTHING -> "";
                case TIME -> " by TIME";
                case CODE -> " code N";
                case ATTEMPTS -> " [attempts N]";
            };
            String lasting = kind.usualCount() == 1 ? "" : ", until cleared unless times is given";
            lines.add("  " + kind.word() + need + lasting);
        }
        return lines;
    }
}
