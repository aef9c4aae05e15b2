package org.axtrial.cli;

/** What the program tells its caller. */
enum ExitCode {
    /** Every trial passed. */
    PASSED(0),
    /** A trial failed or broke. */
    FAILED(1),
    /** Wrong use, or a site file or script with problems; nothing moved. */
    WRONG_USE(2),
    /** Nothing failed, but not everything was proven. */
    NOT_PROVEN(3),
    /** The run was stopped before its end. */
    STOPPED(4),
    /** The evidence does not verify. */
    EVIDENCE_BROKEN(5);

    private final int code;

    ExitCode(int code) {
        this.code = code;
    }

    int code() {
        return code;
    }
}
