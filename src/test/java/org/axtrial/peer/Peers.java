package org.axtrial.peer;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

/** Programs from outside that tests speak to. */
public final class Peers {

    private Peers() {}

    /** Gives the test up, or fails it where the environment variable AXTRIAL_REQUIRE_PEERS insists on every peer. */
    public static void absent(String message) {
        if (System.getenv("AXTRIAL_REQUIRE_PEERS") != null) {
            fail(message);
        }
        abort(message);
    }
}
