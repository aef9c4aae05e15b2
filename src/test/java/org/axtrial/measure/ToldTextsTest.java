package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;

class ToldTextsTest {

    /** Texts of the example of Read Device Identification: MODBUS Application Protocol V1.1b3, 6.21. */
    private static final Map<String, String> TOLD =
            Map.of("vendorName", "Company identification", "productCode", "Product code XX", "revision", "V2.11");

    @Test
    void whatIsAsListedDoesNotCount() {
        Measurement none = ToldTexts.differing(Map.of("revision", "V2.11", "productCode", "Product code XX"), TOLD);

        assertThat(none.value()).isZero();
        assertThat(none.source()).isEqualTo(Source.DRIVE);
        assertThat(none.definition()).endsWith("of 2.");
    }

    @Test
    void everyOtherTextIsNamedWithWhatItShouldBe() {
        Measurement two = ToldTexts.differing(
                Map.of("revision", "v2.11", "modelName", "M", "productCode", "Product code XX"), TOLD);

        assertThat(two.value()).isEqualTo(2);
        assertThat(two.definition())
                .endsWith("of 3: modelName is not told instead of \"M\", revision is \"V2.11\" instead of \"v2.11\".");
    }

    @Test
    void anEmptyListProvesNothing() {
        assertThatThrownBy(() -> ToldTexts.differing(Map.of(), TOLD))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no text is listed");
    }
}
