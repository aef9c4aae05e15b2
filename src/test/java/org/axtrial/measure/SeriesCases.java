package org.axtrial.measure;

import static org.axtrial.measure.Polling.between;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import org.axtrial.measure.CoverageCase.Trial;
import org.axtrial.quantity.Unit;

/** Rest positions that were reached again and again, normally distributed, read in steps of 1. */
final class SeriesCases {

    private SeriesCases() {}

    static List<CoverageCase> all() {
        return List.of(
                CoverageCase.band("scale", "11 positions, s = 5 q", r -> scale(r, true)),
                CoverageCase.band("offset", "11 positions, s = 5 q", r -> scale(r, false)),
                CoverageCase.band("homing spread", "30 homings, s = 5 q", r -> homing(r, 30)),
                CoverageCase.band("homing spread", "10 homings, s = 5 q", r -> homing(r, 10)),
                CoverageCase.band("homing spread", "5 homings, s = 5 q", r -> homing(r, 5)),
                CoverageCase.band("homing range", "range of those homings", SeriesCases::range),
                CoverageCase.band("lost motion", "5 from each side, s = 5 q", r -> lostMotion(r, 5)),
                CoverageCase.wide(
                        "lost motion",
                        "5 from each side, s = 0.5 q",
                        "of five readings only so much is taken as noise as there surely is",
                        r -> lostMotion(r, 0.5)));
    }

    private static List<Double> readings(RandomGenerator random, double mean, double deviation, int n) {
        List<Double> result = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            result.add(Math.rint(mean + deviation * random.nextGaussian()));
        }
        return result;
    }

    private static Trial scale(RandomGenerator random, boolean scale) {
        double slope = between(random, 0.999, 1.001);
        double offset = between(random, -50, 50);
        List<Double> commanded = new ArrayList<>();
        List<Double> measured = new ArrayList<>();
        for (int i = 0; i <= 10; i++) {
            double x = 1000.0 * i;
            commanded.add(x);
            measured.addAll(readings(random, offset + slope * x, 5, 1));
        }
        ScaleFit fit = ScaleFit.of(commanded, measured, Unit.COUNT, Source.DRIVE, 1, List.of());
        return scale ? new Trial(slope, fit.scale()) : new Trial(offset, fit.offset());
    }

    private static Trial homing(RandomGenerator random, int n) {
        List<Double> found = readings(random, between(random, 0, 1), 5, n);
        return new Trial(20, RestSeries.homingSpread(found, Unit.COUNT, Source.DRIVE, 1));
    }

    private static Trial range(RandomGenerator random) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        List<Double> found = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            double exact = 5 * random.nextGaussian();
            low = Math.min(low, exact);
            high = Math.max(high, exact);
            found.add(Math.rint(exact));
        }
        return new Trial(high - low, RestSeries.homingRange(found, Unit.COUNT, Source.DRIVE, 1));
    }

    private static Trial lostMotion(RandomGenerator random, double deviation) {
        double middle = between(random, 0, 10);
        double lost = between(random, -20, 20);
        return new Trial(
                lost,
                RestSeries.lostMotion(
                        readings(random, middle + lost / 2, deviation, 5),
                        readings(random, middle - lost / 2, deviation, 5),
                        Unit.COUNT,
                        Source.DRIVE,
                        1));
    }
}
