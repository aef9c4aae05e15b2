package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.axtrial.measure.TrendStudy.Point;
import org.axtrial.measure.TrendStudy.Sign;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;

class TrendStudyTest {

    private static final OptionalDouble NONE = OptionalDouble.empty();

    /** NIST/SEMATECH e-Handbook 6.3.2.2, the example of an individuals chart (data from memory, recomputed). */
    private static final double[] HANDBOOK = {49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};

    private static final double[] RISING = {10.0, 10.3, 10.1, 10.6, 10.5, 10.9, 10.8, 11.2, 11.1, 11.5};

    private static List<Point> daily(double u, double... values) {
        List<Point> points = new ArrayList<>();
        for (double value : values) {
            points.add(new Point(points.size(), value, u));
        }
        return points;
    }

    private static TrendStudy study(double u, OptionalDouble upper, double... values) {
        return TrendStudy.of(daily(u, values), NONE, upper);
    }

    @Test
    void controlLimitsAreThoseOfTheHandbook() {
        TrendStudy study = study(0, NONE, HANDBOOK);
        IndividualsChart chart = study.chart().orElseThrow();
        assertThat(chart.centre()).isCloseTo(50.81, within(1e-9));
        assertThat(chart.upper()).isCloseTo(55.8041, within(1e-4));
        assertThat(chart.lower()).isCloseTo(45.8159, within(1e-4));
        assertThat(study.outside()).isEmpty();
    }

    @Test
    void aValueOutsideTheControlLimitsIsASign() {
        TrendStudy study = study(0, NONE, 4, 6, 4, 6, 4, 6, 4, 6, 4, 14, 4, 6, 4, 6, 4, 6, 4, 6, 4, 6);
        assertThat(study.outside()).containsExactly(9);
        assertThat(study.signs()).containsExactly(Sign.OUTSIDE_CONTROL_LIMITS);
    }

    @Test
    void eightOnOneSideAreASignAndSevenAreNot() {
        // Rules of the Western Electric handbook: eight in succession on one side of the centre line.
        double[] seven = {1, 3, 1, 3, 1, 3, 2.1, 2.2, 2.1, 2.2, 2.1, 2.2, 0.5, 3, 0.5, 1};
        TrendStudy few = study(0, NONE, seven);
        assertThat(few.oneSide()).isEqualTo(7);
        assertThat(few.signs()).isEmpty();
        double[] eight = {1, 3, 1, 3, 1, 3, 2.1, 2.2, 2.1, 2.2, 2.1, 2.2, 2.1, 0.5, 3, 0.5, 1};
        TrendStudy more = study(0, NONE, eight);
        assertThat(more.oneSide()).isEqualTo(8);
        assertThat(more.signs()).containsExactly(Sign.ONE_SIDE_OF_THE_MEAN);
    }

    @Test
    void equalValuesShowNothing() {
        double[] same = new double[25];
        Arrays.fill(same, 0.1);
        TrendStudy study = study(0.001, OptionalDouble.of(0.2), same);
        assertThat(study.signs()).isEmpty();
        assertThat(study.meeting()).isEmpty();
    }

    @Test
    void theSlopeAgreesWithAReferenceLibrary() {
        // Hipparchus gives the half-width of the slope's interval by itself.
        SimpleRegression reference = new SimpleRegression();
        for (int i = 0; i < RISING.length; i++) {
            reference.addData(i, RISING[i]);
        }
        TrendStudy.Slope slope = study(0, NONE, RISING).slope().orElseThrow();
        assertThat(slope.perSecond()).isCloseTo(reference.getSlope(), within(1e-12));
        assertThat(slope.halfWidth()).isCloseTo(reference.getSlopeConfidenceInterval(0.05), within(1e-9));
        assertThat(slope.significant()).isTrue();
        assertThat(slope.start()).isCloseTo(reference.predict(0), within(1e-9));
        assertThat(slope.end()).isCloseTo(reference.predict(9), within(1e-9));
        assertThat(slope.significant()).isEqualTo(reference.getSignificance() < 0.01);
    }

    @Test
    void whatTheMeasurementCannotTellIsNoDrift() {
        assertThat(study(0.1, NONE, RISING).signs()).contains(Sign.SLOPE);
        // The same values, each uncertain by far more than they differ.
        assertThat(study(2, NONE, RISING).signs()).doesNotContain(Sign.SLOPE);
    }

    @Test
    void theLimitIsMetWhereTheConfidenceBandMeetsIt() {
        // The ends of Fieller's interval are where the band of the line itself is at the limit: found here by
        // bisection,
        // with Student's t(0.975, 8) = 2.3060 of common tables.
        TrendStudy study = study(0, OptionalDouble.of(12), RISING);
        SimpleRegression line = new SimpleRegression();
        for (int i = 0; i < RISING.length; i++) {
            line.addData(i, RISING[i]);
        }
        TrendStudy.Meeting meeting = study.meeting().orElseThrow();
        assertThat(meeting.limit()).isEqualTo(12);
        assertThat(meeting.likely().orElseThrow())
                .isCloseTo((12 - line.getIntercept()) / line.getSlope(), within(1e-9));
        assertThat(meeting.earliest()).isCloseTo(bisect(line, +1), within(1e-3));
        assertThat(meeting.latest().orElseThrow()).isCloseTo(bisect(line, -1), within(1e-3));
    }

    private static double bisect(SimpleRegression line, int side) {
        double low = 4.5;
        double high = 40;
        double error = Math.sqrt(line.getMeanSquareError());
        for (int i = 0; i < 100; i++) {
            double x = (low + high) / 2;
            double half = 2.3060 * error * Math.sqrt(1.0 / line.getN() + (x - 4.5) * (x - 4.5) / line.getXSumSquares());
            if (line.predict(x) + side * half < 12) {
                low = x;
            } else {
                high = x;
            }
        }
        return low;
    }

    @Test
    void nothingIsToldBeyondATimeAsLongAsTheOneWatched() {
        // 0.158 each day: the limits 14, 13.1 and 12.4 lie 25, 20 and 15 days after the first of ten days.
        assertThat(study(0, OptionalDouble.of(14), RISING).meeting()).isEmpty();
        TrendStudy.Meeting far =
                study(0, OptionalDouble.of(13.1), RISING).meeting().orElseThrow();
        assertThat(far.likely()).isEmpty();
        assertThat(far.latest()).isEmpty();
        assertThat(far.earliest()).isBetween(9.0, 18.0);
        TrendStudy.Meeting near =
                study(0, OptionalDouble.of(12.4), RISING).meeting().orElseThrow();
        assertThat(near.likely()).isPresent();
    }

    @Test
    void aLimitOnTheOtherSideOrAlreadyPassedIsNotMet() {
        assertThat(TrendStudy.of(daily(0, RISING), OptionalDouble.of(9), NONE).meeting())
                .isEmpty();
        assertThat(study(0, OptionalDouble.of(11), RISING).meeting()).isEmpty();
        double[] falling = Arrays.stream(RISING).map(value -> -value).toArray();
        TrendStudy.Meeting down = TrendStudy.of(daily(0, falling), OptionalDouble.of(-12), NONE)
                .meeting()
                .orElseThrow();
        TrendStudy.Meeting up =
                study(0, OptionalDouble.of(12), RISING).meeting().orElseThrow();
        assertThat(down.likely().orElseThrow()).isCloseTo(up.likely().orElseThrow(), within(1e-9));
        assertThat(down.earliest()).isCloseTo(up.earliest(), within(1e-9));
    }

    @Test
    void neitherZeroNorUnitOfTimeMatters() {
        List<Point> moved = daily(0, RISING).stream()
                .map(p -> new Point(1e6 + 86_400 * p.seconds(), p.value(), 0))
                .toList();
        TrendStudy there = TrendStudy.of(moved, NONE, OptionalDouble.of(12));
        TrendStudy here = study(0, OptionalDouble.of(12), RISING);
        assertThat(there.meeting().orElseThrow().earliest())
                .isCloseTo(1e6 + 86_400 * here.meeting().orElseThrow().earliest(), within(1e-3));
        assertThat(there.slope().orElseThrow().perSecond() * 86_400)
                .isCloseTo(here.slope().orElseThrow().perSecond(), within(1e-12));
    }

    @Test
    void aSteadyValueShowsASlopeOnceInAHundred() {
        // Binomial: 10,000 tries at 1 % give 100 ± 3·√99, 70 to 130.
        Random random = new Random(20261127);
        int found = 0;
        for (int i = 0; i < 10_000; i++) {
            double[] values = random.doubles(12).map(x -> random.nextGaussian()).toArray();
            found += study(0, NONE, values).signs().contains(Sign.SLOPE) ? 1 : 0;
        }
        assertThat(found).isBetween(70, 130);
    }

    @Test
    void theIntervalHoldsTheTruthInNineteenOfTwenty() {
        // A line that truly meets the limit on day 25 of 20 watched; only those are asked that tell both ends.
        Random random = new Random(5);
        int told = 0;
        int right = 0;
        for (int i = 0; i < 4_000; i++) {
            double[] values = new double[20];
            for (int day = 0; day < values.length; day++) {
                values[day] = day + 1.5 * random.nextGaussian();
            }
            TrendStudy.Meeting meeting =
                    study(0, OptionalDouble.of(25), values).meeting().orElseThrow();
            told++;
            right += meeting.earliest() <= 25 && meeting.latest().orElse(Double.MAX_VALUE) >= 25 ? 1 : 0;
        }
        assertThat((double) right / told).isBetween(0.94, 0.96);
    }

    @Test
    void fewValuesTellLittle() {
        assertThat(study(0, NONE).signs()).isEmpty();
        assertThat(study(0, NONE, 1, 2).slope()).isEmpty();
        assertThat(study(0, NONE, 1, 2, 3, 4).chart()).isEmpty();
        List<Point> atOnce = List.of(new Point(0, 1, 0), new Point(0, 2, 0), new Point(0, 3, 0));
        assertThat(TrendStudy.of(atOnce, NONE, NONE).slope()).isEmpty();
    }

    @Test
    void wrongValuesAreRefused() {
        assertThatThrownBy(() -> TrendStudy.of(List.of(new Point(2, 1, 0), new Point(1, 1, 0)), NONE, NONE))
                .hasMessageContaining("value 2 is earlier");
        assertThatThrownBy(() -> new Point(0, Double.NaN, 0)).hasMessageContaining("NaN");
        assertThatThrownBy(() -> new Point(0, 1, -1)).hasMessageContaining("not negative");
    }
}
