package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.OptionalDouble;
import org.axtrial.measure.Instrument.Calibration;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

class InstrumentTest {

    private static final LocalDate FIRST = LocalDate.of(2026, 3, 2);
    private static final LocalDate DUE = LocalDate.of(2027, 3, 2);

    private static Instrument scale(OptionalDouble coefficient) {
        return new Instrument(
                "SCALE-1", "scale (invented)", "7", "K-1", FIRST, DUE, Unit.MILLIMETRE, 0.01, 0.006, 2, coefficient);
    }

    @Test
    void theFirstAndTheDueDayCount() {
        Instrument scale = scale(OptionalDouble.empty());
        assertThat(scale.calibrationOn(FIRST.minusDays(1))).isEqualTo(Calibration.NOT_YET);
        assertThat(scale.calibrationOn(FIRST)).isEqualTo(Calibration.VALID);
        assertThat(scale.calibrationOn(DUE)).isEqualTo(Calibration.VALID);
        assertThat(scale.calibrationOn(DUE.plusDays(1))).isEqualTo(Calibration.OVERDUE);
    }

    @Test
    void aReadingInAnotherUnitHasItsUncertaintyInThatUnit() {
        Measurement measured =
                scale(OptionalDouble.empty()).measured("gap", Quantity.parse("250 um"), OptionalDouble.empty(), DUE);
        assertThat(measured.unit()).isEqualTo(Unit.MICROMETRE);
        assertThat(measured.resolution()).isCloseTo(10, within(1e-9));
        // Sources: JCGM 100:2008, F.2.2.1 and 4.3.3.
        assertThat(measured.standardUncertainty()).isCloseTo(Math.sqrt(100.0 / 12 + 9), within(1e-9));
        assertThat(measured.reservation()).isEmpty();
    }

    // Source: a steel scale of 11.5 µm/(m·°C), the usual handbook value, at 30 °C: 1 m of it is 115 µm too long, so a
    // length of 1000.115 mm reads 1000 mm.
    @Test
    void aWarmScaleReadsTooLittle() {
        Measurement measured = scale(OptionalDouble.of(11.5e-6))
                .measured("length", Quantity.parse("1000 mm"), OptionalDouble.of(30), DUE);
        assertThat(measured.value()).isCloseTo(1000.115, within(1e-9));
        assertThat(measured.standardUncertainty())
                .isCloseTo(Math.sqrt(1e-4 / 12 + 9e-6 + 0.0115 * 0.0115 / 3), within(1e-9));
    }

    @Test
    void aNeededTemperatureThatIsMissingIsRefused() {
        assertThatThrownBy(() -> scale(OptionalDouble.of(11.5e-6))
                        .measured("length", Quantity.parse("1 mm"), OptionalDouble.empty(), DUE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("SCALE-1 has a temperature coefficient");
    }

    private static Instrument with(double resolution, double uncertainty, double coverageFactor) {
        return new Instrument(
                "DIAL-2",
                "dial gauge (invented)",
                "8",
                "K-2",
                FIRST,
                DUE,
                Unit.MILLIMETRE,
                resolution,
                uncertainty,
                coverageFactor,
                OptionalDouble.empty());
    }

    @Test
    void theEdgesOfWhatACertificateMaySay() {
        assertThat(with(0.01, 0, 2).uncertainty()).isZero();
        assertThat(with(0.01, 0.01, 1).coverageFactor()).isEqualTo(1);
        assertThat(with(0.01, 0.01, 10).coverageFactor()).isEqualTo(10);
        assertThatThrownBy(() -> with(0, 0.01, 2))
                .hasMessage("DIAL-2: resolution must be finite and positive, got 0.0");
        assertThatThrownBy(() -> with(0.01, -0.01, 2))
                .hasMessage("DIAL-2: uncertainty must be finite and not negative, got -0.01");
        assertThatThrownBy(() -> with(0.01, 0.01, 0.99))
                .hasMessage("DIAL-2: coverage factor must be 1 to 10, got 0.99");
        assertThatThrownBy(() -> with(0.01, 0.01, 10.1))
                .hasMessage("DIAL-2: coverage factor must be 1 to 10, got 10.1");
    }

    @Test
    void aReadingSaysWhatItWasReadOn() {
        Measurement plain = with(0.01, 0.006, 2).measured("gap", Quantity.parse("1 mm"), OptionalDouble.empty(), DUE);
        assertThat(plain.definition())
                .isEqualTo("Read by a person on DIAL-2 (dial gauge (invented), serial 8, certificate K-2).");
        assertThat(plain.budget().contributions())
                .extracting(Contribution::how)
                .containsExactly("one step is 0.01 mm", "K-2, 0.006 mm, k = 2");
        assertThat(with(0.01, 0.006, 1)
                        .measured("gap", Quantity.parse("1 mm"), OptionalDouble.empty(), DUE)
                        .budget()
                        .contributions()
                        .get(1)
                        .how())
                .isEqualTo("K-2, 0.006 mm, standard");
        assertThat(scale(OptionalDouble.of(1e-5))
                        .measured("gap", Quantity.parse("1 mm"), OptionalDouble.of(20), DUE)
                        .definition())
                .endsWith("certificate K-1), taken back to 20 °C.");
    }

    @Test
    void aCalibrationThatDoesNotCountIsAReservation() {
        Instrument scale = scale(OptionalDouble.empty());
        assertThat(scale.reservationOn(DUE)).isEmpty();
        assertThat(scale.reservationOn(DUE.plusDays(1)).orElseThrow())
                .isEqualTo("the calibration of instrument SCALE-1 was due on 2027-03-02, before the day of the test;"
                        + " calibrate it and read again");
        assertThat(scale.reservationOn(FIRST.minusDays(1)).orElseThrow())
                .isEqualTo(
                        "instrument SCALE-1 was calibrated on 2026-03-02, after the day of the test; correct the dates"
                                + " in the site file, or read again");
        assertThat(scale.measured("gap", Quantity.parse("1 mm"), OptionalDouble.empty(), DUE.plusDays(1))
                        .reservation())
                .isPresent();
        assertThat(Calibration.VALID.printed()).isEqualTo("valid");
        assertThat(Calibration.OVERDUE.printed()).isEqualTo("OVERDUE");
        assertThat(Calibration.NOT_YET.printed()).isEqualTo("NOT YET CALIBRATED");
    }
}
