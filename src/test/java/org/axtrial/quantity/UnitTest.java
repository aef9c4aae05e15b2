package org.axtrial.quantity;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static tech.units.indriya.unit.Units.METRE;
import static tech.units.indriya.unit.Units.NEWTON;
import static tech.units.indriya.unit.Units.PERCENT;
import static tech.units.indriya.unit.Units.RADIAN;
import static tech.units.indriya.unit.Units.SECOND;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import javax.measure.IncommensurableException;
import javax.measure.MetricPrefix;
import javax.measure.quantity.Angle;
import javax.measure.quantity.Time;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import tech.units.indriya.function.MultiplyConverter;
import tech.units.indriya.unit.Units;

class UnitTest {

    private static final javax.measure.Unit<Angle> REV =
            RADIAN.transform(MultiplyConverter.ofPiExponent(1).concatenate(MultiplyConverter.ofRational(2, 1)));
    private static final javax.measure.Unit<Angle> DEG = REV.divide(360);
    private static final javax.measure.Unit<Time> MIN = Units.MINUTE;

    /** Our units as the reference library builds them from SI base units and an exact π. */
    private static final Map<Unit, javax.measure.Unit<?>> REFERENCE = reference();

    private static Map<Unit, javax.measure.Unit<?>> reference() {
        Map<Unit, javax.measure.Unit<?>> map = new EnumMap<>(Unit.class);
        var mm = MetricPrefix.MILLI(METRE);
        map.put(Unit.REVOLUTION, REV);
        map.put(Unit.DEGREE, DEG);
        map.put(Unit.ARC_MINUTE, DEG.divide(60));
        map.put(Unit.ARC_SECOND, DEG.divide(3600));
        map.put(Unit.RADIAN, RADIAN);
        map.put(Unit.METRE, METRE);
        map.put(Unit.MILLIMETRE, mm);
        map.put(Unit.MICROMETRE, MetricPrefix.MICRO(METRE));
        map.put(Unit.REVOLUTION_PER_MINUTE, REV.divide(MIN));
        map.put(Unit.REVOLUTION_PER_SECOND, REV.divide(SECOND));
        map.put(Unit.DEGREE_PER_SECOND, DEG.divide(SECOND));
        map.put(Unit.RADIAN_PER_SECOND, RADIAN.divide(SECOND));
        map.put(Unit.METRE_PER_SECOND, Units.METRE_PER_SECOND);
        map.put(Unit.METRE_PER_MINUTE, METRE.divide(MIN));
        map.put(Unit.MILLIMETRE_PER_SECOND, mm.divide(SECOND));
        map.put(Unit.MILLIMETRE_PER_MINUTE, mm.divide(MIN));
        map.put(Unit.REVOLUTION_PER_SECOND_SQUARED, REV.divide(SECOND.pow(2)));
        map.put(Unit.REVOLUTION_PER_MINUTE_PER_SECOND, REV.divide(MIN).divide(SECOND));
        map.put(Unit.DEGREE_PER_SECOND_SQUARED, DEG.divide(SECOND.pow(2)));
        map.put(Unit.RADIAN_PER_SECOND_SQUARED, RADIAN.divide(SECOND.pow(2)));
        map.put(Unit.METRE_PER_SECOND_SQUARED, Units.METRE_PER_SQUARE_SECOND);
        map.put(Unit.MILLIMETRE_PER_SECOND_SQUARED, mm.divide(SECOND.pow(2)));
        map.put(Unit.REVOLUTION_PER_SECOND_CUBED, REV.divide(SECOND.pow(3)));
        map.put(Unit.REVOLUTION_PER_MINUTE_PER_SECOND_SQUARED, REV.divide(MIN).divide(SECOND.pow(2)));
        map.put(Unit.METRE_PER_SECOND_CUBED, METRE.divide(SECOND.pow(3)));
        map.put(Unit.MILLIMETRE_PER_SECOND_CUBED, mm.divide(SECOND.pow(3)));
        map.put(Unit.MINUTE, MIN);
        map.put(Unit.SECOND, SECOND);
        map.put(Unit.MILLISECOND, MetricPrefix.MILLI(SECOND));
        map.put(Unit.MICROSECOND, MetricPrefix.MICRO(SECOND));
        map.put(Unit.NEWTON_METRE, NEWTON.multiply(METRE));
        map.put(Unit.MILLINEWTON_METRE, MetricPrefix.MILLI(NEWTON).multiply(METRE));
        map.put(Unit.KILOGRAM_SQUARE_METRE, Units.KILOGRAM.multiply(METRE.pow(2)));
        map.put(
                Unit.KILOGRAM_SQUARE_CENTIMETRE,
                Units.KILOGRAM.multiply(MetricPrefix.CENTI(METRE).pow(2)));
        map.put(Unit.KILOGRAM, Units.KILOGRAM);
        map.put(Unit.NEWTON, NEWTON);
        map.put(Unit.NEWTON_PER_METRE, NEWTON.divide(METRE));
        map.put(Unit.NEWTON_PER_MILLIMETRE, NEWTON.divide(mm));
        map.put(Unit.NEWTON_SECOND_PER_METRE, NEWTON.multiply(SECOND).divide(METRE));
        map.put(Unit.NEWTON_SECOND_PER_MILLIMETRE, NEWTON.multiply(SECOND).divide(mm));
        map.put(
                Unit.NEWTON_METRE_SECOND_PER_RADIAN,
                NEWTON.multiply(METRE).multiply(SECOND).divide(RADIAN));
        map.put(Unit.NEWTON_METRE_PER_RADIAN, NEWTON.multiply(METRE).divide(RADIAN));
        map.put(Unit.HERTZ, Units.HERTZ);
        map.put(Unit.PER_SECOND, SECOND.inverse());
        map.put(Unit.VOLT, Units.VOLT);
        map.put(Unit.AMPERE, Units.AMPERE);
        map.put(Unit.PERCENT, PERCENT);
        map.put(Unit.PER_MILLE, PERCENT.divide(10));
        map.put(Unit.DEGREE_CELSIUS, Units.KELVIN);
        return map;
    }

    private static javax.measure.Unit<?> inReference(Unit unit) {
        return Objects.requireNonNull(REFERENCE.get(unit), unit.symbol());
    }

    static Stream<Unit> knownToTheReference() {
        return REFERENCE.keySet().stream();
    }

    // Source: tech.units:indriya, the reference implementation of JSR 385 (Units of Measurement API).
    @ParameterizedTest
    @MethodSource("knownToTheReference")
    void everyFactorAgreesWithTheReferenceLibrary(Unit from) throws IncommensurableException {
        for (Unit to : Unit.values()) {
            if (to.dimension() == from.dimension()) {
                double expected = inReference(from)
                        .getConverterToAny(inReference(to))
                        .convert(Double.valueOf(1))
                        .doubleValue();
                assertThat(from.convert(1, to))
                        .as("1 %s in %s", from.symbol(), to.symbol())
                        .isCloseTo(expected, within(4 * Math.ulp(expected)));
            }
        }
    }

    @Test
    void onlyCountsAndThePureNumberAreMissingInTheReference() {
        assertThat(Arrays.stream(Unit.values()).filter(unit -> !REFERENCE.containsKey(unit)))
                .containsExactly(
                        Unit.COUNT,
                        Unit.COUNT_PER_SECOND,
                        Unit.COUNT_PER_SECOND_SQUARED,
                        Unit.COUNT_PER_SECOND_CUBED,
                        Unit.ONE);
    }

    @ParameterizedTest
    @CsvSource({
        "360, deg, rev, 1",
        "1, deg, arcsec, 3600",
        "600, rpm, rev/s, 10",
        "3000, rpm, deg/s, 18000",
        "0.08, s, ms, 80",
        "1, m/min, mm/min, 1000",
        "125, permille, %, 12.5",
    })
    void wholeFactorsAreExact(double value, String from, String to, double expected) {
        assertThat(Unit.of(from).orElseThrow().convert(value, Unit.of(to).orElseThrow()))
                .isEqualTo(expected);
    }

    @Test
    void anotherDimensionIsRefusedByName() {
        assertThatThrownBy(() -> Unit.DEGREE.convert(1, Unit.MILLIMETRE))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("cannot convert deg (ANGLE) into mm (LENGTH)");
    }

    @ParameterizedTest
    @EnumSource
    void bothSpellingsAreUnderstood(Unit unit) {
        assertThat(Unit.of(unit.symbol())).contains(unit);
        if (!unit.printed().isEmpty()) {
            assertThat(Unit.of(unit.printed())).contains(unit);
        }
    }

    @Test
    void noSpellingMeansTwoUnits() {
        assertThat(Arrays.stream(Unit.values()).map(Unit::symbol)).doesNotHaveDuplicates();
        assertThat(Arrays.stream(Unit.values()).map(Unit::printed)).doesNotHaveDuplicates();
    }

    @Test
    void anUnknownSpellingIsEmpty() {
        assertThat(Unit.of("inch")).isEmpty();
        assertThat(Unit.of("")).isEmpty();
        assertThat(Unit.of("MM")).isEmpty();
    }

    @Property
    void thereAndBackKeepsTheValue(
            @ForAll Unit from, @ForAll @DoubleRange(min = -1e12, max = 1e12) @Scale(12) double value) {
        for (Unit to : Unit.values()) {
            if (to.dimension() == from.dimension()) {
                assertThat(to.convert(from.convert(value, to), from))
                        .isCloseTo(value, within(4 * Math.ulp(value) + Double.MIN_NORMAL));
            }
        }
    }
}
