package org.axtrial.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Lets lines that are too long for a screen go on below, set in so that one sees where each begins. */
final class LineBreaks {

    /** A label or a number, and a gap before the text that it belongs to. */
    private static final Pattern LABEL = Pattern.compile(" *\\S+ {2,}(?=\\S)");

    /** Pairs of digits, read out one after the other to compare them. */
    private static final Pattern FINGERPRINT = Pattern.compile(" *([0-9A-F]{2}:){3,}[0-9A-F]{2}");

    private LineBreaks() {}

    /**
     * Breaks a line between words. Hashes, paths and other long words stay whole, so that they can be copied; a
     * fingerprint goes on after a colon.
     *
     * @param columns width of the screen, 1 or more
     */
    static List<String> fit(String line, int columns) {
        int indent = Math.min(indent(line), columns / 2);
        List<String> fitting = new ArrayList<>();
        String rest = line;
        while (rest.length() > columns) {
            int at = rest.lastIndexOf(' ', columns);
            if (at <= indent && FINGERPRINT.matcher(rest).matches()) {
                at = rest.lastIndexOf(':', columns - 1) + 1;
            } else if (at <= indent) {
                at = rest.indexOf(' ', columns);
            }
            if (at <= 0) {
                break;
            }
            fitting.add(rest.substring(0, at).stripTrailing());
            rest = " ".repeat(indent) + rest.substring(at).strip();
        }
        fitting.add(rest);
        return fitting;
    }

    private static int indent(String line) {
        Matcher label = LABEL.matcher(line);
        int begin = line.length() - line.stripLeading().length();
        return label.lookingAt() ? label.end() : begin + 2;
    }
}
