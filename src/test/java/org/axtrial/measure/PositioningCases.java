package org.axtrial.measure;

import static org.axtrial.measure.Polling.between;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import java.util.stream.IntStream;
import org.axtrial.measure.CoverageCase.Trial;
import org.axtrial.quantity.Unit;

/**
 * Positioning of an axis whose error is a straight line, a wave and a reversal error, read in steps of 1, five targets, five cycles;
 * and poses of two axes. The truth of each value is what its formula gives of the true means and standard deviations.
 */
final class PositioningCases {

    private static final int TARGETS = 5;
    private static final int CYCLES = 5;
    private static final double DEVIATION = 3;

    private static final String CONDITIONS = "5 targets, 5 cycles, s = 3 q";
    private static final String LARGEST = "the largest of several standard deviations is known better than one alone";

    private PositioningCases() {}

    static List<CoverageCase> all() {
        return List.of(
                row("bidirectional accuracy A", Positioning::accuracy),
                row("unidirectional accuracy A↑", Positioning::accuracyUp),
                row("bidirectional systematic error E", Positioning::systematicError),
                row("unidirectional systematic error E↑", Positioning::systematicErrorUp),
                row("mean bidirectional positioning error M", Positioning::meanError),
                wide("bidirectional repeatability R", LARGEST, Positioning::repeatability),
                wide("unidirectional repeatability R↑", LARGEST, Positioning::repeatabilityUp),
                row("reversal error B", Positioning::reversalError),
                row("mean reversal error", Positioning::meanReversalError),
                CoverageCase.band("pose repeatability RP", "30 poses of two axes, s = 3 q", r -> poses(r, true)),
                CoverageCase.band("pose accuracy AP", "30 poses of two axes, s = 3 q", r -> poses(r, false)));
    }

    private static CoverageCase row(String quantity, Function<Positioning, Measurement> value) {
        return CoverageCase.band(quantity, CONDITIONS, r -> positioning(r, value));
    }

    private static CoverageCase wide(String quantity, String why, Function<Positioning, Measurement> value) {
        return CoverageCase.wide(quantity, CONDITIONS, why, r -> positioning(r, value));
    }

    /** Means of an axis: what its targets are off by, and how far the directions are apart. */
    private static final class Axis {

        private final double[] up;
        private final double[] down;

        private Axis(double[] up, double[] down) {
            this.up = up;
            this.down = down;
        }

        static Axis random(RandomGenerator random) {
            double slope = between(random, -40, 40);
            double wave = between(random, 5, 20);
            double phase = between(random, 0, 2 * Math.PI);
            double reversal = between(random, -20, 20);
            double[] up = IntStream.range(0, TARGETS)
                    .mapToDouble(i -> slope * i / (TARGETS - 1) + wave * StrictMath.sin(2.1 * i + phase))
                    .toArray();
            double[] down = IntStream.range(0, TARGETS)
                    .mapToDouble(i -> up[i] - reversal * (1 + 0.2 * StrictMath.cos(i + phase)))
                    .toArray();
            return new Axis(up, down);
        }

        /** Deviations whose mean and standard deviation are the true ones: ± s·√((n − 1)/n), of two cycles. */
        Positioning exact() {
            double d = DEVIATION * Math.sqrt(0.5);
            return new Positioning(
                    Unit.MICROMETRE,
                    Source.INSTRUMENT,
                    0,
                    List.of(),
                    IntStream.range(0, TARGETS)
                            .mapToObj(i -> new PositioningPoint(
                                    i, List.of(up[i] - d, up[i] + d), List.of(down[i] - d, down[i] + d)))
                            .toList());
        }

        Positioning measured(RandomGenerator random) {
            return new Positioning(
                    Unit.MICROMETRE,
                    Source.INSTRUMENT,
                    1,
                    List.of(),
                    IntStream.range(0, TARGETS)
                            .mapToObj(i -> new PositioningPoint(i, readings(random, up[i]), readings(random, down[i])))
                            .toList());
        }

        private static List<Double> readings(RandomGenerator random, double mean) {
            return IntStream.range(0, CYCLES)
                    .mapToObj(j -> Math.rint(mean + DEVIATION * random.nextGaussian()))
                    .toList();
        }
    }

    private static Trial positioning(RandomGenerator random, Function<Positioning, Measurement> value) {
        Axis axis = Axis.random(random);
        return new Trial(value.apply(axis.exact()).value(), value.apply(axis.measured(random)));
    }

    /** Distances from the barycentre are those of a Rayleigh distribution: mean s·√(π/2), deviation s·√(2 − π/2). */
    private static Trial poses(RandomGenerator random, boolean repeatability) {
        double x = between(random, 50, 60);
        double y = between(random, 20, 30);
        List<List<Double>> poses = new ArrayList<>();
        for (int i = 0; i < 30; i++) {
            poses.add(List.of(
                    Math.rint(x + DEVIATION * random.nextGaussian()),
                    Math.rint(y + DEVIATION * random.nextGaussian())));
        }
        return repeatability
                ? new Trial(
                        DEVIATION * (Math.sqrt(Math.PI / 2) + 3 * Math.sqrt(2 - Math.PI / 2)),
                        PoseRepeatability.of(poses, Unit.COUNT, Source.DRIVE, 1))
                : new Trial(
                        Math.hypot(x, y),
                        PoseRepeatability.accuracy(poses, List.of(0.0, 0.0), Unit.COUNT, Source.DRIVE, 1, List.of()));
    }
}
