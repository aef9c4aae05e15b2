package org.axtrial.site;

import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;

/** The kinds of faults of the wire by the words of the site file, and what each needs to be told. */
public enum FaultKind {
    REPLY_DROPPED("reply dropped", WireFault.DropReply.class),
    REPLY_DELAYED("reply delayed", WireFault.DelayReply.class, Need.TIME),
    REPLY_DOUBLED("reply doubled", WireFault.DoubleReply.class),
    WRONG_TRANSACTION("wrong transaction", WireFault.WrongTransaction.class),
    WRONG_UNIT("wrong unit", WireFault.WrongUnit.class),
    WRONG_FUNCTION("wrong function", WireFault.WrongFunction.class),
    WRONG_LENGTH("wrong length", WireFault.WrongLength.class),
    REPLY_TRICKLED("reply trickled", WireFault.TrickleReply.class, Need.TIME),
    REPLY_CUT("reply cut", WireFault.CutReply.class),
    CONNECTION_RESET("connection reset", WireFault.ResetConnection.class),
    CONNECTION_HALF_OPEN("connection half-open", WireFault.HalfOpen.class),
    CONNECTIONS_TAKEN("connections taken", WireFault.ConnectionsTaken.class, Need.ATTEMPTS),
    EXCEPTION("exception", WireFault.ExceptionReply.class, Need.CODE),
    FROZEN_VALUES("frozen values", WireFault.FrozenValues.class),
    TORN_WORDS("torn words", WireFault.TornWords.class),
    OTHER_DRIVE("other drive", WireFault.OtherDrive.class),
    SLOW_DRIVE("slow drive", WireFault.SlowDrive.class, Need.TIME),
    SILENCE("silence", WireFault.Silence.class);

    /** Longest time of a fault. */
    public static final Duration LONGEST = Duration.ofHours(1);
    /** Shortest time of a fault. */
    public static final Duration SHORTEST = Duration.ofNanos(1_000);

    /** What a kind is told beside the requests that it strikes. */
    public enum Need {
        NOTHING,
        /** A time; required. */
        TIME,
        /** An exception code, 1 … 255; required. */
        CODE,
        /** Attempts to connect that are turned away, at least 1; 1 if not told. */
        ATTEMPTS
    }

    private final String word;
    private final Class<? extends WireFault> made;
    private final Need need;

    FaultKind(String word, Class<? extends WireFault> made) {
        this(word, made, Need.NOTHING);
    }

    FaultKind(String word, Class<? extends WireFault> made, Need need) {
        this.word = word;
        this.made = made;
        this.need = need;
    }

    /** The word or words of the site file. */
    public String word() {
        return word;
    }

    /** What it must or may be told. */
    public Need need() {
        return need;
    }

    /** All words, in the order of the documentation. */
    public static List<String> words() {
        return Arrays.stream(values()).map(FaultKind::word).toList();
    }

    /** The kind of that word. */
    public static Optional<FaultKind> of(String word) {
        return Arrays.stream(values()).filter(kind -> kind.word.equals(word)).findFirst();
    }

    /** The kind of a fault. */
    public static FaultKind of(WireFault fault) {
        return Arrays.stream(values())
                .filter(kind -> kind.made.isInstance(fault))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no kind for " + fault));
    }

    /** How many requests it strikes unless told: kinds of which a single request shows nothing last without end. */
    public int usualCount() {
        return switch (this) {
            case FROZEN_VALUES, TORN_WORDS, SLOW_DRIVE, SILENCE -> WireFault.WITHOUT_END;
            default -> 1;
        };
    }

    /**
     * A fault of this kind.
     *
     * @param by looked at where a time is needed
     * @param code looked at where a code is needed
     * @param attempts looked at for connections taken
     * @throws IllegalArgumentException if a number is missing or out of its range
     */
    public WireFault make(Strikes strikes, Optional<Duration> by, OptionalInt code, int attempts) {
        return switch (this) {
            case REPLY_DROPPED -> new WireFault.DropReply(strikes);
            case REPLY_DELAYED -> new WireFault.DelayReply(strikes, time(by));
            case REPLY_DOUBLED -> new WireFault.DoubleReply(strikes);
            case WRONG_TRANSACTION -> new WireFault.WrongTransaction(strikes);
            case WRONG_UNIT -> new WireFault.WrongUnit(strikes);
            case WRONG_FUNCTION -> new WireFault.WrongFunction(strikes);
            case WRONG_LENGTH -> new WireFault.WrongLength(strikes);
            case REPLY_TRICKLED -> new WireFault.TrickleReply(strikes, time(by));
            case REPLY_CUT -> new WireFault.CutReply(strikes);
            case CONNECTION_RESET -> new WireFault.ResetConnection(strikes);
            case CONNECTION_HALF_OPEN -> new WireFault.HalfOpen(strikes);
            case CONNECTIONS_TAKEN -> new WireFault.ConnectionsTaken(strikes, attempts);
            case EXCEPTION ->
                new WireFault.ExceptionReply(
                        strikes,
                        code.orElseThrow(() -> new IllegalArgumentException(word + " needs an exception code")));
            case FROZEN_VALUES -> new WireFault.FrozenValues(strikes);
            case TORN_WORDS -> new WireFault.TornWords(strikes);
            case OTHER_DRIVE -> new WireFault.OtherDrive(strikes);
            case SLOW_DRIVE -> new WireFault.SlowDrive(strikes, time(by));
            case SILENCE -> new WireFault.Silence(strikes);
        };
    }

    private Duration time(Optional<Duration> by) {
        return by.orElseThrow(() -> new IllegalArgumentException(word + " needs a time"));
    }
}
