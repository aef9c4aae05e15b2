package org.axtrial.script;

/** Thrown into a script by every word once its trial is broken, so that nothing more happens whatever it catches. */
final class TrialHalted extends RuntimeException {

    private static final long serialVersionUID = 1L;

    TrialHalted(String message) {
        super(message);
    }
}
