package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** How often the rules decide wrongly near a limit, and that what polling cannot see is never accepted. */
class DecisionRiskTest {

    private static final int TRIALS = 1000;

    static Stream<DecisionRisk> risks() {
        return DecisionRisk.all(TRIALS).stream();
    }

    /** Binomial: the share by chance is within four standard deviations of the probability. */
    @ParameterizedTest
    @MethodSource("risks")
    void asOftenAsTheRuleSays(DecisionRisk risk) {
        double chance = Math.sqrt(risk.expected() * (1 - risk.expected()) / TRIALS);
        assertThat(risk.share()).isCloseTo(risk.expected(), within(4 * chance + 1.0 / TRIALS));
    }

    /** ILAC-G8:09/2019, Table 1 (from memory): a guard band of U leaves less than 2.5 % false acceptance. */
    @Test
    void aGuardBandOfUKeepsFalseAcceptanceBelowTheStatedRisk() {
        DecisionRisk beside = DecisionRisk.of("guard band w = U", new DecisionRule.GuardBand(1), 100.001, 20_000);
        assertThat(beside.share()).isLessThan(0.025);
        DecisionRisk simple = DecisionRisk.of("simple acceptance", DecisionRule.SIMPLE, 100.001, 20_000);
        assertThat(simple.share()).isBetween(0.48, 0.52);
    }

    @Property(tries = 500)
    void aSettlingLimitBelowTheSampleDistanceIsNeverAccepted(
            @ForAll long seed, @ForAll @DoubleRange(min = 0.01, max = 0.99) double share) {
        SplittableRandom random = new SplittableRandom(seed);
        double settled = Polling.between(random, 0, 0.1);
        double end = Polling.between(random, 1000, 2000);
        Trace trace = Polling.usual(random)
                .of(
                        -0.05,
                        0.4,
                        Polling.Signal.of("x", Unit.COUNT, 1, t -> end * Math.min(1, Math.max(0, t / settled))));
        Trace after = Samples.afterCommand(trace);
        double shortest = Double.POSITIVE_INFINITY;
        for (int i = 1; i < after.size(); i++) {
            shortest = Math.min(shortest, after.time(i) - after.time(i - 1));
        }
        Criterion limit = new Criterion.AtMost(Quantity.of(share * shortest, Unit.SECOND));
        Stream.of(
                        Settling.of(trace, "x", end, 5),
                        Settling.fromProfileEnd(trace, "x", end, 5, 0.05),
                        Stopping.time(trace, "x", 5))
                .map(measured -> Judge.judge(measured, limit, Conversion.SAME_DIMENSION))
                .forEach(judgement -> assertThat(judgement.verdict()).isNotEqualTo(Verdict.PASS));
    }
}
