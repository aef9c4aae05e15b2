package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** A measurement while it is worked out; drive-reported unless something else is said. */
final class Draft {

    private final String name;
    private final String definition;
    private final Unit unit;
    private final List<Contribution> budget = new ArrayList<>();
    private final List<Mark> marks = new ArrayList<>();
    private OptionalDouble samplePeriod = OptionalDouble.empty();
    private double resolution;
    private Source source = Source.DRIVE;

    Draft(String name, String definition, Unit unit) {
        this.name = name;
        this.definition = definition;
        this.unit = unit;
    }

    /** Takes the sample period from the part of the trace that the value was made from. */
    Draft from(Trace used) {
        samplePeriod = used.worstPeriod();
        return this;
    }

    Draft source(Source reporter) {
        source = reporter;
        return this;
    }

    Draft resolution(double step) {
        resolution = step;
        return this;
    }

    /** Adds a line to the budget unless it adds nothing. */
    Draft add(Contribution contribution) {
        if (contribution.standardUncertainty() > 0) {
            budget.add(contribution);
        }
        return this;
    }

    Draft addAll(List<Contribution> contributions) {
        contributions.forEach(this::add);
        return this;
    }

    /** Adds the step of the channel, q/√12. */
    Draft step(String name, Channel channel) {
        return add(Contribution.quantisation(
                name, "one step is " + Printed.brief(channel.quantum(), channel.unit()), channel.quantum()));
    }

    /** Adds what the step of the channel leaves in the mean of noisy readings; q/√12 of readings without noise. */
    Draft stepOfMean(String name, Channel channel, Scatter scatter) {
        double half = Dither.halfWidth(scatter, channel.quantum());
        String step = "one step is " + Printed.brief(channel.quantum(), channel.unit());
        return half == channel.quantum() / 2
                ? step(name, channel)
                : add(Contribution.rectangular(
                        name,
                        step + "; noise takes the mean of " + scatter.n() + " between steps, to ± "
                                + Printed.brief(half, channel.unit()),
                        half));
    }

    /** Adds the scatter of the mean of n values, s/√n or what related ones leave of it; nothing for a single one. */
    Draft scatter(String name, Scatter scatter, String of) {
        if (scatter.n() < 2) {
            return this;
        }
        String how = "s = " + Printed.brief(scatter.deviation(), unit) + " of " + scatter.n() + " " + of;
        String related = scatter.effectiveSize() < scatter.n()
                ? ", which are worth " + independentOnes(scatter.effectiveSize())
                : "";
        return add(Contribution.repeatability(
                name, how + related, scatter.deviation(), scatter.effectiveSize(), scatter.freedomOfMean()));
    }

    private static String independentOnes(double size) {
        return size == 1 ? "a single one" : Printed.brief(size, Unit.ONE, 2) + " independent ones";
    }

    /**
     * Adds what a peak may hide between samples. A parabola seen at a random moment hides h·x² of at most h, x even within 0 … 1, in root
     * mean square h/√5; the half of h that stands in the budget is a little more, and with k = 2 the interval reaches just as far as
     * the peak can.
     *
     * @param hidden from {@link Samples#hiddenAbove}
     * @param halfWidth how much of it can be in the value
     */
    Draft hiddenPeak(Samples.Hidden hidden, double halfWidth) {
        return hiddenPeak("peak between samples", hidden, halfWidth);
    }

    /** As {@link #hiddenPeak(Samples.Hidden, double)} for one of several peaks. */
    Draft hiddenPeak(String name, Samples.Hidden hidden, double halfWidth) {
        return add(new Contribution(
                name,
                Contribution.Evaluation.B,
                "the signal may go further by " + Printed.brief(hidden.above(), unit) + "; a·P²/2 is "
                        + Printed.brief(hidden.unplaced(), unit),
                Distribution.NORMAL,
                halfWidth,
                2,
                Double.POSITIVE_INFINITY));
    }

    Draft mark(String label, double seconds) {
        marks.add(new Mark(label, seconds));
        return this;
    }

    Measurement value(double value) {
        return value(value, Measurement.Bound.EXACT);
    }

    Measurement value(double value, Measurement.Bound bound) {
        return made(value, bound, Optional.empty());
    }

    Measurement missing(String reason) {
        return made(0, Measurement.Bound.EXACT, Optional.of(reason));
    }

    private Measurement made(double value, Measurement.Bound bound, Optional<String> missing) {
        return new Measurement(
                name, definition, value, unit, bound, source, samplePeriod, resolution, budget, marks, missing);
    }
}
