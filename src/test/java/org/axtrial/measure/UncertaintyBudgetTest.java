package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.assertj.core.data.Offset;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Budgets, degrees of freedom and coverage factors against the GUM. */
class UncertaintyBudgetTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static UncertaintyBudget budget(Contribution... contributions) {
        return UncertaintyBudget.of(List.of(contributions));
    }

    private static Contribution typeA(String name, double u, double freedom) {
        return new Contribution(name, Contribution.Evaluation.A, "", u, freedom);
    }

    // Source: JCGM 100:2008, Table G.2, columns 95 % and 99 %. It prints two decimals.
    @ParameterizedTest
    @CsvSource({
        "1, 12.71, 63.66", "2, 4.30, 9.92", "3, 3.18, 5.84", "4, 2.78, 4.60", "5, 2.57, 4.03", "6, 2.45, 3.71",
        "7, 2.36, 3.50", "8, 2.31, 3.36", "9, 2.26, 3.25", "10, 2.23, 3.17", "15, 2.13, 2.95", "16, 2.12, 2.92",
        "20, 2.09, 2.85", "25, 2.06, 2.79", "30, 2.04, 2.75", "50, 2.01, 2.68",
    })
    void studentFactorsOfTableG2(double freedom, double at95, double at99) {
        assertThat(CoverageFactor.twoSided(0.95, freedom)).isCloseTo(at95, within(0.0051));
        assertThat(CoverageFactor.twoSided(0.99, freedom)).isCloseTo(at99, within(0.0051));
    }

    // Source: JCGM 100:2008, Table G.2, column 95.45 %; 4, 10, 20 and infinity as checked values, the rest from memory.
    @ParameterizedTest
    @CsvSource({
        "1, 13.97",
        "2, 4.53",
        "3, 3.31",
        "4, 2.87",
        "5, 2.65",
        "6, 2.52",
        "7, 2.43",
        "8, 2.37",
        "9, 2.32",
        "10, 2.28",
        "15, 2.18",
        "20, 2.13",
        "25, 2.11",
        "30, 2.09",
        "50, 2.05",
        "100, 2.025",
    })
    void coverageFactorsOfTableG2(double freedom, double factor) {
        assertThat(CoverageFactor.of(freedom)).isCloseTo(factor, within(0.0051));
    }

    @Test
    void infinitelyManyDegreesOfFreedomGiveTwoExactly() {
        assertThat(CoverageFactor.of(INFINITE)).isEqualTo(2);
        assertThat(CoverageFactor.of(999_999)).isCloseTo(2, within(3e-6));
        assertThat(budget().coverageFactor()).isEqualTo(2);
    }

    // Source: JCGM 100:2008, G.4.1 note 1: ν_eff is cut to the next lower whole number; below 1 there is no Student's
    // t.
    @Test
    void degreesOfFreedomAreCutToAWholeNumber() {
        assertThat(CoverageFactor.of(16.99)).isEqualTo(CoverageFactor.of(16));
        assertThat(CoverageFactor.of(0.3)).isEqualTo(CoverageFactor.of(1));
    }

    // Source: closed forms of Student's t for ν = 1, tan(π(p − ½)), and ν = 2, (2p − 1)/√(2p(1 − p)).
    @Test
    void oneAndTwoDegreesOfFreedomHaveAClosedForm() {
        double p = 0.9772498680518208;
        assertThat(CoverageFactor.of(1)).isCloseTo(Math.tan(Math.PI * (p - 0.5)), within(1e-7));
        assertThat(CoverageFactor.of(2)).isCloseTo((2 * p - 1) / Math.sqrt(2 * p * (1 - p)), within(1e-8));
    }

    /** A factor enters the record; it has to come out the same on every Java that the build runs on. */
    @ParameterizedTest
    @CsvSource({
        "1, 0x1.bef7a552a012fp3",
        "4, 0x1.6f4587e92e9fp1",
        "10, 0x1.244f913d276b1p1",
        "38, 0x1.08b305af1f1ecp1",
        "1000, 0x1.0052053bed8bep1",
    })
    void factorsAreEqualToTheBit(double freedom, String bits) {
        assertThat(Double.toHexString(CoverageFactor.of(freedom))).isEqualTo(bits);
    }

    // Source: JCGM 100:2008, H.1 end gauge: contributions in nm, ν_eff 16, u_c 32 nm, U99 93 nm.
    @Test
    void endGauge() {
        UncertaintyBudget budget = budget(
                new Contribution("standard", Contribution.Evaluation.B, "", 25, 18),
                typeA("difference", 9.7, 25.6),
                new Contribution("expansion", Contribution.Evaluation.B, "", 2.9, 50),
                new Contribution("temperature", Contribution.Evaluation.B, "", 16.7, 2));
        assertThat(budget.combined()).isCloseTo(31.71, within(0.07));
        assertThat(Math.round(budget.combined())).isEqualTo(32);
        assertThat(Math.floor(budget.effectiveDegreesOfFreedom())).isEqualTo(16);
        double k99 = CoverageFactor.twoSided(0.99, budget.effectiveDegreesOfFreedom());
        assertThat(k99).isCloseTo(2.92, within(0.005));
        assertThat(k99 * budget.combined()).isBetween(92.0, 94.0);
    }

    // Source: JCGM 100:2008, H.1.5: 9.7 nm with 25.6 degrees of freedom from 5.8 (24), 3.9 (5) and 6.7 (8).
    @Test
    void differenceOfTheEndGauges() {
        UncertaintyBudget budget = budget(typeA("a", 5.8, 24), typeA("b", 3.9, 5), typeA("c", 6.7, 8));
        assertThat(budget.combined()).isCloseTo(9.7, within(0.05));
        assertThat(budget.effectiveDegreesOfFreedom()).isCloseTo(25.6, within(0.5));
    }

    // Source: constructed: dial 1 µm, certificate U = 2 µm (k = 2), 11.5 µm rectangular, s = 1.5 µm of 5.
    @Test
    void positioning() {
        UncertaintyBudget budget = budget(
                Contribution.quantisation("dial", "", 1),
                Contribution.certificate("certificate", "", 2, 2),
                Contribution.rectangular("thermal", "", 11.5),
                Contribution.repeatability("repeatability", "", 1.5, 5));
        assertThat(budget.contributions())
                .extracting(Contribution::standardUncertainty)
                .usingComparatorForType((a, b) -> Math.abs(a - b) < 5e-5 ? 0 : Double.compare(a, b), Double.class)
                .containsExactly(0.288675, 1.0, 6.639528, 0.670820);
        assertThat(budget.combined()).isCloseTo(6.7540, within(5e-5));
        assertThat(budget.effectiveDegreesOfFreedom()).isGreaterThan(40_000);
        assertThat(2 * budget.combined()).isCloseTo(13.508, within(1e-3));
        assertThat(budget.expanded()).isBetween(0.9545 * 11.5, 13.508);
        assertThat(budget.share(budget.contributions().get(2))).isCloseTo(44.0833 / 45.6167, within(1e-5));
    }

    // Source: divisor of the arc-sine distribution, 0.707107 (JCGM 101:2008, 6.4.6).
    @Test
    void aSineOfUnknownPhase() {
        assertThat(Contribution.uShaped("", "", 1).standardUncertainty()).isCloseTo(0.707107, within(5e-7));
    }

    @Test
    void theTableHoldsWhatTheGumAsksFor() {
        Measurement measured = new Measurement(
                "position",
                "",
                100,
                Unit.MICROMETRE,
                Measurement.Bound.EXACT,
                Source.INSTRUMENT,
                OptionalDouble.empty(),
                1,
                List.of(
                        Contribution.quantisation("dial", "1 µm", 1),
                        Contribution.certificate("certificate", "U = 2 µm, k = 2", 2, 2),
                        Contribution.rectangular("thermal", "2 K", 11.5),
                        Contribution.repeatability("repeatability", "n = 5", 15, 5)),
                List.of(),
                Optional.empty());
        // Worked by hand: u_c = √(0.0833 + 1 + 44.0833 + 45) = 9.494; ν_eff = 4 (9.494/6.708)⁴ = 16.05; t = 2.17.
        assertThat(BudgetTable.of(measured).text()).isEqualTo("""
                contribution   type  distribution  a or s   divisor  u        ν  share
                repeatability  A     normal        15 µm    2.236    6.7 µm   4  50 %
                thermal        B     rectangular   12 µm    1.732    6.6 µm   ∞  49 %
                certificate    B     normal        2.0 µm   2        1.0 µm   ∞  1 %
                dial           B     rectangular   0.50 µm  1.732    0.29 µm  ∞  < 1 %
                u_c = 9.5 µm, ν_eff = 16, k = 2.17, U = 21 µm
                """);
    }

    @Test
    void anotherUnitKeepsSharesAndFactor() {
        Measurement micrometres = JudgeTest.measured(5, Unit.MICROMETRE, Measurement.Bound.EXACT, 1, 3);
        Measurement millimetres = micrometres.in(Unit.MILLIMETRE, Conversion.SAME_DIMENSION);
        assertThat(millimetres.expandedUncertainty()).isCloseTo(0.003, within(1e-15));
        assertThat(millimetres.budget().coverageFactor())
                .isEqualTo(micrometres.budget().coverageFactor());
    }

    @Test
    void whatIsNoSpreadIsRefused() {
        assertThatThrownBy(() -> Contribution.rectangular("wear", "", -1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("wear: standard uncertainty must be finite and not negative, got -1.0");
        assertThatThrownBy(() -> Contribution.certificate("wear", "", 1, 0))
                .hasMessage("wear: divisor must be finite and positive, got 0.0");
        assertThatThrownBy(() -> new UncertaintyBudget(List.of(), 0))
                .hasMessage("a coverage factor must be positive and finite, got 0.0");
    }

    // Source: JCGM 100:2008, G.4.1 note 1: ν_eff lies between the smallest ν_i and their sum.
    @Property(tries = 200)
    void effectiveDegreesOfFreedomLieBetweenTheSmallestAndTheSum(
            @ForAll @Size(min = 1, max = 6) List<@DoubleRange(min = 0.01, max = 1000) Double> u,
            @ForAll @Size(6) List<@IntRange(min = 1, max = 200) Integer> freedom) {
        List<Contribution> all = new ArrayList<>();
        double sum = 0;
        double smallest = INFINITE;
        for (int i = 0; i < u.size(); i++) {
            all.add(typeA("c" + i, u.get(i), freedom.get(i)));
            sum += freedom.get(i);
            smallest = Math.min(smallest, freedom.get(i));
        }
        UncertaintyBudget budget = UncertaintyBudget.of(all);
        Offset<Double> rounding = within(1e-9 * sum);
        assertThat(budget.effectiveDegreesOfFreedom()).isGreaterThan(smallest - rounding.value);
        assertThat(budget.effectiveDegreesOfFreedom()).isLessThan(sum + rounding.value);
        assertThat(budget.coverageFactor()).isGreaterThanOrEqualTo(2);
        assertThat(all.stream().mapToDouble(budget::share).sum()).isCloseTo(1, within(1e-12));
    }

    @Test
    void degreesOfFreedomArePositive() {
        assertThatThrownBy(() -> typeA("wear", 1, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("wear: degrees of freedom must be positive, got 0.0");
    }

    @Test
    void whatAddsNothingHasNoShare() {
        Measurement measured = new Measurement(
                "position",
                "",
                100,
                Unit.MICROMETRE,
                Measurement.Bound.EXACT,
                Source.INSTRUMENT,
                OptionalDouble.empty(),
                1,
                List.of(
                        Contribution.rectangular("thermal", "0 K", 0),
                        Contribution.certificate("certificate", "", 2, 2)),
                List.of(),
                Optional.empty());
        assertThat(BudgetTable.of(measured).text()).isEqualTo("""
                contribution  type  distribution  a or s  divisor  u       ν  share
                certificate   B     normal        2.0 µm  2        1.0 µm  ∞  100 %
                thermal       B     rectangular   0 µm    1.732    0 µm    ∞  0 %
                u_c = 1.0 µm, ν_eff = ∞, k = 2, U = 2.0 µm
                """);
    }

    @Test
    void marksMoveToAnotherTimeAxis() {
        Measurement marked = new Draft("x", "", Unit.SECOND).mark("peak", 0.5).value(1);
        assertThat(marked.withMarksFrom(2).marks()).containsExactly(new Mark("peak", 2.5));
    }
}
