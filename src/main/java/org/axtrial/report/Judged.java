package org.axtrial.report;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.measure.Mark;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;

/** What the checks of one trace say about its curves: accepted ranges in the unit of a curve, and instants. */
final class Judged {

    /** The curve that a check is about. */
    enum Subject {
        POSITION,
        SPEED,
        FOLLOWING_ERROR,
        TORQUE;

        /** Measurements are named by this program; what a script has computed is told by its unit. */
        static Subject of(CheckRecord check) {
            String name = check.measured().name().toLowerCase(Locale.ROOT);
            Dimension dimension = check.criterion().unit().dimension();
            if (name.contains("following error")) {
                return FOLLOWING_ERROR;
            }
            if (name.contains("torque") || dimension == Dimension.TORQUE) {
                return TORQUE;
            }
            return name.contains("speed") || dimension.motion() == Dimension.Motion.SPEED ? SPEED : POSITION;
        }
    }

    /**
     * Where the axis had to come to rest, in the unit of the position.
     *
     * @param check name of the check that says so
     * @param value the target
     * @param tolerance accepted distance on both sides, positive
     */
    record Target(String check, double value, double tolerance) {

        Plot.Band band() {
            return new Plot.Band(value - tolerance, value + tolerance);
        }
    }

    /**
     * A speed that was to be held.
     *
     * @param check name of the check that says so
     * @param unit of the limits
     * @param from first instant that counted, seconds
     * @param to last one
     */
    record Held(String check, Unit unit, double low, double high, double from, double to) {}

    private final List<CheckRecord> checks;
    private final Conversion conversion;

    /** @param checks those that were measured on this trace */
    Judged(List<CheckRecord> checks, Conversion conversion) {
        this.checks = checks;
        this.conversion = conversion;
    }

    boolean has(Subject subject) {
        return checks.stream().anyMatch(check -> Subject.of(check) == subject);
    }

    List<Mark> marks(Subject subject) {
        return checks.stream()
                .filter(check -> Subject.of(check) == subject)
                .flatMap(check -> check.marks().stream())
                .distinct()
                .toList();
    }

    /**
     * A nominal check in a unit of position is about the distance moved or about the end position. Which of them is seen
     * from the samples, because the measured value is one of the two; a check that fits neither gives no target.
     */
    Optional<Target> target(double start, double end, Unit unit) {
        return checks.stream()
                .filter(check -> Subject.of(check) == Subject.POSITION)
                .flatMap(check -> target(check, start, end, unit).stream())
                .findFirst();
    }

    private Optional<Target> target(CheckRecord check, double start, double end, Unit unit) {
        CheckRecord.Limits limits = check.criterion();
        if (limits.kind() != CheckRecord.Limits.Kind.NOMINAL
                || check.measured().value().isEmpty()
                || !converts(limits.unit(), unit)) {
            return Optional.empty();
        }
        double value = in(unit, check.measured().value().getAsDouble(), limits.unit());
        double nominal = in(unit, limits.nominal().orElseThrow(), limits.unit());
        double tolerance = in(unit, limits.plusMinus().orElseThrow(), limits.unit());
        double near = tolerance / 4 + in(unit, check.measured().expandedUncertainty(), limits.unit());
        if (Math.abs(end - start - value) <= near) {
            return Optional.of(new Target(check.name(), start + nominal, tolerance));
        }
        return Math.abs(end - value) <= near
                ? Optional.of(new Target(check.name(), nominal, tolerance))
                : Optional.empty();
    }

    /** The first check of a speed that has two limits. */
    Optional<Held> held() {
        return checks.stream()
                .filter(check -> Subject.of(check) == Subject.SPEED
                        && check.criterion().unit().dimension().motion() == Dimension.Motion.SPEED
                        && check.criterion().lower().isPresent()
                        && check.criterion().upper().isPresent()
                        && check.marks().size() >= 2)
                .map(check -> new Held(
                        check.name(),
                        check.criterion().unit(),
                        check.criterion().lower().orElseThrow(),
                        check.criterion().upper().orElseThrow(),
                        check.marks().stream().mapToDouble(Mark::seconds).min().orElseThrow(),
                        check.marks().stream().mapToDouble(Mark::seconds).max().orElseThrow()))
                .findFirst();
    }

    /** The range on both sides of zero that a largest size leaves, unless the curve would look flat beside it. */
    Optional<Plot.Band> sizeLimit(Subject subject, double[] values, Unit unit) {
        double size = Arrays.stream(values).map(Math::abs).max().orElse(0);
        return checks.stream()
                .filter(check -> Subject.of(check) == subject
                        && check.criterion().kind() == CheckRecord.Limits.Kind.AT_MOST
                        && converts(check.criterion().unit(), unit))
                .map(check -> in(
                        unit,
                        check.criterion().upper().orElseThrow(),
                        check.criterion().unit()))
                .filter(limit -> limit > 0 && limit <= 4 * size)
                .map(limit -> new Plot.Band(-limit, limit))
                .findFirst();
    }

    private static boolean sameKind(Unit one, Unit other) {
        return one.dimension() == other.dimension()
                || (one.dimension().motion() != Dimension.Motion.NONE
                        && one.dimension().motion() == other.dimension().motion());
    }

    /** Whether the axis has a factor between two units; a rotary one has none for lengths. */
    boolean converts(Unit from, Unit to) {
        if (!sameKind(from, to)) {
            return false;
        }
        try {
            return Double.isFinite(conversion.convert(1, from, to));
        } catch (IllegalArgumentException noFactor) {
            return false;
        }
    }

    /** A value in another unit that {@link #converts} has found good. */
    double in(Unit to, double value, Unit from) {
        return conversion.convert(value, from, to);
    }
}
