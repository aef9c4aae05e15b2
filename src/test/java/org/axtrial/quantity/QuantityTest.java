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
