package org.axtrial.survey;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.Reply;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.ReadPlan;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.TimeSource;

/** Looks at the sampled signals many times and tells how long it takes, what fails, and what stands still. */
final class TimedReads {

    /** So many failed looks in a row are a lost link. */
    private static final int GIVEN_UP = 5;
    /** How many times in all the identity is read between the looks. */
    private static final int IDENTITY_LOOKS = 20;

    private final LinkCheck.Subject subject;
    private final RegisterLink link;
    private final TimeSource time;
    private final Notes notes;
    /** Whether slow replies count; a few looks tell nothing of times. */
    private final boolean judgesTimes;

    private final Map<String, int[]> last = new LinkedHashMap<>();
    private final Set<String> changed = new LinkedHashSet<>();
    private Optional<Long> firstSerial = Optional.empty();
    private boolean firstIdentity;
    private boolean identityKnown;
    private int flips;
    private int errors;
    private String firstError = "";

    TimedReads(LinkCheck.Subject subject, RegisterLink link, TimeSource time, Notes notes, boolean judgesTimes) {
        this.subject = subject;
        this.link = link;
        this.time = time;
        this.notes = notes;
        this.judgesTimes = judgesTimes;
    }

    /** Looks so often; false if the link was lost for good. */
    boolean run(int looks) {
        Optional<ReadPlan> plan = plan();
        if (plan.isEmpty()) {
            return true;
        }
        long[] nanos = new long[looks];
        int good = 0;
        int inARow = 0;
        for (int i = 0; i < looks && inARow < GIVEN_UP; i++) {
            try {
                nanos[good] = look(plan.get());
                good++;
                inARow = 0;
                if (i % Math.max(1, looks / IDENTITY_LOOKS) == 0) {
                    identity();
                }
            } catch (LinkException e) {
                errors++;
                inARow++;
                firstError = firstError.isEmpty() ? String.valueOf(e.getMessage()) : firstError;
                reconnect();
            }
        }
        tell(plan.get(), Arrays.copyOf(nanos, good), good + errors);
        return inARow < GIVEN_UP;
    }

    /** The reads of a look; a drive that does not show gaps is read around them, as the sampler does. */
    private Optional<ReadPlan> plan() {
        DriveDescription drive = subject.drive();
        List<SignalSpec> sampled = Stream.concat(SignalNames.SAMPLED.stream(), Stream.of(SignalNames.LIFE_COUNTER))
                .flatMap(name -> drive.value(name).stream())
                .toList();
        String refused = "";
        for (int gap : new int[] {ReadPlan.SMALL_GAP, 0}) {
            ReadPlan plan = ReadPlan.of(sampled, drive, gap);
            try {
                look(plan);
                return Optional.of(plan);
            } catch (DriveRefusedException e) {
                refused = String.valueOf(e.getMessage());
            } catch (LinkException e) {
                reconnect();
                return Optional.of(plan);
            }
        }
        notes.wrong("The sampled signals cannot be read: " + refused);
        return Optional.empty();
    }

    private void reconnect() {
        try {
            link.reconnect();
        } catch (LinkException e) {
            // The next look fails and counts.
            firstError = firstError.isEmpty() ? String.valueOf(e.getMessage()) : firstError;
        }
    }

    /** One look; ns from the first request to the last reply. */
    private long look(ReadPlan plan) throws LinkException {
        int[][] blocks = new int[plan.blocks().size()][];
        long sent = time.nanos();
        long replied = sent;
        for (int i = 0; i < blocks.length; i++) {
            ReadPlan.Block block = plan.blocks().get(i);
            Reply reply = link.read(block.table().readFunction(), block.address(), block.count());
            replied = reply.repliedNanos();
            blocks[i] = reply.words();
        }
        for (ReadPlan.Slot slot : plan.slots()) {
            int[] words = slot.words(blocks[slot.block()]);
            int[] before = last.put(slot.signal().name(), words);
            if (before != null && !Arrays.equals(before, words)) {
                changed.add(slot.signal().name());
            }
        }
        return replied - sent;
    }

    /** Replies that flip between two devices show in the identity first. */
    private void identity() throws LinkException {
        boolean right = true;
        for (DriveDescription.IdentityConstant constant : subject.drive().identity()) {
            SignalSpec signal = constant.signal();
            try {
                right &= constant.isShownBy(
                        link.read(signal.table().readFunction(), signal.address(), signal.registers())
                                .words());
            } catch (DriveRefusedException e) {
                right = false;
            }
        }
        Optional<Long> serial = Serials.read(link, subject.drive());
        if (!identityKnown) {
            identityKnown = true;
            firstIdentity = right;
            firstSerial = serial;
        } else if (right != firstIdentity || !serial.equals(firstSerial)) {
            flips++;
        }
    }

    private void tell(ReadPlan plan, long[] nanos, int tries) {
        notes.fact(
                "Looks",
                tries + " at " + plan.slots().size() + " signals, "
                        + plan.blocks().size()
                        + (plan.blocks().size() == 1 ? " block read each" : " block reads each"));
        if (nanos.length > 0) {
            Times times = Times.of(nanos);
            notes.fact("Reply time, half of all looks", Printing.ms(times.quantile(0.5)));
            notes.fact("Reply time, 99 % of all looks", Printing.ms(times.quantile(0.99)));
            notes.fact("Reply time, worst", Printing.ms(times.worst()));
            if (judgesTimes && times.quantile(0.99) > subject.samplePeriod().toNanos()) {
                notes.notProven("The link is too slow for the sample period: 99 % of the looks take up to "
                        + Printing.ms(times.quantile(0.99)) + ", and samplePeriod is "
                        + Printing.ms(subject.samplePeriod().toNanos())
                        + ". Raise samplePeriod, or find what slows the link");
            }
        }
        notes.fact("Errors", errors + " of " + tries);
        if (errors > 0) {
            notes.notProven(errors + " of " + tries + " looks failed; the first: " + firstError);
        }
        if (flips > 0) {
            notes.wrong("The identity of the drive changed " + flips + " times between the looks: two devices seem to"
                    + " answer under one address. Look for a duplicate IP address or unit id");
        }
        stale(nanos.length);
    }

    /** A value that stands still is only wrong if it must move. At rest most may. */
    private void stale(int looks) {
        boolean lives = last.containsKey(SignalNames.LIFE_COUNTER);
        if (lives && looks > 1 && !changed.contains(SignalNames.LIFE_COUNTER)) {
            notes.wrong("The replies are frozen: " + SignalNames.LIFE_COUNTER + " read the same in all " + looks
                    + " looks, but the drive changes it all the time. A gateway may be answering from memory");
        }
        List<String> still = last.keySet().stream()
                .filter(name -> !changed.contains(name) && !name.equals(SignalNames.LIFE_COUNTER))
                .toList();
        notes.fact(
                "Values that never changed",
                still.isEmpty()
                        ? "none"
                        : String.join(", ", still)
                                + (lives ? "" : "; at rest that may be right, and only a move by hand can tell"));
    }
}
