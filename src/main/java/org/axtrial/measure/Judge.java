package org.axtrial.measure;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Conversion;

/**
 * Holds measurements against criteria. The value as measured, unrounded, is compared with the limits; what that comes to
 * near a limit is for the {@link DecisionRule} to say. What the measurement cannot resolve is INCONCLUSIVE.
 *
 * <p>A measurement with a {@linkplain Measurement#reservation reservation} is INCONCLUSIVE for that reason, inside and
 * outside of the limits.
 *
 * <p>Terms, all in the unit of the criterion: v value; r resolution; U expanded uncertainty; d distance by
 * which v lies outside the limits. The tolerance is half the distance of the limits of a two-sided criterion; for a
 * one-sided one the size of its limit, or the size of v if the limit is zero. The measurement is <em>coarse</em> if r or
 * U is larger than the tolerance. A value within a millionth of r from a limit is taken as the limit itself, because
 * counts that went through a unit conversion come back with such errors.
 *
 * <table>
 * <caption>The first row that applies decides.</caption>
 * <tr><th>value</th><th>limits</th><th>fine</th><th>coarse</th></tr>
 * <tr><td>missing</td><td>any</td><td>INCONCLUSIVE</td><td>INCONCLUSIVE</td></tr>
 * <tr><td>exact</td><td>v outside</td><td>by rule, FAIL or INCONCLUSIVE</td><td>by rule if d is larger than both U and r, else INCONCLUSIVE</td></tr>
 * <tr><td>exact</td><td>v inside</td><td>by rule</td><td>INCONCLUSIVE</td></tr>
 * <tr><td>at least v</td><td>v above the upper limit</td><td>by rule</td><td>by rule if d is larger than U, else INCONCLUSIVE</td></tr>
 * <tr><td>at least v</td><td>no upper limit, v not below the lower</td><td>by rule</td><td>INCONCLUSIVE</td></tr>
 * <tr><td>at least v</td><td>else</td><td>INCONCLUSIVE</td><td>INCONCLUSIVE</td></tr>
 * <tr><td>at most v</td><td>v below the lower limit</td><td>by rule</td><td>by rule if d is larger than U, else INCONCLUSIVE</td></tr>
 * <tr><td>at most v</td><td>no lower limit, v not above the upper</td><td>by rule</td><td>INCONCLUSIVE</td></tr>
 * <tr><td>at most v</td><td>else</td><td>INCONCLUSIVE</td><td>INCONCLUSIVE</td></tr>
 * </table>
 */
public final class Judge {

    private final Measurement measured;
    private final Criterion criterion;
    private final DecisionRule rule;
    private final double margin;
    private final double guardBand;

    private Judge(Measurement measured, Criterion criterion, DecisionRule rule) {
        this.measured = measured;
        this.criterion = criterion;
        this.rule = rule;
        this.margin = margin(measured.value(), criterion);
        this.guardBand = rule.factor() * measured.expandedUncertainty();
    }

    /** As {@link #judge(Measurement, Criterion, Conversion, DecisionRule)}, by simple acceptance. */
    public static Judgement judge(Measurement measurement, Criterion criterion, Conversion conversion) {
        return judge(measurement, criterion, conversion, DecisionRule.SIMPLE);
    }

    /**
     * Comes to a verdict.
     *
     * @param measurement in any unit that {@code conversion} carries into that of the criterion
     * @param criterion the limits
     * @param conversion the scale of the axis, or {@link Conversion#SAME_DIMENSION}
     * @param rule what was agreed on for values near a limit
     * @return PASS, FAIL or INCONCLUSIVE, with the measurement in the unit of the criterion
     * @throws IllegalArgumentException if there is no factor between the units; the message names both
     */
    public static Judgement judge(
            Measurement measurement, Criterion criterion, Conversion conversion, DecisionRule rule) {
        Measurement measured = onLimit(measurement.in(criterion.unit(), conversion), criterion);
        if (measured.missing().isPresent()) {
            return new Judgement(
                    measured,
                    criterion,
                    Verdict.INCONCLUSIVE,
                    OptionalDouble.empty(),
                    measured.missing().get());
        }
        Judge judge = new Judge(measured, criterion, rule);
        return measured.reservation()
                .map(why -> judge.inconclusive(Optional.of(judge.zone()), why))
                .orElseGet(judge::judgement);
    }

    private Judgement judgement() {
        Optional<String> coarse = Coarseness.of(measured, criterion);
        return switch (standing(measured, criterion)) {
            case OUTSIDE -> {
                double needed = measured.bound() == Measurement.Bound.EXACT
                        ? Math.max(measured.expandedUncertainty(), measured.resolution())
                        : measured.expandedUncertainty();
                boolean clear = coarse.isEmpty() || -margin > needed;
                yield clear ? byRule() : inconclusive(Optional.of(zone()), coarse.orElseThrow());
            }
            case INSIDE -> coarse.isPresent() ? inconclusive(Optional.of(zone()), coarse.get()) : byRule();
            case OPEN -> inconclusive(Optional.empty(), coarse.orElseGet(() -> Reasons.open(measured, criterion)));
        };
    }

    private Zone zone() {
        return Zone.of(margin, guardBand);
    }

    private Judgement byRule() {
        Zone zone = zone();
        Verdict verdict = rule.verdict(zone);
        String reason = switch (verdict) {
            case PASS -> "";
            case FAIL ->
                zone == Zone.CONDITIONAL_PASS
                        ? Reasons.guarded(measured, criterion, margin, guardBand)
                        : Reasons.outside(measured, criterion, margin, guardBand);
            default -> Reasons.guarded(measured, criterion, margin, guardBand);
        };
        return judgement(verdict, Optional.of(zone), reason);
    }

    private Judgement inconclusive(Optional<Zone> zone, String reason) {
        return judgement(Verdict.INCONCLUSIVE, zone, reason);
    }

    private Judgement judgement(Verdict verdict, Optional<Zone> zone, String reason) {
        return new Judgement(
                measured,
                criterion,
                verdict,
                OptionalDouble.of(margin),
                reason,
                Optional.of(Conformity.of(measured, criterion, zone, guardBand)));
    }

    /** Where the measured quantity is, as far as the value or the bound says. */
    private enum Standing {
        INSIDE,
        OUTSIDE,
        OPEN
    }

    private static Standing standing(Measurement measured, Criterion criterion) {
        boolean below = criterion.lower().isPresent()
                && measured.value() < criterion.lower().getAsDouble();
        boolean above = criterion.upper().isPresent()
                && measured.value() > criterion.upper().getAsDouble();
        return switch (measured.bound()) {
            case EXACT -> below || above ? Standing.OUTSIDE : Standing.INSIDE;
            case AT_LEAST ->
                above ? Standing.OUTSIDE : below || criterion.upper().isPresent() ? Standing.OPEN : Standing.INSIDE;
            case AT_MOST ->
                below ? Standing.OUTSIDE : above || criterion.lower().isPresent() ? Standing.OPEN : Standing.INSIDE;
        };
    }

    private static double margin(double value, Criterion criterion) {
        double toLower = value - criterion.lower().orElse(Double.NEGATIVE_INFINITY);
        double toUpper = criterion.upper().orElse(Double.POSITIVE_INFINITY) - value;
        return Math.min(toLower, toUpper);
    }

    private static Measurement onLimit(Measurement measured, Criterion criterion) {
        double near = Samples.ROUNDING * measured.resolution();
        for (OptionalDouble limit : new OptionalDouble[] {criterion.lower(), criterion.upper()}) {
            if (limit.isPresent() && Math.abs(measured.value() - limit.getAsDouble()) <= near) {
                return measured.withValue(limit.getAsDouble());
            }
        }
        return measured;
    }
}
