package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.axtrial.measure.Measurement.Bound;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class JudgeTest {

    static Measurement measured(double value, Unit unit, Bound bound, double resolution, double expanded) {
        return new Measurement(
                "settling time",
                "as tested",
                value,
                unit,
                bound,
                Source.DRIVE,
                OptionalDouble.of(0.02),
                resolution,
                expanded == 0
                        ? List.of()
                        : List.of(new Contribution("noise", Contribution.Evaluation.B, "as tested", expanded / 2, 1e9)),
                List.of(),
                Optional.empty());
    }

    private static Judgement judge(Measurement measurement, Criterion criterion) {
        return Judge.judge(measurement, criterion, Conversion.SAME_DIMENSION);
    }

    /** Kinds of limits around 100 ms: at most 100, at least 100, 100 ± 10 as nominal and as two limits. */
    static Criterion criterion(String kind) {
        return switch (kind) {
            case "atMost" -> new Criterion.AtMost(Quantity.of(100, Unit.MILLISECOND));
            case "atLeast" -> new Criterion.AtLeast(Quantity.of(100, Unit.MILLISECOND));
            case "nominal" -> new Criterion.Nominal(Quantity.of(100, Unit.MILLISECOND), 10, "100 ms ± 10 ms");
            case "between" ->
                new Criterion.Between(Quantity.of(90, Unit.MILLISECOND), Quantity.of(110, Unit.MILLISECOND));
            default -> throw new IllegalArgumentException(kind);
        };
    }

    @ParameterizedTest
    @CsvSource({
        // kind, bound, value, resolution, U, verdict, margin
        // Exact and fine: the limits belong to PASS.
        "atMost, EXACT, 100, 100, 100, PASS, 0",
        "atMost, EXACT, 99.999, 0, 0, PASS, 0.001",
        "atMost, EXACT, 100.001, 0, 0, FAIL, -0.001",
        "atMost, EXACT, 100.001, 100, 100, FAIL, -0.001",
        "atLeast, EXACT, 100, 0, 0, PASS, 0",
        "atLeast, EXACT, 99.999, 0, 0, FAIL, -0.001",
        "atLeast, EXACT, 100.001, 0, 0, PASS, 0.001",
        "nominal, EXACT, 90, 10, 10, PASS, 0",
        "nominal, EXACT, 110, 10, 10, PASS, 0",
        "nominal, EXACT, 89.999, 0, 0, FAIL, -0.001",
        "nominal, EXACT, 110.001, 0, 0, FAIL, -0.001",
        "between, EXACT, 103, 10, 10, PASS, 7",
        "between, EXACT, 110.001, 0, 0, FAIL, -0.001",
        // Exact and coarse by resolution or by uncertainty: outside by more than both is still FAIL.
        "atMost, EXACT, 50, 100.001, 0, INCONCLUSIVE, 50",
        "atMost, EXACT, 50, 0, 100.001, INCONCLUSIVE, 50",
        "atMost, EXACT, 200, 101, 0, INCONCLUSIVE, -100",
        "atMost, EXACT, 201, 101, 0, INCONCLUSIVE, -101",
        "atMost, EXACT, 201.001, 101, 0, FAIL, -101.001",
        "atMost, EXACT, 201, 0, 101, INCONCLUSIVE, -101",
        "atMost, EXACT, 201.001, 0, 101, FAIL, -101.001",
        "atMost, EXACT, 250, 101, 160, INCONCLUSIVE, -150",
        "nominal, EXACT, 100, 10.001, 0, INCONCLUSIVE, 10",
        "nominal, EXACT, 100, 0, 10.001, INCONCLUSIVE, 10",
        "nominal, EXACT, 79, 11, 0, INCONCLUSIVE, -11",
        "nominal, EXACT, 78.999, 11, 0, FAIL, -11.001",
        "between, EXACT, 100, 10.001, 0, INCONCLUSIVE, 10",
        "atLeast, EXACT, 150, 100.001, 0, INCONCLUSIVE, 50",
        // A lower bound of the quantity.
        "atMost, AT_LEAST, 500, 20, 10, FAIL, -400",
        "atMost, AT_LEAST, 100, 20, 10, INCONCLUSIVE, 0",
        "atMost, AT_LEAST, 60, 20, 10, INCONCLUSIVE, 40",
        "atMost, AT_LEAST, 150, 101, 0, FAIL, -50",
        "atMost, AT_LEAST, 200, 0, 101, INCONCLUSIVE, -100",
        "atMost, AT_LEAST, 201.001, 0, 101, FAIL, -101.001",
        "atLeast, AT_LEAST, 100, 20, 10, PASS, 0",
        "atLeast, AT_LEAST, 100, 101, 10, INCONCLUSIVE, 0",
        "atLeast, AT_LEAST, 99, 20, 10, INCONCLUSIVE, -1",
        "nominal, AT_LEAST, 110.001, 1, 1, FAIL, -0.001",
        "nominal, AT_LEAST, 100, 1, 1, INCONCLUSIVE, 10",
        "nominal, AT_LEAST, 80, 1, 1, INCONCLUSIVE, -10",
        // An upper bound of the quantity.
        "atMost, AT_MOST, 100, 20, 10, PASS, 0",
        "atMost, AT_MOST, 100, 101, 10, INCONCLUSIVE, 0",
        "atMost, AT_MOST, 100.001, 20, 10, INCONCLUSIVE, -0.001",
        "atLeast, AT_MOST, 99.999, 20, 10, FAIL, -0.001",
        "atLeast, AT_MOST, 100, 20, 10, INCONCLUSIVE, 0",
        "atLeast, AT_MOST, 50, 101, 10, FAIL, -50",
        "nominal, AT_MOST, 89.999, 1, 1, FAIL, -0.001",
        "nominal, AT_MOST, 100, 1, 1, INCONCLUSIVE, 10",
        "nominal, AT_MOST, 120, 1, 1, INCONCLUSIVE, -10",
    })
    void everyRowOfTheTableAndItsBoundaries(
            String kind,
            Bound bound,
            double value,
            double resolution,
            double expanded,
            Verdict verdict,
            double margin) {
        Judgement judgement = judge(measured(value, Unit.MILLISECOND, bound, resolution, expanded), criterion(kind));
        assertThat(judgement.verdict()).isEqualTo(verdict);
        assertThat(judgement.margin().orElseThrow()).isCloseTo(margin, within(1e-9));
        assertThat(judgement.reason().isEmpty()).isEqualTo(verdict == Verdict.PASS);
    }

    @ParameterizedTest
    @ValueSource(strings = {"atMost", "atLeast", "nominal", "between"})
    void whatIsMissingProvesNothing(String kind) {
        Measurement missing = new Draft("settling time", "", Unit.SECOND).missing("the record is too short");
        Judgement judgement = judge(missing, criterion(kind));
        assertThat(judgement.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judgement.reason()).isEqualTo("the record is too short");
        assertThat(judgement.margin()).isEmpty();
    }

    @Test
    void fiveMillisecondsCannotBeJudgedFromTwentyMillisecondSamples() {
        Judgement judgement = judge(
                measured(0.02, Unit.SECOND, Bound.AT_MOST, 0.02, 0),
                new Criterion.AtMost(Quantity.of(5, Unit.MILLISECOND)));
        assertThat(judgement.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judgement.reason())
                .isEqualTo("a limit of 5 ms cannot be judged from samples 20 ms apart; sample at 2 ms or faster,"
                        + " or use a value latched by the drive");
    }

    @Test
    void aSpeedQuantumAboveTheToleranceAsksForALongerHold() {
        Judgement judgement = judge(
                measured(10, Unit.REVOLUTION_PER_SECOND, Bound.EXACT, 0.1, 0),
                new Criterion.Nominal(Quantity.of(600, Unit.REVOLUTION_PER_MINUTE), 3, "600 rpm ± 0.5 %"));
        assertThat(judgement.reason())
                .isEqualTo("a tolerance of ± 3 r/min cannot be judged from a measurement that resolves 6 r/min;"
                        + " hold the speed 4 times as long or longer, or use finer feedback");
    }

    @Test
    void coarseFeedbackAsksForFinerSteps() {
        Judgement judgement = judge(
                measured(90, Unit.DEGREE, Bound.EXACT, 0.5, 0),
                new Criterion.Nominal(Quantity.of(90, Unit.DEGREE), 0.1, "90 deg ± 0.1 deg"));
        assertThat(judgement.reason())
                .isEqualTo("a tolerance of ± 0.1° cannot be judged from a measurement that resolves 0.5°;"
                        + " use feedback or an instrument with steps of 0.05° or finer");
    }

    @Test
    void tooMuchUncertaintyNamesItsLargestPart() {
        Judgement judgement = judge(
                measured(90, Unit.DEGREE, Bound.EXACT, 0, 0.5),
                new Criterion.Nominal(Quantity.of(90, Unit.DEGREE), 0.1, "90 deg ± 0.1 deg"));
        assertThat(judgement.reason())
                .isEqualTo("a tolerance of ± 0.1° cannot be judged with an uncertainty of ± 0.5° (k = 2);"
                        + " reduce its largest part, noise (as tested)");
    }

    @Test
    void aFailureSaysByHowMuch() {
        assertThat(judge(measured(0.1234, Unit.SECOND, Bound.EXACT, 0, 0.002), criterion("atMost"))
                        .reason())
                .isEqualTo("123.4 ms is 23.4 ms above the limit of 100.0 ms");
        assertThat(judge(measured(0.080, Unit.SECOND, Bound.EXACT, 0, 0.002), criterion("nominal"))
                        .reason())
                .isEqualTo("80.0 ms is 10.0 ms below the limit of 90.0 ms");
    }

    @Test
    void aBoundSaysWhyItIsNoMoreThanThat() {
        assertThat(judge(measured(0.06, Unit.SECOND, Bound.AT_LEAST, 0.02, 0.01), criterion("atMost"))
                        .reason())
                .isEqualTo("settling time is only known to be at least 60.0 ms, because the record ended before it was"
                        + " over; record longer");
        assertThat(judge(measured(0.12, Unit.SECOND, Bound.AT_MOST, 0.02, 0.01), criterion("atMost"))
                        .reason())
                .isEqualTo("settling time is only known to be at most 120.0 ms, because it was over before the first"
                        + " sample could see it; sample faster, or use a value latched by the drive");
    }

    @Test
    void aLimitOfZeroIsResolvedOnlyByAValueAwayFromIt() {
        Criterion zero = new Criterion.AtLeast(Quantity.of(0, Unit.PERCENT));
        assertThat(judge(measured(50, Unit.PERCENT, Bound.EXACT, 0.1, 0.2), zero)
                        .verdict())
                .isEqualTo(Verdict.PASS);
        assertThat(judge(measured(0.05, Unit.PERCENT, Bound.EXACT, 0.1, 0), zero)
                        .verdict())
                .isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judge(measured(0, Unit.PERCENT, Bound.EXACT, 0, 0), zero).verdict())
                .isEqualTo(Verdict.PASS);
    }

    @Test
    void theScaleCarriesTheMeasurementIntoTheUnitOfTheCriterion() {
        AxisScale scale = AxisScale.rotary(65536);
        Judgement judgement = Judge.judge(
                measured(27.4658203125, Unit.DEGREE, Bound.EXACT, 0.0054931640625, 0),
                new Criterion.Nominal(Quantity.of(5000, Unit.COUNT), 1, "5000 count ± 1 count"),
                scale);
        assertThat(judgement.measured().value()).isEqualTo(5000);
        assertThat(judgement.measured().unit()).isEqualTo(Unit.COUNT);
        assertThat(judgement.verdict()).isEqualTo(Verdict.PASS);
    }

    // Positions are kept in millimetres; so many counts and no more must still be so many counts on the way back.
    @Property
    void countsOnTheLimitPassThroughAnyScale(
            @ForAll @DoubleRange(min = 0.1, max = 500) @Scale(12) double lead,
            @ForAll @IntRange(min = 1, max = 100_000) int counts,
            @ForAll @IntRange(min = -1_000_000, max = 1_000_000) int start) {
        AxisScale scale = AxisScale.linear(65536, Quantity.of(lead, Unit.MILLIMETRE));
        double travelled = scale.convert(start + counts, Unit.COUNT, Unit.MILLIMETRE)
                - scale.convert(start, Unit.COUNT, Unit.MILLIMETRE);
        double quantum = scale.convert(1, Unit.COUNT, Unit.MILLIMETRE);
        Measurement travel = measured(travelled, Unit.MILLIMETRE, Bound.EXACT, quantum, 0);
        Quantity limit = Quantity.of(counts, Unit.COUNT);
        assertThat(Judge.judge(travel, new Criterion.AtMost(limit), scale).verdict())
                .isEqualTo(Verdict.PASS);
        assertThat(Judge.judge(travel, new Criterion.AtLeast(limit), scale).verdict())
                .isEqualTo(Verdict.PASS);
    }

    @Test
    void unitsThatDoNotFitAreRefused() {
        assertThatThrownBy(() -> judge(measured(1, Unit.DEGREE, Bound.EXACT, 0, 0), criterion("atMost")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("deg")
                .hasMessageContaining("ms");
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void whatIsNotFiniteCannotGetIn(double number) {
        assertThatThrownBy(() -> measured(number, Unit.SECOND, Bound.EXACT, 0, 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> measured(0, Unit.SECOND, Bound.EXACT, number, 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> measured(0, Unit.SECOND, Bound.EXACT, 0, number))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Criterion.Nominal(Quantity.of(1, Unit.SECOND), number, ""))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Judge.judge(
                        measured(1, Unit.SECOND, Bound.EXACT, 0, 0), criterion("atMost"), (v, f, t) -> number))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Property
    void neverPassOutsideTheLimits(
            @ForAll("kinds") String kind,
            @ForAll Bound bound,
            @ForAll @DoubleRange(min = -300, max = 300) @Scale(12) double value,
            @ForAll @DoubleRange(min = 0, max = 200) @Scale(12) double resolution,
            @ForAll @DoubleRange(min = 0, max = 200) @Scale(12) double expanded) {
        Judgement judgement = judge(measured(value, Unit.MILLISECOND, bound, resolution, expanded), criterion(kind));
        double judged = judgement.measured().value();
        boolean outside = judged < judgement.criterion().lower().orElse(Double.NEGATIVE_INFINITY)
                || judged > judgement.criterion().upper().orElse(Double.POSITIVE_INFINITY);
        assertThat(outside && judgement.verdict() == Verdict.PASS).isFalse();
        assertThat(!outside && judgement.verdict() == Verdict.FAIL).isFalse();
        assertThat(Math.abs(judged - value)).isLessThanOrEqualTo(1e-6 * resolution);
    }

    @Property
    void neverPassWhatTheMeasurementCannotResolve(
            @ForAll("kinds") String kind,
            @ForAll Bound bound,
            @ForAll @DoubleRange(min = -300, max = 300) @Scale(12) double value,
            @ForAll @DoubleRange(min = 1.000001, max = 10) @Scale(12) double times,
            @ForAll boolean byResolution) {
        double tolerance = kind.startsWith("at") ? 100 : 10;
        double resolution = byResolution ? tolerance * times : 0;
        double expanded = byResolution ? 0 : tolerance * times;
        assertThat(judge(measured(value, Unit.MILLISECOND, bound, resolution, expanded), criterion(kind))
                        .verdict())
                .isNotEqualTo(Verdict.PASS);
    }

    @Property
    void farOutsideIsFailHoweverCoarse(
            @ForAll("kinds") String kind, @ForAll @DoubleRange(min = 0, max = 1000) @Scale(12) double coarse) {
        double outside = 2 * coarse + 111;
        double value = "atLeast".equals(kind) ? 89 - outside : outside;
        assertThat(judge(measured(value, Unit.MILLISECOND, Bound.EXACT, coarse, coarse), criterion(kind))
                        .verdict())
                .isEqualTo(Verdict.FAIL);
    }

    @Provide
    Arbitrary<String> kinds() {
        return Arbitraries.of("atMost", "atLeast", "nominal", "between");
    }

    @ParameterizedTest
    @CsvSource({"2.5, 2", "5, 5", "1, 1", "0.99, 0.5", "0.05, 0.05", "3e-7, 2e-7", "700, 500", "0, 0"})
    void adviceIsGivenInRoundNumbers(double value, double round) {
        assertThat(Coarseness.roundBelow(value)).isCloseTo(round, within(1e-12 * value));
    }

    @Test
    void aJudgementIsNothingElse() {
        Measurement measurement = measured(1, Unit.SECOND, Bound.EXACT, 0, 0);
        assertThatThrownBy(() -> new Judgement(
                        measurement, criterion("atMost"), Verdict.ERROR, OptionalDouble.empty(), "broken"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a measured value cannot come to ERROR");
        assertThatThrownBy(() ->
                        new Judgement(measurement, criterion("atMost"), Verdict.FAIL, OptionalDouble.empty(), " "))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("FAIL needs a reason");
    }

    @Test
    void aSingleLowerLimitIsNamedInTheReason() {
        Measurement coarse = measured(150, Unit.MILLISECOND, Bound.EXACT, 0, 200);
        assertThat(judge(coarse, criterion("atLeast")).reason())
                .startsWith("a limit of 100 ms cannot be judged with an uncertainty of ± 200 ms");
    }

    @Test
    void noSpeedAgainstALimitOfZeroWouldNeedForever() {
        Measurement still = new Draft("mean speed", "", Unit.MILLIMETRE_PER_SECOND)
                .resolution(0.1)
                .value(0);
        assertThat(judge(still, new Criterion.AtMost(Quantity.of(0, Unit.MILLIMETRE_PER_SECOND)))
                        .reason())
                .contains("hold the speed many times as long or longer");
    }
}
