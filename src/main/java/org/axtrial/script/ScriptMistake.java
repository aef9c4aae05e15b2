package org.axtrial.script;

/** A script used a word wrongly; the message says what was wrong and what to write instead. */
final class ScriptMistake extends RuntimeException {

    private static final long serialVersionUID = 1L;

    ScriptMistake(String message) {
        super(message);
    }
}
