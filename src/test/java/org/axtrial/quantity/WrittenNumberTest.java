package org.axtrial.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import org.axtrial.quantity.WrittenNumber.Decimal;
import org.axtrial.quantity.WrittenNumber.Shape;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WrittenNumberTest {

    // Sources: ISO 80000-1, 7.2: either sign, groups of three apart by a blank; the other sign and the apostrophe as
    // separators of thousands are common practice, no source.
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '"',
            value = {
                "12 | WHOLE | 12 | 12",
                "-7 | WHOLE | -7 | -7",
                "−7 | WHOLE | -7 | -7",
                "+0 | WHOLE | 0 | 0",
                "12.5 | POINT | 12.5 | ",
                "12,5 | COMMA | | 12.5",
                "1,234 | AMBIGUOUS | 1234 | 1.234",
                "1.234 | AMBIGUOUS | 1.234 | 1234",
                "-999,000 | AMBIGUOUS | -999000 | -999",
                "0.123 | POINT | 0.123 | ",
                "0,123 | COMMA | | 0.123",
                "1234.567 | POINT | 1234.567 | ",
                "1234,567 | COMMA | | 1234.567",
                "1,2345 | COMMA | | 1.2345",
                "1,234.5 | POINT | 1234.5 | ",
                "1.234,5 | COMMA | | 1234.5",
                "1,234,567 | POINT | 1234567 | ",
                "1.234.567 | COMMA | | 1234567",
                "1 234 | WHOLE | 1234 | 1234",
                "1'234.50 | POINT | 1234.5 | ",
                "1 234,567 | COMMA | | 1234.567",
                "1.234.5 | NONE | | ",
                "1,23,456 | NONE | | ",
                ".5 | NONE | | ",
                "5. | NONE | | ",
                "1e3 | NONE | | ",
                "twelve | NONE | | ",
                "12 mm | NONE | | ",
                "\"\" | NONE | | "
            })
    void aNumberTellsItsDecimalSignOrNot(String text, Shape shape, Double point, Double comma) {
        assertThat(WrittenNumber.shape(text)).isEqualTo(shape);
        assertThat(WrittenNumber.read(text, Decimal.POINT).orElse(null)).isEqualTo(point);
        assertThat(WrittenNumber.read(text, Decimal.COMMA).orElse(null)).isEqualTo(comma);
    }

    @ParameterizedTest
    @CsvSource({"'1,234', '1,2340', 1234", "12.345, 12.3450, 12345"})
    void bothWaysOfWritingItAreUnambiguous(String text, String decimals, String thousands) {
        assertThat(WrittenNumber.bothWays(text)).contains("write " + decimals + " ", "or " + thousands + " ");
        assertThat(WrittenNumber.shape(decimals)).isIn(Shape.POINT, Shape.COMMA);
        assertThat(WrittenNumber.shape(thousands)).isEqualTo(Shape.WHOLE);
    }
}
