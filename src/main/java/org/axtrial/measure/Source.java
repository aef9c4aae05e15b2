package org.axtrial.measure;

/** Where a value comes from. Values of different sources never share a column. */
public enum Source {
    DRIVE("drive-reported"),
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
}
