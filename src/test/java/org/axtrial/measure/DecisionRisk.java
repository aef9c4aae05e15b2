package org.axtrial.measure;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * How often a rule decides wrongly about an axis whose true value is known: at most 100 is allowed, each measurement is off
 * by a normal error of standard deviation 1, and its budget says so.
 *
 * @param rule as the report names it
 * @param truth the true value
 * @param trials how many
 * @param accepted how many were a PASS
 * @param expected probability of a PASS: Φ((100 − w − truth)/u), by the definition of the rule
 */
record DecisionRisk(String rule, double truth, int trials, int accepted, double expected) {

    private static final double LIMIT = 100;
    private static final Criterion AT_MOST = new Criterion.AtMost(Quantity.of(LIMIT, Unit.MILLIMETRE));

    static DecisionRisk of(String name, DecisionRule rule, double truth, int trials) {
        SplittableRandom random = new SplittableRandom(name.hashCode() + Double.hashCode(truth));
        int accepted = 0;
        for (int i = 0; i < trials; i++) {
            Measurement measured = new Draft("travel", "known error", Unit.MILLIMETRE)
                    .add(new Contribution("part", Contribution.Evaluation.B, "stated", 1, Double.POSITIVE_INFINITY))
                    .value(truth + random.nextGaussian());
            Judgement judgement = Judge.judge(measured, AT_MOST, Conversion.SAME_DIMENSION, rule);
            if (judgement.verdict() == Verdict.PASS) {
                accepted++;
            }
        }
        double guardBand = 2 * rule.factor();
        double expected = new NormalDistribution()
                .cumulativeProbability(LIMIT - (rule == DecisionRule.SIMPLE ? 0 : guardBand) - truth);
        return new DecisionRisk(name, truth, trials, accepted, expected);
    }

    static List<DecisionRisk> all(int trials) {
        double[] truths = {97, 98, 99, 99.999, 100.001, 101, 102, 103};
        List<DecisionRisk> simple = Arrays.stream(truths)
                .mapToObj(truth -> of("simple acceptance", DecisionRule.SIMPLE, truth, trials))
                .toList();
        List<DecisionRisk> guarded = Arrays.stream(truths)
                .mapToObj(truth -> of("guard band w = U", new DecisionRule.GuardBand(1), truth, trials))
                .toList();
        return Stream.of(simple, guarded).flatMap(List::stream).toList();
    }

    double share() {
        return (double) accepted / trials;
    }

    /** The line of the table: what is wrong is a PASS beyond the limit and its refusal within. */
    String line() {
        boolean inside = truth <= LIMIT;
        return String.format(
                Locale.ROOT,
                "| %s | %.0f, %+.0f u | %s | %.2f | %.2f |",
                rule,
                LIMIT,
                truth - LIMIT,
                inside ? "false reject" : "false accept",
                100 * (inside ? 1 - share() : share()),
                100 * (inside ? 1 - expected : expected));
    }
}
