package org.axtrial.measure;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * A judged value and its limits as text that never contradicts the verdict. Value, limits, margin and uncertainty get
 * the same number of decimals: that of two significant digits of the standard uncertainty (JCGM 100:2008, 7.2.6), more
 * if a limit was given with more, and as many more as it takes for the value and a limit that differ to print
 * differently and for the distance between them not to print as zero. Rounding keeps the order of two numbers, so the
 * printed value lies on the same side of the printed limit as the measured one. Independent of the locale: decimal
 * point, no grouping, U+2212 as minus sign.
 */
public final class Printed {

    /** More decimals than this come only from a value very close to a limit. */
    private static final int MOST_DECIMALS = 12;

    /** A limit with up to so many decimals is printed with all of them. */
    private static final int LIMIT_DECIMALS = 6;

    private static final int BRIEF_DIGITS = 4;

    private static final int COVERAGE_DIGITS = 3;

    private static final int RATIO_DIGITS = 2;

    private static final String NONE = "—";

    private final Measurement measured;
    private final Criterion criterion;
    private final int decimals;

    /** All in the same unit. */
    Printed(Measurement measured, Criterion criterion, OptionalDouble guardBand) {
        this.measured = measured;
        this.criterion = criterion;
        this.decimals = decimals(measured, criterion, guardBand);
    }

    /** The value, with ≥ or ≤ where it is only a bound, for example {@code 27.466°}; a dash if it is missing. */
    public static String value(Judgement judgement) {
        return of(judgement).valueText();
    }

    /** The limits, for example {@code ≤ 80.0 ms} or {@code 359.50 … 360.50°}. */
    public static String limits(Judgement judgement) {
        return of(judgement).limitsText();
    }

    /** Distance to the nearer limit with its sign, positive inside; a dash without a value. */
    public static String margin(Judgement judgement) {
        Printed printed = of(judgement);
        OptionalDouble margin = judgement.margin();
        if (margin.isEmpty()) {
            return NONE;
        }
        String sign = margin.getAsDouble() > 0 ? "+" : "";
        return sign + printed.text(margin.getAsDouble());
    }

    /** Expanded uncertainty, for example {@code ± 0.12 ms}; a dash if there is no value or no budget. */
    public static String uncertainty(Judgement judgement) {
        double expanded = judgement.measured().expandedUncertainty();
        boolean none = judgement.measured().missing().isPresent() || expanded == 0;
        return none ? NONE : "± " + of(judgement).text(expanded);
    }

    /** Coverage factor with three digits, for example {@code k = 2.13}; empty where there is no uncertainty. */
    public static String coverage(Measurement measurement) {
        boolean none = measurement.missing().isPresent() || measurement.expandedUncertainty() == 0;
        return none ? "" : "k = " + coverageFactor(measurement.budget().coverageFactor());
    }

    static String coverageFactor(double k) {
        return brief(k, Unit.ONE, COVERAGE_DIGITS);
    }

    /**
     * How sure a judgement is: zone and guard band where they are conditional, conformance probability, test uncertainty
     * ratio; empty if it does not say.
     */
    public static String conformity(Judgement judgement) {
        if (judgement.conformity().isEmpty()) {
            return "";
        }
        Conformity conformity = judgement.conformity().get();
        List<String> parts = new ArrayList<>();
        conformity
                .zone()
                .filter(zone -> zone == Zone.CONDITIONAL_PASS || zone == Zone.CONDITIONAL_FAIL)
                .ifPresent(zone -> parts.add(
                        zone.printed() + ", guard band " + of(judgement).text(conformity.guardBand())));
        conformity
                .probability()
                .ifPresent(p -> parts.add("conformance probability "
                        + probability(p, judgement.measured().expandedUncertainty() == 0)));
        conformity
                .testUncertaintyRatio()
                .ifPresent(ratio -> parts.add("test uncertainty ratio " + brief(ratio, Unit.ONE, RATIO_DIGITS) + ":1"
                        + (conformity.ratioIsLow() ? ", below " + brief(Conformity.GOOD_RATIO) + ":1" : "")));
        return String.join("; ", parts);
    }

    /** One that rounds to 0 or 100 % is not printed so, unless it is exact. */
    private static String probability(double probability, boolean exact) {
        double percent = 100 * probability;
        if (percent > 99.99 && !exact) {
            return "> 99.99 %";
        }
        if (percent < 0.01 && !exact) {
            return "< 0.01 %";
        }
        return rounded(percent, 2).stripTrailingZeros().toPlainString() + " %";
    }

    /** A measured value without a criterion, with decimals from its uncertainty. */
    public static String value(Measurement measurement) {
        if (measurement.missing().isPresent()) {
            return NONE;
        }
        return bound(measurement) + measurement.unit().printed(fixed(measurement.value(), decimals(measurement)));
    }

    /** {@code measured 60.0 r/min, expected 60 r/min ± 1 %}. */
    public static String comparison(Judgement judgement) {
        String value = judgement.measured().missing().isPresent() ? "no value" : value(judgement);
        return "measured " + value + ", expected " + judgement.criterion().printed();
    }

    /** A number with at most four significant digits, for running text. */
    static String brief(double value) {
        return brief(value, Unit.ONE);
    }

    /** As {@link #brief(double)}, with the unit. */
    static String brief(double value, Unit unit) {
        return brief(value, unit, BRIEF_DIGITS);
    }

    /** As {@link #brief(double, Unit)}, with so many digits. */
    static String brief(double value, Unit unit, int digits) {
        return new Quantity(value, unit).printed(digits);
    }

    String valueText() {
        return measured.missing().isPresent() ? NONE : bound(measured) + text(measured.value());
    }

    /** A number of the judgement with its decimals and unit. */
    String text(double value) {
        return criterion.unit().printed(fixed(value, decimals));
    }

    private String limitsText() {
        OptionalDouble lower = criterion.lower();
        OptionalDouble upper = criterion.upper();
        if (lower.isPresent() && upper.isPresent()) {
            return fixed(lower.getAsDouble(), decimals) + " … " + text(upper.getAsDouble());
        }
        return upper.isPresent() ? "≤ " + text(upper.getAsDouble()) : "≥ " + text(lower.orElseThrow());
    }

    private static Printed of(Judgement judgement) {
        Optional<Conformity> conformity = judgement.conformity();
        return new Printed(
                judgement.measured(),
                judgement.criterion(),
                conformity.isPresent() ? OptionalDouble.of(conformity.get().guardBand()) : OptionalDouble.empty());
    }

    private static int decimals(Measurement measured, Criterion criterion, OptionalDouble guardBand) {
        List<Double> limits = new ArrayList<>();
        criterion.lower().ifPresent(limits::add);
        criterion.upper().ifPresent(limits::add);
        int decimals = measured.missing().isPresent() ? 0 : decimals(measured);
        for (double limit : limits) {
            int given = given(limit);
            decimals = given <= LIMIT_DECIMALS ? Math.max(decimals, given) : decimals;
        }
        if (measured.missing().isEmpty()) {
            for (double limit : limits) {
                while (looksOnLimit(measured.value(), limit, decimals)) {
                    decimals++;
                }
                double distance = Math.abs(measured.value() - limit);
                while (guardBand.isPresent() && looksSame(distance, guardBand.getAsDouble(), decimals)) {
                    decimals++;
                }
            }
        }
        return decimals;
    }

    private static boolean looksOnLimit(double value, double limit, int decimals) {
        return value != limit
                && (rounded(value, decimals).compareTo(rounded(limit, decimals)) == 0
                        || rounded(value - limit, decimals).signum() == 0);
    }

    /** Whether two numbers print alike, though one is larger by more than binary arithmetic explains. */
    private static boolean looksSame(double one, double other, int decimals) {
        return Math.abs(one - other) > 1e-9 * other && rounded(one, decimals).compareTo(rounded(other, decimals)) == 0;
    }

    private static int decimals(Measurement measured) {
        double scale = measured.budget().isEmpty() ? measured.resolution() : measured.standardUncertainty();
        if (scale == 0) {
            return Math.min(MOST_DECIMALS, given(measured.value()));
        }
        BigDecimal twoDigits = new BigDecimal(scale).round(new MathContext(2, RoundingMode.HALF_UP));
        int exponent = twoDigits.precision() - twoDigits.scale() - 1;
        return Math.min(MOST_DECIMALS, Math.max(0, 1 - exponent));
    }

    private static int given(double value) {
        return Math.max(0, BigDecimal.valueOf(value).stripTrailingZeros().scale());
    }

    private static BigDecimal rounded(double value, int decimals) {
        return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_UP);
    }

    private static String fixed(double value, int decimals) {
        return rounded(value, decimals).toPlainString().replace('-', '\u2212');
    }

    private static String bound(Measurement measurement) {
        return switch (measurement.bound()) {
            case EXACT -> "";
            case AT_LEAST -> "≥ ";
            case AT_MOST -> "≤ ";
        };
    }
}
