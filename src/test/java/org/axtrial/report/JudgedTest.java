package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.CheckRecord.Limits;
import org.axtrial.measure.Mark;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

class JudgedTest {

    private static final AxisScale SCREW = AxisScale.linear(131_072, Quantity.of(10, Unit.MILLIMETRE));

    private static CheckRecord check(String measured, double value, Limits limits) {
        return new CheckRecord(
                Instant.EPOCH,
                "Named by the script",
                new CheckRecord.Measured(
                        measured,
                        "Defined.",
                        OptionalDouble.of(value),
                        limits.unit(),
                        Measurement.Bound.EXACT,
                        Source.DRIVE,
                        OptionalDouble.of(0.005),
                        0,
                        0,
                        0,
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        List.of(),
                        List.of(),
                        Optional.empty()),
                limits,
                OptionalDouble.of(0),
                Optional.empty(),
                Verdict.PASS,
                "",
                Optional.of("move-1"),
                List.of(new Mark("from", 0.5), new Mark("to", 1.5)),
                Optional.empty(),
                List.of());
    }

    private static Limits nominal(double value, double plusMinus, Unit unit) {
        return new Limits(
                Limits.Kind.NOMINAL,
                "as printed",
                unit,
                OptionalDouble.of(value - plusMinus),
                OptionalDouble.of(value + plusMinus),
                OptionalDouble.of(value),
                OptionalDouble.of(plusMinus));
    }

    private static Limits atMost(double value, Unit unit) {
        return new Limits(
                Limits.Kind.AT_MOST,
                "as printed",
                unit,
                OptionalDouble.empty(),
                OptionalDouble.of(value),
                OptionalDouble.empty(),
                OptionalDouble.empty());
    }

    private static Judged judged(CheckRecord check, Conversion conversion) {
        return new Judged(List.of(check), conversion);
    }

    /** Half a turn of a screw of 10 mm is 5 mm, and 0.36° of it are 0.01 mm. */
    @Test
    void turnsOfAScrewAreDrawnInMillimetres() {
        Judged judged = judged(check("position change", 0.5, nominal(0.5, 0.001, Unit.REVOLUTION)), SCREW);
        Judged.Target target = judged.target(20, 25, Unit.MILLIMETRE).orElseThrow();
        assertThat(target.value()).isCloseTo(25, within(1e-9));
        assertThat(target.tolerance()).isCloseTo(0.01, within(1e-9));
    }

    @Test
    void countsAreDrawnInMillimetres() {
        Judged judged = judged(check("drift at standstill", 0, nominal(0, 13.1072, Unit.COUNT)), SCREW);
        Judged.Target target = judged.target(7, 7, Unit.MILLIMETRE).orElseThrow();
        assertThat(target.value()).isCloseTo(7, within(1e-9));
        assertThat(target.tolerance()).isCloseTo(0.001, within(1e-9));
    }

    @Test
    void endPositionIsToldFromDistance() {
        Judged judged = judged(check("position", 25, nominal(25, 0.01, Unit.MILLIMETRE)), SCREW);
        assertThat(judged.target(20, 25, Unit.MILLIMETRE).orElseThrow().value()).isCloseTo(25, within(1e-9));
    }

    @Test
    void nothingIsDrawnWhereTheAxisHasNoFactor() {
        CheckRecord check = check("position change", 5, nominal(5, 0.01, Unit.MILLIMETRE));
        assertThat(judged(check, AxisScale.rotary(65536)).target(0, 0.5, Unit.REVOLUTION))
                .isEmpty();
        assertThat(judged(check, Conversion.SAME_DIMENSION).target(0, 0.5, Unit.REVOLUTION))
                .isEmpty();
    }

    @Test
    void valueThatIsNeitherDistanceNorPositionDrawsNothing() {
        Judged judged = judged(check("computed value", 3, nominal(3, 0.01, Unit.MILLIMETRE)), SCREW);
        assertThat(judged.target(20, 25, Unit.MILLIMETRE)).isEmpty();
    }

    @Test
    void heldSpeedKeepsTheUnitOfItsLimits() {
        Judged judged = judged(check("mean speed", 60, nominal(60, 0.6, Unit.REVOLUTION_PER_MINUTE)), SCREW);
        Judged.Held held = judged.held().orElseThrow();
        assertThat(held.unit()).isEqualTo(Unit.REVOLUTION_PER_MINUTE);
        assertThat(held.from()).isEqualTo(0.5);
        assertThat(held.to()).isEqualTo(1.5);
        // 60 r/min of a screw of 10 mm are 10 mm/s.
        assertThat(judged.in(Unit.MILLIMETRE_PER_SECOND, held.high(), held.unit()))
                .isCloseTo(10.1, within(1e-9));
    }

    @Test
    void largestSizeIsDrawnOnBothSidesUnlessTheCurveWouldLookFlat() {
        Judged judged = judged(check("peak following error", 27, atMost(36, Unit.DEGREE)), SCREW);
        Plot.Band band = judged.sizeLimit(Judged.Subject.FOLLOWING_ERROR, new double[] {0, -0.75}, Unit.MILLIMETRE)
                .orElseThrow();
        assertThat(band.high()).isCloseTo(1, within(1e-9));
        assertThat(band.low()).isCloseTo(-1, within(1e-9));
        assertThat(judged.sizeLimit(Judged.Subject.FOLLOWING_ERROR, new double[] {0, 0.1}, Unit.MILLIMETRE))
                .isEmpty();
        assertThat(judged.sizeLimit(Judged.Subject.TORQUE, new double[] {0, 30}, Unit.PERCENT))
                .isEmpty();
    }

    @Test
    void instantsStandOnTheCurveThatTheirCheckIsAbout() {
        Judged judged = judged(check("peak torque", 30, atMost(80, Unit.PERCENT)), SCREW);
        assertThat(judged.marks(Judged.Subject.TORQUE)).extracting(Mark::label).containsExactly("from", "to");
        assertThat(judged.marks(Judged.Subject.POSITION)).isEmpty();
        assertThat(judged.marks(Judged.Subject.SPEED)).isEmpty();
    }
}
