package org.axtrial.evidence;

import java.util.Optional;

/** How much a punch item weighs (common practice, no source; contracts define the letters, and theirs come first). */
public enum PunchClass {
    /** Bars acceptance until it is closed. */
    A("bars acceptance until closed"),
    /** Accepted with a date by which it must be closed. */
    B("to be closed by its date; does not bar acceptance"),
    /** Minor; neither safety nor function depends on it. */
    C("minor");

    private final String meaning;

    PunchClass(String meaning) {
        this.meaning = meaning;
    }

    /** What the letter means, in words. */
    public String meaning() {
        return meaning;
    }

    /** The class of a letter, capital or small. */
    public static Optional<PunchClass> of(String letter) {
        for (PunchClass each : values()) {
            if (each.name().equalsIgnoreCase(letter)) {
                return Optional.of(each);
            }
        }
        return Optional.empty();
    }
}
