package org.axtrial.survey;

import java.util.Optional;

/** Where the keys of a file stand, so that a person can be shown the line to change. The file itself is never changed. */
@FunctionalInterface
public interface KeyPlaces {

    /** Knows nothing; corrections then name the key without a line. */
    KeyPlaces NONE = path -> Optional.empty();

    /**
     * Where a value or block stands.
     *
     * @param path keys joined by dots, for example {@code identity.productCode.address}
     * @return empty if the file does not have it
     */
    Optional<Written> at(String path);

    /**
     * A value as it is written.
     *
     * @param file the file
     * @param line from 1
     * @param text the value; empty string for a block
     */
    record Written(String file, int line, String text) {}
}
