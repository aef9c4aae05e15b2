package org.axtrial.cli;

import java.util.Optional;

/**
 * One question for the person at the terminal.
 *
 * @param <T> the answer
 */
interface Question<T> {

    /** Writes the whole question, up to the place where the answer is typed. */
    void put();

    /** Takes a line that was typed; empty if more is needed, for which it has asked. */
    Optional<T> take(String line);

    /** What to throw when the input of the terminal has ended. */
    RuntimeException ended();

    /** Whether the answer has been given. */
    boolean answered();
}
