package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;

class PoseRepeatabilityTest {

    private static List<List<Double>> line(double... x) {
        return Arrays.stream(x).mapToObj(List::of).toList();
    }

    private static Measurement of(List<List<Double>> poses) {
        return PoseRepeatability.of(poses, Unit.MICROMETRE, Source.INSTRUMENT, 0);
    }

    // Source: ISO 9283:1998, RP = l̄ + 3 S_l (from memory); constructed, by hand.
    @Test
    void oneAxis() {
        assertThat(of(line(-1, -1, 1, 1)).value()).isEqualTo(1);
        // l = 2, 0, 0, 2; l̄ = 1; S_l = √(4/3).
        assertThat(of(line(-2, 0, 0, 2)).value()).isCloseTo(4.464102, within(5e-7));
    }

    // Source: constructed: a regular triangle and its centre; three distances of 1 and one of 0, S_l = 1/2.
    @Test
    void twoAxes() {
        double h = Math.sqrt(3) / 2;
        Measurement rp = of(List.of(List.of(11.0, 5.0), List.of(9.5, 5 + h), List.of(9.5, 5 - h), List.of(10.0, 5.0)));
        assertThat(rp.value()).isCloseTo(0.75 + 3 * 0.5, within(1e-9));
    }

    // Source: constructed: barycentre 3, 4 away from the command gives 5.
    @Test
    void accuracyIsTheDistanceOfTheBarycentre() {
        List<List<Double>> poses = List.of(List.of(3.0, 4.0, 1.0), List.of(3.0, 4.0, -1.0));
        Measurement ap = PoseRepeatability.accuracy(
                poses, List.of(0.0, 0.0, 0.0), Unit.MILLIMETRE, Source.INSTRUMENT, 0.01, List.of());
        assertThat(ap.value()).isCloseTo(5, within(1e-12));
        // The scatter is across the error, so that only the resolution is left.
        assertThat(ap.standardUncertainty()).isCloseTo(0.01 / Math.sqrt(12), within(1e-12));
    }

    @Test
    void whatDoesNotFitIsRefused() {
        assertThatThrownBy(() -> of(line(1))).hasMessage("repeatability needs at least two poses, got 1");
        assertThatThrownBy(() -> of(List.of(List.of(1.0), List.of(1.0, 2.0))))
                .hasMessage("pose 2 has 2 coordinates and the first one 1; give as many");
        assertThatThrownBy(() -> PoseRepeatability.accuracy(
                        line(1, 2), List.of(0.0, 0.0), Unit.MILLIMETRE, Source.DRIVE, 0, List.of()))
                .hasMessage("the poses have 1 coordinates and the command 2; give as many");
    }

    // Source: constructed: barycentre 3, 4 from the command, and poses 1 before and after it on that line, so that s
    // along
    // it is √2 and the mean of two is known to 1 (JCGM 100:2008, 4.2.3).
    @Test
    void scatterAlongTheErrorCounts() {
        List<List<Double>> poses = List.of(List.of(13.6, 24.8), List.of(12.4, 23.2));
        Measurement ap = PoseRepeatability.accuracy(
                poses, List.of(10.0, 20.0), Unit.MILLIMETRE, Source.INSTRUMENT, 0, List.of());
        assertThat(ap.value()).isCloseTo(5, within(1e-12));
        assertThat(ap.standardUncertainty()).isCloseTo(1, within(1e-12));
    }

    // Without an error there is no direction; the distances themselves scatter: 1, 1, 3, 3 have s = √(4/3).
    @Test
    void aBarycentreOnTheCommandHasTheScatterOfTheDistances() {
        Measurement ap = PoseRepeatability.accuracy(
                line(-1, 1, -3, 3), List.of(0.0), Unit.MILLIMETRE, Source.INSTRUMENT, 0, List.of());
        assertThat(ap.value()).isZero();
        assertThat(ap.standardUncertainty()).isCloseTo(Math.sqrt(4.0 / 3 / 4), within(1e-12));
    }

    // By hand: 0, 0, 3: barycentre 1, distances 1, 1, 2. Without one of them two poses are left, which are equally far
    // from the
    // middle: 1.5, 1.5 and 0, whose jackknife deviation is √(2/3 · (0.5² + 0.5² + 1²)) = 1. Two degrees of freedom give
    // h/k of
    // DeviationSpread times √4 to that.
    @Test
    void threePoses() {
        Measurement rp = of(line(0, 0, 3));
        double s = Math.sqrt(1.0 / 3);
        assertThat(rp.value()).isCloseTo(4.0 / 3 + 3 * s, within(1e-12));
        assertThat(rp.standardUncertainty()).isCloseTo(2 * DeviationSpread.relative(2), within(1e-12));
        assertThat(rp.budget().contributions().get(0).degreesOfFreedom()).isEqualTo(1);
    }

    // Two poses are as far from their middle as each other; nothing says where the next would lie.
    @Test
    void twoPoses() {
        Measurement rp = of(line(0, 2));
        assertThat(rp.value()).isEqualTo(1);
        assertThat(rp.standardUncertainty()).isEqualTo(1);
    }
}
