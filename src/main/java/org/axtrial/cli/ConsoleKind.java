package org.axtrial.cli;

import java.io.Console;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Tells a real terminal from a redirected stream, and whether this program may use it now. */
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

    /**
     * Whether the terminal belongs to this program now. A shell that has started it in the background reads and writes
     * there itself; a program that reads all the same is halted by the system.
     */
    static boolean isInForeground() {
        try {
            return isForeground(Files.readString(Path.of("/proc/self/stat")));
        } catch (IOException e) {
            // Only Linux tells.
            return true;
        }
    }

    /** Whether the input is a terminal that belongs to another program now, which must not be read. */
    static boolean isInputOfOthers() {
        try {
            String input = Files.readSymbolicLink(Path.of("/proc/self/fd/0")).toString();
            return (input.startsWith("/dev/pts/") || input.startsWith("/dev/tty")) && !isInForeground();
        } catch (IOException e) {
            return false;
        }
    }

    /** By the fields behind the name in brackets, which may have anything in it. Source: proc(5), /proc/pid/stat. */
    static boolean isForeground(String stat) {
        String[] fields = stat.substring(stat.lastIndexOf(')') + 1).strip().split(" ");
        if (fields.length < 6) {
            return true;
        }
        String ownGroup = fields[2];
        String groupOfTerminal = fields[5];
        return groupOfTerminal.equals("-1") || groupOfTerminal.equals(ownGroup);
    }
}
