package org.axtrial.script;

/** A script asked for the number of a measurement that has none, through no fault of the script. */
final class NothingProvenException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    NothingProvenException(String message) {
        super(message);
    }
}
