package org.axtrial.measure;

import static org.axtrial.measure.Polling.between;

import java.util.List;
import java.util.random.RandomGenerator;
import org.axtrial.measure.CoverageCase.Trial;
import org.axtrial.sim.PolledMotion;

/** The same on the simulated drive: its link, its registers, its encoder, and the true angle of its shaft. */
final class SimulatedCases {

    private SimulatedCases() {}

    static List<CoverageCase> all() {
        return List.of(
                CoverageCase.band("position change", "encoder noise 0 to 3 q", SimulatedCases::travel)
                        .simulated(),
                CoverageCase.band("rest position", "encoder noise 0 to 3 q", SimulatedCases::rest)
                        .simulated(),
                CoverageCase.band("mean speed", "100 to 600 r/min", SimulatedCases::meanSpeed)
                        .simulated());
    }

    private static PolledMotion move(RandomGenerator random) {
        return PolledMotion.move(
                random.nextLong(), between(random, 0, 3), between(random, 0.006, 0.02), random.nextInt(2000, 20_000));
    }

    private static Trial travel(RandomGenerator random) {
        PolledMotion motion = move(random);
        double[] before = motion.trace()
                .between(Double.NEGATIVE_INFINITY, -Double.MIN_VALUE)
                .values(PolledMotion.POSITION);
        return new Trial(
                motion.shaftTo() - motion.shaftFrom(),
                Travel.of(
                        motion.trace(),
                        PolledMotion.POSITION,
                        Scatter.of(before).mean()));
    }

    private static Trial rest(RandomGenerator random) {
        PolledMotion motion = move(random);
        return new Trial(motion.shaftTo(), Standstill.restPosition(motion.trace(), PolledMotion.POSITION));
    }

    private static Trial meanSpeed(RandomGenerator random) {
        PolledMotion motion =
                PolledMotion.hold(random.nextLong(), 0, between(random, 0.006, 0.02), between(random, 100, 600));
        return new Trial(motion.shaftSpeed(), MeanSpeed.of(motion.trace(), PolledMotion.POSITION, 0.4, 0.95));
    }
}
