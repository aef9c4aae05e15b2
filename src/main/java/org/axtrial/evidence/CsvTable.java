package org.axtrial.evidence;

import java.text.DecimalFormatSymbols;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.axtrial.measure.Measurement;

/** A table for spreadsheet programs: CSV (RFC 4180) in UTF-8 with a byte order mark. Values are unrounded. */
final class CsvTable {

    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private final char separator;
    private final char decimal;
    private final int columns;
    private final StringBuilder out = new StringBuilder(BYTE_ORDER_MARK);

    /** @param locale decides the decimal sign, comma or point, and with it the separator, semicolon or comma */
    CsvTable(Locale locale, List<String> head) {
        decimal = DecimalFormatSymbols.getInstance(locale).getDecimalSeparator() == ',' ? ',' : '.';
        separator = decimal == ',' ? ';' : ',';
        columns = head.size();
        row(head.stream().map(CsvTable::words).toList());
    }

    /** @param cells one for each column, made by {@link #words} or {@link #number} */
    void row(List<String> cells) {
        if (cells.size() != columns) {
            throw new IllegalArgumentException(cells.size() + " cells for " + columns + " columns");
        }
        out.append(String.join(String.valueOf(separator), cells)).append("\r\n");
    }

    String number(OptionalDouble value) {
        return value.isEmpty() ? "" : CanonicalJson.number(value.getAsDouble()).replace('.', decimal);
    }

    /**
     * A text as one cell. A spreadsheet program would work out a text that begins with one of these characters, so an
     * apostrophe goes before it.
     */
    static String words(String text) {
        String line = Json.wellFormed(text);
        String plain = line.replaceAll("[\\p{Cntrl}\u2028\u2029]+", " ");
        boolean first = !line.isEmpty() && "=+-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20".indexOf(line.charAt(0)) >= 0;
        boolean formula = first || plain.stripLeading().matches("[=+\\-@].*");
        String safe = formula ? "'" + plain : plain;
        boolean quoted = safe.indexOf('"') >= 0 || safe.indexOf(',') >= 0 || safe.indexOf(';') >= 0;
        return quoted ? "\"" + safe.replace("\"", "\"\"") + "\"" : safe;
    }

    /** Whether a value stands for itself or for what it is at least or at most. */
    static String words(Measurement.Bound bound) {
        return switch (bound) {
            case EXACT -> "";
            case AT_LEAST -> "at least";
            case AT_MOST -> "at most";
        };
    }

    String text() {
        return out.toString();
    }
}
