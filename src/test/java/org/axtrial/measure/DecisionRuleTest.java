package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.axtrial.measure.Measurement.Bound;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Decision rules, conformance probabilities and uncertainty ratios. */
class DecisionRuleTest {

    private static final DecisionRule GUARD = new DecisionRule.GuardBand(1);
    private static final DecisionRule NON_BINARY = new DecisionRule.NonBinary(1);

    private static Judgement judge(DecisionRule rule, double value, double u, Criterion criterion) {
        return Judge.judge(
                JudgeTest.measured(value, criterion.unit(), Bound.EXACT, 0, 2 * u),
                criterion,
                Conversion.SAME_DIMENSION,
                rule);
    }

    private static DecisionRule rule(String name) {
        return switch (name) {
            case "simple" -> DecisionRule.SIMPLE;
            case "guard" -> GUARD;
            default -> NON_BINARY;
        };
    }

    // At most 100 with U = 4. Source of the zones: ILAC-G8:09/2019, 4.2.1 to 4.2.3; edges belong to the better zone
    // inside and to the conditional one outside.
    @ParameterizedTest
    @CsvSource({
        "simple, 95, PASS, PASS",
        "simple, 96, PASS, PASS",
        "simple, 96.1, CONDITIONAL_PASS, PASS",
        "simple, 100, CONDITIONAL_PASS, PASS",
        "simple, 100.1, CONDITIONAL_FAIL, FAIL",
        "simple, 104.1, FAIL, FAIL",
        "guard, 96, PASS, PASS",
        "guard, 96.1, CONDITIONAL_PASS, FAIL",
        "guard, 100, CONDITIONAL_PASS, FAIL",
        "guard, 104, CONDITIONAL_FAIL, FAIL",
        "guard, 104.1, FAIL, FAIL",
        "nonBinary, 96, PASS, PASS",
        "nonBinary, 96.1, CONDITIONAL_PASS, INCONCLUSIVE",
        "nonBinary, 100, CONDITIONAL_PASS, INCONCLUSIVE",
        "nonBinary, 100.1, CONDITIONAL_FAIL, INCONCLUSIVE",
        "nonBinary, 104, CONDITIONAL_FAIL, INCONCLUSIVE",
        "nonBinary, 104.1, FAIL, FAIL",
    })
    void zonesAndVerdicts(String rule, double value, Zone zone, Verdict verdict) {
        Judgement judgement = judge(rule(rule), value, 2, JudgeTest.criterion("atMost"));
        assertThat(judgement.conformity().orElseThrow().zone()).contains(zone);
        assertThat(judgement.verdict()).isEqualTo(verdict);
        assertThat(judgement.reason().isEmpty()).isEqualTo(verdict == Verdict.PASS);
    }

    @Test
    void reasonsNameTheGuardBand() {
        assertThat(judge(GUARD, 97.5, 2, JudgeTest.criterion("atMost")).reason())
                .isEqualTo("97.5 ms is 2.5 ms below the limit of 100.0 ms, which is less than the guard band of 4.0 ms;"
                        + " measure with less uncertainty to tell");
        assertThat(judge(NON_BINARY, 88, 2, JudgeTest.criterion("nominal")).reason())
                .isEqualTo("88.0 ms is 2.0 ms below the limit of 90.0 ms, which is less than the guard band of 4.0 ms;"
                        + " measure with less uncertainty to tell");
        assertThat(judge(NON_BINARY, 92, 2, JudgeTest.criterion("nominal")).reason())
                .startsWith("92.0 ms is 2.0 ms above the limit of 90.0 ms");
        assertThat(judge(GUARD, 102, 2, JudgeTest.criterion("atMost")).reason())
                .isEqualTo("102.0 ms is 2.0 ms above the limit of 100.0 ms");
    }

    @Test
    void marginAndGuardBandThatDifferNeverPrintAlike() {
        Judgement judgement = judge(NON_BINARY, 96.0004, 2, JudgeTest.criterion("atMost"));
        assertThat(judgement.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judgement.reason()).contains("3.9996 ms below", "guard band of 4.0000 ms");
    }

    // JCGM 106:2012, 8.3: with w = r·U the acceptance interval is the tolerance interval less w on each side.
    @Test
    void theFactorWidensTheBand() {
        assertThat(judge(new DecisionRule.GuardBand(0.5), 98, 2, JudgeTest.criterion("atMost"))
                        .verdict())
                .isEqualTo(Verdict.PASS);
        assertThat(judge(new DecisionRule.GuardBand(0.5), 98.1, 2, JudgeTest.criterion("atMost"))
                        .verdict())
                .isEqualTo(Verdict.FAIL);
        assertThatThrownBy(() -> new DecisionRule.GuardBand(0))
                .hasMessage("the factor of a guard band must be positive, got 0.0");
        assertThatThrownBy(() -> new DecisionRule.NonBinary(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    // Whatever the rule, coarse stays inconclusive: here U = 4 is more than the tolerance of 3.
    @ParameterizedTest
    @CsvSource({"simple", "guard", "nonBinary"})
    void aRuleDoesNotMakeACoarseMeasurementFine(String rule) {
        Criterion narrow = new Criterion.Nominal(Quantity.of(100, Unit.MILLISECOND), 3, "100 ms ± 3 ms");
        assertThat(judge(rule(rule), 100, 2, narrow).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judge(rule(rule), 106, 2, narrow).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(judge(rule(rule), 107.1, 2, narrow).verdict()).isEqualTo(Verdict.FAIL);
    }

    // Source: JCGM 106:2012, examples of one-sided and two-sided tolerances (data from memory, recomputed): breakdown
    // voltage at most -5.40 V, strength at least 490 kPa, viscosity 12.5 ... 16.3. Published: 0.92, 0.99, 0.66.
    @ParameterizedTest
    @CsvSource({
        ", -5.40, -5.47, 0.05, 0.919243, 0.92",
        "490, , 509.7, 8.6, 0.989010, 0.99",
        "12.5, 16.3, 13.6, 1.8, 0.662630, 0.66",
        // Constructed: axis with a limit of ± 0.010 mm and u = 0.002 mm.
        "-0.010, 0.010, 0.008, 0.002, 0.841345, 0.84",
        "-0.010, 0.010, 0.0067, 0.002, 0.950529, 0.95",
        "-0.010, 0.010, 0.006, 0.002, 0.977250, 0.98",
        "-0.010, 0.010, 0.010, 0.002, 0.500000, 0.50",
        "-0.010, 0.010, 0.011, 0.002, 0.308538, 0.31",
    })
    void conformanceProbability(Double lower, Double upper, double value, double u, double exact, double published) {
        Criterion criterion = lower == null
                ? new Criterion.AtMost(Quantity.of(upper, Unit.ONE))
                : upper == null
                        ? new Criterion.AtLeast(Quantity.of(lower, Unit.ONE))
                        : new Criterion.Between(Quantity.of(lower, Unit.ONE), Quantity.of(upper, Unit.ONE));
        double probability = judge(DecisionRule.SIMPLE, value, u, criterion)
                .conformity()
                .orElseThrow()
                .probability()
                .orElseThrow();
        assertThat(probability).isCloseTo(exact, within(1e-6));
        assertThat(probability).isCloseTo(published, within(0.005));
    }

    // Source: quantiles of the normal distribution, as JCGM 106:2012, Table 1 lists them: a one-sided guard band of
    // z standard uncertainties gives the conformance probability.
    @ParameterizedTest
    @CsvSource({"0.80, 0.8416", "0.90, 1.2816", "0.95, 1.6449", "0.975, 1.9600", "0.99, 2.3263", "0.999, 3.0902"})
    void guardFactors(double probability, double factor) {
        Judgement atAcceptanceLimit =
                judge(new DecisionRule.GuardBand(factor / 2), 100 - factor, 1, JudgeTest.criterion("atMost"));
        assertThat(atAcceptanceLimit.verdict()).isEqualTo(Verdict.PASS);
        assertThat(atAcceptanceLimit.conformity().orElseThrow().probability().orElseThrow())
                .isCloseTo(probability, within(2e-5));
    }

    // Source: JCGM 106:2012, example of a speed check: relative u = 2 %, limit 100 km/h, 99.9 % sure from 106.588 on.
    @Test
    void speedCheck() {
        double v = 106.588;
        Judgement judgement = judge(DecisionRule.SIMPLE, v, 0.02 * v, new Criterion.AtMost(Quantity.of(100, Unit.ONE)));
        assertThat(judgement
                        .conformity()
                        .orElseThrow()
                        .risk(judgement.verdict())
                        .orElseThrow())
                .isCloseTo(0.001, within(1e-6));
    }

    // Source: ILAC-G8:09/2019, 4.2.2: with w = U (k = 2) false acceptance of at most 2.5 %; exactly 1 − Φ(2).
    @Property(tries = 300)
    void noGuardedPassIsRiskier(
            @ForAll @DoubleRange(min = 80, max = 120) double value,
            @ForAll @DoubleRange(min = 0.1, max = 40) double u) {
        double most = 1 - new NormalDistribution().cumulativeProbability(2) + 1e-9;
        for (DecisionRule rule : new DecisionRule[] {GUARD, NON_BINARY}) {
            Judgement judgement = judge(rule, value, u, JudgeTest.criterion("atMost"));
            judgement
                    .conformity()
                    .orElseThrow()
                    .risk(judgement.verdict())
                    .ifPresent(risk -> assertThat(risk)
                            .isLessThanOrEqualTo(judgement.verdict() == Verdict.PASS || rule == NON_BINARY ? most : 1));
        }
    }

    // Source: constructed: T = ± 10 µm and U = 2.5 µm are 4:1; with w = U the acceptance limit is 7.5 µm.
    @Test
    void testUncertaintyRatio() {
        Criterion ten = new Criterion.Nominal(Quantity.of(0, Unit.MICROMETRE), 10, "0 µm ± 10 µm");
        Judgement at = judge(GUARD, 7.5, 1.25, ten);
        assertThat(at.verdict()).isEqualTo(Verdict.PASS);
        assertThat(at.conformity().orElseThrow().testUncertaintyRatio().orElseThrow())
                .isCloseTo(4, within(1e-12));
        assertThat(at.conformity().orElseThrow().ratioIsLow()).isFalse();
        Judgement worse = judge(GUARD, 0, 1.3, ten);
        assertThat(worse.conformity().orElseThrow().ratioIsLow()).isTrue();
        assertThat(Printed.conformity(worse))
                .isEqualTo("conformance probability > 99.99 %; test uncertainty ratio 3.8:1, below 4:1");
        assertThat(Printed.conformity(judge(GUARD, 8, 1.25, ten)))
                .isEqualTo("conditional pass, guard band 2.5 µm; conformance probability 94.52 %; test uncertainty"
                        + " ratio 4:1");
    }

    @Test
    void aLimitOfZeroAndAnExactValueHaveNoRatio() {
        assertThat(judge(GUARD, -1, 0.1, new Criterion.AtMost(Quantity.of(0, Unit.MILLIMETRE)))
                        .conformity()
                        .orElseThrow()
                        .testUncertaintyRatio())
                .isEmpty();
        Conformity exact =
                judge(GUARD, 100, 0, JudgeTest.criterion("atMost")).conformity().orElseThrow();
        assertThat(exact)
                .isEqualTo(new Conformity(Optional.of(Zone.PASS), 0, OptionalDouble.of(1), OptionalDouble.empty()));
    }

    // A probability that rounds to one is not certainty.
    @Test
    void onlyWhatIsExactIsCertain() {
        assertThat(Printed.conformity(judge(GUARD, 0, 0, JudgeTest.criterion("atMost"))))
                .isEqualTo("conformance probability 100 %");
        assertThat(Printed.conformity(judge(GUARD, 0, 2, JudgeTest.criterion("atMost"))))
                .startsWith("conformance probability > 99.99 %");
        assertThat(Printed.conformity(judge(GUARD, 200, 2, JudgeTest.criterion("atMost"))))
                .startsWith("conformance probability < 0.01 %");
    }

    @Test
    void aBoundHasNoProbability() {
        Judgement atLeast = Judge.judge(
                JudgeTest.measured(103, Unit.MILLISECOND, Bound.AT_LEAST, 0, 4),
                JudgeTest.criterion("atMost"),
                Conversion.SAME_DIMENSION,
                NON_BINARY);
        assertThat(atLeast.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(atLeast.conformity().orElseThrow().zone()).contains(Zone.CONDITIONAL_FAIL);
        assertThat(atLeast.conformity().orElseThrow().probability()).isEmpty();
    }

    @Test
    void theSentencesNameTheRisk() {
        assertThat(DecisionRule.SIMPLE.sentence()).contains("4.2.1", "up to 50 %");
        assertThat(GUARD.sentence()).contains("at least w = U", "at most 2.3 %");
        assertThat(new DecisionRule.NonBinary(0.943).sentence()).contains("w = 0.943 · U", "at most 5 %");
    }

    // JCGM 106:2012, 7.3: without uncertainty a value on a limit is inside for certain.
    @ParameterizedTest
    @CsvSource({
        "atMost, 100, 1",
        "atLeast, 100, 1",
        "nominal, 90, 1",
        "nominal, 110, 1",
        "nominal, 89, 0",
        "nominal, 111, 0"
    })
    void aValueWithoutUncertaintyIsCertain(String kind, double value, double probability) {
        assertThat(judge(DecisionRule.SIMPLE, value, 0, JudgeTest.criterion(kind))
                        .conformity()
                        .orElseThrow()
                        .probability())
                .hasValue(probability);
    }

    // Two limits of which one is zero have a tolerance, 5 to U = 1; a single lower limit of zero has none.
    @Test
    void onlyASingleLimitOfZeroHasNoRatio() {
        Criterion upToTen = new Criterion.Between(Quantity.of(0, Unit.MILLIMETRE), Quantity.of(10, Unit.MILLIMETRE));
        Criterion fromMinusTen =
                new Criterion.Between(Quantity.of(-10, Unit.MILLIMETRE), Quantity.of(0, Unit.MILLIMETRE));
        for (Criterion criterion : new Criterion[] {upToTen, fromMinusTen}) {
            assertThat(judge(GUARD, 5, 0.5, criterion)
                            .conformity()
                            .orElseThrow()
                            .testUncertaintyRatio()
                            .orElseThrow())
                    .isCloseTo(5, within(1e-12));
        }
        assertThat(judge(GUARD, 1, 0.1, new Criterion.AtLeast(Quantity.of(0, Unit.MILLIMETRE)))
                        .conformity()
                        .orElseThrow()
                        .testUncertaintyRatio())
                .isEmpty();
    }

    @Test
    void aValueOnItsLimitLiesNotAboveIt() {
        assertThat(judge(GUARD, 100, 2, JudgeTest.criterion("atMost")).reason())
                .startsWith("100.0 ms is 0.0 ms below the limit of 100.0 ms");
        assertThat(judge(GUARD, 100, 2, JudgeTest.criterion("atLeast")).reason())
                .startsWith("100.0 ms is 0.0 ms above the limit of 100.0 ms");
    }
}
