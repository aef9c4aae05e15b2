package org.axtrial.measure;

import java.util.Collection;
import java.util.stream.Stream;

/** Where a value comes from. Values of different sources never share a column. */
public enum Source {
    DRIVE("drive-reported"),
    /** Caught by the drive in its own cycle, and read afterwards. */
    LATCHED("latched by the drive"),
    INSTRUMENT("instrument"),
    OPERATOR("operator"),
    RUNNER("runner clock");

    private final String printed;

    Source(String printed) {
        this.printed = printed;
    }

    public String printed() {
        return printed;
    }

    /** The source among several that deserves the least trust: what is made of all is no better than its worst part. */
    public static Source worst(Collection<Source> sources) {
        return Stream.of(DRIVE, LATCHED, OPERATOR, INSTRUMENT)
                .filter(sources::contains)
                .findFirst()
                .orElse(RUNNER);
    }
}
