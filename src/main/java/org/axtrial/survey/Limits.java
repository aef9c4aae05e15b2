package org.axtrial.survey;

import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;

/** Holds the limits that a description declares against the drive: largest read, watchdog, connections. */
final class Limits {

    private static final int ILLEGAL_VALUE = 3;
    /** The watchdog must not trip when one poll is lost and the next is late. Common practice, no source. */
    private static final int POLLS_IN_WATCHDOG = 3;

    private final LinkCheck.Subject subject;
    private final DriveDescription drive;
    private final Notes notes;

    Limits(LinkCheck.Subject subject, Notes notes) {
        this.subject = subject;
        this.drive = subject.drive();
        this.notes = notes;
    }

    void check(RegisterLink link, LinkCheck.Door door, boolean tryConnections) throws LinkException {
        largestRead(link);
        watchdog(link);
        connections(door, tryConnections);
    }

    /** Where the most declared registers stand between a first and a last one. */
    private record Span(RegisterTable table, int first, int end) {
        int length() {
            return end - first;
        }
    }

    private Span longestSpan() {
        List<SignalSpec> all = new ArrayList<>(drive.signals().values());
        all.addAll(drive.parameters());
        drive.identity().forEach(constant -> all.add(constant.signal()));
        Span longest = new Span(RegisterTable.HOLDING, 0, 0);
        for (RegisterTable table : RegisterTable.values()) {
            List<SignalSpec> here =
                    all.stream().filter(signal -> signal.table() == table).toList();
            if (!here.isEmpty()) {
                int first = here.stream().mapToInt(SignalSpec::address).min().getAsInt();
                int end = here.stream()
                        .mapToInt(signal -> signal.address() + signal.registers())
                        .max()
                        .getAsInt();
                Span span = new Span(table, first, end);
                longest = span.length() > longest.length() ? span : longest;
            }
        }
        return longest;
    }

    private void largestRead(RegisterLink link) throws LinkException {
        int declared = drive.maxReadRegisters();
        Span span = longestSpan();
        int count = Math.min(declared, span.length());
        int refused = tryRead(link, span, count);
        if (refused == 0) {
            notes.fact(
                    "Largest block read",
                    count == declared
                            ? declared + " registers, as declared"
                            : count + " registers, all that the map holds in a row; " + declared + " are declared");
        } else if (refused == ILLEGAL_VALUE) {
            int works = largestThatWorks(link, span, count);
            KeyPlaces.Written place = subject.places()
                    .at("maxReadRegisters")
                    .or(() -> subject.places().at("type"))
                    .orElse(new KeyPlaces.Written("", 0, ""));
            boolean given = subject.places().at("maxReadRegisters").isPresent();
            notes.fact("Largest block read", works + " registers, " + declared + " are declared");
            notes.wrong(
                    "Exception 03 to a read of " + count + " registers: the drive allows " + works + " in one read, the"
                            + " description says " + declared,
                    List.of(),
                    List.of(new Correction(
                                    place.file(),
                                    place.line(),
                                    "maxReadRegisters",
                                    given ? Integer.toString(declared) : "",
                                    Integer.toString(works))
                            .printed()));
        } else {
            notes.fact(
                    "Largest block read",
                    String.format(
                            Locale.ROOT,
                            "not tried: the drive does not show registers between the declared ones (exception %02X)",
                            refused));
        }
    }

    private static int largestThatWorks(RegisterLink link, Span span, int refused) throws LinkException {
        int works = 0;
        int fails = refused;
        while (fails - works > 1) {
            int middle = (works + fails) / 2;
            if (tryRead(link, span, middle) == 0) {
                works = middle;
            } else {
                fails = middle;
            }
        }
        return works;
    }

    /** The exception code that a read gets; 0 if it works. */
    private static int tryRead(RegisterLink link, Span span, int count) throws LinkException {
        try {
            link.read(span.table().readFunction(), span.first(), count);
            return 0;
        } catch (DriveRefusedException e) {
            return e.code();
        }
    }

    private void watchdog(RegisterLink link) throws LinkException {
        Optional<DriveDescription.Watchdog> declared = drive.watchdog();
        if (declared.isEmpty()) {
            notes.fact("Communication watchdog", "none declared: the drive goes on when the link is lost");
            return;
        }
        Duration timeout = declared.get().timeout();
        Optional<SignalSpec> signal = declared.get().signal();
        if (signal.isEmpty()) {
            notes.fact("Communication watchdog", print(timeout) + " as declared; the drive does not tell it");
        } else {
            Optional<Duration> read = readTime(link, signal.get());
            if (read.isEmpty()) {
                return;
            }
            notes.fact("Communication watchdog", print(read.get()) + " as read, " + print(timeout) + " as declared");
            if (read.get().isZero()) {
                notes.wrong(
                        "The communication watchdog is switched off in the drive (it reads 0); the description says "
                                + print(timeout) + ". A lost link would not stop the axis");
                return;
            }
            // A hundredth covers the rounding of the register.
            if (Math.abs(read.get().toNanos() - timeout.toNanos()) > timeout.toNanos() / 100) {
                notes.wrong("The communication watchdog reads " + print(read.get()) + ", the description says "
                        + print(timeout) + ". Correct watchdog.timeout, or the drive");
            }
            timeout = read.get();
        }
        Duration safe = timeout.dividedBy(POLLS_IN_WATCHDOG);
        notes.fact("Largest safe poll period", print(safe) + ", a third of the watchdog");
        if (subject.samplePeriod().compareTo(safe) > 0) {
            notes.notProven("samplePeriod is " + print(subject.samplePeriod()) + ", above a third of the watchdog ("
                    + print(safe) + "): one lost poll could trip the drive. Shorten it");
        }
    }

    private Optional<Duration> readTime(RegisterLink link, SignalSpec signal) throws LinkException {
        try {
            int[] words = link.read(signal.table().readFunction(), signal.address(), signal.registers())
                    .words();
            double value = RegisterCodec.decode(signal, words);
            Unit unit = signal.unit().dimension() == Dimension.TIME ? signal.unit() : Unit.MILLISECOND;
            double micros = unit.convert(value, Unit.MICROSECOND);
            if (!(micros >= 0) || micros > 1e15) {
                notes.wrong("The communication watchdog reads " + Printing.number(value, signal) + " at "
                        + signal.place() + ", which is no time");
                return Optional.empty();
            }
            return Optional.of(Duration.ofNanos(Math.round(micros * 1_000)));
        } catch (DriveRefusedException e) {
            notes.wrong("The communication watchdog cannot be read: " + e.getMessage());
            return Optional.empty();
        }
    }

    private static String print(Duration time) {
        return Printing.number(time.toNanos() / 1e6) + " ms";
    }

    private void connections(LinkCheck.Door door, boolean tryThem) {
        int declared = drive.maxConnections();
        if (!tryThem) {
            notes.fact("Connections allowed", declared + " as declared, not tried");
            return;
        }
        SignalSpec probe = drive.signal(SignalNames.STATUS);
        Deque<RegisterLink> open = new ArrayDeque<>();
        // The check itself holds one.
        int working = 1;
        try {
            while (working < declared) {
                RegisterLink more = door.open(subject.unit());
                open.push(more);
                more.read(probe.table().readFunction(), probe.address(), probe.registers());
                working++;
            }
        } catch (LinkException e) {
            notes.wrong("The drive allows " + working + " connections at once, the description says " + declared
                    + "; or another master holds some of them (" + e.getMessage() + ")");
        } finally {
            open.forEach(RegisterLink::close);
        }
        notes.fact("Connections allowed", working + " tried at once, " + declared + " declared");
    }
}
