package org.axtrial.cli;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How much fits on the screen.
 *
 * @param columns characters in a line
 * @param lines lines on the screen
 */
record ScreenSize(int columns, int lines) {

    /** What every terminal has at least. Common practice, no source. */
    static final ScreenSize USUAL = new ScreenSize(80, 24);

    private static final Pattern STTY = Pattern.compile("(\\d{1,4}) (\\d{1,4})\\s*");
    private static final Pattern NUMBER = Pattern.compile("[1-9]\\d{0,3}");
    private static final int PATIENCE_SECONDS = 2;

    ScreenSize {
        columns = columns < 1 ? USUAL.columns : columns;
        lines = lines < 1 ? USUAL.lines : lines;
    }

    /** As the terminal itself tells it, otherwise as COLUMNS and LINES tell it, otherwise the usual. */
    static ScreenSize now() {
        return asked().orElseGet(() -> new ScreenSize(
                told("COLUMNS").orElse(USUAL.columns), told("LINES").orElse(USUAL.lines)));
    }

    private static Optional<Integer> told(String variable) {
        return Optional.ofNullable(System.getenv(variable))
                .filter(text -> NUMBER.matcher(text).matches())
                .map(Integer::valueOf);
    }

    /** POSIX: {@code stty size} is not in the standard, but every stty of today knows it; Windows has none. */
    private static Optional<ScreenSize> asked() {
        File terminal = new File("/dev/tty");
        if (!terminal.exists()) {
            return Optional.empty();
        }
        try {
            Process stty = new ProcessBuilder("stty", "size")
                    .redirectInput(terminal)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            if (!stty.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                stty.destroy();
                return Optional.empty();
            }
            return read(new String(stty.getInputStream().readAllBytes(), StandardCharsets.US_ASCII));
        } catch (IOException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }

    /** Lines and columns as {@code stty size} prints them. */
    static Optional<ScreenSize> read(String text) {
        Matcher matcher = STTY.matcher(text);
        return matcher.matches()
                ? Optional.of(new ScreenSize(Integer.parseInt(matcher.group(2)), Integer.parseInt(matcher.group(1))))
                : Optional.empty();
    }
}
