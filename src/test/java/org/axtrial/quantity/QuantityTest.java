package org.axtrial.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class QuantityTest {

    @ParameterizedTest
    @CsvSource({
        "10 mm, 10, mm",
        "10mm, 10, mm",
        "' -0.5  deg ', -0.5, deg",
        "+3 rev/s, 3, rev/s",
        "1e3 count, 1000, count",
        "2.5E-3 s, 0.0025, s",
        "50 µm, 50, um",
        "300 r/min, 300, rpm",
        "0.5%, 0.5, %",
        "45°, 45, deg",
    })
    void textIsRead(String text, double value, String symbol) {
        Quantity read = Quantity.parse(text);
        assertThat(read.value()).isEqualTo(value);
        assertThat(read.unit().symbol()).isEqualTo(symbol);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "10", "mm", "10,5 mm", "ten mm", "10 mm mm", ".5 mm", "5. mm", "NaN mm", "0x10 mm", "--1 mm"
            })
    void textThatIsNoQuantityIsRefusedWithTheText(String text) {
        assertThatThrownBy(() -> Quantity.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("\"" + text + "\"");
    }

    @Test
    void anUnknownUnitIsNamedWithTheKnownOnes() {
        assertThatThrownBy(() -> Quantity.parse("3 inch"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("unknown unit \"inch\" in \"3 inch\"; known: rev, deg,");
    }

    @Test
    void aNumberBeyondDoubleIsRefused() {
        assertThatThrownBy(() -> Quantity.parse("1e999 mm"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("finite");
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void aValueThatIsNotFiniteIsRefused(double value) {
        assertThatThrownBy(() -> Quantity.of(value, Unit.DEGREE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("a quantity needs a finite value, got " + value + " deg");
    }

    @Test
    void printsWholeNumbersWithoutAPoint() {
        assertThat(Quantity.of(80, Unit.MILLISECOND)).hasToString("80 ms");
        assertThat(Quantity.of(-0.5, Unit.DEGREE)).hasToString("-0.5 deg");
        assertThat(Quantity.of(7, Unit.ONE)).hasToString("7");
    }

    // The blank before the unit, and none before °, ′ and ″. Source: SI Brochure, 9th edition, 5.4.3.
    @ParameterizedTest
    @CsvSource({
        "0.05, rev, 0.05 rev",
        "30, rpm, 30 r/min",
        "-0.5, deg, −0.5°",
        "3, arcmin, 3′",
        "3, arcsec, 3″",
        "50, um, 50 µm",
        "1, %, 1 %",
        "5, rev/s2, 5 rev/s²",
        "7, 1, 7",
        "-0.0, mm, 0 mm",
        "123456789012345, count, 123456789012345 count",
        "1e20, count, 1E+20 count",
        "0.000001, m, 0.000001 m",
        "2e-7, m, 2E−7 m",
        "0.30000000000000004, s, 0.3 s",
    })
    void printsAsTheReportDoes(double value, String symbol, String printed) {
        assertThat(Quantity.of(value, Unit.of(symbol).orElseThrow()).printed()).isEqualTo(printed);
    }

    @Test
    void printsRounded() {
        assertThat(Quantity.of(51.42857142857143, Unit.DEGREE).printed(6)).isEqualTo("51.4286°");
        assertThat(Quantity.of(1234567, Unit.COUNT).printed(4)).isEqualTo("1235000 count");
        assertThat(Quantity.of(9.9999e-7, Unit.METRE).printed(4)).isEqualTo("0.000001 m");
    }

    @Property
    void printedTextReadsBackTheSame(
            @ForAll Unit unit, @ForAll @DoubleRange(min = -1e20, max = 1e20) @Scale(12) double value) {
        if (unit != Unit.ONE) {
            Quantity quantity = Quantity.of(value, unit);
            Quantity read = Quantity.parse(quantity.toString());
            assertThat(read.unit()).isEqualTo(unit);
            assertThat(read.value() == value).isTrue();
        }
    }
}
