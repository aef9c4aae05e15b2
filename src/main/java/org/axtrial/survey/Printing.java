package org.axtrial.survey;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.SignalSpec;

/** How numbers, places and layouts are told to a person. */
final class Printing {

    private static final double GROUPED = 10_000;

    private Printing() {}

    /** A value with its unit; large whole numbers in groups of three. */
    static String number(double value, SignalSpec signal) {
        return number(value)
                + (signal.unit() == Unit.ONE ? "" : " " + signal.unit().symbol());
    }

    static String number(double value) {
        if (!Double.isFinite(value)) {
            return "no number";
        }
        if (value == Math.rint(value) && Math.abs(value) < 1e18) {
            return Math.abs(value) >= GROUPED
                    ? String.format(Locale.ROOT, "%,.0f", value)
                    : String.format(Locale.ROOT, "%.0f", value);
        }
        return new BigDecimal(value)
                .round(new MathContext(6))
                .stripTrailingZeros()
                .toPlainString();
    }

    /** A scale as it is written in a description. */
    static String plain(double value) {
        return new BigDecimal(value)
                .round(new MathContext(12))
                .stripTrailingZeros()
                .toPlainString();
    }

    static String ms(long nanos) {
        double ms = nanos / 1e6;
        return String.format(Locale.ROOT, ms < 10 ? "%.2f ms" : ms < 100 ? "%.1f ms" : "%.0f ms", ms);
    }
}
