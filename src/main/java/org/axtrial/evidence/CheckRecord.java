package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;
import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Conformity;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.Distribution;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Mark;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.UncertaintyBudget;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * A measured value held against a criterion, with unrounded values.
 *
 * @param at when it was judged
 * @param name the name that the script gave it
 * @param measured what was measured
 * @param criterion what it was held against
 * @param margin distance to the nearer limit, positive inside, in the unit of the criterion; empty without a value
 * @param conformity how sure the verdict is; empty without a value, and in records that were written without it
 * @param verdict PASS, FAIL or INCONCLUSIVE
 * @param reason one sentence; empty for a PASS
 * @param trace name of the trace it was measured on
 * @param marks instants to draw on that trace
 * @param place where in the script it stands
 * @param limits named limits that the criterion is made of; left out where all its numbers stand in the script
 */
public record CheckRecord(
        Instant at,
        String name,
        Measured measured,
        Limits criterion,
        OptionalDouble margin,
        @JsonInclude(NON_ABSENT) Optional<Conformity> conformity,
        Verdict verdict,
        String reason,
        Optional<String> trace,
        List<Mark> marks,
        Optional<ScriptPlace> place,
        @JsonInclude(NON_EMPTY) List<LimitUse> limits) {

    /** What k was for all before records stated it. */
    private static final double OLD_COVERAGE_FACTOR = 2;

    /**
     * A measurement.
     *
     * @param value in {@code unit}; empty if there is none, and then {@code missing} says why
     * @param samplePeriod seconds
     * @param resolution in {@code unit}
     * @param standardUncertainty combined, in {@code unit} (JCGM 100:2008, 5.1.2)
     * @param expandedUncertainty k times the combined one, in {@code unit}
     * @param coverageFactor k; empty in records that were written when it was 2 for all
     * @param effectiveDegreesOfFreedom of the combined uncertainty (JCGM 100:2008, G.4.1); empty for infinitely many
     */
    public record Measured(
            String name,
            String definition,
            OptionalDouble value,
            Unit unit,
            Measurement.Bound bound,
            Source source,
            OptionalDouble samplePeriod,
            double resolution,
            double standardUncertainty,
            double expandedUncertainty,
            @JsonInclude(NON_ABSENT) OptionalDouble coverageFactor,
            @JsonInclude(NON_ABSENT) OptionalDouble effectiveDegreesOfFreedom,
            List<BudgetLine> budget,
            List<Mark> marks,
            Optional<String> missing) {

        public Measured {
            budget = List.copyOf(budget);
            marks = List.copyOf(marks);
        }

        static Measured of(Measurement m) {
            return new Measured(
                    m.name(),
                    m.definition(),
                    m.missing().isPresent() ? OptionalDouble.empty() : OptionalDouble.of(m.value()),
                    m.unit(),
                    m.bound(),
                    m.source(),
                    m.samplePeriod(),
                    m.resolution(),
                    m.standardUncertainty(),
                    m.expandedUncertainty(),
                    OptionalDouble.of(m.budget().coverageFactor()),
                    finite(m.budget().effectiveDegreesOfFreedom()),
                    m.budget().contributions().stream().map(BudgetLine::of).toList(),
                    m.marks(),
                    m.missing());
        }

        /** The measurement again; a missing value comes back as 0. */
        public Measurement measurement() {
            return new Measurement(
                    name,
                    definition,
                    value.orElse(0),
                    unit,
                    bound,
                    source,
                    samplePeriod,
                    resolution,
                    new UncertaintyBudget(
                            budget.stream().map(BudgetLine::contribution).toList(),
                            coverageFactor.orElse(OLD_COVERAGE_FACTOR)),
                    marks,
                    missing);
        }
    }

    /**
     * One line of the uncertainty budget.
     *
     * @param distribution what is assumed of the input; empty in records that were written without it, as the two
     *     that follow
     * @param spread half-width or standard deviation, in the unit of the measurement
     * @param divisor what makes the standard uncertainty of it
     * @param degreesOfFreedom empty for infinitely many, which JSON cannot write
     */
    public record BudgetLine(
            String name,
            Contribution.Evaluation evaluation,
            String how,
            @JsonInclude(NON_ABSENT) Optional<Distribution> distribution,
            @JsonInclude(NON_ABSENT) OptionalDouble spread,
            @JsonInclude(NON_ABSENT) OptionalDouble divisor,
            double standardUncertainty,
            OptionalDouble degreesOfFreedom) {

        static BudgetLine of(Contribution c) {
            return new BudgetLine(
                    c.name(),
                    c.evaluation(),
                    c.how(),
                    Optional.of(c.distribution()),
                    OptionalDouble.of(c.spread()),
                    OptionalDouble.of(c.divisor()),
                    c.standardUncertainty(),
                    finite(c.degreesOfFreedom()));
        }

        Contribution contribution() {
            return new Contribution(
                    name,
                    evaluation,
                    how,
                    distribution.orElse(Distribution.NORMAL),
                    spread.orElse(standardUncertainty),
                    divisor.orElse(1),
                    degreesOfFreedom.orElse(Double.POSITIVE_INFINITY));
        }
    }

    private static OptionalDouble finite(double value) {
        return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    /**
     * A criterion with its limits.
     *
     * @param kind which of the four forms
     * @param printed as it stands in the report
     * @param unit of all values here
     * @param lower lower limit, itself accepted
     * @param upper upper limit, itself accepted
     * @param nominal expected value, for {@code NOMINAL}
     * @param plusMinus tolerance, for {@code NOMINAL}
     */
    public record Limits(
            Kind kind,
            String printed,
            Unit unit,
            OptionalDouble lower,
            OptionalDouble upper,
            OptionalDouble nominal,
            OptionalDouble plusMinus) {

        /** Forms of a criterion. */
        public enum Kind {
            NOMINAL,
            AT_MOST,
            AT_LEAST,
            BETWEEN
        }

        static Limits of(Criterion c) {
            Kind kind;
            OptionalDouble nominal = OptionalDouble.empty();
            OptionalDouble plusMinus = OptionalDouble.empty();
            if (c instanceof Criterion.Nominal n) {
                kind = Kind.NOMINAL;
                nominal = OptionalDouble.of(n.nominal().value());
                plusMinus = OptionalDouble.of(n.plusMinus());
            } else if (c instanceof Criterion.AtMost) {
                kind = Kind.AT_MOST;
            } else if (c instanceof Criterion.AtLeast) {
                kind = Kind.AT_LEAST;
            } else {
                kind = Kind.BETWEEN;
            }
            return new Limits(kind, c.printed(), c.unit(), c.lower(), c.upper(), nominal, plusMinus);
        }

        /** The criterion again. */
        public Criterion criterion() {
            return switch (kind) {
                case NOMINAL ->
                    new Criterion.Nominal(new Quantity(nominal.orElseThrow(), unit), plusMinus.orElseThrow(), printed);
                case AT_MOST -> new Criterion.AtMost(new Quantity(upper.orElseThrow(), unit));
                case AT_LEAST -> new Criterion.AtLeast(new Quantity(lower.orElseThrow(), unit));
                case BETWEEN ->
                    new Criterion.Between(
                            new Quantity(lower.orElseThrow(), unit), new Quantity(upper.orElseThrow(), unit));
            };
        }
    }

    public CheckRecord {
        marks = List.copyOf(marks);
        limits = RunRecord.listOrNone(limits);
    }

    static CheckRecord of(RunEvent.CheckJudged event) {
        Judgement j = event.judgement();
        return new CheckRecord(
                event.at(),
                event.name(),
                Measured.of(j.measured()),
                Limits.of(j.criterion()),
                j.margin(),
                j.conformity(),
                j.verdict(),
                j.reason(),
                event.trace(),
                event.marks(),
                event.place(),
                event.limits());
    }

    /** The judgement again, as it was made. */
    public Judgement judgement() {
        return new Judgement(measured.measurement(), criterion.criterion(), verdict, margin, reason, conformity);
    }

    CheckRecord withoutStamps() {
        return new CheckRecord(
                Instant.EPOCH,
                name,
                measured,
                criterion,
                margin,
                conformity,
                verdict,
                reason,
                trace,
                marks,
                place,
                limits);
    }
}
