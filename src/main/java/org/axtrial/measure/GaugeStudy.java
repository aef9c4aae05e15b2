package org.axtrial.measure;

import java.util.List;
import org.hipparchus.stat.descriptive.moment.Mean;

/**
 * How much of the spread of readings comes from the gauge: crossed study, every appraiser (operator, instrument, direction of
 * approach) reads every part (position) several times.
 */
public final class GaugeStudy {

    /** 1/d₂* for the range of r trials or of so many appraisers or parts (AIAG MSA, 4th edition, from memory). */
    private static final List<Double> K1 = List.of(0.8862, 0.5908, 0.4857, 0.4299);

    private static final List<Double> K2 = List.of(0.7071, 0.5231, 0.4467, 0.4030);
    private static final List<Double> K3 =
            List.of(0.7071, 0.5231, 0.4467, 0.4030, 0.3742, 0.3534, 0.3375, 0.3249, 0.3146);

    /** Distinct categories: √2·PV/GRR, 1.41 in the manual. */
    private static final double CATEGORIES = 1.41;

    private final double[][][] readings;
    private final int appraisers;
    private final int parts;
    private final int trials;

    private GaugeStudy(double[][][] readings) {
        this.readings = readings;
        appraisers = readings.length;
        parts = readings[0].length;
        trials = readings[0][0].length;
    }

    /**
     * Result of the average and range method.
     *
     * @param repeatability EV, equipment variation
     * @param reproducibility AV, appraiser variation; 0 where the repeatability explains it
     * @param gauge GRR, both together
     * @param part PV, part variation
     * @param total TV
     */
    public record AverageRange(double repeatability, double reproducibility, double gauge, double part, double total) {

        /** GRR in percent of TV. */
        public double percent() {
            return 100 * gauge / total;
        }

        /** Number of distinct categories, whole. */
        public int categories() {
            return (int) Math.floor(CATEGORIES * part / gauge);
        }
    }

    /**
     * Result of the two-way analysis of variance with interaction, all effects random.
     *
     * @param meanSquarePart mean square of the parts
     * @param meanSquareAppraiser mean square of the appraisers
     * @param meanSquareInteraction mean square of the interaction
     * @param meanSquareError mean square of the repetitions
     * @param part variance component of the parts; a negative estimate counts as 0, as in the next two
     * @param appraiser variance component of the appraisers
     * @param interaction variance component of the interaction
     * @param repeatability variance component of the repetitions
     */
    public record Anova(
            double meanSquarePart,
            double meanSquareAppraiser,
            double meanSquareInteraction,
            double meanSquareError,
            double part,
            double appraiser,
            double interaction,
            double repeatability) {

        /** Variance of the gauge: repeatability, appraisers and interaction. */
        public double gauge() {
            return repeatability + appraiser + interaction;
        }

        /** Standard deviation of the gauge in percent of that of all readings. */
        public double percent() {
            return 100 * Math.sqrt(gauge() / (gauge() + part));
        }
    }

    /**
     * A study.
     *
     * @param readings by appraiser, part and trial; two to five of appraisers and trials, two to ten parts, all filled
     * @throws IllegalArgumentException if there are too few or too many, or some are missing
     */
    public static GaugeStudy of(List<List<List<Double>>> readings) {
        int parts = readings.isEmpty() ? 0 : readings.get(0).size();
        int trials = parts == 0 ? 0 : readings.get(0).get(0).size();
        if (outside(readings.size(), 5) || outside(parts, 10) || outside(trials, 5)) {
            throw new IllegalArgumentException(
                    "a gauge study takes 2 to 5 appraisers, 2 to 10 parts and 2 to 5 trials, got " + readings.size()
                            + ", " + parts + " and " + trials);
        }
        double[][][] array = new double[readings.size()][parts][trials];
        for (int a = 0; a < array.length; a++) {
            if (readings.get(a).size() != parts) {
                throw new IllegalArgumentException("appraiser " + (a + 1) + " has read "
                        + readings.get(a).size() + " parts and the first one " + parts);
            }
            for (int p = 0; p < parts; p++) {
                List<Double> cell = readings.get(a).get(p);
                if (cell.size() != trials) {
                    throw new IllegalArgumentException("appraiser " + (a + 1) + " has read part " + (p + 1) + " "
                            + cell.size() + " times instead of " + trials);
                }
                for (int t = 0; t < trials; t++) {
                    array[a][p][t] = Samples.requireFinite("a reading", cell.get(t));
                }
            }
        }
        return new GaugeStudy(array);
    }

    private static boolean outside(int count, int most) {
        return count < 2 || count > most;
    }

    /** The average and range method (AIAG MSA, 4th edition, from memory), as standard deviations. */
    public AverageRange averageRange() {
        double ranges = 0;
        for (double[][] appraiser : readings) {
            for (double[] cell : appraiser) {
                ranges += range(cell);
            }
        }
        double ev = ranges / (appraisers * parts) * K1.get(trials - 2);
        double between = range(appraiserMeans()) * K2.get(appraisers - 2);
        double av = Math.sqrt(Math.max(0, between * between - ev * ev / (parts * trials)));
        double gauge = Math.sqrt(ev * ev + av * av);
        double pv = range(partMeans()) * K3.get(parts - 2);
        return new AverageRange(ev, av, gauge, pv, Math.sqrt(gauge * gauge + pv * pv));
    }

    /** The analysis of variance (AIAG MSA, 4th edition, appendix A, from memory). */
    public Anova anova() {
        double grand = mean(appraiserMeans());
        double part = (double) appraisers * trials * squares(partMeans(), grand) / (parts - 1);
        double appraiser = (double) parts * trials * squares(appraiserMeans(), grand) / (appraisers - 1);
        double[] byPart = partMeans();
        double[] byAppraiser = appraiserMeans();
        double interactions = 0;
        double errors = 0;
        for (int a = 0; a < appraisers; a++) {
            for (int p = 0; p < parts; p++) {
                double cell = mean(readings[a][p]);
                double left = cell - byPart[p] - byAppraiser[a] + grand;
                interactions += left * left;
                errors += squares(readings[a][p], cell);
            }
        }
        double interaction = trials * interactions / ((appraisers - 1) * (parts - 1));
        double error = errors / (appraisers * parts * (trials - 1));
        return new Anova(
                part,
                appraiser,
                interaction,
                error,
                Math.max(0, (part - interaction) / (appraisers * trials)),
                Math.max(0, (appraiser - interaction) / (parts * trials)),
                Math.max(0, (interaction - error) / trials),
                error);
    }

    private double[] appraiserMeans() {
        double[] means = new double[appraisers];
        for (int a = 0; a < appraisers; a++) {
            double[] cells = new double[parts];
            for (int p = 0; p < parts; p++) {
                cells[p] = mean(readings[a][p]);
            }
            means[a] = mean(cells);
        }
        return means;
    }

    private double[] partMeans() {
        double[] means = new double[parts];
        for (int p = 0; p < parts; p++) {
            double[] cells = new double[appraisers];
            for (int a = 0; a < appraisers; a++) {
                cells[a] = mean(readings[a][p]);
            }
            means[p] = mean(cells);
        }
        return means;
    }

    private static double mean(double[] values) {
        return new Mean().evaluate(values);
    }

    private static double squares(double[] values, double about) {
        double sum = 0;
        for (double value : values) {
            sum += (value - about) * (value - about);
        }
        return sum;
    }

    private static double range(double[] values) {
        double low = values[0];
        double high = values[0];
        for (double value : values) {
            low = Math.min(low, value);
            high = Math.max(high, value);
        }
        return high - low;
    }
}
