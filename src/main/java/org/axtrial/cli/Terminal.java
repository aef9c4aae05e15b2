package org.axtrial.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The screen and the keyboard. The only place that touches the standard streams. */
final class Terminal {

    /** Messages have ±, µ and °, so the streams speak UTF-8 whatever the platform's habit; Windows consoles keep theirs. */
    private static final Charset CHARSET =
            System.getProperty("os.name", "").startsWith("Windows") ? Charset.defaultCharset() : StandardCharsets.UTF_8;

    private final BufferedReader in;
    private final PrintStream out;
    private final PrintStream err;
    private final boolean interactive;
    private final @Nullable Console console;

    private Terminal(
            BufferedReader in, PrintStream out, PrintStream err, boolean interactive, @Nullable Console console) {
        this.in = in;
        this.out = out;
        this.err = err;
        this.interactive = interactive;
        this.console = console;
    }

    /** The streams of this program. */
    static Terminal standard() {
        // The keyboard speaks the charset of the platform, whatever is written to the screen.
        InputStream keyboard = ConsoleKind.isInputOfOthers() ? InputStream.nullInputStream() : System.in;
        return new Terminal(
                new BufferedReader(new InputStreamReader(keyboard, Charset.defaultCharset())),
                inCharset(System.out),
                inCharset(System.err),
                isTerminal(System.console()),
                System.console());
    }

    /** Other streams without a keyboard, for tests. */
    static Terminal on(PrintStream out, PrintStream err) {
        return on(InputStream.nullInputStream(), out, err);
    }

    /** Other streams, for tests. */
    static Terminal on(InputStream in, PrintStream out, PrintStream err) {
        return new Terminal(new BufferedReader(new InputStreamReader(in, CHARSET)), out, err, false, null);
    }

    /** Other streams that are taken for a screen and a keyboard, for tests. */
    static Terminal screen(InputStream in, PrintStream out, PrintStream err) {
        return new Terminal(new BufferedReader(new InputStreamReader(in, CHARSET)), out, err, true, null);
    }

    private static PrintStream inCharset(PrintStream stream) {
        return new PrintStream(stream, true, CHARSET);
    }

    private static boolean isTerminal(@Nullable Console console) {
        // From Java 22 on there is a console object for redirected streams, too; TERM is not set for a plain pipe of a
        // service, and "dumb" says that lines cannot be rewritten.
        String term = System.getenv().getOrDefault("TERM", "");
        return console != null
                && !term.isEmpty()
                && !term.equals("dumb")
                && ConsoleKind.isTerminal(console)
                && ConsoleKind.isInForeground();
    }

    void line(String text) {
        out.println(text);
    }

    /** Writes lines: on a screen those that are too long go on below, elsewhere each stays whole, for scripts. */
    void text(List<String> lines) {
        int columns = interactive ? columns() : Integer.MAX_VALUE;
        lines.forEach(line -> LineBreaks.fit(line, columns).forEach(this::line));
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

    /** Width of a line. Shells mostly keep COLUMNS to themselves, so the terminal is asked; a pipe has room for 100. */
    int columns() {
        return interactive ? ScreenSize.now().columns() : 100;
    }

    PrintWriter outWriter() {
        return new PrintWriter(out, true, CHARSET);
    }

    PrintWriter errWriter() {
        return new PrintWriter(err, true, CHARSET);
    }

    /** Asks and waits for a line; empty when there is nobody to answer. */
    Optional<String> ask(String question) {
        raw(question);
        return readLine();
    }

    /**
     * Asks for something that must not be seen; a real terminal does not show what is typed.
     *
     * @return empty when there is nobody to answer
     */
    Optional<char[]> askSecret(String question) {
        if (console != null && interactive) {
            return Optional.ofNullable(console.readPassword("%s", question));
        }
        return ask(question).map(String::toCharArray);
    }

    /** Waits for the next line, without spaces around it; empty at the end of the input. */
    Optional<String> readLine() {
        try {
            return Optional.ofNullable(in.readLine()).map(String::strip);
        } catch (IOException e) {
            return Optional.empty();
        }
    }
}
