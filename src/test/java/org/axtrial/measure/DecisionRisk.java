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
 * @param wrong how many were a PASS although the true value lies beyond the limit, or a FAIL although it lies within
 * @param expected probability of that by the definition of the rule: Φ((100 − w_P − truth)/u) of a PASS, Φ((truth − 100 − w_F)/u) of a
 *     FAIL, with w_P the guard band that a PASS keeps from the limit and w_F the one that a FAIL does
 */
record DecisionRisk(String rule, double truth, int trials, int wrong, double expected) {

    private static final double LIMIT = 100;
    private static final Criterion AT_MOST = new Criterion.AtMost(Quantity.of(LIMIT, Unit.MILLIMETRE));

    static DecisionRisk of(String name, DecisionRule rule, double truth, int trials) {
        SplittableRandom random = new SplittableRandom(name.hashCode() + Double.hashCode(truth));
        Verdict wrong = truth <= LIMIT ? Verdict.FAIL : Verdict.PASS;
        int count = 0;
        for (int i = 0; i < trials; i++) {
            Measurement measured = new Draft("travel", "known error", Unit.MILLIMETRE)
                    .add(new Contribution("part", Contribution.Evaluation.B, "stated", 1, Double.POSITIVE_INFINITY))
                    .value(truth + random.nextGaussian());
            Judgement judgement = Judge.judge(measured, AT_MOST, Conversion.SAME_DIMENSION, rule);
            if (judgement.verdict() == wrong) {
                count++;
            }
        }
        double distance = wrong == Verdict.PASS ? LIMIT - truth - passKeeps(rule) : truth - LIMIT - failKeeps(rule);
        return new DecisionRisk(name, truth, trials, count, new NormalDistribution().cumulativeProbability(distance));
    }

    private static double passKeeps(DecisionRule rule) {
        return rule == DecisionRule.SIMPLE ? 0 : 2 * rule.factor();
    }

    /** What lies within the limit and nearer to it than the guard band is a FAIL under the guard band rule. */
    private static double failKeeps(DecisionRule rule) {
        return rule instanceof DecisionRule.NonBinary ? 2 * rule.factor() : -passKeeps(rule);
    }

    static List<DecisionRisk> all(int trials) {
        double[] truths = {97, 98, 99, 99.999, 100.001, 101, 102, 103};
        List<DecisionRisk> simple = Arrays.stream(truths)
                .mapToObj(truth -> of("simple acceptance", DecisionRule.SIMPLE, truth, trials))
                .toList();
        List<DecisionRisk> guarded = Arrays.stream(truths)
                .mapToObj(truth -> of("guard band w = U", new DecisionRule.GuardBand(1), truth, trials))
                .toList();
        List<DecisionRisk> nonBinary = Arrays.stream(truths)
                .mapToObj(truth -> of("non-binary, w = U", new DecisionRule.NonBinary(1), truth, trials))
                .toList();
        return Stream.of(simple, guarded, nonBinary).flatMap(List::stream).toList();
    }

    double share() {
        return (double) wrong / trials;
    }

    /** The line of the table. */
    String line() {
        boolean inside = truth <= LIMIT;
        return String.format(
                Locale.ROOT,
                "| %s | %.0f, %+.0f u | %s | %.2f | %.2f |",
                rule,
                LIMIT,
                truth - LIMIT,
                inside ? "false reject" : "false accept",
                100 * share(),
                100 * expected);
    }
}
