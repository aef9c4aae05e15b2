package org.axtrial.sim;

import java.io.IOException;
import java.time.Duration;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import org.axtrial.link.DeviceIdentification;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.LinkException;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.OutcomeUnknownException;
import org.axtrial.link.RegisterLink;
import org.axtrial.link.Reply;
import org.axtrial.time.VirtualTime;

/**
 * A link to a simulated drive without a wire, in virtual time. Each exchange takes a random time between the shortest
 * and the longest of the simulation, drawn from its seed; the request reaches the drive when half of it has passed. Two
 * runs that ask the same get the same, to the bit.
 */
public final class InProcessLink implements RegisterLink {

    private static final int ACKNOWLEDGE = 0x05;
    private static final int TARGET_SILENT = 0x0B;
    private static final Duration DEADLINE = Duration.ofSeconds(1);
    /** Header and unit id of Modbus TCP, so that a trickle takes as long as it would there. */
    private static final int HEADER = 7;

    private final SimulatedDrive drive;
    private final VirtualTime time;
    private final long driveZero;
    private final long shortestNanos;
    private final double spanNanos;
    private final SplittableRandom random;
    private final Duration deadline;
    private final WireFaults faults = new WireFaults();
    private boolean sound = true;
    private boolean closed;
    private long connections = 1;
    private long knownStart;
    private int turnedAway;

    /** A sound link whose exchanges may take 1 s. */
    public InProcessLink(SimulatedDrive drive, VirtualTime time) {
        this(drive, time, DEADLINE);
    }

    /**
     * A sound link; the drive's time and {@code time} run together from here on.
     *
     * @param deadline for each whole exchange
     */
    public InProcessLink(SimulatedDrive drive, VirtualTime time, Duration deadline) {
        this.deadline = deadline;
        this.drive = drive;
        this.knownStart = drive.starts();
        this.time = time;
        this.driveZero = time.nanos() - drive.nanos();
        SimulationSpec.Wire wire = drive.spec().wire();
        this.shortestNanos = wire.shortest().toNanos();
        this.spanNanos = (double) (wire.longest().toNanos() - shortestNanos);
        this.random = new SplittableRandom(drive.spec().seed());
    }

    /** Arms a fault for the next exchanges. */
    public void fault(WireFault fault) {
        faults.arm(fault);
    }

    /** Disarms all faults; a connection that broke stays broken until it is made anew. */
    public void clearFaults() {
        faults.clear();
    }

    /** Requests that have come in, whatever became of them, by function code and first address. */
    public long frames(int function, int address) {
        return faults.frames(function, address);
    }

    @Override
    public synchronized Reply read(int readFunction, int address, int count) throws LinkException {
        if (readFunction != RegisterServer.READ_HOLDING && readFunction != RegisterServer.READ_INPUT) {
            throw new IllegalArgumentException("a read has function code 3 or 4, got " + readFunction);
        }
        range("address", address, 0, 0xFFFF);
        range("number of registers", count, 1, Math.min(125, 0x1_0000 - address));
        byte[] request = new byte[5];
        request[0] = (byte) readFunction;
        RegisterServer.put(request, 1, address);
        RegisterServer.put(request, 3, count);
        return exchange(request, false);
    }

    @Override
    public synchronized Reply writeSingle(int address, int word) throws LinkException {
        range("address", address, 0, 0xFFFF);
        range("register word", word, 0, 0xFFFF);
        byte[] request = new byte[5];
        request[0] = RegisterServer.WRITE_SINGLE;
        RegisterServer.put(request, 1, address);
        RegisterServer.put(request, 3, word);
        return exchange(request, true);
    }

    @Override
    public synchronized Reply writeBlock(int address, int[] words) throws LinkException {
        range("address", address, 0, 0xFFFF);
        range("number of registers", words.length, 1, Math.min(123, 0x1_0000 - address));
        byte[] request = new byte[6 + 2 * words.length];
        request[0] = RegisterServer.WRITE_MULTIPLE;
        RegisterServer.put(request, 1, address);
        RegisterServer.put(request, 3, words.length);
        request[5] = (byte) (2 * words.length);
        for (int i = 0; i < words.length; i++) {
            range("register word", words[i], 0, 0xFFFF);
            RegisterServer.put(request, 6 + 2 * i, words[i]);
        }
        return exchange(request, true);
    }

    private static void range(String what, int value, int lowest, int highest) {
        if (value < lowest || value > highest) {
            throw new IllegalArgumentException(what + " must be " + lowest + " … " + highest + ", got " + value);
        }
    }

    private Reply exchange(byte[] request, boolean write) throws LinkException {
        if (closed || !sound) {
            throw new LinkLostException(peer() + ": not connected, nothing was sent");
        }
        long sent = time.nanos();
        // Drawn from the raw bits, because only those are laid down for every Java version.
        long taken = shortestNanos + Math.round((random.nextLong() >>> 11) * 0x1.0p-53 * spanNanos);
        time.advance(taken / 2);
        drive.advanceTo(time.nanos() - driveZero);
        if (drive.reachable() && drive.starts() != knownStart) {
            arrive(sent, taken, write);
            throw lost("the connection was reset, the drive has been switched off and on", write);
        }
        WireOutcome outcome = faults.pass(request, drive);
        if (outcome instanceof WireOutcome.Reply reply) {
            arrive(sent, taken + reply.after().toNanos(), write);
            if (reply.spoil() != WireOutcome.Spoil.NONE) {
                throw lost(reply.spoil().text(), write);
            }
            return reply(request, reply.pdu(), sent);
        }
        if (outcome instanceof WireOutcome.Trickle trickle) {
            arrive(
                    sent,
                    taken + (HEADER + trickle.pdu().length) * trickle.each().toNanos(),
                    write);
            return reply(request, trickle.pdu(), sent);
        }
        if (outcome instanceof WireOutcome.Reset) {
            arrive(sent, taken, write);
            throw lost("the connection was reset before the reply", write);
        }
        if (outcome instanceof WireOutcome.Taken taking) {
            turnedAway = taking.attempts();
            arrive(sent, taken, write);
            throw lost("the drive closed the connection before the reply", write);
        }
        throw noReply(sent, write);
    }

    /** Lets the time of an exchange pass, or its deadline if that comes first. */
    private void arrive(long sent, long taken, boolean write) throws LinkException {
        if (taken > deadline.toNanos()) {
            throw noReply(sent, write);
        }
        arriveAt(sent + taken);
    }

    private void arriveAt(long nanos) {
        time.advance(Math.max(0, nanos - time.nanos()));
        drive.advanceTo(time.nanos() - driveZero);
    }

    private LinkException noReply(long sent, boolean write) {
        arriveAt(sent + deadline.toNanos());
        return lost("no reply within " + deadline.toMillis() + " ms", write);
    }

    private LinkException lost(String why, boolean write) {
        sound = false;
        return write
                ? new OutcomeUnknownException(
                        peer() + ": " + why + "; the drive may have acted on the write, look at the axis",
                        new IOException(why))
                : new LinkLostException(peer() + ": " + why);
    }

    private Reply reply(byte[] request, byte[] response, long sent) throws LinkException {
        boolean read = request[0] == RegisterServer.READ_HOLDING || request[0] == RegisterServer.READ_INPUT;
        if (response[0] == (byte) (request[0] | 0x80) && response.length == 2) {
            throw refused(request, response[1] & 0xFF, !read);
        }
        if (response[0] != request[0]) {
            throw lost("the reply has function code " + response[0] + " instead of " + request[0], !read);
        }
        int wanted = read ? 2 + 2 * RegisterServer.word(request, 3) : 5;
        if (response.length != wanted) {
            throw lost("the reply has " + response.length + " bytes instead of " + wanted, !read);
        }
        int[] words = new int[read ? (response.length - 2) / 2 : 0];
        Arrays.setAll(words, i -> RegisterServer.word(response, 2 + 2 * i));
        return new Reply(words, sent, time.nanos());
    }

    private LinkException refused(byte[] request, int code, boolean write) {
        String message = peer() + ": function " + request[0] + " at address " + RegisterServer.word(request, 1)
                + " was answered by " + meaning(code);
        DriveRefusedException refused = new DriveRefusedException(message, code);
        // After acknowledge, and when a gateway heard nothing, the drive may act all the same.
        return write && (code == ACKNOWLEDGE || code == TARGET_SILENT)
                ? new OutcomeUnknownException(message + "; the drive may have acted, look at the axis", refused)
                : refused;
    }

    /** Exception codes in the terms of MODBUS Application Protocol V1.1b3, section 7. */
    private static String meaning(int code) {
        return switch (code) {
            case RegisterServer.ILLEGAL_FUNCTION -> "exception 01, it does not know this function";
            case RegisterServer.ILLEGAL_DATA_ADDRESS -> "exception 02, it has no such register, or not to write";
            case RegisterServer.ILLEGAL_DATA_VALUE -> "exception 03, it does not take this many registers";
            case RegisterServer.SERVER_DEVICE_FAILURE -> "exception 04, it cannot do that now or with this value";
            case ACKNOWLEDGE -> "exception 05, it accepted a job that takes long";
            case 6 -> "exception 06, it is busy";
            case 8 -> "exception 08, memory parity error";
            case 0x0A -> "exception 0A, the gateway has no path";
            case TARGET_SILENT -> "exception 0B, the device behind the gateway does not answer";
            default -> String.format(Locale.ROOT, "exception %02X", code);
        };
    }

    @Override
    public DeviceIdentification identify() {
        Map<Integer, String> objects = drive.description().deviceIdentification();
        return objects.isEmpty()
                ? new DeviceIdentification.NotTold(peer() + " does not know function 43")
                : new DeviceIdentification.Told(IdentificationServer.conformity(objects), objects);
    }

    @Override
    public synchronized void reconnect() throws LinkException {
        if (closed) {
            throw new LinkLostException(peer() + ": the link is closed");
        }
        if (sound) {
            return;
        }
        if (turnedAway > 0) {
            turnedAway--;
            throw new LinkLostException(
                    peer() + ": the connection was closed at once; another master may hold the drive");
        }
        drive.advanceTo(time.nanos() - driveZero);
        if (!drive.reachable()) {
            throw new LinkLostException(peer() + ": the drive does not answer");
        }
        knownStart = drive.starts();
        sound = true;
        connections++;
    }

    @Override
    public synchronized void drop() {
        sound = false;
    }

    @Override
    public synchronized long connectionNumber() {
        return connections;
    }

    @Override
    public String peer() {
        return drive.name() + " (simulated, in process)";
    }

    @Override
    public synchronized void close() {
        closed = true;
    }
}
