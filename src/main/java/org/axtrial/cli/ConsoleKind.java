package org.axtrial.cli;

import java.io.Console;

/** Tells a real terminal from a redirected stream. */
final class ConsoleKind {

    private ConsoleKind() {}

    /** Java 22 and later answer by {@code Console.isTerminal}; before that a console was always a terminal. */
    static boolean isTerminal(Console console) {
        try {
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException e) {
            return true;
        } catch (ReflectiveOperationException e) {
            return false;
        }
    }
}
