package org.axtrial.script;

import java.util.Optional;
import org.axtrial.evidence.PersonPart;
import org.axtrial.evidence.TrialKey;

/**
 * Who releases hold points, witnesses, and operates the devices of a machine: people at a terminal, or a file. Used by the
 * threads of several axes. It never waits, so that whoever asks can go on watching the axis.
 */
@FunctionalInterface
public interface People {

    /** Nobody to ask. */
    People NONE = request -> {
        throw new MissingAnswerException(
                request.what()
                        + " needs a person, and there is nobody to ask; run it at a terminal, or give the answers with --answers FILE");
    };

    /** Answers by itself, so that everything can be rehearsed; each answer says so, and nobody is named. */
    People REHEARSED = request -> Pending.at(new Answer(
            switch (request.kind()) {
                case HOLD -> PersonPart.Outcome.RELEASED;
                // Truly nobody was there.
                case WITNESS -> PersonPart.Outcome.NOBODY_CAME;
                case OPERATE -> PersonPart.Outcome.DONE;
            },
            "",
            "",
            PersonPart.REHEARSED));

    /**
     * Asks for one answer.
     *
     * @throws MissingAnswerException if it is certain that there will be none
     */
    Pending ask(Request request);

    /**
     * What a person is asked.
     *
     * @param key trial and axis
     * @param kind why they are asked
     * @param text what, unique among the steps of its kind in the trial
     * @param motion what the axis does while they act, in words; empty if no motion is ordered
     * @param simulated whether the axis is simulated
     */
    record Request(TrialKey key, PersonPart.Kind kind, String text, Optional<String> motion, boolean simulated) {

        /** The step in words, for messages. */
        public String what() {
            return "the " + title(kind) + " \"" + text + "\" (trial " + key.trial() + ", axis " + key.axis() + ")";
        }
    }

    /** The name of a kind of step, as it stands inside a sentence. */
    static String title(PersonPart.Kind kind) {
        return switch (kind) {
            case HOLD -> "hold point";
            case WITNESS -> "witness point";
            case OPERATE -> "work by hand";
        };
    }

    /**
     * What they answered.
     *
     * @param outcome one that fits the kind
     * @param by who; empty string if nobody is named
     * @param words what they said about it; empty string if nothing
     * @param how where it comes from, for example {@code typed at the terminal}
     */
    record Answer(PersonPart.Outcome outcome, String by, String words, String how) {}

    /** A question that has been put. Closing it takes it back. */
    interface Pending extends AutoCloseable {

        /**
         * Looks whether the answer has come.
         *
         * @throws MissingAnswerException if there will be none any more
         */
        Optional<Answer> look();

        /**
         * Looks whether the person is ready for the motion in which they act, or has answered already. No axis moves for
         * somebody who has not been told.
         *
         * @throws MissingAnswerException if there will be no answer any more
         */
        boolean isReady();

        @Override
        void close();

        /** An answer that was there at once. */
        static Pending at(Answer answer) {
            return new Pending() {
                @Override
                public Optional<Answer> look() {
                    return Optional.of(answer);
                }

                @Override
                public boolean isReady() {
                    return true;
                }

                @Override
                public void close() {
                    // Nothing is open.
                }
            };
        }
    }
}
