package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WordsTest {

    @ParameterizedTest
    @CsvSource({
        "customer, Customer",
        "orderNumber, Order number",
        "serial_no, Serial no",
        "Site, Site",
        "PLC, PLC",
        "élan, Élan"
    })
    void keysBecomeLabels(String key, String label) {
        assertThat(Words.label(key)).isEqualTo(label);
    }

    @Test
    void versionsLoseTheMarksOfTheirBuilds() {
        assertThat(Words.versions("Java 17.0.15+6-Debian-1deb12u1, Linux 6.18.44-fc-v782"))
                .isEqualTo("Java 17.0.15, Linux 6.18.44");
    }

    @ParameterizedTest
    @CsvSource({
        "Move by -0.5 rev, Move by \u22120.5 rev",
        "-25 rev … 25 rev, \u221225 rev … 25 rev",
        "(-3 mm), (\u22123 mm)",
        "trial POS-01 of 2026-11-25, trial POS-01 of 2026-11-25",
        "03-positioning.js:1, 03-positioning.js:1"
    })
    void onlySignsOfNumbersBecomeMinus(String text, String printed) {
        assertThat(Words.minus(text)).isEqualTo(printed);
    }

    // Source: JCGM 100:2008, 7.2.6: at most two significant digits.
    @Test
    void uncertaintyHasTwoDigits() {
        assertThat(Words.uncertainty(0.0002886751, Unit.REVOLUTION)).isEqualTo("0.00029 rev");
        assertThat(Words.uncertainty(0.996, Unit.DEGREE)).isEqualTo("1.0°");
        assertThat(Words.uncertainty(0, Unit.PERCENT)).isEqualTo("0 %");
    }

    @Test
    void dayIsToldOnce() {
        Instant begin = Instant.parse("2031-03-04T10:11:12Z");
        assertThat(Words.period(begin, begin.plusSeconds(60))).isEqualTo("2031-03-04 10:11:12 UTC to 10:12:12 UTC");
        assertThat(Words.period(begin, begin.plusSeconds(86_400)))
                .isEqualTo("2031-03-04 10:11:12 UTC to 2031-03-05 10:11:12 UTC");
    }
}
