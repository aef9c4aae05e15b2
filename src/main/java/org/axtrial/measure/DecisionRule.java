package org.axtrial.measure;

import java.math.BigDecimal;
import java.math.MathContext;
import org.axtrial.quantity.Unit;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * What the parties agreed on for values that lie near a limit (ISO/IEC 17025:2017, 7.8.6; ILAC-G8:09/2019;
 * JCGM 106:2012). A rule turns the {@link Zone} of a value into a verdict:
 *
 * <table>
 * <caption>Verdict by zone.</caption>
 * <tr><th>rule</th><th>pass</th><th>conditional pass</th><th>conditional fail</th><th>fail</th></tr>
 * <tr><td>simple acceptance</td><td>PASS</td><td>PASS</td><td>FAIL</td><td>FAIL</td></tr>
 * <tr><td>guard band</td><td>PASS</td><td>FAIL</td><td>FAIL</td><td>FAIL</td></tr>
 * <tr><td>non-binary</td><td>PASS</td><td>INCONCLUSIVE</td><td>INCONCLUSIVE</td><td>FAIL</td></tr>
 * </table>
 */
public sealed interface DecisionRule {

    /** The rule if nothing else was agreed on. */
    DecisionRule SIMPLE = new SimpleAcceptance();

    /** Width of the guard band w = r · U (JCGM 106:2012, 8.3.2), as a multiple of the expanded uncertainty. */
    double factor();

    Verdict verdict(Zone zone);

    /** As it stands in record and report, with the risk of a wrong verdict. */
    String sentence();

    /** The measured value alone decides, the limit belongs to PASS (ILAC-G8:09/2019, 4.2.1). Zones are told for w = U. */
    record SimpleAcceptance() implements DecisionRule {

        @Override
        public double factor() {
            return 1;
        }

        @Override
        public Verdict verdict(Zone zone) {
            return zone == Zone.PASS || zone == Zone.CONDITIONAL_PASS ? Verdict.PASS : Verdict.FAIL;
        }

        @Override
        public String sentence() {
            return "Simple acceptance (ILAC-G8:09/2019, 4.2.1): PASS if the unrounded measured value lies within the"
                    + " limits; its uncertainty is stated beside it. The risk that a verdict is wrong is up to 50 % for"
                    + " a value at a limit. INCONCLUSIVE if the measurement cannot resolve the limit.";
        }
    }

    /**
     * Accepted is only what lies within the limits by the guard band; all else is not (ILAC-G8:09/2019, 4.2.2).
     *
     * @param factor r of w = r · U, positive
     */
    record GuardBand(double factor) implements DecisionRule {

        public GuardBand {
            requireFactor(factor);
        }

        @Override
        public Verdict verdict(Zone zone) {
            return zone == Zone.PASS ? Verdict.PASS : Verdict.FAIL;
        }

        @Override
        public String sentence() {
            return "Guard band (ILAC-G8:09/2019, 4.2.2): PASS if the unrounded measured value lies within the limits by"
                    + " at least w = " + width(factor) + ", else FAIL. The risk that a PASS is wrong is at most "
                    + risk(factor) + " for each limit; a FAIL within the limits means not accepted, not proven to be"
                    + " outside. INCONCLUSIVE if the measurement cannot resolve the limit.";
        }
    }

    /**
     * Four outcomes (ILAC-G8:09/2019, 4.2.3): only what is clear of the limits by the guard band passes or fails.
     *
     * @param factor r of w = r · U, positive
     */
    record NonBinary(double factor) implements DecisionRule {

        public NonBinary {
            requireFactor(factor);
        }

        @Override
        public Verdict verdict(Zone zone) {
            return switch (zone) {
                case PASS -> Verdict.PASS;
                case FAIL -> Verdict.FAIL;
                case CONDITIONAL_PASS, CONDITIONAL_FAIL -> Verdict.INCONCLUSIVE;
            };
        }

        @Override
        public String sentence() {
            return "Non-binary with guard band (ILAC-G8:09/2019, 4.2.3): PASS if the unrounded measured value lies within"
                    + " the limits by at least w = " + width(factor) + ", FAIL if outside by more than w; between them"
                    + " INCONCLUSIVE, as conditional pass or conditional fail. The risk that a PASS or a FAIL is wrong is"
                    + " at most " + risk(factor)
                    + " for each limit. INCONCLUSIVE also if the measurement cannot resolve"
                    + " the limit.";
        }
    }

    private static void requireFactor(double factor) {
        if (!(factor > 0) || Double.isInfinite(factor)) {
            throw new IllegalArgumentException("the factor of a guard band must be positive, got " + factor);
        }
    }

    private static String width(double factor) {
        return (factor == 1 ? "" : Printed.brief(factor) + " · ") + "U";
    }

    /**
     * Risk at the guard band w = r · U: 1 − Φ(2r) of a normal error, of which U is two standard deviations, (1 − 0.9545 r)/2 of a
     * rectangular one, of which U is 0.9545 of the half-width. Of these the larger; with w = U they are the same.
     */
    private static String risk(double factor) {
        double normal = new NormalDistribution().cumulativeProbability(-2 * factor);
        double rectangular = (1 - CoverageFactor.LEVEL * factor) / 2;
        double risk = 100 * Math.max(normal, rectangular);
        return Unit.PERCENT.printed(new BigDecimal(risk)
                .round(new MathContext(2))
                .stripTrailingZeros()
                .toPlainString());
    }
}
