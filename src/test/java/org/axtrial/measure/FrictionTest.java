package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Friction from torques, and the gain of the position loop from its lag, on axes whose parameters are known. */
class FrictionTest {

    private static final Friction.Channels CHANNELS = new Friction.Channels("position", "speed", "torque");

    /** Two seconds at constant speed from a start position, sampled every 10 ms. */
    private static Trace run(double start, double speed, double quantum, DoubleUnaryOperator torque, double lag) {
        TraceRecorder recorder = new TraceRecorder(
                List.of(
                        new Channel("position", Unit.MILLIMETRE, 0),
                        new Channel("speed", Unit.MILLIMETRE_PER_SECOND, 0),
                        new Channel("torque", Unit.PERCENT, quantum),
                        new Channel("followingError", Unit.MILLIMETRE, quantum)),
                10_000_000);
        recorder.origin(0);
        for (int i = 0; i <= 200; i++) {
            double x = start + speed * i * 0.01;
            recorder.add(i * 10_000_000L, i * 10_000_000L, new double[] {x, speed, torque.applyAsDouble(x), lag});
        }
        return recorder.trace();
    }

    // Constructed: T_c = 4 %, b = 0.05 % per mm/s, gravity 10 %, and an unbalance over position that both directions
    // see.
    private static Friction.AtSpeed at(double speed, DoubleUnaryOperator noise) {
        double friction = 4 + 0.05 * speed;
        Trace up = run(0, speed, 0, x -> 10 + Math.sin(x / 5) + friction + noise.applyAsDouble(x), 0);
        Trace down = run(2 * speed, -speed, 0, x -> 10 + Math.sin(x / 5) - friction + noise.applyAsDouble(x), 0);
        return Friction.at(up, down, CHANNELS, 0.1 * speed, 1.9 * speed);
    }

    @Test
    void frictionTurnsRoundAndTheLoadDoesNot() {
        Friction.AtSpeed at = at(100, x -> 0);
        assertThat(at.speed()).isEqualTo(Quantity.of(100, Unit.MILLIMETRE_PER_SECOND));
        assertThat(at.friction().value()).isCloseTo(9, within(1e-9));
        assertThat(at.load().value()).isCloseTo(10, within(0.1));
        assertThat(at.friction().unit()).isEqualTo(Unit.PERCENT);
    }

    @Test
    void coulombAndViscousParts() {
        Friction.Fit fit = Friction.fit(List.of(at(20, x -> 0), at(50, x -> 0), at(100, x -> 0), at(200, x -> 0)));
        assertThat(fit.coulomb().value()).isCloseTo(4, within(1e-9));
        assertThat(fit.viscous().value()).isCloseTo(10, within(1e-9));
        assertThat(fit.residual()).isCloseTo(0, within(1e-9));
    }

    // Source: Monte Carlo (JCGM 101:2008): with noise on the torque the parts stay within their U in 95 % and more.
    @Test
    void theBudgetsCoverNoise() {
        Random random = new Random(17);
        int covered = 0;
        for (int i = 0; i < 300; i++) {
            List<Friction.AtSpeed> points = new ArrayList<>();
            for (double speed : new double[] {20, 50, 100, 150, 200}) {
                points.add(at(speed, x -> 3 * random.nextGaussian()));
            }
            Friction.Fit fit = Friction.fit(points);
            boolean both = Math.abs(fit.coulomb().value() - 4) <= fit.coulomb().expandedUncertainty()
                    && Math.abs(fit.viscous().value() - 10) <= fit.viscous().expandedUncertainty();
            covered += both ? 1 : 0;
        }
        assertThat(covered).isGreaterThan(285);
    }

    @Test
    void whatIsTooLittleIsSaid() {
        Trace up = run(0, 10, 0, x -> 1, 0);
        Friction.AtSpeed none = Friction.at(up, up, CHANNELS, 100, 200);
        assertThat(none.friction().missing().orElseThrow())
                .startsWith("between the two positions lie 0 samples of the positive and 0 of the negative direction");
        assertThatThrownBy(() -> Friction.fit(List.of(at(20, x -> 0), at(50, x -> 0))))
                .hasMessage("Coulomb and viscous friction need measured torques at three different speeds, got 2");
        assertThatThrownBy(() -> Friction.at(up, up, CHANNELS, 2, 2))
                .hasMessage("the range of positions is empty: 2.0 to 2.0");
    }

    // Source: position loop, e = v/Kv: 500 mm/s at 50 1/s lag 10 mm, 100 at 20 lag 5, 1000 at 16.6667 lag 60.
    @ParameterizedTest
    @CsvSource({"500, 10, 50", "100, 5, 20", "1000, 60, 16.666667", "-500, -10, 50"})
    void gainOfThePositionLoop(double speed, double lag, double gain) {
        Measurement kv = PositionGain.of(run(0, speed, 0.01, x -> 0, lag), "position", "followingError", 0.2, 1.8);
        assertThat(kv.value()).isCloseTo(gain, within(1e-6));
        assertThat(kv.unit()).isEqualTo(Unit.PER_SECOND);
        // Source: JCGM 100:2008, 5.1.2: relative uncertainty of the quotient, here that of the lag alone.
        assertThat(kv.standardUncertainty() / kv.value()).isCloseTo(0.01 / Math.sqrt(12) / Math.abs(lag), within(1e-9));
        assertThat(PositionGain.expectedError(speed, gain, 0)).isCloseTo(lag, within(1e-5));
    }

    // Source: (1 − f)·v/Kv: 0.5 leaves 5 mm of 10, 0.9 leaves 1, 1 leaves nothing.
    @ParameterizedTest
    @CsvSource({"0.5, 5", "0.9, 1", "1, 0"})
    void feedForwardTakesItsShare(double share, double error) {
        assertThat(PositionGain.expectedError(500, 50, share)).isCloseTo(error, within(1e-12));
    }

    @Test
    void noLagNoGain() {
        assertThat(PositionGain.of(run(0, 100, 0.01, x -> 0, 0.01), "position", "followingError", 0.2, 1.8)
                        .missing()
                        .orElseThrow())
                .startsWith("the following error is zero within one step");
        assertThat(PositionGain.of(run(0, 100, 0.01, x -> 0, 1), "position", "followingError", 0.2, 0.205)
                        .missing())
                .isPresent();
        assertThatThrownBy(() -> PositionGain.expectedError(1, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    private static Trace torques(double speed, double... torque) {
        TraceRecorder recorder = new TraceRecorder(
                List.of(
                        new Channel("position", Unit.MILLIMETRE, 0),
                        new Channel("speed", Unit.MILLIMETRE_PER_SECOND, 0),
                        new Channel("torque", Unit.PERCENT, 0.6)),
                10_000_000);
        recorder.origin(0);
        for (int i = 0; i < torque.length; i++) {
            recorder.add(i * 10_000_000L, i * 10_000_000L, new double[] {i, speed, torque[i]});
        }
        return recorder.trace();
    }

    // By hand: s of 8, 10, 12 is 2, of −3, −4, −5 it is 1. Source: JCGM 100:2008, 4.2.2 and F.2.2.1, each halved; three
    // samples are worth one.
    @Test
    void bothMeansCountByHalf() {
        Friction.AtSpeed at = Friction.at(torques(10, 8, 10, 12), torques(-12, -3, -4, -5), CHANNELS, 0, 2);
        assertThat(at.speed().value()).isEqualTo(11);
        assertThat(at.friction().value()).isCloseTo(7, within(1e-12));
        assertThat(at.load().value()).isCloseTo(3, within(1e-12));
        for (Measurement part : List.of(at.friction(), at.load())) {
            assertThat(part.budget().contributions())
                    .extracting(Contribution::name)
                    .containsExactly(
                            "mean torque, positive direction",
                            "mean torque, positive direction, quantisation",
                            "mean torque, negative direction",
                            "mean torque, negative direction, quantisation");
            assertThat(part.standardUncertainty()).isCloseTo(Math.sqrt(4 + 1 + 2 * 0.36 / 12) / 2, within(1e-12));
        }
    }

    @Test
    void threeSamplesOfEachDirectionAreNeeded() {
        Trace three = torques(10, 8, 10, 12);
        Trace two = torques(10, 8, 10);
        assertThat(Friction.at(three, two, CHANNELS, 0, 2).friction().missing()).isPresent();
        assertThat(Friction.at(two, three, CHANNELS, 0, 2).load().missing().orElseThrow())
                .startsWith("between the two positions lie 2 samples of the positive and 3 of the negative direction");
    }

    @Test
    void aSpeedWithoutATorqueIsNoPointOfTheLine() {
        Trace up = run(0, 10, 0, x -> 1, 0);
        Friction.AtSpeed none = Friction.at(up, up, CHANNELS, 100, 200);
        assertThatThrownBy(() -> Friction.fit(List.of(at(20, x -> 0), at(50, x -> 0), none)))
                .hasMessage(
                        "Coulomb and viscous friction need measured torques at three different speeds, got 3 of which"
                                + " some have no value");
    }

    // What falsifies one torque falsifies all, so that the worst known stands for them; their noise is in the scatter
    // about the line.
    @Test
    void theMostUncertainTorqueDecidesButItsNoiseCountsOnce() {
        Friction.AtSpeed worst = known(50, 2);
        for (List<Friction.AtSpeed> points : List.of(
                List.of(worst, known(20, 1), known(100, 1)),
                List.of(known(20, 1), worst, known(100, 1)),
                List.of(known(20, 1), known(100, 1), worst))) {
            Friction.Fit fit = Friction.fit(points);
            for (Measurement part : List.of(fit.coulomb(), fit.viscous())) {
                assertThat(part.budget().contributions())
                        .filteredOn(c -> !c.name().equals("line through the speeds"))
                        .extracting(Contribution::spread)
                        .containsExactly(1.0);
            }
        }
    }

    private static Friction.AtSpeed known(double speed, double quantum) {
        Measurement friction = new Draft("friction torque", "", Unit.PER_MILLE)
                .add(Contribution.quantisation("step", "", quantum))
                .add(Contribution.repeatability("noise", "", 3, 10))
                .value(10 + speed);
        return new Friction.AtSpeed(Quantity.of(speed, Unit.REVOLUTION_PER_MINUTE), friction, friction);
    }

    // Source: JCGM 100:2008, 5.1.2: both relative uncertainties of the quotient in quadrature; 100 mm/s over 2 mm is
    // 50.
    @Test
    void speedAndLagBothCountInTheGain() {
        TraceRecorder recorder = new TraceRecorder(
                List.of(
                        new Channel("position", Unit.MILLIMETRE, 0.6),
                        new Channel("followingError", Unit.MILLIMETRE, 0.3)),
                10_000_000);
        recorder.origin(0);
        for (int i = 0; i <= 100; i++) {
            recorder.add(i * 10_000_000L, i * 10_000_000L, new double[] {i, 2});
        }
        Measurement kv = PositionGain.of(recorder.trace(), "position", "followingError", 0, 1);
        assertThat(kv.value()).isCloseTo(50, within(1e-9));
        assertThat(kv.resolution()).isCloseTo(50.0 / 2 * 0.3, within(1e-9));
        assertThat(kv.standardUncertainty() / 50)
                .isCloseTo(Math.hypot(0.6 / Math.sqrt(6) / 100, 0.3 / Math.sqrt(12) / 2), within(1e-9));
        assertThat(kv.marks()).extracting(Mark::seconds).containsExactly(0.0, 1.0);
    }
}
