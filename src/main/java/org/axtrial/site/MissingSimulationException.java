package org.axtrial.site;

/** An axis is to be simulated and its site file does not say how. */
final class MissingSimulationException extends Exception {

    private static final long serialVersionUID = 1L;

    MissingSimulationException(String message) {
        super(message);
    }
}
