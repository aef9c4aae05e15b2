package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

class SvgTextTest {

    // Source: java.util.Formatter, what report.html of packs made before was written with.
    @Test
    void writesNumbersAsTheFormatterOfJavaDoes() {
        Random random = new Random(20310304);
        for (int i = 0; i < 20_000; i++) {
            double first = random.nextInt(4000) / 100.0 - 5;
            double second = (random.nextDouble() - 0.1) * 400;
            assertThat(SvgText.format("<a x=\"%.0f\" y=\"%.1f\" z=\"%.2f\">%s</a>", first, second, first, second))
                    .isEqualTo(String.format(
                            Locale.ROOT, "<a x=\"%.0f\" y=\"%.1f\" z=\"%.2f\">%s</a>", first, second, first, second));
        }
    }

    @Test
    void keepsWhatCannotBeRounded() {
        assertThat(SvgText.format("%.1f and %.2f", Double.NaN, Double.POSITIVE_INFINITY))
                .isEqualTo("NaN and Infinity");
        assertThat(SvgText.format("nothing to fill")).isEqualTo("nothing to fill");
    }
}
