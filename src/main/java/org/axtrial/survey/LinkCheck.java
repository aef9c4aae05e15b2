package org.axtrial.survey;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.link.DeviceIdentification;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkTrouble;
import org.axtrial.link.RegisterLink;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.TimeSource;

/** Looks at the link to one axis, at the drive behind it and at how its registers are read. Writes nothing. */
public final class LinkCheck {

    /** Looks of the short form, before motion is allowed. */
    private static final int FEW_READS = 20;

    /** Begins the finding that a move by hand settles. */
    static final String WORD_ORDER_OPEN = "Nothing proves the order of words";

    private final Subject subject;
    private final TimeSource time;
    private final Notes notes = new Notes();
    private Optional<Long> serial = Optional.empty();

    /**
     * What is looked at.
     *
     * @param axis name
     * @param peer host, port and unit, for the record
     * @param unit unit id, 0 … 255
     * @param drive what the drive ought to be
     * @param samplePeriod ordered time between samples
     * @param places where the keys of the drive description stand
     */
    public record Subject(
            String axis, String peer, int unit, DriveDescription drive, Duration samplePeriod, KeyPlaces places) {}

    /**
     * How much is looked at.
     *
     * @param reads timed looks, at least 1
     * @param tryConnections whether to open as many connections as the description says the drive allows
     */
    public record Scope(int reads, boolean tryConnections) {

        public Scope {
            if (reads < 1) {
                throw new IllegalArgumentException("at least one read is needed, got " + reads);
            }
        }
    }

    /** Makes connections to the device at the subject's address. */
    @FunctionalInterface
    public interface Door {

        /**
         * Opens one more connection.
         *
         * @param unit unit id to speak to
         */
        RegisterLink open(int unit) throws LinkException;
    }

    /**
     * What came out.
     *
     * @param link for the record
     * @param lost whether the drive could not be reached, or was lost on the way
     * @param serial serial number, where one is declared and says something
     */
    public record Result(LinkRecord link, boolean lost, Optional<Long> serial) {

        /** Whether motion may be allowed on what was seen. */
        public boolean proven() {
            return link.outcome() == LinkRecord.Grade.PROVEN;
        }
    }

    private LinkCheck(Subject subject, TimeSource time) {
        this.subject = subject;
        this.time = time;
    }

    /** The whole look, over connections of its own, all of which it closes. */
    public static Result full(Subject subject, Scope scope, Door door, TimeSource time) {
        return new LinkCheck(subject, time).full(scope, door);
    }

    /** The short look before motion is allowed, over a connection that stands: identity, constants and a few reads. */
    public static Result brief(Subject subject, RegisterLink link, TimeSource time) {
        return new LinkCheck(subject, time).brief(link);
    }

    private Result full(Scope scope, Door door) {
        boolean right;
        try (RegisterLink link = door.open(subject.unit())) {
            notes.fact("Connected", "yes");
            if (!answers(link, door)) {
                return result(true);
            }
            deviceIdentification(link);
            right = values(link, true).wrong().isEmpty();
            identitySerial(link);
            boolean stands = new TimedReads(subject, link, time, notes, true).run(scope.reads());
            if (!stands) {
                return result(true);
            }
            new Limits(subject, notes).check(link, door, scope.tryConnections());
        } catch (LinkException e) {
            Troubles.tell(notes, e);
            return result(true);
        }
        if (right) {
            // Only now, when the first connection is closed: a second one at once might take a slot from another
            // master.
            again(door);
        }
        return result(false);
    }

    private Result brief(RegisterLink link) {
        try {
            values(link, false);
            identitySerial(link);
            boolean stands = new TimedReads(subject, link, time, notes, false).run(FEW_READS);
            return result(!stands);
        } catch (LinkException e) {
            Troubles.tell(notes, e);
            return result(true);
        }
    }

    private Result result(boolean lost) {
        return new Result(notes.record(subject.axis(), subject.peer()), lost, serial);
    }

    /** Whether the unit answers at all; if it keeps silent, other unit ids are asked. */
    private boolean answers(RegisterLink link, Door door) throws LinkException {
        SignalSpec first = anyValue();
        try {
            link.read(first.table().readFunction(), first.address(), first.registers());
            notes.fact("Unit " + subject.unit(), "answers");
            return true;
        } catch (LinkException e) {
            LinkTrouble trouble = LinkTrouble.of(e);
            if (trouble == LinkTrouble.EXCEPTION && !Troubles.isGateway(e)) {
                // The drive answers; what it refuses comes out where each value is read.
                notes.fact("Unit " + subject.unit(), "answers");
                return true;
            }
            Troubles.tell(notes, e);
            if (trouble == LinkTrouble.SILENCE || trouble == LinkTrouble.FOREIGN_UNIT || Troubles.isGateway(e)) {
                otherUnits(door, first);
            }
            return false;
        }
    }

    private SignalSpec anyValue() {
        DriveDescription drive = subject.drive();
        return drive.identity().isEmpty()
                ? drive.signal(SignalNames.POSITION)
                : drive.identity().get(0).signal();
    }

    private void otherUnits(Door door, SignalSpec first) {
        List<Integer> answering = new ArrayList<>();
        for (int unit : new int[] {255, 0, 1, 2, 3}) {
            if (unit != subject.unit()) {
                try (RegisterLink link = door.open(unit)) {
                    link.read(first.table().readFunction(), first.address(), first.registers());
                    answering.add(unit);
                } catch (LinkException e) {
                    if (LinkTrouble.of(e) == LinkTrouble.EXCEPTION && !Troubles.isGateway(e)) {
                        answering.add(unit);
                    }
                }
            }
        }
        if (!answering.isEmpty()) {
            notes.wrong("Wrong unit id: unit " + subject.unit() + " keeps silent, but at the same address unit "
                    + answering.get(0)
                    + " answers. Compare the unit id in the drive with endpoint.unit in the site file");
        }
    }

    /** Holds constants and ranges against the drive. */
    private MapCheck values(RegisterLink link, boolean whole) throws LinkException {
        MapCheck map = MapCheck.read(link, subject.drive());
        long met = map.checks().stream()
                .filter(check -> check.state() == ValueCheck.State.AS_EXPECTED)
                .count();
        notes.fact("Values as expected", met + " of " + map.checks().size());
        if (map.isAnotherDrive()) {
            notes.wrong("Wrong drive: no constant of " + subject.drive().type()
                    + " is here, nor anywhere beside its place. "
                    + String.join(
                            ". ", map.wrong().stream().map(ValueCheck::told).toList())
                    + ". Check the address and which drive is wired to it");
        } else {
            map.causeTold().ifPresent(notes::wrong);
            map.wrong()
                    .forEach(check -> notes.wrong(
                            check.told() + ". Around it stand "
                                    + check.around().printed(check.declared())
                                    + (check.explanations().isEmpty()
                                            ? ". No other reading of these registers explains it"
                                            : ""),
                            map.explanations(check).stream().map(check::told).toList(),
                            map.corrections(check, subject.places()).stream()
                                    .map(Correction::printed)
                                    .toList()));
        }
        map.checks().stream()
                .filter(check -> whole && check.state() == ValueCheck.State.PROVES_NOTHING)
                .forEach(check -> notes.notProven(check.told()));
        proof(map, whole);
        return map;
    }

    private void proof(MapCheck map, boolean whole) {
        if (!map.wrong().isEmpty()) {
            return;
        }
        boolean wide = subject.drive().signals().values().stream().anyMatch(signal -> signal.registers() > 1);
        if (map.proof() == Proof.NOTHING) {
            notes.notProven("Nothing proves which drive this is: the description declares no constant that says"
                    + " anything. Add one with four different bytes under identity");
        } else if (whole && wide && map.proof() == Proof.PLACE) {
            notes.notProven(WORD_ORDER_OPEN + ": no constant has four different bytes. Add one, or"
                    + " prove the position by hand with --hand-move " + subject.axis());
        }
    }

    /** What the drive says of itself by function 43, where it knows it; nothing is proven by that. */
    private void deviceIdentification(RegisterLink link) throws LinkException {
        String name = "Device identification";
        try {
            DeviceIdentification told = link.identify();
            if (told instanceof DeviceIdentification.Told said) {
                notes.fact(name, String.join(", ", said.objects().values()));
            } else if (told instanceof DeviceIdentification.NotTold not) {
                notes.fact(name, "not told: " + not.reason());
            }
        } catch (DriveRefusedException e) {
            notes.fact(name, "not told: " + e.getMessage());
        } catch (LinkException e) {
            // Some drives are silent when they do not know a function; the link is made anew for what follows.
            notes.fact(name, "no reply to function 43");
            link.reconnect();
        }
    }

    private void identitySerial(RegisterLink link) throws LinkException {
        serial = Serials.read(link, subject.drive());
        serial.ifPresent(number -> notes.fact("Serial number", Long.toString(number)));
    }

    /** A new connection must reach the same device. */
    private void again(Door door) {
        try (RegisterLink anew = door.open(subject.unit())) {
            MapCheck map = MapCheck.read(anew, subject.drive());
            Optional<Long> other = Serials.read(anew, subject.drive());
            if (!map.wrong().isEmpty() || !other.equals(serial)) {
                notes.wrong("Two devices seem to share one address: over a new connection another drive answered"
                        + (serial.isPresent() && other.isPresent() && !other.equals(serial)
                                ? " (serial number " + other.get() + " instead of " + serial.get() + ")"
                                : "")
                        + ". Look for a duplicate IP address");
            }
        } catch (LinkException e) {
            notes.notProven("The drive could not be reached again after its connection was closed: " + e.getMessage());
        }
    }
}
