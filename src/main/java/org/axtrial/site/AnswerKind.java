package org.axtrial.site;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/** What an answer of a file of answers is for. */
public enum AnswerKind {
    /** A value that was read on an instrument. */
    READING("trial axis name value unit", "", "", "temperature by attempt"),
    /** The release of a hold point. */
    HOLD("trial axis name", "released", "refused", "by outcome reason attempt"),
    /** Who came to a witness point. */
    WITNESS("trial axis name", "present", "nobody came", "by outcome attempt"),
    /** A device that a person operates. */
    OPERATE("trial axis name", "done", "not done", "by outcome reason attempt"),
    /** Why a trial that did not pass is tried again. */
    RETEST("trial axis reason", "", "", "attempt");

    /** Keys with blanks between them. */
    private final String needed;

    private final String positive;
    private final String negative;
    private final String more;

    AnswerKind(String needed, String positive, String negative, String more) {
        this.needed = needed;
        this.positive = positive;
        this.negative = negative;
        this.more = more;
    }

    /** How it is written in a file. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    static Optional<AnswerKind> of(String word) {
        return Arrays.stream(values()).filter(kind -> kind.word().equals(word)).findFirst();
    }

    static List<String> words() {
        return Arrays.stream(values()).map(AnswerKind::word).toList();
    }

    /** Keys that an answer of this kind must have. */
    List<String> needed() {
        return words(needed);
    }

    /** Whether an answer of this kind may have a key. */
    boolean knows(String key) {
        return key.equals("kind") || needed().contains(key) || words(more).contains(key);
    }

    /** The attempt that is meant if none is written: the first, or the first that tries a trial again. */
    int firstAttempt() {
        return this == RETEST ? 2 : 1;
    }

    /** The outcome that is meant if none is written. */
    String positive() {
        return positive;
    }

    String negative() {
        return negative;
    }

    private static List<String> words(String text) {
        return Pattern.compile(" ").splitAsStream(text).toList();
    }
}
