package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

class ScaleRecordTest {

    @Test
    void scaleComesBackFromJsonAsItWas() {
        AxisScale scale = new AxisScale(131_072, 8192, 625, 3, 1, Quantity.of(10, Unit.MILLIMETRE), -1);
        String json = Json.MAPPER.writeValueAsString(ScaleRecord.of(scale));
        assertThat(Json.MAPPER.readValue(json, ScaleRecord.class).scale()).isEqualTo(scale);
    }

    @Test
    void rotaryScaleHasNoLead() {
        AxisScale scale = AxisScale.rotary(65_536);
        String json = Json.MAPPER.writeValueAsString(ScaleRecord.of(scale));
        assertThat(json).contains("\"leadMillimetres\" : null");
        assertThat(Json.MAPPER.readValue(json, ScaleRecord.class).scale()).isEqualTo(scale);
    }
}
