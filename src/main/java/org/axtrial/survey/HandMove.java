package org.axtrial.survey;

import java.util.List;
import java.util.stream.Stream;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DriveState;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.AxisScale;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.TimeSource;

/**
 * Proves the position register by a move that a person makes by hand, both ways: sense, size, and that it moves at all.
 * Reads only, and refuses a drive that gives torque.
 */
public final class HandMove {

    /** A hand is no gauge: half as far and twice as far still count as about right. Common practice, no source. */
    private static final double LEAST = 0.5;

    private static final double MOST = 2;

    private final LinkCheck.Subject subject;
    private final SignalSpec position;
    private final double expected;
    private final Notes notes = new Notes();

    /** Whoever turns the shaft. */
    @FunctionalInterface
    public interface Hand {

        /**
         * Asks for a turn and waits until it has been made.
         *
         * @param instruction what to do, for a person
         * @param loadTurns revolutions at the load, positive in the positive direction of the axis
         * @return false if nobody is there to do it
         */
        boolean turn(String instruction, double loadTurns);
    }

    private HandMove(LinkCheck.Subject subject, AxisScale scale, double loadTurns) {
        if (!(loadTurns > 0) || loadTurns > 1000) {
            throw new IllegalArgumentException("turns by hand are above 0, up to 1000, got " + loadTurns);
        }
        this.subject = subject;
        this.position = subject.drive().signal(SignalNames.POSITION);
        this.expected = loadTurns * scale.countsPerLoadRevolution() * scale.direction();
    }

    /**
     * Watches a move by hand and adds what it shows.
     *
     * @param link what the look at the link has found so far
     * @param scale of the axis
     * @param loadTurns how many revolutions at the load to ask for, above 0
     * @param registers a connection that stands
     */
    public static LinkRecord watch(
            LinkRecord link,
            LinkCheck.Subject subject,
            AxisScale scale,
            double loadTurns,
            RegisterLink registers,
            Hand hand,
            TimeSource time) {
        HandMove move = new HandMove(subject, scale, loadTurns);
        boolean proven = move.watch(registers, loadTurns, hand, time);
        LinkRecord seen = move.notes.record(link.axis(), link.peer());
        List<LinkRecord.Finding> before = link.findings().stream()
                .filter(finding -> !proven || !finding.text().startsWith(LinkCheck.WORD_ORDER_OPEN))
                .toList();
        return LinkRecord.of(
                link.axis(),
                link.peer(),
                Stream.concat(link.facts().stream(), seen.facts().stream()).toList(),
                Stream.concat(before.stream(), seen.findings().stream()).toList());
    }

    private boolean watch(RegisterLink registers, double loadTurns, Hand hand, TimeSource time) {
        try {
            if (Drive.over(registers, subject.drive(), time).sample().state().phase() == DriveState.Phase.ENABLED) {
                notes.notProven(
                        "Not moved by hand: the drive gives torque. Switch it off, secure the load, and repeat");
                return false;
            }
            Surroundings before = look(registers);
            if (!hand.turn(ask(loadTurns, "positive"), loadTurns)) {
                notes.notProven("Not moved by hand: nobody was there to do it");
                return false;
            }
            Surroundings away = look(registers);
            if (!hand.turn(ask(loadTurns, "negative") + ", back to where it was", -loadTurns)) {
                notes.notProven("Moved by hand one way only: nobody was there to move it back");
                return false;
            }
            return judge(before, away, look(registers));
        } catch (DriveException | LinkException e) {
            notes.notProven("Not moved by hand: " + e.getMessage());
            return false;
        }
    }

    private String ask(double loadTurns, String way) {
        return "Axis " + subject.axis() + ": move it by hand by about "
                + Printing.number(loadTurns)
                + (loadTurns == 1 ? " turn" : " turns") + " of the load in the " + way + " direction";
    }

    private Surroundings look(RegisterLink registers) throws LinkException {
        return Surroundings.read(registers, position, subject.drive().maxReadRegisters());
    }

    private boolean judge(Surroundings before, Surroundings away, Surroundings back) {
        double out = difference(position, before, away);
        double home = difference(position, away, back);
        notes.fact(
                "Moved by hand",
                Printing.number(out) + " counts, then " + Printing.number(home) + " counts; about "
                        + Printing.number(expected) + " expected each way");
        if (isAbout(out, expected) && isAbout(home, -expected)) {
            return true;
        }
        String raw = "Position at " + position.place() + " read " + hex(before) + ", then " + hex(away) + ", then "
                + hex(back) + ": " + Printing.number(out) + " counts one way and " + Printing.number(home)
                + " the other, about " + Printing.number(expected) + " expected";
        if (isAbout(out, -expected) && isAbout(home, expected)) {
            notes.wrong(raw + ". The sense is reversed: counts fall where the axis moves in its positive direction."
                    + " Correct scale.direction of axis " + subject.axis() + " in the site file");
            return false;
        }
        List<Reading> others = Diagnosis.explain(position, layout -> fits(layout, before, away, back)).stream()
                .filter(reading -> !reading.changes().contains(Change.SCALE))
                .toList();
        String path = "signals." + SignalNames.POSITION;
        notes.wrong(
                raw + "." + advice(out, others),
                others.stream()
                        .map(reading -> ValueCheck.how(position, reading) + ", it moved by "
                                + Printing.number(difference(reading.layout(), before, away)) + ", which is plausible")
                        .toList(),
                others.stream()
                        .limit(1)
                        .flatMap(
                                reading -> new Corrections(subject.places()).of(path, position, reading, true).stream())
                        .map(Correction::printed)
                        .toList());
        return false;
    }

    private String advice(double out, List<Reading> others) {
        if (!others.isEmpty()) {
            return "";
        }
        return out == 0
                ? " It did not move at all: a frozen reply, another register, or another motor"
                : " It moved " + Printing.number(Math.abs(out / expected))
                        + " times as far as expected: look at the electronic gear, the gearbox and the encoder counts";
    }

    private boolean fits(SignalSpec layout, Surroundings before, Surroundings away, Surroundings back) {
        return before.words(layout).isPresent()
                && away.words(layout).isPresent()
                && back.words(layout).isPresent()
                && isAbout(difference(layout, before, away), expected)
                && isAbout(difference(layout, away, back), -expected);
    }

    private static boolean isAbout(double counts, double wanted) {
        double share = counts / wanted;
        return share >= LEAST && share <= MOST;
    }

    /** The shorter way round from one reading to the next, because position registers wrap. */
    private static double difference(SignalSpec layout, Surroundings from, Surroundings to) {
        int[] first = from.words(layout).orElse(new int[0]);
        int[] second = to.words(layout).orElse(new int[0]);
        if (first.length == 0 || second.length == 0) {
            return 0;
        }
        if (layout.type().isFloat()) {
            double delta = RegisterCodec.decode(layout, second) - RegisterCodec.decode(layout, first);
            return Double.isFinite(delta) ? delta : 0;
        }
        long delta = RegisterCodec.decodeRaw(layout, second) - RegisterCodec.decodeRaw(layout, first);
        return switch (16 * layout.registers()) {
            case 16 -> (short) delta;
            case 32 -> (int) delta;
            default -> (double) delta;
        };
    }

    private String hex(Surroundings at) {
        return at.words(position).map(Surroundings::hex).orElse("nothing");
    }
}
