package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.stream.IntStream;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.api.Test;

/** The distribution of a sum of errors against closed forms, published examples and random draws. */
class ErrorSumTest {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static Contribution rectangular(double halfWidth) {
        return Contribution.rectangular("", "", halfWidth);
    }

    private static Contribution normal(double deviation, double freedom) {
        return new Contribution("", Contribution.Evaluation.A, "", deviation, freedom);
    }

    private static ErrorSum sum(Contribution... parts) {
        return ErrorSum.of(List.of(parts));
    }

    // Source: distribution functions in closed form (JCGM 101:2008, 6.4.2, 6.4.5 and 6.4.6 give the densities).
    @Test
    void onePartAloneHasItsOwnDistribution() {
        for (double x : new double[] {-0.99, -0.4, 0, 0.1, 0.5, 0.9545}) {
            assertThat(sum(rectangular(1)).below(x)).isCloseTo((1 + x) / 2, within(2e-5));
            double corner = (1 - Math.abs(x)) * (1 - Math.abs(x)) / 2;
            assertThat(sum(Contribution.triangular("", "", 1)).below(x))
                    .isCloseTo(x < 0 ? corner : 1 - corner, within(1e-7));
            assertThat(sum(Contribution.uShaped("", "", 1)).below(x))
                    .isCloseTo(0.5 + Math.asin(x) / Math.PI, within(2e-3));
        }
        assertThat(sum(rectangular(1)).below(1)).isEqualTo(1);
        assertThat(sum(rectangular(1)).below(-1.0001)).isZero();
        assertThat(sum(rectangular(1)).below(Double.POSITIVE_INFINITY)).isEqualTo(1);
    }

    // Source: sum of a normal and a rectangular variable, ∫Φ/2a in closed form.
    @Test
    void aRectangularAndANormalPart() {
        NormalDistribution phi = new NormalDistribution();
        for (double sigma : new double[] {0.01, 0.3, 1, 5}) {
            ErrorSum sum = sum(rectangular(1), normal(sigma, INFINITE));
            for (double x : new double[] {-1.2, -0.5, 0.2, 0.9, 1.5}) {
                double upper = (x + 1) / sigma;
                double lower = (x - 1) / sigma;
                double exact = sigma
                        / 2
                        * (upper * phi.cumulativeProbability(upper)
                                + phi.density(upper)
                                - lower * phi.cumulativeProbability(lower)
                                - phi.density(lower));
                assertThat(sum.below(x)).as("σ %s, x %s", sigma, x).isCloseTo(exact, within(1e-6));
            }
        }
    }

    // Source: JCGM 101:2008, 9.2.3.4: four rectangular inputs of variance 1, endpoints ± 2√3·(2 − (3/5)^¼) = ± 3.88 for
    // 95 %, where 2 u_c with k = 1.96 is 3.92; 9.2.4: one of them ten times as wide, ± 17.0 instead of ± 19.9. Both
    // from
    // memory.
    @Test
    void theAdditiveModelsOfTheSupplement() {
        double a = Math.sqrt(3);
        ErrorSum four = sum(rectangular(a), rectangular(a), rectangular(a), rectangular(a));
        double exact = 2 * Math.sqrt(3) * (2 - Math.pow(0.6, 0.25));
        assertThat(exact).isCloseTo(3.88, within(0.005));
        assertThat(four.quantile(0.975)).isCloseTo(exact, within(1e-5));
        ErrorSum oneIsWide = sum(rectangular(a), rectangular(a), rectangular(a), rectangular(10 * a));
        assertThat(oneIsWide.quantile(0.975)).isCloseTo(17.0, within(0.05));
    }

    // Source: JCGM 100:2008, G.6.5 and EA-4/02, S9 (k = 1.65 for 95 % of a rectangular part that outweighs the rest;
    // from
    // memory); 95.45 % of ± a are within 0.9545 a, of a triangle within a·(1 − √0.0455).
    @Test
    void theFactorOfASumWithEnds() {
        assertThat(sum(rectangular(Math.sqrt(3))).quantile(0.975)).isCloseTo(1.65, within(0.005));
        assertThat(CoverageFactor.of(List.of(rectangular(7)))).isCloseTo(0.9544997 * Math.sqrt(3), within(1e-4));
        assertThat(CoverageFactor.of(List.of(rectangular(2), rectangular(2))))
                .isCloseTo((1 - Math.sqrt(1 - 0.9544997)) * Math.sqrt(6), within(1e-5));
        assertThat(CoverageFactor.of(List.of(normal(1, INFINITE)))).isEqualTo(2);
        assertThat(CoverageFactor.of(List.of(rectangular(1e-9), normal(1, INFINITE))))
                .isCloseTo(2, within(1e-6));
    }

    // Source: Student's t of Hipparchus; the factor of the GUM is the most that is used.
    @Test
    void partsWithFewDegreesOfFreedomCountWithTheFactorOfTheirOwn() {
        double t = new TDistribution(4).inverseCumulativeProbability(0.9772498680518208);
        assertThat(sum(normal(3, 4)).quantile(0.9772498680518208)).isCloseTo(3 * t, within(1e-5));
        assertThat(CoverageFactor.of(List.of(normal(3, 4)))).isCloseTo(t, within(1e-9));
        for (double a : new double[] {0.01, 0.3, 1, 3, 10}) {
            double k = CoverageFactor.of(List.of(rectangular(a), normal(1, 4)));
            double freedom =
                    new UncertaintyBudget(List.of(rectangular(a), normal(1, 4)), 1).effectiveDegreesOfFreedom();
            assertThat(k).isBetween(1.65, CoverageFactor.of(freedom));
        }
    }

    // Source: the Monte Carlo method of JCGM 101:2008, 7, of sums whose parts this test draws itself.
    @Test
    void drawsAtRandomLieWithinTheInterval() {
        SplittableRandom random = new SplittableRandom(20_261_127);
        for (int i = 0; i < 30; i++) {
            List<Contribution> parts = IntStream.range(0, 1 + random.nextInt(5))
                    .mapToObj(n -> part(random))
                    .toList();
            double limit = UncertaintyBudget.of(parts).expanded();
            int draws = 20_000;
            long inside = IntStream.range(0, draws)
                    .filter(n -> Math.abs(parts.stream()
                                    .mapToDouble(p -> drawn(p, random))
                                    .sum())
                            <= limit)
                    .count();
            assertThat((double) inside / draws).as("%s", parts).isCloseTo(0.9545, within(4 * 0.0015));
        }
    }

    @Test
    void theFactorDoesNotHangOnTheUnitNorOnTheOrder() {
        Contribution[] parts = {rectangular(3), normal(1, INFINITE), Contribution.triangular("", "", 2)};
        double k = CoverageFactor.of(List.of(parts));
        assertThat(CoverageFactor.of(
                        Arrays.stream(parts).map(p -> p.times(1e-9)).toList()))
                .isCloseTo(k, within(1e-8));
        assertThat(CoverageFactor.of(List.of(parts[2], parts[0], parts[1]))).isCloseTo(k, within(1e-8));
    }

    private static Contribution part(RandomGenerator random) {
        double size = StrictMath.exp(4 * random.nextDouble() - 2);
        return switch (random.nextInt(4)) {
            case 0 -> rectangular(size);
            case 1 -> Contribution.triangular("", "", size);
            case 2 -> Contribution.uShaped("", "", size);
            default -> normal(size, INFINITE);
        };
    }

    private static double drawn(Contribution part, RandomGenerator random) {
        return part.spread()
                * switch (part.distribution()) {
                    case RECTANGULAR -> 2 * random.nextDouble() - 1;
                    case TRIANGULAR -> (random.nextBoolean() ? 1 : -1) * (1 - Math.sqrt(random.nextDouble()));
                    case U_SHAPED -> StrictMath.sin(2 * Math.PI * random.nextDouble());
                    case NORMAL -> random.nextGaussian();
                };
    }
}
