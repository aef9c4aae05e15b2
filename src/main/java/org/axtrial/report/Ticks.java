package org.axtrial.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;

/** Round values along an axis of a plot, 1, 2 or 5 times a power of ten apart. */
final class Ticks {

    private final double step;
    private final List<Double> values = new ArrayList<>();

    /**
     * @param low lower end, finite
     * @param high upper end, above {@code low}
     * @param about how many there should be, at least 2
     */
    Ticks(double low, double high, int about) {
        double raw = (high - low) / about;
        double power = Math.pow(10, Math.floor(Math.log10(raw)));
        double scaled = raw / power;
        step = power * (scaled <= 1 ? 1 : scaled <= 2 ? 2 : scaled <= 5 ? 5 : 10);
        for (long i = (long) Math.ceil(low / step - 1e-9); i * step <= high + step * 1e-9; i++) {
            values.add(i * step);
        }
    }

    List<Double> values() {
        return values;
    }

    /** A tick as text, with as many decimals as the step needs. */
    String text(double value) {
        int decimals = Math.max(0, -(int) Math.floor(Math.log10(step) + 1e-9));
        return BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_UP)
                .toPlainString()
                .replace('-', '\u2212');
    }
}
