package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

class PositioningTest {

    private static PositioningPoint point(double target, double[] up, double[] down) {
        return new PositioningPoint(target, list(up), list(down));
    }

    private static List<Double> list(double... values) {
        return Arrays.stream(values).boxed().toList();
    }

    private static Positioning positioning(List<PositioningPoint> points) {
        return new Positioning(Unit.MICROMETRE, Source.INSTRUMENT, 0, List.of(), points);
    }

    // Source: constructed, worked by hand after the formulas of ISO 230-2 (from memory): every row is a mean plus
    // s · (−1, −1, 0, 1, 1), a pattern whose standard deviation is s.
    private static final Positioning BY_HAND = positioning(List.of(
            point(100, new double[] {-1, -1, 0, 1, 1}, new double[] {-3, -3, -2, -1, -1}),
            point(200, new double[] {1, 1, 2, 3, 3}, new double[] {0, 0, 1, 2, 2}),
            point(300, new double[] {2, 2, 4, 6, 6}, new double[] {4, 4, 5, 6, 6}),
            point(400, new double[] {2, 2, 3, 4, 4}, new double[] {5, 5, 6, 7, 7}),
            point(500, new double[] {0, 0, 1, 2, 2}, new double[] {-1, -1, 1, 3, 3})));

    @Test
    void everyTargetOfTheExample() {
        assertThat(BY_HAND.points()).extracting(PositioningPoint::meanUp).containsExactly(0.0, 2.0, 4.0, 3.0, 1.0);
        assertThat(BY_HAND.points()).extracting(PositioningPoint::meanDown).containsExactly(-2.0, 1.0, 5.0, 6.0, 1.0);
        assertThat(BY_HAND.points()).extracting(PositioningPoint::mean).containsExactly(-1.0, 1.5, 4.5, 4.5, 1.0);
        assertThat(BY_HAND.points()).extracting(PositioningPoint::reversal).containsExactly(2.0, 1.0, -1.0, -3.0, 0.0);
        assertThat(BY_HAND.points())
                .extracting(p -> p.deviationUp().orElseThrow())
                .containsExactly(1.0, 1.0, 2.0, 1.0, 1.0);
        assertThat(BY_HAND.points())
                .extracting(p -> p.deviationDown().orElseThrow())
                .containsExactly(1.0, 1.0, 1.0, 1.0, 2.0);
        // Row 4: 2 + 2 + 3 = 7 is more than 4 s; rows 3 and 5: 4 s of one direction is more than the sum.
        assertThat(BY_HAND.points())
                .extracting(p -> p.repeatability().orElseThrow())
                .containsExactly(6.0, 5.0, 8.0, 7.0, 8.0);
    }

    @Test
    void theAxisOfTheExample() {
        assertThat(BY_HAND.reversalError().value()).isEqualTo(3);
        assertThat(BY_HAND.meanReversalError().value()).isCloseTo(-0.2, within(1e-15));
        assertThat(BY_HAND.repeatabilityUp().value()).isEqualTo(8);
        assertThat(BY_HAND.repeatabilityDown().value()).isEqualTo(8);
        assertThat(BY_HAND.repeatability().value()).isEqualTo(8);
        assertThat(BY_HAND.systematicErrorUp().value()).isEqualTo(4);
        assertThat(BY_HAND.systematicErrorDown().value()).isEqualTo(8);
        assertThat(BY_HAND.systematicError().value()).isEqualTo(8);
        assertThat(BY_HAND.meanError().value()).isEqualTo(5.5);
        assertThat(BY_HAND.accuracyUp().value()).isEqualTo(10);
        assertThat(BY_HAND.accuracyDown().value()).isEqualTo(12);
        assertThat(BY_HAND.accuracy().value()).isEqualTo(12);
        assertThat(BY_HAND.accuracy().unit()).isEqualTo(Unit.MICROMETRE);
        assertThat(BY_HAND.accuracy().source()).isEqualTo(Source.INSTRUMENT);
    }

    // Source: JCGM 100:2008, 4.2.3 and E.4.3, by hand: B at target 4, two means with s = 1, n = 5: √(2/5).
    // R is 4 s with s = 2, n = 5: 8/√8. E: means with s = 1: √(2/5). A: 8 at target 3 up
    // with s = 2, which is less well known than the 8 at target 4 down, and −4 with s = 1: √((4 + 1) · (1/5 + 4/8)).
    // M: targets 3 (s = 2 and 1) and 1, half of each mean: √((4 + 1 + 1 + 1)/4/5).
    @Test
    void uncertaintyOfTheExample() {
        assertThat(BY_HAND.reversalError().standardUncertainty()).isCloseTo(Math.sqrt(0.4), within(1e-12));
        assertThat(BY_HAND.repeatability().standardUncertainty()).isCloseTo(8 / Math.sqrt(8), within(1e-12));
        assertThat(BY_HAND.repeatability().budget().effectiveDegreesOfFreedom()).isCloseTo(4, within(1e-12));
        assertThat(BY_HAND.systematicError().standardUncertainty()).isCloseTo(Math.sqrt(0.4), within(1e-12));
        assertThat(BY_HAND.accuracy().standardUncertainty()).isCloseTo(Math.sqrt(3.5), within(1e-12));
        assertThat(BY_HAND.meanError().standardUncertainty())
                .isCloseTo(Math.sqrt((4 + 1 + 1 + 1) * 0.25 / 5), within(1e-12));
        assertThat(BY_HAND.meanReversalError().standardUncertainty())
                .isCloseTo(Math.sqrt((8 * 1 + 2 * 4) / 5.0) / 5, within(1e-12));
    }

    // By hand: a scatter of 1 to 2 averages a step of 0.6 out, and nothing of a step of 12, which stays as triangular.
    // Source: JCGM
    // 100:2008, 4.3.9.
    @Test
    void instrumentAndResolutionCount() {
        Positioning measured = read(0.6);
        assertThat(measured.reversalError().standardUncertainty()).isCloseTo(Math.sqrt(0.4 + 1), within(1e-12));
        assertThat(measured.reversalError().resolution()).isEqualTo(0.6);
        assertThat(read(12).reversalError().standardUncertainty())
                .isCloseTo(Math.sqrt(0.4 + 1 + 144 / 6.0), within(1e-12));
    }

    private static Positioning read(double resolution) {
        return new Positioning(
                Unit.MICROMETRE,
                Source.INSTRUMENT,
                resolution,
                List.of(Contribution.certificate("interferometer", "U = 2 µm, k = 2", 2, 2)),
                BY_HAND.points());
    }

    @Test
    void theTable() {
        assertThat(BY_HAND.table()).isEqualTo("""
                i  target  mean up  mean down  mean  B   s up  s down  R
                1  100 µm  0        −2         −1    2   1     1       6
                2  200 µm  2        1          1.5   1   1     1       5
                3  300 µm  4        5          4.5   −1  2     1       8
                4  400 µm  3        6          4.5   −3  1     1       7
                5  500 µm  1        1          1     0   1     2       8
                """);
    }

    @Test
    void theSentencesHoldAllThatIsNeededToWorkItOutAgain() {
        assertThat(BY_HAND.sentences()).hasSize(5);
        assertThat(BY_HAND.sentences().get(3))
                .isEqualTo("Target 4 at 400 µm: mean ↑ 3 µm, mean ↓ 6 µm, B −3 µm, s↑ 1 µm, s↓ 1 µm, R 7 µm; deviations"
                        + " ↑ 2, 2, 3, 4, 4; ↓ 5, 5, 6, 7, 7");
    }

    @Test
    void aSingleCycleHasNoRepeatability() {
        Positioning once = positioning(
                List.of(point(0, new double[] {1}, new double[] {0}), point(1, new double[] {3}, new double[] {1})));
        assertThat(once.accuracy().missing().orElseThrow()).startsWith("a single cycle shows no repeatability");
        assertThat(once.repeatability().missing()).isPresent();
        assertThat(once.repeatabilityUp().missing()).isPresent();
        assertThat(once.systematicError().value()).isEqualTo(3);
        assertThat(once.meanError().value()).isEqualTo(1.5);
        assertThat(once.reversalError().value()).isEqualTo(2);
        assertThat(once.table()).contains("—");
        assertThat(once.sentences().get(1))
                .isEqualTo("Target 2 at 1 µm: mean ↑ 3 µm, mean ↓ 1 µm, B 2 µm; deviations ↑ 3; ↓ 1");
    }

    @Test
    void whatIsNoTestIsRefused() {
        assertThatThrownBy(() -> point(3, new double[] {1, 2}, new double[] {1}))
                .hasMessage("a target needs as many approaches from above as from below, at 3.0 there are 2 in positive"
                        + " and 1 in negative direction");
        assertThatThrownBy(() -> point(3, new double[] {Double.NaN}, new double[] {1}))
                .hasMessage("a deviation at 3.0 must be finite, got NaN");
        PositioningPoint one = point(3, new double[] {1}, new double[] {1});
        assertThatThrownBy(() -> positioning(List.of(one))).hasMessage("positioning needs at least two targets, got 1");
        assertThatThrownBy(() -> positioning(List.of(one, one))).hasMessage("targets must grow, but 3.0 follows 3.0");
        assertThatThrownBy(() -> positioning(List.of(one, point(4, new double[] {1, 2}, new double[] {1, 2}))))
                .hasMessage("all targets need the same number of cycles, but 3.0 has 1 and 4.0 has 2");
    }

    private static Positioning random(int targets, int cycles, long seed) {
        Random random = new Random(seed);
        List<PositioningPoint> points = new ArrayList<>();
        for (int i = 0; i < targets; i++) {
            points.add(new PositioningPoint(i, gaussians(random, cycles), gaussians(random, cycles)));
        }
        return positioning(points);
    }

    private static List<Double> gaussians(Random random, int n) {
        double mean = 5 * random.nextGaussian();
        List<Double> values = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            values.add(mean + random.nextGaussian());
        }
        return values;
    }

    private static Positioning changed(Positioning p, Function<PositioningPoint, PositioningPoint> change) {
        return positioning(p.points().stream().map(change).toList());
    }

    private static List<Double> values(Positioning p) {
        return List.of(
                p.accuracy().value(),
                p.accuracyUp().value(),
                p.accuracyDown().value(),
                p.systematicError().value(),
                p.meanError().value(),
                p.repeatability().value(),
                p.reversalError().value());
    }

    private static void assertSame(List<Double> actual, List<Double> expected) {
        for (int i = 0; i < expected.size(); i++) {
            assertThat(actual.get(i)).isCloseTo(expected.get(i), within(1e-9));
        }
    }

    // Source: follows from the definitions of ISO 230-2.
    @Property(tries = 300)
    void largerValuesHoldSmallerOnes(
            @ForAll @IntRange(min = 2, max = 8) int targets,
            @ForAll @IntRange(min = 2, max = 6) int cycles,
            @ForAll long seed) {
        Positioning p = random(targets, cycles, seed);
        double rounding = 1e-9;
        assertThat(p.accuracy().value() + rounding)
                .isGreaterThan(p.systematicError().value())
                .isGreaterThan(p.accuracyUp().value())
                .isGreaterThan(p.accuracyDown().value());
        assertThat(p.systematicError().value() + rounding)
                .isGreaterThan(p.meanError().value())
                .isGreaterThan(p.systematicErrorUp().value())
                .isGreaterThan(p.systematicErrorDown().value());
        assertThat(p.repeatability().value() + rounding)
                .isGreaterThan(p.repeatabilityUp().value())
                .isGreaterThan(p.repeatabilityDown().value())
                .isGreaterThan(p.reversalError().value());
        assertThat(p.reversalError().value() + rounding)
                .isGreaterThan(Math.abs(p.meanReversalError().value()));
    }

    @Property(tries = 200)
    void aShiftOfTheZeroChangesNothing(@ForAll long seed, @ForAll @IntRange(min = -1000, max = 1000) int shift) {
        Positioning p = random(5, 5, seed);
        Positioning shifted = changed(
                p,
                x -> new PositioningPoint(
                        x.target(),
                        x.up().stream().map(d -> d + shift).toList(),
                        x.down().stream().map(d -> d + shift).toList()));
        assertSame(values(shifted), values(p));
    }

    @Property(tries = 200)
    void theOrderOfTheCyclesDoesNotMatter(@ForAll long seed) {
        Positioning p = random(5, 5, seed);
        Positioning shuffled =
                changed(p, x -> new PositioningPoint(x.target(), shuffled(x.up(), seed), shuffled(x.down(), seed + 1)));
        assertSame(values(shuffled), values(p));
    }

    private static List<Double> shuffled(List<Double> values, long seed) {
        List<Double> copy = new ArrayList<>(values);
        Collections.shuffle(copy, new Random(seed));
        return copy;
    }

    @Property(tries = 200)
    void swappedDirectionsTurnTheReversalErrorRound(@ForAll long seed) {
        Positioning p = random(5, 5, seed);
        Positioning swapped = changed(p, x -> new PositioningPoint(x.target(), x.down(), x.up()));
        assertThat(swapped.meanReversalError().value())
                .isCloseTo(-p.meanReversalError().value(), within(1e-9));
        assertThat(swapped.points().get(2).reversal())
                .isEqualTo(-p.points().get(2).reversal());
        assertThat(swapped.reversalError().value()).isEqualTo(p.reversalError().value());
        assertThat(swapped.accuracyUp().value()).isEqualTo(p.accuracyDown().value());
        assertThat(swapped.accuracy().value()).isEqualTo(p.accuracy().value());
    }

    // By hand: s = 3 from above, 0.5 from below, means 0 and 8: R = 6 + 1 + 8 = 15, more than 12; with means 0 and 1 it
    // is
    // 4 s = 12. Source: JCGM 100:2008, 4.2.3 and E.4.3: √((9 + 0.25)/5 + 4·(9 + 0.25)/8) and 12/√8.
    @Test
    void unequalScatterOfBothDirections() {
        double[] up = {-3, -3, 0, 3, 3};
        PositioningPoint far = point(0, up, new double[] {7.5, 7.5, 8, 8.5, 8.5});
        PositioningPoint near = point(1, up, new double[] {0.5, 0.5, 1, 1.5, 1.5});
        PositioningPoint turned = point(2, new double[] {0.5, 0.5, 1, 1.5, 1.5}, up);
        assertThat(far.repeatability().orElseThrow()).isCloseTo(15, within(1e-12));
        assertThat(near.repeatability().orElseThrow()).isCloseTo(12, within(1e-12));
        assertThat(turned.repeatability().orElseThrow()).isCloseTo(12, within(1e-12));
        Measurement largest = positioning(List.of(far, near)).repeatability();
        assertThat(largest.value()).isCloseTo(15, within(1e-12));
        assertThat(largest.standardUncertainty()).isCloseTo(Math.sqrt(9.25 / 5 + 4 * 9.25 / 8), within(1e-12));
        assertThat(positioning(List.of(near, turned)).repeatability().standardUncertainty())
                .isCloseTo(12 / Math.sqrt(8), within(1e-12));
    }

    // Source: doc of the decision: accuracy compares places, repeatability returns to one.
    @Test
    void theFeedbackOfTheDriveProvesNoAccuracy() {
        Positioning drive = new Positioning(Unit.MICROMETRE, Source.DRIVE, 0, List.of(), BY_HAND.points());
        for (Measurement place : List.of(drive.accuracy(), drive.systematicError(), drive.meanError())) {
            assertThat(place.reservation().orElseThrow()).contains("accuracy needs an external instrument");
        }
        assertThat(drive.repeatability().reservation()).isEmpty();
        assertThat(drive.reversalError().reservation()).isEmpty();
        assertThat(BY_HAND.accuracy().reservation()).isEmpty();
    }

    @Test
    void twoCyclesShowRepeatability() {
        PositioningPoint two = point(0, new double[] {1, 3}, new double[] {0, 0});
        assertThat(two.deviationUp().orElseThrow()).isCloseTo(Math.sqrt(2), within(1e-12));
        assertThat(two.repeatability()).isPresent();
        Positioning axis = positioning(List.of(two, point(1, new double[] {1, 1}, new double[] {0, 0})));
        assertThat(axis.repeatability().missing()).isEmpty();
        // By hand: means 2 and 0 at the first target; s/√2 = 1 of the one and 0 of the other.
        assertThat(axis.reversalError().standardUncertainty()).isCloseTo(1, within(1e-12));
        assertThatThrownBy(() -> point(3, new double[] {1}, new double[] {Double.NaN}))
                .hasMessage("a deviation at 3.0 must be finite, got NaN");
    }

    // Of targets that are equally extreme the one that is known worst, in whatever order.
    @Test
    void theWorstKnownOfEqualTargetsDecides() {
        PositioningPoint well = point(0, new double[] {4, 5, 6}, new double[] {0, 0, 0});
        PositioningPoint badly = point(1, new double[] {2, 5, 8}, new double[] {0, 0, 0});
        PositioningPoint wellAgain = point(2, new double[] {4, 5, 6}, new double[] {0, 0, 0});
        for (List<PositioningPoint> points : List.of(List.of(well, badly), List.of(badly, wellAgain))) {
            assertThat(positioning(points).reversalError().standardUncertainty())
                    .isCloseTo(3 / Math.sqrt(3), within(1e-12));
        }
    }
}
