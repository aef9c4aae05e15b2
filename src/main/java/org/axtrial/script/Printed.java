package org.axtrial.script;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.OptionalDouble;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Measurement;
import org.axtrial.quantity.Quantity;

/** Numbers for steps and reasons. */
final class Printed {

    private static final int USUAL_DIGITS = 6;
    private static final int ALL_DIGITS = 17;

    private Printed() {}

    /** Six significant digits without trailing zeros. */
    static String number(double value) {
        return number(value, USUAL_DIGITS);
    }

    private static String number(double value, int digits) {
        BigDecimal rounded = new BigDecimal(value).round(new MathContext(digits));
        BigDecimal plain = rounded.stripTrailingZeros();
        // Below this a reader would have to count zeros.
        boolean tiny = rounded.signum() != 0 && rounded.abs().compareTo(new BigDecimal("1e-6")) < 0;
        return tiny || plain.precision() - plain.scale() > 15 ? plain.toString() : plain.toPlainString();
    }

    static String quantity(Quantity quantity) {
        return number(quantity.value()) + " " + quantity.unit().symbol();
    }

    /** {@code measured 1.02 rev, expected 1 rev ± 0.5 deg}, with as many digits as keep it from contradicting the verdict. */
    static String comparison(Judgement judgement) {
        Measurement measured = judgement.measured();
        String value = measured.missing().isPresent()
                ? "no value"
                : switch (measured.bound()) {
                            case EXACT -> "";
                            case AT_LEAST -> "at least ";
                            case AT_MOST -> "at most ";
                        }
                        + honest(measured.value(), judgement.criterion()) + " "
                        + measured.unit().symbol();
        return "measured " + value + ", expected " + judgement.criterion().printed();
    }

    private static String honest(double value, Criterion criterion) {
        for (int digits = USUAL_DIGITS; digits < ALL_DIGITS; digits++) {
            double shown = new BigDecimal(value).round(new MathContext(digits)).doubleValue();
            if (sameSide(value, shown, criterion.lower()) && sameSide(value, shown, criterion.upper())) {
                return number(value, digits);
            }
        }
        return number(value, ALL_DIGITS);
    }

    private static boolean sameSide(double value, double shown, OptionalDouble limit) {
        return limit.isEmpty()
                || Integer.signum(Double.compare(value, limit.getAsDouble()))
                        == Integer.signum(Double.compare(shown, limit.getAsDouble()));
    }
}
