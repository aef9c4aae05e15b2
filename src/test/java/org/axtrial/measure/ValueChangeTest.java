package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.ValueChange.Outcome;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

/** When a change is more than the uncertainty of both values. */
class ValueChangeTest {

    private static Measurement value(double value, Unit unit, double u, double freedom, Measurement.Bound bound) {
        List<Contribution> budget = u == 0
                ? List.of()
                : List.of(new Contribution(
                        "spread", Contribution.Evaluation.B, "given", Distribution.NORMAL, u, 1, freedom));
        return new Measurement(
                "v",
                "v.",
                value,
                unit,
                bound,
                Source.DRIVE,
                OptionalDouble.empty(),
                0,
                budget,
                List.of(),
                Optional.empty());
    }

    private static Measurement exact(double value, double u) {
        return value(value, Unit.MILLIMETRE, u, Double.POSITIVE_INFINITY, Measurement.Bound.EXACT);
    }

    @Test
    void theNormalisedErrorIsTheChangeOverTheRootOfTheSumOfSquares() {
        // E_n = (x − X)/√(U² + U²), by hand: u 0.3 and 0.4 give 0.5, with k = 2: 1.0.
        ValueChange change = ValueChange.of(exact(10, 0.3), exact(10.9, 0.4));
        assertThat(change.normalisedError().orElseThrow()).isCloseTo(0.9, within(1e-12));
        assertThat(change.standardUncertainty().orElseThrow()).isCloseTo(0.5, within(1e-12));
        assertThat(change.outcome()).isEqualTo(Outcome.WITHIN_UNCERTAINTY);
    }

    @Test
    void aChangeAboveThatHasMoved() {
        assertThat(ValueChange.of(exact(10, 0.3), exact(8.9, 0.4)).outcome()).isEqualTo(Outcome.MOVED);
        assertThat(ValueChange.of(exact(10, 0.3), exact(11.1, 0.4)).outcome()).isEqualTo(Outcome.MOVED);
    }

    @Test
    void fewDegreesOfFreedomAskForMore() {
        // Equal u with 5 degrees of freedom each have 10 together; t for 95.45 % is 2.28 (JCGM 100:2008, table G.2).
        ValueChange change = ValueChange.of(
                value(0, Unit.MILLIMETRE, 1, 5, Measurement.Bound.EXACT),
                value(3, Unit.MILLIMETRE, 1, 5, Measurement.Bound.EXACT));
        assertThat(change.coverageFactor().orElseThrow()).isCloseTo(2.28, within(0.005));
        assertThat(change.outcome()).isEqualTo(Outcome.WITHIN_UNCERTAINTY);
        assertThat(ValueChange.of(exact(0, 1), exact(3, 1)).outcome()).isEqualTo(Outcome.MOVED);
    }

    @Test
    void withoutUncertaintyOnlyEqualityIsJudged() {
        assertThat(ValueChange.of(exact(4, 0), exact(4, 0)).outcome()).isEqualTo(Outcome.WITHIN_UNCERTAINTY);
        ValueChange differs = ValueChange.of(exact(4, 0), exact(5, 0.1));
        assertThat(differs.outcome()).isEqualTo(Outcome.NO_UNCERTAINTY);
        assertThat(differs.change()).hasValue(1);
        assertThat(differs.normalisedError()).isEmpty();
    }

    @Test
    void aBoundAndAMissingValueAreNotJudged() {
        Measurement bound = value(9, Unit.MILLIMETRE, 0.1, 5, Measurement.Bound.AT_LEAST);
        assertThat(ValueChange.of(exact(1, 0.1), bound).outcome()).isEqualTo(Outcome.ONLY_BOUND);
        Measurement missing = Measurement.notReported("v", Unit.MILLIMETRE, "not there");
        ValueChange change = ValueChange.of(missing, exact(1, 0.1));
        assertThat(change.outcome()).isEqualTo(Outcome.NO_VALUE);
        assertThat(change.change()).isEmpty();
    }

    @Test
    void theShareIsOfHalfTheRangeOrOfTheSizeOfTheLimit() {
        ValueChange change = ValueChange.of(exact(10, 0.1), exact(11, 0.1));
        Quantity two = new Quantity(2, Unit.MILLIMETRE);
        Quantity ten = new Quantity(10, Unit.MILLIMETRE);
        assertThat(change.shareOf(new Criterion.Between(two, ten))).hasValue(0.25);
        assertThat(change.shareOf(new Criterion.AtMost(ten))).hasValue(0.1);
        assertThat(change.shareOf(new Criterion.AtMost(new Quantity(0, Unit.MILLIMETRE))))
                .isEmpty();
    }

    @Test
    void differentUnitsAreRefused() {
        Measurement speed = value(1, Unit.DEGREE, 0.1, 5, Measurement.Bound.EXACT);
        assertThatThrownBy(() -> ValueChange.of(exact(1, 0.1), speed))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("mm")
                .hasMessageContaining("deg");
    }
}
