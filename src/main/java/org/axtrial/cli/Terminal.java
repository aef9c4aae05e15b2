package org.axtrial.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The screen and the keyboard. The only place that touches the standard streams. */
final class Terminal {

    private final PrintStream out;
    private final PrintStream err;
    private final boolean interactive;

    private Terminal(PrintStream out, PrintStream err, boolean interactive) {
        this.out = out;
        this.err = err;
        this.interactive = interactive;
    }

    /** The streams of this program. */
    static Terminal standard() {
        return new Terminal(utf8(System.out), utf8(System.err), isTerminal(System.console()));
    }

    /** Other streams, for tests. */
    static Terminal on(PrintStream out, PrintStream err) {
        return new Terminal(out, err, false);
    }

    /** Reports have ±, µ and °, so the streams speak UTF-8 whatever the platform's habit; Windows consoles keep theirs. */
    private static PrintStream utf8(PrintStream stream) {
        Charset charset = System.getProperty("os.name", "").startsWith("Windows")
                ? Charset.defaultCharset()
                : StandardCharsets.UTF_8;
        return new PrintStream(stream, true, charset);
    }

    private static boolean isTerminal(@Nullable Console console) {
        // From Java 22 on there is a console object for redirected streams, too; TERM is not set for a plain pipe of a
        // service, and "dumb" says that lines cannot be rewritten.
        String term = System.getenv().getOrDefault("TERM", "");
        return console != null && !term.isEmpty() && !term.equals("dumb") && ConsoleKind.isTerminal(console);
    }

    void line(String text) {
        out.println(text);
    }

    void error(String text) {
        err.println(text);
    }

    /** Writes text as it is, without a line end. */
    void raw(String text) {
        out.print(text);
        out.flush();
    }

    /** Whether a person sits before it, so that lines may be rewritten and questions asked. */
    boolean isInteractive() {
        return interactive;
    }

    PrintStream out() {
        return out;
    }

    PrintStream err() {
        return err;
    }

    /** Asks and waits for a line; empty when there is nobody to answer. */
    Optional<String> ask(String question) {
        out.print(question);
        out.flush();
        try {
            BufferedReader reader = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
            return Optional.ofNullable(reader.readLine()).map(String::strip);
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
