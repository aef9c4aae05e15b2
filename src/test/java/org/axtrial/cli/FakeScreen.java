package org.axtrial.cli;

import java.io.ByteArrayOutputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A screen that understands what is written to it, by ECMA-48: CUU (cursor up), EL 2 (erase line), ED 0 (erase below);
 * and by DEC: save and restore cursor, ESC 7 and ESC 8. Anything else fails.
 */
final class FakeScreen extends OutputStream {

    private static final Pattern SEQUENCE = Pattern.compile("\u001b(?:([78])|\\[(\\d*)([A-Z]))");

    private final int columns;
    private final List<StringBuilder> lines = new ArrayList<>();
    private final ByteArrayOutputStream pending = new ByteArrayOutputStream();
    private int row;
    private int column;
    private int savedRow;
    private int savedColumn;

    FakeScreen(int columns, int rows) {
        this.columns = columns;
        for (int i = 0; i < rows; i++) {
            lines.add(blank());
        }
    }

    private StringBuilder blank() {
        return new StringBuilder(" ".repeat(columns));
    }

    @Override
    public synchronized void write(int one) {
        pending.write(one);
    }

    @Override
    public synchronized void flush() {
        String text = pending.toString(StandardCharsets.UTF_8);
        pending.reset();
        show(text);
    }

    /** What a person types is echoed by the terminal. */
    synchronized void type(String text) {
        show(text);
    }

    private void show(String text) {
        Matcher sequence = SEQUENCE.matcher(text);
        for (int at = 0; at < text.length(); ) {
            char next = text.charAt(at);
            if (next == '\u001b') {
                if (!sequence.find(at) || sequence.start() != at) {
                    throw new IllegalArgumentException("not understood: " + text.substring(at));
                }
                obey(sequence);
                at = sequence.end();
                continue;
            }
            put(next);
            at++;
        }
    }

    private void obey(Matcher sequence) {
        if ("7".equals(sequence.group(1))) {
            savedRow = row;
            savedColumn = column;
        } else if ("8".equals(sequence.group(1))) {
            row = savedRow;
            column = savedColumn;
        } else {
            int number = sequence.group(2).isEmpty() ? 0 : Integer.parseInt(sequence.group(2));
            switch (sequence.group(3)) {
                case "A" -> row = Math.max(0, row - Math.max(1, number));
                case "K" -> lines.set(row, blank());
                case "J" -> {
                    lines.get(row).replace(column, columns, " ".repeat(columns - column));
                    for (int i = row + 1; i < lines.size(); i++) {
                        lines.set(i, blank());
                    }
                }
                default -> throw new IllegalArgumentException("not understood: " + sequence.group());
            }
        }
    }

    private void put(char next) {
        if (next == '\r') {
            column = 0;
        } else if (next == '\n') {
            column = 0;
            if (row == lines.size() - 1) {
                lines.remove(0);
                lines.add(blank());
            } else {
                row++;
            }
        } else {
            if (column == columns) {
                put('\n');
            }
            lines.get(row).setCharAt(column++, next);
        }
    }

    /** The lines without spaces and empty lines at the end. */
    synchronized List<String> seen() {
        String all = String.join(
                "\n",
                lines.stream().map(line -> line.toString().stripTrailing()).toList());
        return Arrays.asList(all.stripTrailing().split("\n"));
    }
}
