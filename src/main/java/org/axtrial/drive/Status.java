package org.axtrial.drive;

import java.time.Duration;
import java.util.Locale;
import java.util.function.LongFunction;
import java.util.function.LongPredicate;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.time.Deadline;
import org.axtrial.time.TimeSource;

/** The status word of one drive: read, waited for, and put into words when it does not come. */
final class Status {

    /** Between two looks at the status word; a look over the network takes as long by itself. */
    static final long POLL_NANOS = 2_000_000;

    private final DriveRegisters registers;
    private final TimeSource time;
    private final SignalSpec word;
    private final SignalSpec faultCode;
    private final LongFunction<String> inWords;
    private final StateDecoder decoder;

    /** Makes a state of a status word and a fault code. */
    interface StateDecoder {
        DriveState state(long status, int faultCode);
    }

    Status(DriveRegisters registers, TimeSource time, StateDecoder decoder, LongFunction<String> inWords) {
        this.registers = registers;
        this.time = time;
        this.decoder = decoder;
        this.inWords = inWords;
        this.word = registers.description().signal(SignalNames.STATUS);
        this.faultCode = registers.description().signal(SignalNames.FAULT_CODE);
    }

    long read() throws DriveException {
        return registers.readRaw(word);
    }

    /**
     * Looks at the status word until it is as wanted.
     *
     * @param wanted ends the waiting well
     * @param hopeless ends it badly at once, for example a fault
     * @throws DriveStateException naming what was expected and what is shown
     */
    long await(LongPredicate wanted, LongPredicate hopeless, String expected, Duration within)
            throws DriveException, InterruptedException {
        Deadline deadline = Deadline.in(time, within);
        while (true) {
            long status = read();
            if (wanted.test(status)) {
                return status;
            }
            if (hopeless.test(status)) {
                throw problem(status, expected);
            }
            if (deadline.isPassed()) {
                throw problem(status, expected + " within " + within.toMillis() + " ms");
            }
            time.sleepUntil(time.nanos() + POLL_NANOS);
        }
    }

    /** Reads the fault code and tells what was expected and what the drive shows. */
    DriveStateException problem(long status, String expected) throws DriveException {
        int fault = (int) registers.readRaw(faultCode);
        return new DriveStateException(
                registers.link().peer() + ": expected " + expected + ", the drive shows " + inWords.apply(status)
                        + " (status word " + hex(status) + (fault == 0 ? "" : ", fault code " + hex(fault)) + ")",
                decoder.state(status, fault));
    }

    static String hex(long word) {
        return String.format(Locale.ROOT, "0x%04X", word & 0xFFFF_FFFFL);
    }
}
