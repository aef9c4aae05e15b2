package org.axtrial.evidence;

import java.time.Instant;

/**
 * What a person had to do with a step.
 *
 * @param kind why a person was asked
 * @param request what they were asked, as the script says it
 * @param askedAt when; the answer came when the step was recorded
 * @param outcome what came of it
 * @param by who answered; empty string if nobody was named
 * @param words what they said about it; empty string if nothing
 * @param how where the answer comes from, for example {@code typed at the terminal}
 */
public record PersonPart(
        Kind kind, String request, Instant askedAt, Outcome outcome, String by, String words, String how) {

    /** Where an answer comes from that nobody gave, because the run was a rehearsal. */
    public static final String REHEARSED = "answered by the rehearsal";

    /** Why a person is asked. */
    public enum Kind {
        /** Hold point: the work waits for a release. */
        HOLD,
        /** Witness point: somebody may watch; the work goes on without. */
        WITNESS,
        /** A person operates a real device of the machine. */
        OPERATE
    }

    /** What comes of it. */
    public enum Outcome {
        /** The hold point was released. */
        RELEASED,
        /** The release was refused. */
        REFUSED,
        /** The witness was present. */
        WITNESSED,
        /** No witness came, and the work went on. */
        NOBODY_CAME,
        /** The device was operated. */
        DONE,
        /** The device could not be operated. */
        NOT_DONE;

        /** Whether the trial goes on. */
        public boolean goesOn() {
            return this != REFUSED && this != NOT_DONE;
        }
    }

    /** Whether the rehearsal answered by itself. */
    public boolean rehearsed() {
        return how.equals(REHEARSED);
    }

    PersonPart withoutStamps() {
        return new PersonPart(kind, request, Instant.EPOCH, outcome, by, words, how);
    }
}
