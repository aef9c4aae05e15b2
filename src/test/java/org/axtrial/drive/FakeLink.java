package org.axtrial.drive;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.OutcomeUnknownException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.Reply;
import org.axtrial.time.VirtualTime;

/** Registers in memory; each exchange takes a millisecond, half of it each way. It keeps what was written. */
class FakeLink implements RegisterLink {

    static final int NEVER = Integer.MAX_VALUE;

    final int[] registers = new int[1000];
    final List<String> writes = new ArrayList<>();
    final List<String> reads = new ArrayList<>();
    final Set<Integer> notInTheMap = new HashSet<>();
    final VirtualTime time;

    /** Which write, from 0 on, is acted upon without its reply getting through. */
    int losesReplyToWrite = NEVER;
    /** Reads fail once so many writes have been made. */
    int losesReadsAfterWrites = NEVER;
    /** Which write, from 0 on, is answered by exception 03 and not acted upon. */
    int refusesWrite = NEVER;

    FakeLink(VirtualTime time) {
        this.time = time;
    }

    /** The drive's firmware, after each write. */
    void written(int address, int[] words) {}

    /** The drive's firmware, before each read. */
    void beforeRead(int address, int count) {}

    @Override
    public Reply read(int readFunction, int address, int count) throws LinkException {
        long sent = time.nanos();
        beforeRead(address, count);
        reads.add(readFunction + ":" + address + "+" + count);
        time.advance(1_000_000);
        if (writes.size() >= losesReadsAfterWrites) {
            throw new LinkLostException("fake: no reply", new IOException("cut"));
        }
        for (int i = address; i < address + count; i++) {
            if (notInTheMap.contains(i)) {
                throw new DriveRefusedException("fake: 02", 2);
            }
        }
        return new Reply(Arrays.copyOfRange(registers, address, address + count), sent, time.nanos());
    }

    @Override
    public Reply writeSingle(int address, int word) throws LinkException {
        return write("6", address, word);
    }

    @Override
    public Reply writeBlock(int address, int[] words) throws LinkException {
        return write("16", address, words);
    }

    private Reply write(String function, int address, int... words) throws LinkException {
        int index = writes.size();
        long sent = time.nanos();
        writes.add(function + ":" + address + "="
                + Arrays.stream(words)
                        .mapToObj(word -> String.format(Locale.ROOT, "%04X", word))
                        .collect(Collectors.joining(" ")));
        time.advance(1_000_000);
        if (index == refusesWrite) {
            throw new DriveRefusedException("fake: 03", 3);
        }
        System.arraycopy(words, 0, registers, address, words.length);
        written(address, words);
        if (index == losesReplyToWrite) {
            throw new OutcomeUnknownException("fake: reply lost", new IOException("cut"));
        }
        return new Reply(new int[0], sent, time.nanos());
    }

    @Override
    public void drop() {}

    @Override
    public void reconnect() {}

    @Override
    public String peer() {
        return "fake unit 1";
    }

    @Override
    public void close() {}
}
