package org.axtrial.measure;

import java.util.List;
import org.axtrial.quantity.Quantity;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** Friction of an axis from the torque that it needs at constant speed in both directions. */
public final class Friction {

    private static final int FEWEST = 3;

    private Friction() {}

    /**
     * What the torque says at one speed.
     *
     * @param speed size of the speed, in the unit of the speed channel, positive
     * @param friction half the difference of the mean torques of both directions
     * @param load half their sum: gravity or unbalance, which does not turn round with the direction
     */
    public record AtSpeed(Quantity speed, Measurement friction, Measurement load) {}

    /**
     * Coulomb and viscous parts of the friction T = T_c + b·v.
     *
     * @param coulomb T_c
     * @param viscous b·v at the highest speed of the fit
     * @param residual standard deviation about the line
     */
    public record Fit(Measurement coulomb, Measurement viscous, double residual) {}

    /**
     * Mean torques over the positions that both directions passed at constant speed.
     *
     * @param up a motion in positive direction
     * @param down one in negative direction at the same speed
     * @param channels names of position, speed and torque in both traces
     * @param low lowest position to use, in the unit of the position channel
     * @param high highest one
     * @return values missing with fewer than three samples of a direction between the two
     * @throws IllegalArgumentException if a trace has no such channel or the range is empty
     */
    public static AtSpeed at(Trace up, Trace down, Channels channels, double low, double high) {
        if (!(low < high)) {
            throw new IllegalArgumentException("the range of positions is empty: " + low + " to " + high);
        }
        Channel torque = up.channel(channels.torque());
        Trace above = within(up, channels.position(), low, high);
        Trace below = within(down, channels.position(), low, high);
        Draft friction = new Draft(
                        "friction torque",
                        "Half the difference of the mean torques in positive and negative direction over the same"
                                + " positions.",
                        torque.unit())
                .from(above)
                .resolution(torque.quantum());
        Draft load = new Draft(
                        "load torque",
                        "Half the sum of the mean torques in positive and negative direction over the same positions.",
                        torque.unit())
                .from(above)
                .resolution(torque.quantum());
        Channel speed = up.channel(channels.speed());
        if (above.size() < FEWEST || below.size() < FEWEST) {
            String why = "between the two positions lie " + above.size() + " samples of the positive and "
                    + below.size() + " of the negative direction, and " + FEWEST
                    + " are needed; sample faster or use a longer range";
            return new AtSpeed(Quantity.of(0, speed.unit()), friction.missing(why), load.missing(why));
        }
        Scatter plus = Scatter.of(above.values(channels.torque()));
        Scatter minus = Scatter.of(below.values(channels.torque()));
        for (Draft draft : List.of(friction, load)) {
            half(draft, "mean torque, positive direction", plus, torque);
            half(draft, "mean torque, negative direction", minus, torque);
        }
        double size = (Math.abs(Scatter.of(above.values(channels.speed())).mean())
                        + Math.abs(Scatter.of(below.values(channels.speed())).mean()))
                / 2;
        return new AtSpeed(
                Quantity.of(size, speed.unit()),
                friction.value((plus.mean() - minus.mean()) / 2),
                load.value((plus.mean() + minus.mean()) / 2));
    }

    /**
     * Names of the channels.
     *
     * @param position of the position
     * @param speed of the speed
     * @param torque of the torque
     */
    public record Channels(String position, String speed, String torque) {}

    /**
     * Fits Coulomb and viscous friction by least squares.
     *
     * <p>Uncertainty: standard errors of the line, n − 2 degrees of freedom; what of type B makes the most
     * uncertain point uncertain counts in full, because what falsifies one torque falsifies all.
     *
     * @param points at three different speeds at least, all in the same units, none missing
     * @throws IllegalArgumentException if there are fewer
     */
    public static Fit fit(List<AtSpeed> points) {
        long speeds = points.stream().map(AtSpeed::speed).distinct().count();
        if (speeds < 3 || points.stream().anyMatch(p -> p.friction().missing().isPresent())) {
            throw new IllegalArgumentException(
                    "Coulomb and viscous friction need measured torques at three different speeds," + " got " + speeds
                            + (speeds < 3 ? "" : " of which some have no value"));
        }
        double[] v = points.stream().mapToDouble(p -> p.speed().value()).toArray();
        double[] t = points.stream().mapToDouble(p -> p.friction().value()).toArray();
        LineFit line = LineFit.of(v, t);
        Quantity highest = points.stream()
                .map(AtSpeed::speed)
                .max((a, b) -> Double.compare(a.value(), b.value()))
                .orElseThrow();
        Measurement worst = points.stream()
                .map(AtSpeed::friction)
                .max((a, b) -> Double.compare(a.standardUncertainty(), b.standardUncertainty()))
                .orElseThrow();
        Draft coulomb = part(
                worst,
                "Coulomb friction",
                "Friction torque that a straight line by least squares over speed has at speed 0.",
                line,
                line.interceptError());
        Draft viscous = part(
                worst,
                "viscous friction",
                "Slope of the straight line by least squares of friction torque over speed, times the highest speed, "
                        + highest.printed(4) + ".",
                line,
                line.slopeError() * highest.value());
        return new Fit(coulomb.value(line.intercept()), viscous.value(line.slope() * highest.value()), line.residual());
    }

    private static Draft part(Measurement worst, String name, String definition, LineFit line, double error) {
        Draft draft = new Draft(name, definition, worst.unit())
                .source(worst.source())
                .resolution(worst.resolution())
                .add(new Contribution(
                        "line through the speeds",
                        Contribution.Evaluation.A,
                        "s = " + Printed.brief(line.residual(), worst.unit()) + " about the line through " + line.n()
                                + " speeds",
                        error,
                        line.freedom()));
        // Noise of the single torques is in the scatter about the line.
        worst.budget().contributions().stream()
                .filter(c -> c.evaluation() == Contribution.Evaluation.B)
                .forEach(draft::add);
        return draft;
    }

    private static void half(Draft draft, String name, Scatter scatter, Channel torque) {
        draft.add(Contribution.repeatability(
                        name,
                        scatter.n() + " samples, worth " + Printed.brief(scatter.effectiveSize()) + " independent ones",
                        scatter.deviation(),
                        scatter.effectiveSize(),
                        scatter.freedomOfMean())
                .times(0.5));
        draft.add(Contribution.rectangular(
                name + ", quantisation",
                "one step is " + Printed.brief(torque.quantum(), torque.unit()),
                Dither.halfWidth(scatter, torque.quantum()) / 2));
    }

    /** The part of a trace from the first to the last sample between two positions. */
    private static Trace within(Trace trace, String position, double low, double high) {
        double[] x = trace.values(position);
        int first = 0;
        while (first < x.length && !(x[first] >= low && x[first] <= high)) {
            first++;
        }
        int last = first;
        while (last + 1 < x.length && x[last + 1] >= low && x[last + 1] <= high) {
            last++;
        }
        return first == x.length
                ? trace.between(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY)
                : trace.between(trace.time(first), trace.time(last));
    }
}
