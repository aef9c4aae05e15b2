package org.axtrial.measure;

import java.util.Collection;

/** What a check, a trial or a run came to, worst first. */
public enum Verdict {
    ERROR("ERROR"),
    FAIL("FAIL"),
    BLOCKED("BLOCKED"),
    INCONCLUSIVE("INCONCLUSIVE"),
    NOT_RUN("NOT RUN"),
    PASS("PASS"),
    NOT_APPLICABLE("NOT APPLICABLE");

    private final String printed;

    Verdict(String printed) {
        this.printed = printed;
    }

    /** The spelling in reports and records. */
    public String printed() {
        return printed;
    }

    /** The worse of two; a trial is as good as the worst of its checks. */
    public Verdict worse(Verdict other) {
        return compareTo(other) <= 0 ? this : other;
    }

    /** The worst of many; {@code NOT_RUN} for none, because nothing proves nothing. */
    public static Verdict worst(Collection<Verdict> verdicts) {
        return verdicts.stream().reduce(Verdict::worse).orElse(NOT_RUN);
    }
}
