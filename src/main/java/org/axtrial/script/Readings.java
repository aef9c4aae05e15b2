package org.axtrial.script;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * Where the readings of instruments come from: a person, or a file. Used by the threads of several axes. It never waits,
 * so that whoever asks can go on watching the axis.
 */
@FunctionalInterface
public interface Readings {

    /** Nobody to ask: every reading is missing. */
    Readings NONE = request -> {
        throw new MissingReadingException(request.what()
                + " is missing: there is nobody to ask; run it at a terminal, or give the values with --answers FILE");
    };

    /**
     * Asks for one reading.
     *
     * @throws MissingReadingException if it is certain that there will be none
     */
    Pending ask(Request request);

    /**
     * What is to be read.
     *
     * @param key trial and axis
     * @param name what is read, unique in the trial
     * @param instrument what it is read on
     * @param unit unit that the script wants it in, of the dimension of the instrument
     */
    record Request(TrialKey key, String name, Instrument instrument, Unit unit) {

        /** Whether the temperature of the scale has to be known. */
        public boolean needsTemperature() {
            return instrument.temperatureCoefficient().isPresent();
        }

        /** The reading in words, for messages. */
        public String what() {
            return "the reading \"" + name + "\" on " + instrument.id() + " (trial " + key.trial() + ", axis "
                    + key.axis() + ")";
        }
    }

    /**
     * A value that was read.
     *
     * @param value finite, in any unit of the dimension of the instrument
     * @param temperature of its scale, °C, finite; present if it was needed
     * @param by who read it; empty string if nobody said
     * @param how where it comes from, for example {@code typed at the terminal}
     */
    record Answer(Quantity value, OptionalDouble temperature, String by, String how) {}

    /** A question that has been put. Closing it takes it back. */
    interface Pending extends AutoCloseable {

        /**
         * Looks whether the answer has come.
         *
         * @throws MissingReadingException if there will be none any more
         */
        Optional<Answer> look();

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
                public void close() {
                    // Nothing is open.
                }
            };
        }
    }
}
