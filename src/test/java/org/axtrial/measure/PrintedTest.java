package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.Locale;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.axtrial.measure.Measurement.Bound;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PrintedTest {

    private static Judgement judged(double value, Unit unit, double expanded, Criterion criterion) {
        return Judge.judge(
                JudgeTest.measured(value, unit, Bound.EXACT, 0, expanded), criterion, Conversion.SAME_DIMENSION);
    }

    private static final Criterion AT_MOST_80 = new Criterion.AtMost(Quantity.of(80, Unit.MILLISECOND));

    @ParameterizedTest
    @CsvSource({
        // value, U, printed value, limits, margin, uncertainty
        "75.123, 1, 75.12 ms, ≤ 80.00 ms, +4.88 ms, ± 1.00 ms",
        "75.123, 4, 75.1 ms, ≤ 80.0 ms, +4.9 ms, ± 4.0 ms",
        "75.123, 40, 75 ms, ≤ 80 ms, +5 ms, ± 40 ms",
        "80.04, 4, 80.04 ms, ≤ 80.00 ms, −0.04 ms, ± 4.00 ms",
        "80.0001, 40, 80.0001 ms, ≤ 80.0000 ms, −0.0001 ms, ± 40.0000 ms",
        "79.96, 4, 79.96 ms, ≤ 80.00 ms, +0.04 ms, ± 4.00 ms",
        "80, 4, 80.0 ms, ≤ 80.0 ms, 0.0 ms, ± 4.0 ms",
        "75.25, 0, 75.25 ms, ≤ 80.00 ms, +4.75 ms, —",
        "-3, 4, −3.0 ms, ≤ 80.0 ms, +83.0 ms, ± 4.0 ms",
    })
    void decimalsComeFromTheUncertaintyAndTheVerdict(
            double value, double expanded, String printed, String limits, String margin, String uncertainty) {
        Judgement judgement = judged(value, Unit.MILLISECOND, expanded, AT_MOST_80);
        assertThat(Printed.value(judgement)).isEqualTo(printed);
        assertThat(Printed.limits(judgement)).isEqualTo(limits);
        assertThat(Printed.margin(judgement)).isEqualTo(margin);
        assertThat(Printed.uncertainty(judgement)).isEqualTo(uncertainty);
    }

    @Test
    void twoLimitsAndAnAngle() {
        Judgement judgement = judged(
                360.2, Unit.DEGREE, 0.02, new Criterion.Nominal(Quantity.of(360, Unit.DEGREE), 0.5, "360 deg ± 0.5"));
        assertThat(Printed.value(judgement)).isEqualTo("360.200°");
        assertThat(Printed.limits(judgement)).isEqualTo("359.500 … 360.500°");
        assertThat(Printed.margin(judgement)).isEqualTo("+0.300°");
    }

    @Test
    void aLimitKeepsTheDecimalsItWasGivenWith() {
        Judgement judgement = judged(0.01, Unit.SECOND, 0.1, new Criterion.AtMost(Quantity.of(0.125, Unit.SECOND)));
        assertThat(Printed.limits(judgement)).isEqualTo("≤ 0.125 s");
    }

    @Test
    void boundsAndMissingValuesSayWhatTheyAre() {
        Judgement atLeast = Judge.judge(
                JudgeTest.measured(500, Unit.MILLISECOND, Bound.AT_LEAST, 20, 10),
                AT_MOST_80,
                Conversion.SAME_DIMENSION);
        assertThat(Printed.value(atLeast)).isEqualTo("≥ 500.0 ms");
        Judgement atMost = Judge.judge(
                JudgeTest.measured(20, Unit.MILLISECOND, Bound.AT_MOST, 20, 10), AT_MOST_80, Conversion.SAME_DIMENSION);
        assertThat(Printed.value(atMost)).isEqualTo("≤ 20.0 ms");
        Judgement missing = Judge.judge(
                new Draft("x", "", Unit.MILLISECOND).missing("none"), AT_MOST_80, Conversion.SAME_DIMENSION);
        assertThat(Printed.value(missing)).isEqualTo("—");
        assertThat(Printed.margin(missing)).isEqualTo("—");
        assertThat(Printed.uncertainty(missing)).isEqualTo("—");
        assertThat(Printed.limits(missing)).isEqualTo("≤ 80 ms");
    }

    @Test
    void measuredAndExpectedHaveOneStyle() {
        Quantity sixty = Quantity.of(60, Unit.REVOLUTION_PER_MINUTE);
        Criterion criterion = new Criterion.Nominal(sixty, 0.6, "60 r/min ± 1 %");
        assertThat(Printed.comparison(judged(61.02, Unit.REVOLUTION_PER_MINUTE, 0.4, criterion)))
                .isEqualTo("measured 61.02 r/min, expected 60 r/min ± 1 %");
        Measurement none = Measurement.notReported("reported speed", Unit.REVOLUTION_PER_MINUTE, "no signal");
        assertThat(Printed.comparison(Judge.judge(none, criterion, Conversion.SAME_DIMENSION)))
                .isEqualTo("measured no value, expected 60 r/min ± 1 %");
    }

    @Test
    void theLocaleDoesNotMatter() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
            assertThat(Printed.value(judged(-1234.5, Unit.MILLISECOND, 4, AT_MOST_80)))
                    .isEqualTo("−1234.5 ms");
            assertThat(Printed.brief(-1234.5678)).isEqualTo("−1235");
        } finally {
            Locale.setDefault(before);
        }
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "0.1, 0.1", "123456, 123500", "2e-7, 2E−7", "-0.00012346, −0.0001235", "20.0000000001, 20"})
    void runningTextHasFourDigits(double value, String printed) {
        assertThat(Printed.brief(value)).isEqualTo(printed);
    }

    @Test
    void unitsArePrintedAsTheTradeWritesThem() {
        assertThat(Printed.brief(5, Unit.REVOLUTION_PER_MINUTE)).isEqualTo("5 r/min");
        assertThat(Printed.brief(5, Unit.MICROMETRE)).isEqualTo("5 µm");
        assertThat(Printed.brief(5, Unit.ARC_SECOND)).isEqualTo("5″");
        assertThat(Printed.brief(5, Unit.ONE)).isEqualTo("5");
    }

    @Test
    void aValueWithoutACriterionGetsItsDecimalsFromItsUncertainty() {
        assertThat(Printed.value(JudgeTest.measured(27.4658203125, Unit.DEGREE, Bound.EXACT, 0.0055, 0.0045)))
                .isEqualTo("27.4658°");
        assertThat(Printed.value(JudgeTest.measured(5, Unit.COUNT, Bound.EXACT, 0, 0)))
                .isEqualTo("5 count");
    }

    @Property
    void thePrintedTextNeverContradictsTheVerdict(
            @ForAll("values") double value,
            @ForAll("values") double nominal,
            @ForAll @DoubleRange(min = 1e-9, max = 100) @Scale(12) double plusMinus,
            @ForAll @DoubleRange(min = 0, max = 50) @Scale(12) double expanded,
            @ForAll boolean twoSided) {
        Criterion criterion = twoSided
                ? new Criterion.Nominal(Quantity.of(nominal, Unit.ONE), plusMinus, "")
                : new Criterion.AtMost(Quantity.of(nominal, Unit.ONE));
        assertConsistent(judged(value, Unit.ONE, expanded, criterion));
    }

    @Property
    void notEvenNextToALimit(
            @ForAll("values") double limit,
            @ForAll @DoubleRange(min = -1e-6, max = 1e-6) @Scale(12) double beside,
            @ForAll @DoubleRange(min = 0, max = 50) @Scale(12) double expanded) {
        Criterion criterion = new Criterion.AtMost(Quantity.of(limit, Unit.ONE));
        assertConsistent(judged(limit + beside, Unit.ONE, expanded, criterion));
        assertConsistent(judged(Math.nextUp(limit), Unit.ONE, expanded, criterion));
        assertConsistent(judged(Math.nextDown(limit), Unit.ONE, expanded, criterion));
        assertConsistent(judged(limit, Unit.ONE, expanded, criterion));
    }

    private static void assertConsistent(Judgement judgement) {
        BigDecimal value = number(Printed.value(judgement));
        String[] limits = Printed.limits(judgement).replace("≤", "").split(" … ", -1);
        BigDecimal upper = number(limits[limits.length - 1]);
        boolean printedInside =
                value.compareTo(upper) <= 0 && (limits.length == 1 || value.compareTo(number(limits[0])) >= 0);
        double measured = judgement.measured().value();
        Criterion criterion = judgement.criterion();
        boolean inside = measured <= criterion.upper().orElseThrow()
                && measured >= criterion.lower().orElse(Double.NEGATIVE_INFINITY);
        assertThat(printedInside).isEqualTo(inside);
        if (judgement.verdict() == Verdict.PASS) {
            assertThat(printedInside).isTrue();
        }
        if (judgement.verdict() == Verdict.FAIL) {
            assertThat(printedInside).isFalse();
        }
        int sign = number(Printed.margin(judgement).replace("+", "")).signum();
        assertThat(sign).isEqualTo((int) Math.signum(judgement.margin().orElseThrow()));
        assertThat(value.compareTo(upper) == 0)
                .isEqualTo(measured == criterion.upper().orElseThrow());
    }

    private static BigDecimal number(String printed) {
        return new BigDecimal(printed.replace('−', '-').strip());
    }

    @Provide
    Arbitrary<Double> values() {
        return Arbitraries.oneOf(
                Arbitraries.doubles().between(-1000, 1000).ofScale(12),
                Arbitraries.integers().between(-1000, 1000).map(Integer::doubleValue),
                Arbitraries.integers().between(-1000, 1000).map(i -> i / 100.0));
    }

    // Six decimals are what a limit may add; a longer one comes from a conversion.
    @Test
    void aLimitOfSevenDecimalsDoesNotStretchTheValue() {
        Judgement six = judged(0.01, Unit.SECOND, 0.1, new Criterion.AtMost(Quantity.of(0.123456, Unit.SECOND)));
        assertThat(Printed.value(six)).isEqualTo("0.010000 s");
        Judgement seven = judged(0.01, Unit.SECOND, 0.1, new Criterion.AtMost(Quantity.of(0.1234567, Unit.SECOND)));
        assertThat(Printed.value(seven)).isEqualTo("0.010 s");
    }

    @Test
    void aMissingValueIsADash() {
        assertThat(Printed.value(new Draft("x", "", Unit.MILLISECOND).missing("none")))
                .isEqualTo("—");
    }
}
