package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CanonicalJsonTest {

    // Source: RFC 8785, Appendix B (bits of the double, its text), and 3.2.2.3.
    @ParameterizedTest
    @CsvSource({
        "0000000000000000, 0",
        "8000000000000000, 0",
        "0000000000000001, 5e-324",
        "8000000000000001, -5e-324",
        "7fefffffffffffff, 1.7976931348623157e+308",
        "ffefffffffffffff, -1.7976931348623157e+308",
        "4340000000000000, 9007199254740992",
        "c340000000000000, -9007199254740992",
        "4430000000000000, 295147905179352830000",
        "44b52d02c7e14af5, 9.999999999999997e+22",
        "44b52d02c7e14af6, 1e+23",
        "44b52d02c7e14af7, 1.0000000000000001e+23",
        "444b1ae4d6e2ef4e, 999999999999999700000",
        "444b1ae4d6e2ef4f, 999999999999999900000",
        "444b1ae4d6e2ef50, 1e+21",
        "3eb0c6f7a0b5ed8c, 9.999999999999997e-7",
        "3eb0c6f7a0b5ed8d, 0.000001",
        "41b3de4355555553, 333333333.3333332",
        "41b3de4355555554, 333333333.33333325",
        "41b3de4355555555, 333333333.3333333",
        "41b3de4355555556, 333333333.3333334",
        "41b3de4355555557, 333333333.33333343",
        "becbf647612f3696, -0.0000033333333333333333",
        "43143ff3c1cb0959, 1424953923781206.2"
    })
    void numberOfRfc8785(String bits, String text) {
        double value = Double.longBitsToDouble(Long.parseUnsignedLong(bits, 16));
        assertThat(CanonicalJson.number(value)).isEqualTo(text);
    }

    // Source: RFC 8785, 3.2.2 and 3.2.4; the hash was computed over the published bytes.
    @Test
    void sampleOfRfc8785() {
        byte[] bytes = CanonicalJson.bytes(Json.MAPPER.readTree("""
                {"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
                 "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
                 "literals": [null, true, false]}
                """));
        assertThat(new String(bytes, StandardCharsets.UTF_8))
                .isEqualTo("{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
                        + "\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
        assertThat(bytes).hasSize(118);
        assertThat(Sha256.of(bytes)).isEqualTo("2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb");
    }

    // Source: RFC 8785, 3.2.2.2: five control characters have short names, the others four small hexadecimal digits,
    // and
    // nothing else is escaped but the quotation mark and the backslash.
    @Test
    void escapesAreTheShortestThereAre() {
        String text = "\b\t\n\f\r\u0000\u000b\u001f\"\\/\u007f\u00e4\u2028\ud83d\ude00";
        assertThat(CanonicalJson.text(Json.MAPPER.valueToTree(text)))
                .isEqualTo("\"\\b\\t\\n\\f\\r\\u0000\\u000b\\u001f\\\"\\\\/\u007f\u00e4\u2028\ud83d\ude00\"");
    }

    // Source: RFC 8785, 3.2.3.
    @Test
    void membersSortByUtf16CodeUnits() {
        String text = CanonicalJson.text(Json.MAPPER.readTree("""
                {"\\u20ac": 1, "\\r": 2, "\\ufb33": 3, "1": 4, "\\ud83d\\ude00": 5, "\\u0080": 6, "\\u00f6": 7}
                """));
        assertThat(text).isEqualTo("{\"\\r\":2,\"1\":4,\"\u0080\":6,\"ö\":7,\"€\":1,\"😀\":5,\"\ufb33\":3}");
    }

    // Source: RFC 8785, 3.2.2.2 and Appendix D: what has no canonical form is refused.
    @Test
    void whatHasNoCanonicalFormIsRefused() {
        assertThatThrownBy(() -> CanonicalJson.number(Double.NaN)).hasMessageContaining("NaN");
        assertThatThrownBy(() -> CanonicalJson.number(Double.NEGATIVE_INFINITY)).hasMessageContaining("Infinity");
        assertThatThrownBy(() -> CanonicalJson.text(Json.MAPPER.valueToTree("a\udc00")))
                .hasMessageContaining("\\udc00");
        assertThatThrownBy(() -> CanonicalJson.text(Json.MAPPER.valueToTree((1L << 53) + 1)))
                .hasMessageContaining("9007199254740993");
    }

    @Property
    void everyNumberReadsBackToTheSameDouble(@ForAll long bits) {
        double value = Double.longBitsToDouble(bits);
        if (Double.isFinite(value)) {
            // Zero has no sign here (ECMA-262, 6.1.6.1.20).
            assertThat(Double.parseDouble(CanonicalJson.number(value)) + 0.0).isEqualTo(value + 0.0);
        }
    }
}
