package org.axtrial.cli;

import java.io.Console;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;

/** Tells a real terminal from a redirected stream, and whether this program may use it now. */
final class ConsoleKind {

    private static final Pattern SPACES = Pattern.compile(" +");

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

    /**
     * Whether the input must not be read: a terminal that belongs to another program now, or, where the program was started
     * with its input closed, a file that the Java runtime has opened in its place.
     */
    static boolean isInputOfOthers() {
        try {
            String input = Files.readSymbolicLink(Path.of("/proc/self/fd/0")).toString();
            Path runtime = Path.of(System.getProperty("java.home", "/")).toRealPath();
            return isInputOfOthers(input, runtime.toString(), isInForeground());
        } catch (IOException e) {
            return false;
        }
    }

    static boolean isInputOfOthers(String input, String runtime, boolean foreground) {
        boolean terminal = input.startsWith("/dev/pts/") || input.startsWith("/dev/tty");
        boolean ofRuntime = input.startsWith(runtime + "/") || input.endsWith(".jar") || input.contains("/hsperfdata_");
        return ofRuntime || (terminal && !foreground);
    }

    /** By the fields behind the name in brackets, which may have anything in it. Source: proc(5), /proc/pid/stat. */
    static boolean isForeground(String stat) {
        List<String> fields = SPACES.splitAsStream(
                        stat.substring(stat.lastIndexOf(')') + 1).strip())
                .toList();
        if (fields.size() < 6) {
            return true;
        }
        String ownGroup = fields.get(2);
        String groupOfTerminal = fields.get(5);
        return groupOfTerminal.equals("-1") || groupOfTerminal.equals(ownGroup);
    }
}
