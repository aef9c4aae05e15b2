package org.axtrial.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AxisScaleTest {

    private static final Quantity TEN_MM = Quantity.of(10, Unit.MILLIMETRE);

    // Source: arithmetic, 5000 × 360 / 65536; the example is common in the trade.
    @Test
    void fiveThousandCountsOfSixteenBits() {
        AxisScale scale = AxisScale.rotary(65536);
        assertThat(scale.convert(5000, Unit.COUNT, Unit.DEGREE)).isEqualTo(27.4658203125);
        assertThat(scale.convert(5000, Unit.COUNT, Unit.REVOLUTION)).isEqualTo(0.0762939453125);
        assertThat(scale.convert(1, Unit.COUNT, Unit.DEGREE)).isEqualTo(0.0054931640625);
        assertThat(scale.convert(27.4658203125, Unit.DEGREE, Unit.COUNT)).isEqualTo(5000);
    }

    // Source: arithmetic, 1296000 / 2^bits arc seconds.
    @ParameterizedTest
    @CsvSource({
        "12, 316.40625",
        "13, 158.203125",
        "16, 19.775390625",
        "17, 9.8876953125",
        "18, 4.94384765625",
        "19, 2.471923828125",
        "20, 1.2359619140625",
        "22, 0.308990478515625",
        "23, 0.15449523925781",
        "24, 0.07724761962891",
    })
    void arcSecondsPerCount(int bits, double expected) {
        assertThat(AxisScale.rotary(1L << bits).convert(1, Unit.COUNT, Unit.ARC_SECOND))
                .isCloseTo(expected, within(1e-14));
    }

    // Source: arithmetic, 10 mm / counts.
    @ParameterizedTest
    @CsvSource({"65536, 0.152587890625", "131072, 0.0762939453125"})
    void micrometresPerCountAtTenMillimetreLead(long counts, double expected) {
        AxisScale scale = AxisScale.linear(counts, TEN_MM);
        assertThat(scale.convert(1, Unit.COUNT, Unit.MICROMETRE)).isCloseTo(expected, within(1e-15));
        assertThat(scale.convert((double) counts, Unit.COUNT, Unit.MILLIMETRE)).isEqualTo(10);
    }

    // Source: arithmetic, counts per second = counts per revolution × r/min / 60.
    @ParameterizedTest
    @CsvSource({
        "65536, 3000, 3276800",
        "10000, 3000, 500000",
        "10000, 6000, 1000000",
        "131072, 3000, 6553600",
        "1048576, 6000, 104857600",
        "8388608, 3000, 419430400",
    })
    void countRate(long counts, double rpm, double expected) {
        assertThat(AxisScale.rotary(counts).convert(rpm, Unit.REVOLUTION_PER_MINUTE, Unit.COUNT_PER_SECOND))
                .isEqualTo(expected);
    }

    // Source: arithmetic, 131072/10000 = 8192/625; 10 mm lead in 1 µm units, 17 bits.
    @Test
    void electronicGearForMicrometreUnits() {
        for (AxisScale scale : new AxisScale[] {
            new AxisScale(131072, 8192, 625, 1, 1, TEN_MM, 1), new AxisScale(131072, 131072, 10000, 1, 1, TEN_MM, 1)
        }) {
            assertThat(scale.countsPerMotorRevolution()).isEqualTo(10000);
            assertThat(scale.convert(1, Unit.COUNT, Unit.MICROMETRE)).isEqualTo(1);
            assertThat(scale.convert(10000, Unit.COUNT, Unit.MILLIMETRE)).isEqualTo(10);
        }
    }

    // Source: arithmetic, 5242880/360000 = 16384/1125; 5:1 rotary, 0.001° units, 20 bits.
    @Test
    void electronicGearForMillidegreeUnitsBehindAGearbox() {
        AxisScale scale = new AxisScale(1 << 20, 16384, 1125, 5, 1, null, 1);
        assertThat(scale.countsPerLoadRevolution()).isEqualTo(360000);
        assertThat(scale.countsPerMotorRevolution()).isEqualTo(72000);
        assertThat(scale.convert(1000, Unit.COUNT, Unit.DEGREE)).isEqualTo(1);
    }

    @Test
    void aDriveTellsRpmAtTheMotorShaft() {
        AxisScale scale = new AxisScale(10000, 1, 1, 5, 1, null, -1);
        assertThat(scale.fromDrive(300, Unit.REVOLUTION_PER_MINUTE, Unit.REVOLUTION_PER_MINUTE))
                .isEqualTo(-60);
        assertThat(scale.toDrive(-60, Unit.REVOLUTION_PER_MINUTE, Unit.REVOLUTION_PER_MINUTE))
                .isEqualTo(300);
        assertThat(scale.fromDrive(50000, Unit.COUNT, Unit.REVOLUTION)).isEqualTo(-1);
        assertThat(scale.fromDrive(50000, Unit.COUNT_PER_SECOND, Unit.REVOLUTION_PER_MINUTE))
                .isEqualTo(-60);
    }

    @Test
    void aScrewBehindABeltTravelsByItsOwnTurns() {
        AxisScale scale = new AxisScale(65536, 1, 1, 2, 1, TEN_MM, 1);
        assertThat(scale.fromDrive(3000, Unit.REVOLUTION_PER_MINUTE, Unit.MILLIMETRE_PER_SECOND))
                .isCloseTo(250, within(1e-10));
        assertThat(scale.convert(25, Unit.MILLIMETRE, Unit.REVOLUTION)).isEqualTo(2.5);
        assertThat(scale.convert(100, Unit.MILLIMETRE_PER_SECOND_SQUARED, Unit.REVOLUTION_PER_SECOND_SQUARED))
                .isEqualTo(10);
    }

    @Test
    void lengthOnARotaryAxisIsRefusedWithAdvice() {
        assertThatThrownBy(() -> AxisScale.rotary(65536).convert(1, Unit.MILLIMETRE, Unit.COUNT))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("this axis is rotary and has no lead, so mm means nothing on it; use deg, rev or count");
    }

    @Test
    void positionDoesNotBecomeSpeed() {
        assertThatThrownBy(() -> AxisScale.rotary(65536).convert(1, Unit.COUNT, Unit.REVOLUTION_PER_MINUTE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("cannot convert count into rpm");
        assertThatThrownBy(() -> AxisScale.rotary(65536).convert(1, Unit.SECOND, Unit.COUNT))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("cannot convert s into count");
    }

    @ParameterizedTest
    @CsvSource({
        "0, 1, 1, 1, 1, 1, encoder counts per revolution must be 1 … 4294967296",
        "4294967297, 1, 1, 1, 1, 1, encoder counts per revolution",
        "10000, 0, 1, 1, 1, 1, electronic gear numerator",
        "10000, 1, -1, 1, 1, 1, electronic gear denominator",
        "10000, 1, 1, 0, 1, 1, gearbox motor turns",
        "10000, 1, 1, 1, 1000001, 1, gearbox load turns",
        "10000, 1, 1, 1, 1, 0, the direction is +1 or -1",
    })
    void impossibleScalesAreRefused(long counts, long n, long d, long motor, long load, int direction, String message) {
        assertThatThrownBy(() -> new AxisScale(counts, n, d, motor, load, null, direction))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(message);
    }

    @ParameterizedTest
    @CsvSource({"0, mm", "-10, mm", "10, deg"})
    void aLeadIsAPositiveLength(double value, String unit) {
        Quantity lead = Quantity.of(value, Unit.of(unit).orElseThrow());
        assertThatThrownBy(() -> AxisScale.linear(65536, lead))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("the lead must be a positive length, got " + lead);
    }

    @Property
    void whatGoesToTheDriveComesBack(
            @ForAll("scales") AxisScale scale,
            @ForAll Unit loadUnit,
            @ForAll Unit driveUnit,
            @ForAll @DoubleRange(min = -1e6, max = 1e6) @Scale(12) double value) {
        if (scale.isLinear() ? !moves(loadUnit) || !moves(driveUnit) : !turns(loadUnit) || !turns(driveUnit)) {
            return;
        }
        if (loadUnit.dimension().motion() == driveUnit.dimension().motion()) {
            double back = scale.fromDrive(scale.toDrive(value, loadUnit, driveUnit), driveUnit, loadUnit);
            assertThat(back).isCloseTo(value, within(Math.abs(value) * 1e-14 + 1e-300));
        }
    }

    @Property
    void directionTurnsTheSignOnly(@ForAll("scales") AxisScale scale, @ForAll int counts) {
        AxisScale turned = new AxisScale(
                scale.encoderCounts(),
                scale.gearNumerator(),
                scale.gearDenominator(),
                scale.motorTurns(),
                scale.loadTurns(),
                scale.lead(),
                -scale.direction());
        assertThat(turned.fromDrive(counts, Unit.COUNT, Unit.REVOLUTION))
                .isEqualTo(-scale.fromDrive(counts, Unit.COUNT, Unit.REVOLUTION));
    }

    @Property
    void anUnreducedGearIsTheSameGear(@ForAll("scales") AxisScale scale) {
        AxisScale doubled = new AxisScale(
                scale.encoderCounts(),
                2 * scale.gearNumerator(),
                2 * scale.gearDenominator(),
                scale.motorTurns(),
                scale.loadTurns(),
                scale.lead(),
                scale.direction());
        assertThat(doubled.countsPerLoadRevolution()).isEqualTo(scale.countsPerLoadRevolution());
        assertThat(doubled.countsPerMotorRevolution()).isEqualTo(scale.countsPerMotorRevolution());
    }

    @Provide
    Arbitrary<AxisScale> scales() {
        return Combinators.combine(
                        Arbitraries.longs().between(1, 1L << 32),
                        Arbitraries.longs().between(1, 1 << 24),
                        Arbitraries.longs().between(1, 1 << 24),
                        Arbitraries.longs().between(1, 1000),
                        Arbitraries.longs().between(1, 1000),
                        Arbitraries.doubles().between(0.5, 500).ofScale(12),
                        Arbitraries.of(true, false),
                        Arbitraries.of(1, -1))
                .as((counts, n, d, motor, load, lead, linear, direction) -> new AxisScale(
                        counts, n, d, motor, load, linear ? Quantity.of(lead, Unit.MILLIMETRE) : null, direction));
    }

    private static boolean moves(Unit unit) {
        return unit.dimension().motion() != Dimension.Motion.NONE;
    }

    private static boolean turns(Unit unit) {
        return switch (unit.dimension()) {
            case ANGLE, ANGULAR_SPEED, ANGULAR_ACCELERATION, COUNT, COUNT_RATE, COUNT_ACCELERATION -> true;
            default -> false;
        };
    }
}
