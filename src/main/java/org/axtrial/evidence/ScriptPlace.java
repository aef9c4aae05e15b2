package org.axtrial.evidence;

/**
 * A place in a script.
 *
 * @param script file name under the scripts folder
 * @param line one-based
 * @param column one-based
 * @param text the line itself, stripped
 */
public record ScriptPlace(String script, int line, int column, String text) {

    @Override
    public String toString() {
        return script + ":" + line + ":" + column;
    }
}
