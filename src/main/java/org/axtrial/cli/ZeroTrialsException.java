package org.axtrial.cli;

import java.util.List;

/** What was asked for is known, but no trial fits all of it, so nothing runs and nothing is proven. */
final class ZeroTrialsException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** @param notCovered what should be proven but no script covers */
    ZeroTrialsException(String message, List<String> notCovered) {
        super(notCovered.isEmpty() ? message : message + "; " + String.join("; ", notCovered));
    }
}
