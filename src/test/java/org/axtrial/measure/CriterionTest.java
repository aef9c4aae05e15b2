package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CriterionTest {

    private static final Quantity EIGHTY = Quantity.of(80, Unit.MILLISECOND);

    @Test
    void limitsAndPrint() {
        Criterion nominal = new Criterion.Nominal(Quantity.of(360, Unit.DEGREE), 0.5, "360° ± 0.5°");
        assertThat(nominal.lower()).hasValue(359.5);
        assertThat(nominal.upper()).hasValue(360.5);
        assertThat(nominal.unit()).isEqualTo(Unit.DEGREE);
        assertThat(nominal.printed()).isEqualTo("360° ± 0.5°");

        Criterion atMost = new Criterion.AtMost(EIGHTY);
        assertThat(atMost.lower()).isEmpty();
        assertThat(atMost.upper()).hasValue(80);
        assertThat(atMost.printed()).isEqualTo("at most 80 ms");

        Criterion atLeast = new Criterion.AtLeast(EIGHTY);
        assertThat(atLeast.lower()).hasValue(80);
        assertThat(atLeast.upper()).isEmpty();
        assertThat(atLeast.printed()).isEqualTo("at least 80 ms");

        Criterion between = new Criterion.Between(EIGHTY, Quantity.of(90, Unit.MILLISECOND));
        assertThat(between.lower()).hasValue(80);
        assertThat(between.upper()).hasValue(90);
        assertThat(between.printed()).isEqualTo("between 80 ms and 90 ms");
    }

    @Test
    void unitsArePrintedAsInTheRestOfTheReport() {
        Quantity low = Quantity.of(-2.5, Unit.DEGREE);
        assertThat(new Criterion.AtLeast(low).printed()).isEqualTo("at least −2.5°");
        assertThat(new Criterion.AtMost(Quantity.of(60, Unit.REVOLUTION_PER_MINUTE)).printed())
                .isEqualTo("at most 60 r/min");
        assertThat(new Criterion.Between(low, low.negate()).printed()).isEqualTo("between −2.5° and 2.5°");
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -0.5, Double.NaN, Double.POSITIVE_INFINITY})
    void aToleranceIsPositiveAndFinite(double plusMinus) {
        assertThatThrownBy(() -> new Criterion.Nominal(EIGHTY, plusMinus, ""))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a tolerance must be positive and finite, got " + plusMinus);
    }

    @ParameterizedTest
    @CsvSource({"80, ms", "79, ms", "90, s"})
    void twoLimitsGrowInOneUnit(double high, String unit) {
        Quantity upper = Quantity.of(high, Unit.of(unit).orElseThrow());
        assertThatThrownBy(() -> new Criterion.Between(EIGHTY, upper))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("limits must have one unit and grow, got 80 ms and " + upper);
    }
}
