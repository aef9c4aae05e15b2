package org.axtrial.measure;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.axtrial.quantity.Unit;

/**
 * Pose repeatability and accuracy of axes that move together, after ISO 9283:1998 (formulas from memory). Not to be mixed
 * with the R of ISO 230-2, which is 4 s.
 */
public final class PoseRepeatability {

    /** Of squares, which a standard deviation is made of, three tell as much of their spread as one normal value (kurtosis; common
     * practice, no source). */
    private static final double SQUARES = 3;

    private PoseRepeatability() {}

    /**
     * RP = l̄ + 3 S_l, where l_j is the distance of attained pose j from the barycentre of all, l̄ their mean and S_l their
     * standard deviation. The standard takes 30 cycles.
     *
     * <p>Uncertainty: resolution of each coordinate (q/√12), and how much RP hangs on the choice of the poses, by leaving out each
     * in turn, (n − 1)/3 degrees of freedom.
     *
     * @param poses attained positions, at least two, one number for each axis, all in {@code unit}
     * @param resolution smallest step of a coordinate, not negative
     * @throws IllegalArgumentException if poses differ in their number of coordinates or are too few
     */
    public static Measurement of(List<List<Double>> poses, Unit unit, Source source, double resolution) {
        if (poses.size() < 2) {
            throw new IllegalArgumentException("repeatability needs at least two poses, got " + poses.size());
        }
        return new Draft(
                        "pose repeatability RP",
                        "Mean distance of the attained poses from their barycentre plus three standard deviations of it"
                                + " (ISO 9283).",
                        unit)
                .source(source)
                .resolution(resolution)
                .add(Contribution.quantisation(
                        "resolution", "one step is " + Printed.brief(resolution, unit), resolution))
                .add(new Contribution(
                        "choice of the poses",
                        Contribution.Evaluation.A,
                        "what RP becomes when one of " + poses.size() + " poses is left out",
                        poses.size() < 3 ? spread(poses) : jackknife(poses) * skewness(poses.size() - 1),
                        Math.max(1, (poses.size() - 1) / SQUARES)))
                .value(repeatability(poses));
    }

    private static double repeatability(List<List<Double>> poses) {
        Scatter distances = distances(poses);
        return distances.mean() + 3 * distances.deviation();
    }

    /** Two poses are equally far from their barycentre, so that their distances say nothing of how far the next one is. */
    private static double spread(List<List<Double>> poses) {
        return distances(poses).mean();
    }

    /**
     * Standard deviation of RP by leaving out one pose after the other, √((n − 1)/n · Σ(RP₋ᵢ − mean)²) (jackknife; Tukey 1958, from
     * memory). Distances are skew and hang on the barycentre, so that s/√n and s/√(2ν) would fall short.
     */
    private static double jackknife(List<List<Double>> poses) {
        int n = poses.size();
        double[] without = new double[n];
        for (int i = 0; i < n; i++) {
            List<List<Double>> others = new ArrayList<>(poses);
            others.remove(i);
            without[i] = repeatability(others);
        }
        return Scatter.ofIndependent(without).deviation() * (n - 1) / Math.sqrt(n);
    }

    /** RP is three standard deviations for the most part, whose interval is wider than two of its own, {@link DeviationSpread}. */
    private static double skewness(double freedom) {
        return DeviationSpread.relative(freedom) * Math.sqrt(2 * freedom);
    }

    private static Scatter distances(List<List<Double>> poses) {
        double[] centre = barycentre(poses);
        return Scatter.ofIndependent(
                poses.stream().mapToDouble(pose -> distance(pose, centre)).toArray());
    }

    /**
     * AP, the distance of the barycentre of the attained poses from the commanded one.
     *
     * <p>Uncertainty: resolution (q/√12); standard deviation of the poses along the error, or of all coordinates where
     * there is none, over √n; the instrument.
     *
     * @param command as many coordinates as each pose
     * @param instrument what makes a reading uncertain beside its resolution, for example the certificate
     */
    public static Measurement accuracy(
            List<List<Double>> poses,
            List<Double> command,
            Unit unit,
            Source source,
            double resolution,
            List<Contribution> instrument) {
        double[] centre = barycentre(poses);
        if (command.size() != centre.length) {
            throw new IllegalArgumentException("the poses have " + centre.length + " coordinates and the command "
                    + command.size() + "; give as many");
        }
        double error = distance(command, centre);
        double[] along = poses.stream()
                .mapToDouble(pose -> error == 0 ? distance(pose, centre) : projected(pose, command, centre, error))
                .toArray();
        Scatter scatter = Scatter.ofIndependent(along);
        return new Draft(
                        "pose accuracy AP",
                        "Distance of the barycentre of the attained poses from the commanded pose (ISO 9283).",
                        unit)
                .source(source)
                .resolution(resolution)
                .add(Contribution.rectangular(
                        "resolution",
                        "one step is " + Printed.brief(resolution, unit),
                        Dither.halfWidth(scatter, resolution)))
                .addAll(instrument)
                .scatter("barycentre", scatter, "poses")
                .value(error);
    }

    private static double[] barycentre(List<List<Double>> poses) {
        if (poses.isEmpty()) {
            throw new IllegalArgumentException("there is no pose");
        }
        int axes = poses.get(0).size();
        double[] centre = new double[axes];
        for (int axis = 0; axis < axes; axis++) {
            double[] column = new double[poses.size()];
            for (int j = 0; j < column.length; j++) {
                if (poses.get(j).size() != axes) {
                    throw new IllegalArgumentException("pose " + (j + 1) + " has "
                            + poses.get(j).size() + " coordinates and the first one " + axes + "; give as many");
                }
                column[j] = Samples.requireFinite("a coordinate", poses.get(j).get(axis));
            }
            centre[axis] = Scatter.of(column).mean();
        }
        return centre;
    }

    private static double distance(List<Double> pose, double[] centre) {
        double[] difference = new double[centre.length];
        Arrays.setAll(difference, axis -> pose.get(axis) - centre[axis]);
        double sum = 0;
        for (double d : difference) {
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    private static double projected(List<Double> pose, List<Double> command, double[] centre, double error) {
        double sum = 0;
        for (int axis = 0; axis < centre.length; axis++) {
            sum += (pose.get(axis) - command.get(axis)) * (centre[axis] - command.get(axis));
        }
        return sum / error;
    }
}
